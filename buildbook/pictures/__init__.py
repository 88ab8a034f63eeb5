"""Photographs: cleaned of what they carry, scaled, named afresh."""
