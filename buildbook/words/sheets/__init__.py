"""What stands on the sheets and cards that are taken to the bench and to the field."""
