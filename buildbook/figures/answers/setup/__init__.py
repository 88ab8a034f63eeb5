"""Layout and settings."""
