"""Hover by momentum theory: what the air asks for, whatever the propeller.

Source: actuator disk theory; Leishman, Principles of Helicopter Aerodynamics, chapter 2.
All values are those of one rotor unless it says otherwise.
"""

import math

from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.numbers import checked


@checked
def disk_area_m2(diameter_m: float) -> float:
    """Area in m² that a propeller of the diameter in m sweeps.

    ValueError: diameter outside 0.005 to 30 m. Source: the circle.
    """
    return math.pi * diameter_m**2 / 4


@checked
def hover_thrust_n(mass_kg: float, rotors: int) -> float:
    """Thrust in N of each of `rotors` alike rotors that together carry the mass in kg.

    Source: weight over number.
    """
    return mass_kg * STANDARD_GRAVITY_M_S2 / rotors


@checked
def disk_loading_n_m2(thrust_n: float, disk_area_m2: float) -> float:
    """Thrust in N over swept area in m². Source: the definition."""
    return thrust_n / disk_area_m2


@checked
def ideal_hover_power_w(thrust_n: float, disk_area_m2: float, density_kg_m3: float) -> float:
    """Least power in W with which any rotor of that area can hold the thrust in N.

    Source: actuator disk theory.
    """
    return math.pow(thrust_n, 1.5) / math.sqrt(2 * density_kg_m3 * disk_area_m2)


@checked
def hover_power_w(
    thrust_n: float, disk_area_m2: float, density_kg_m3: float, figure_of_merit: float
) -> float:
    """Shaft power in W of a rotor in a hover.

    With the share of electrical power that ends as ideal power in place of the figure of merit,
    the result is the electrical power.
    ValueError: a value out of range; figure of merit outside 0.01 to 1.
    Source: actuator disk theory with figure of merit.
    """
    return math.pow(thrust_n, 1.5) / (figure_of_merit * math.sqrt(2 * density_kg_m3 * disk_area_m2))


@checked
def coaxial_hover_power_w(
    lift_n: float,
    disk_area_m2: float,
    density_kg_m3: float,
    figure_of_merit: float,
    interference: float,
) -> float:
    """Shaft power in W of two rotors one above the other that share the lift.

    lift_n: of both together; disk_area_m2: of one. interference: induced power over that of two
    rotors apart: √2 without contraction of the wake, 1.281 with the lower rotor half in the
    contracted wake, about 1.16 as measured.
    Source: Leishman, chapter 2, coaxial rotors.
    """
    return (
        2
        * interference
        * math.pow(lift_n / 2, 1.5)
        / (figure_of_merit * math.sqrt(2 * density_kg_m3 * disk_area_m2))
    )


@checked
def coaxial_thrust_n(thrust_n: float, interference: float) -> float:
    """Thrust in N of each of a pair at the power with which a rotor apart gives the thrust in N.

    Source: induced power goes with thrust to the power 1.5, times
    the interference; Leishman, chapter 2, coaxial rotors.
    """
    return thrust_n / math.pow(interference, 2 / 3)
