"""Figures as sets: known, at a glance, side by side."""
