"""Somebody else's table becomes entries."""
