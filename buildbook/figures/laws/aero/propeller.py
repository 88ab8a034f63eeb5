"""Propellers by their coefficients: thrust, power, torque, tables of measured rows; tip speed.

C_T = F/(ρ n² D⁴), C_P = P/(ρ n³ D⁵), n in revolutions a second. The coefficients of helicopter
books are others; never mix the two. Source: the UIUC propeller papers, Brandt and Selig,
AIAA 2011-1255; Deters, Ananda and Selig, AIAA 2014-2151.
"""

import math
from collections.abc import Sequence

from buildbook.figures.laws.aero.atmosphere import speed_of_sound_m_s
from buildbook.figures.laws.numbers import checked, interpolated
from buildbook.figures.laws.quantities import each_within, within


@checked
def propeller_thrust_n(
    thrust_coefficient: float, density_kg_m3: float, rotation_rev_s: float, diameter_m: float
) -> float:
    """Thrust in N. Source: definition of C_T."""
    return thrust_coefficient * density_kg_m3 * rotation_rev_s**2 * diameter_m**4


@checked
def propeller_power_w(
    power_coefficient: float, density_kg_m3: float, rotation_rev_s: float, diameter_m: float
) -> float:
    """Shaft power in W. Source: definition of C_P."""
    return power_coefficient * density_kg_m3 * rotation_rev_s**3 * diameter_m**5


@checked
def shaft_torque_nm(shaft_power_w: float, rotation_rev_s: float) -> float:
    """Torque in N·m of a shaft power in W. Source: P = 2π n Q."""
    return shaft_power_w / (2 * math.pi * rotation_rev_s)


@checked
def rotation_for_thrust_rev_s(
    thrust_n: float, thrust_coefficient: float, density_kg_m3: float, diameter_m: float
) -> float:
    """Revolutions a second that give the thrust in N when C_T is constant.

    Source: definition of C_T, solved for n.
    """
    return math.sqrt(thrust_n / (thrust_coefficient * density_kg_m3 * diameter_m**4))


@checked
def figure_of_merit(thrust_coefficient: float, power_coefficient: float) -> float:
    """Ideal over shaft power at standstill, from propeller coefficients.

    ValueError: a value out of range, or a result above 1: the two do not belong together.
    Source: actuator disk theory with the definitions of C_T and C_P.
    """
    merit = math.sqrt(2 / math.pi) * math.pow(thrust_coefficient, 1.5) / power_coefficient
    if merit > 1:
        raise ValueError(f"figure of merit must be at most 1, got {merit:g} from the coefficients")
    return merit


@checked
def advance_ratio(airspeed_m_s: float, rotation_rev_s: float, diameter_m: float) -> float:
    """Way in diameters that the air goes by in one turn. Source: definition of J."""
    return airspeed_m_s / (rotation_rev_s * diameter_m)


@checked
def yaw_arm_m(thrust_coefficient: float, power_coefficient: float, diameter_m: float) -> float:
    """Torque over thrust of a propeller in m: the arm with which its drag turns the frame.

    Source: Q/F from the definitions of C_T and C_P.
    """
    return power_coefficient * diameter_m / (2 * math.pi * thrust_coefficient)


@checked
def coefficients_at(
    rotation_rev_s: float,
    rotations_rev_s: Sequence[float],
    thrust_coefficients: Sequence[float],
    power_coefficients: Sequence[float],
) -> tuple[float, float]:
    """(C_T, C_P) of a measured propeller at a speed, on the line between the rows about it.

    rotations_rev_s: n >= 2 rising speeds; the coefficients: n values each.
    ValueError: outside the measured rows. Source: linear interpolation.
    """
    name = "rotation_rev_s"
    return (
        interpolated(name, rotation_rev_s, rotations_rev_s, thrust_coefficients),
        interpolated(name, rotation_rev_s, rotations_rev_s, power_coefficients),
    )


@checked
def table_rotation_for_thrust_rev_s(
    thrust_n: float,
    density_kg_m3: float,
    diameter_m: float,
    rotations_rev_s: Sequence[float],
    thrust_coefficients: Sequence[float],
) -> float:
    """Revolutions a second at which a measured propeller gives the thrust in N at standstill.

    rotations_rev_s: n >= 2 rising speeds; thrust_coefficients: n values.
    ValueError: a value out of range, or thrust outside what the rows give.
    Source: F = C_T(n) ρ n² D⁴ with C_T on the line between rows, solved by bisection.
    """
    each_within("rotation_rev_s", tuple(rotations_rev_s))
    each_within("thrust_coefficient", tuple(thrust_coefficients))

    def thrust_at(rotation: float) -> float:
        coefficient = interpolated("rotation_rev_s", rotation, rotations_rev_s, thrust_coefficients)
        return propeller_thrust_n(coefficient, density_kg_m3, rotation, diameter_m)

    low, high = rotations_rev_s[0], rotations_rev_s[-1]
    least, most = thrust_at(low), thrust_at(high)
    if not least <= thrust_n <= most:
        raise ValueError(f"thrust_n must be from {least:g} to {most:g}, got {thrust_n:g}")
    for _ in range(60):
        middle = (low + high) / 2
        if thrust_at(middle) < thrust_n:
            low = middle
        else:
            high = middle
    return (low + high) / 2


@checked
def efficiency_at_power(
    shaft_power_w: float,
    airspeed_m_s: float,
    density_kg_m3: float,
    diameter_m: float,
    advance_ratios: Sequence[float],
    thrust_coefficients: Sequence[float],
    power_coefficients: Sequence[float],
) -> float:
    """Useful over shaft power of a measured propeller that takes a power in W at an airspeed.

    advance_ratios: n >= 2 rising, the first above 0; the coefficients: n values each.
    ValueError: a value out of range, or a power outside what the rows take at that airspeed.
    Source: η = J C_T/C_P where P = C_P(J) ρ n³ D⁵ and J = V/(n D), solved by bisection.
    """
    name = "advance_ratio"

    def power_at(ratio: float) -> float:
        coefficient = interpolated(name, ratio, advance_ratios, power_coefficients)
        rotation = airspeed_m_s / (ratio * diameter_m)
        return coefficient * density_kg_m3 * rotation**3 * diameter_m**5

    # The slower the propeller turns for the airspeed, the less it takes.
    low, high = advance_ratios[0], advance_ratios[-1]
    most, least = power_at(low), power_at(high)
    if not least <= shaft_power_w <= most:
        raise ValueError(
            f"shaft_power_w must be from {least:g} to {most:g} at this airspeed, "
            f"got {shaft_power_w:g}"
        )
    for _ in range(60):
        middle = (low + high) / 2
        if power_at(middle) > shaft_power_w:
            low = middle
        else:
            high = middle
    ratio = (low + high) / 2
    thrust = interpolated(name, ratio, advance_ratios, thrust_coefficients)
    return ratio * thrust / interpolated(name, ratio, advance_ratios, power_coefficients)


@checked
def pitch_speed_m_s(rotation_rev_s: float, pitch_m: float) -> float:
    """Speed in m/s with which the propeller would screw itself ahead without slip.

    Source: V = n·p, the definition.
    """
    return rotation_rev_s * pitch_m


@checked
def tip_speed_m_s(diameter_m: float, rotation_rev_s: float) -> float:
    """Speed in m/s of the tip round the shaft.

    ValueError: a value out of range, or more than 1000 m/s. Source: π D n.
    """
    within(tip_speed_m_s=math.pi * diameter_m * rotation_rev_s)
    return math.pi * diameter_m * rotation_rev_s


@checked
def mach_number(speed_m_s: float, temperature_k: float) -> float:
    """A speed in m/s over the speed of sound at a temperature in K. Source: the definition."""
    return speed_m_s / speed_of_sound_m_s(temperature_k)
