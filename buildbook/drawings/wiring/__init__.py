"""The wiring."""
