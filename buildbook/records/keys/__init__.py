"""Keys of files: how each is written, read and declared, with the place of every value."""
