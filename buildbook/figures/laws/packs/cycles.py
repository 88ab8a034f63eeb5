"""Cycle counts of a pack from what its log says went out and in. Plain floats, no numpy."""

from __future__ import annotations

from buildbook.figures.laws.numbers import checked


@checked
def equivalent_full_cycles(charge_ah: float, rated_capacity_ah: float) -> float:
    """Equivalent full cycles: charge through the pack over its rated capacity.

    charge_ah >= 0; rated_capacity_ah > 0. Source: check B14 on the NASA battery set
    (Saha and Goebel 2007). ValueError: 'rated capacity must be above 0 Ah, got X'.
    """
    if not charge_ah >= 0.0:
        raise ValueError(f"charge must be 0 Ah or more, got {charge_ah:g}")
    if not rated_capacity_ah > 0.0:
        raise ValueError(f"rated capacity must be above 0 Ah, got {rated_capacity_ah:g}")
    return charge_ah / rated_capacity_ah
