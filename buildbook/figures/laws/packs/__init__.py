"""Packs: voltage, discharge, cycles, ageing."""
