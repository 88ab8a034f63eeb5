"""Packs as they are folded: what was read of them at rest, and what sets them aside."""
