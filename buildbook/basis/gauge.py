"""Sizes of wire by their gauge."""

import math


def area_of_gauge_m2(gauge: int) -> float:
    """Area of the conductor in m² of an AWG number.

    Source: ASTM B258, diameter = 0.127 mm × 92^((36 − n)/39).
    """
    diameter_m: float = 0.127e-3 * 92.0 ** ((36 - gauge) / 39)
    return math.pi / 4 * diameter_m**2
