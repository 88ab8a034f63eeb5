"""Cards to print."""
