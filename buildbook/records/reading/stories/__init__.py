"""Build stories: what stands above them, and their shape."""
