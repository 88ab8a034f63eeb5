"""Pages of what is due and of what is taken to the field."""
