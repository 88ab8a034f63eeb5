"""Pages become a folder: written beside the old one and swapped in whole."""
