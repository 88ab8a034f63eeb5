"""Thrust-stand tables: which rows can be, and what is said of them."""
