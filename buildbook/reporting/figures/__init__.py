"""Figures as pages ask for them, worked out."""
