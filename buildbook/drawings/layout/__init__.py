"""The layout from above."""
