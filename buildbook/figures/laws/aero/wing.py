"""Wings: loading and the slowest speed that still carries."""

import math

from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.numbers import checked


@checked
def wing_loading_kg_m2(mass_kg: float, wing_area_m2: float) -> float:
    """Mass in kg over wing area in m². Source: the definition."""
    return mass_kg / wing_area_m2


@checked
def stall_speed_m_s(
    mass_kg: float, wing_area_m2: float, max_lift_coefficient: float, density_kg_m3: float
) -> float:
    """Stall speed in m/s in level flight. Source: lift equation, L = ρ V² S C_L/2 = m g."""
    return math.sqrt(
        2 * mass_kg * STANDARD_GRAVITY_M_S2 / (density_kg_m3 * wing_area_m2 * max_lift_coefficient)
    )


@checked
def banked_stall_speed_m_s(level_stall_speed_m_s: float, bank_rad: float) -> float:
    """Stall speed in m/s in a level turn at a bank in rad.

    ValueError: bank outside -1.5 to 1.5 rad (86 degrees). Source: load factor 1/cos φ.
    """
    return level_stall_speed_m_s / math.sqrt(math.cos(bank_rad))


@checked
def climb_rate_m_s(useful_power_w: float, level_power_w: float, mass_kg: float) -> float:
    """Rate of climb in m/s: what the propeller gives over what level flight takes, by weight.

    Negative: it sinks. ValueError: a value out of range.
    Source: energy; (P - D·V)/W, Anderson, Introduction to Flight.
    """
    return (useful_power_w - level_power_w) / (mass_kg * STANDARD_GRAVITY_M_S2)


@checked
def glide_power_w(mass_kg: float, speed_m_s: float, glide_ratio: float) -> float:
    """Power in W that level flight takes: the weight sinking at speed over glide ratio.

    Source: D = W over the glide ratio; Anderson.
    """
    return mass_kg * STANDARD_GRAVITY_M_S2 * speed_m_s / glide_ratio


@checked
def power_by_thrust_w(max_thrust_n: float, airspeed_m_s: float, pitch_speed_m_s: float) -> float:
    """Useful power in W of the thrust standing still that falls to nothing at the pitch speed.

    Negative above it: the propeller brakes. ValueError: a value out of range.
    Source: a straight line between the two, common practice, no source.
    """
    return max_thrust_n * (1 - airspeed_m_s / pitch_speed_m_s) * airspeed_m_s


@checked
def hinge_moment_nm(
    airspeed_m_s: float,
    density_kg_m3: float,
    surface_chord_m: float,
    surface_length_m: float,
    hinge_coefficient: float,
) -> float:
    """Moment in N·m of the air about the hinge of a surface.

    Source: H = ρ V²/2 · c² l C_h, any text on stability.
    """
    return (
        density_kg_m3
        * airspeed_m_s**2
        / 2
        * surface_chord_m**2
        * surface_length_m
        * hinge_coefficient
    )


@checked
def servo_torque_nm(
    hinge_moment_nm: float, servo_arm_m: float, horn_m: float, deflection_rad: float
) -> float:
    """Torque in N·m that a servo needs against a moment about the hinge, by a plain pushrod.

    ValueError: a value out of range, or the servo's arm is too short for the throw.
    Source: both arms move the rod alike: r_s sin σ = r_h sin δ, T_s = H r_s cos σ/(r_h cos δ).
    """
    sine = horn_m * math.sin(deflection_rad) / servo_arm_m
    if not -1 < sine < 1:
        raise ValueError(
            f"servo_arm_m must be above {horn_m * abs(math.sin(deflection_rad)):g} for that throw, "
            f"got {servo_arm_m:g}"
        )
    return (
        hinge_moment_nm * servo_arm_m * math.sqrt(1 - sine**2) / (horn_m * math.cos(deflection_rad))
    )
