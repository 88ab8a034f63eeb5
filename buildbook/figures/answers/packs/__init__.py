"""Packs: use, health, end of life, energy."""
