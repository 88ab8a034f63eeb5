"""Pages of one aircraft."""
