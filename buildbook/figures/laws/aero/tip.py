"""How fast the tips of a propeller go."""

import math

from buildbook.figures.laws.aero.atmosphere import speed_of_sound_m_s
from buildbook.figures.laws.numbers import finite_only
from buildbook.figures.laws.quantities import within


@finite_only
def tip_speed_m_s(diameter_m: float, rotation_rev_s: float) -> float:
    """Speed in m/s of the tip round the shaft.

    ValueError: a value out of range, or more than 1000 m/s. Source: π D n.
    """
    within(diameter_m=diameter_m, rotation_rev_s=rotation_rev_s)
    within(tip_speed_m_s=math.pi * diameter_m * rotation_rev_s)
    return math.pi * diameter_m * rotation_rev_s


@finite_only
def mach_number(speed_m_s: float, temperature_k: float) -> float:
    """A speed in m/s over the speed of sound at a temperature in K.

    ValueError: a value out of range. Source: the definition.
    """
    within(speed_m_s=speed_m_s, temperature_k=temperature_k)
    return speed_m_s / speed_of_sound_m_s(temperature_k)
