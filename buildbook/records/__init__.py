"""The shape of files and entries: YAML in, typed entries with the place of every value out."""
