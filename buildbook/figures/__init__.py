"""Figures: the laws of physics and statistics, and the answers that a hangar gives with them."""
