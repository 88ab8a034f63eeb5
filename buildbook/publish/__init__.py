"""Pages become a folder: written whole, then put in place of the old one."""
