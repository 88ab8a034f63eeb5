"""What a text may give away of its keeper, and the watch that looks at every text."""
