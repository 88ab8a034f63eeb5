"""Wings: loading and the slowest speed that still carries."""

import math

from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.numbers import finite_only
from buildbook.figures.laws.quantities import within


@finite_only
def wing_loading_kg_m2(mass_kg: float, wing_area_m2: float) -> float:
    """Mass in kg over wing area in m².

    ValueError: a value out of range. Source: the definition.
    """
    within(mass_kg=mass_kg, wing_area_m2=wing_area_m2)
    return mass_kg / wing_area_m2


@finite_only
def stall_speed_m_s(
    mass_kg: float, wing_area_m2: float, max_lift_coefficient: float, density_kg_m3: float
) -> float:
    """Stall speed in m/s in level flight.

    ValueError: a value out of range. Source: lift equation, L = ρ V² S C_L/2 = m g.
    """
    within(mass_kg=mass_kg, wing_area_m2=wing_area_m2)
    within(max_lift_coefficient=max_lift_coefficient, density_kg_m3=density_kg_m3)
    return math.sqrt(
        2 * mass_kg * STANDARD_GRAVITY_M_S2 / (density_kg_m3 * wing_area_m2 * max_lift_coefficient)
    )


@finite_only
def banked_stall_speed_m_s(level_stall_speed_m_s: float, bank_rad: float) -> float:
    """Stall speed in m/s in a level turn at a bank in rad.

    ValueError: bank outside -1.5 to 1.5 rad (86 degrees). Source: load factor 1/cos φ.
    """
    within(level_stall_speed_m_s=level_stall_speed_m_s, bank_rad=bank_rad)
    return level_stall_speed_m_s / math.sqrt(math.cos(bank_rad))


@finite_only
def climb_rate_m_s(useful_power_w: float, level_power_w: float, mass_kg: float) -> float:
    """Rate of climb in m/s: what the propeller gives over what level flight takes, by weight.

    Negative: it sinks. ValueError: a value out of range.
    Source: energy; (P - D·V)/W, Anderson, Introduction to Flight.
    """
    within(useful_power_w=useful_power_w, level_power_w=level_power_w, mass_kg=mass_kg)
    return (useful_power_w - level_power_w) / (mass_kg * STANDARD_GRAVITY_M_S2)


@finite_only
def glide_power_w(mass_kg: float, speed_m_s: float, glide_ratio: float) -> float:
    """Power in W that level flight takes: the weight sinking at speed over glide ratio.

    ValueError: a value out of range. Source: D = W over the glide ratio; Anderson.
    """
    within(mass_kg=mass_kg, speed_m_s=speed_m_s, glide_ratio=glide_ratio)
    return mass_kg * STANDARD_GRAVITY_M_S2 * speed_m_s / glide_ratio


@finite_only
def power_by_thrust_w(max_thrust_n: float, airspeed_m_s: float, pitch_speed_m_s: float) -> float:
    """Useful power in W of the thrust standing still that falls to nothing at the pitch speed.

    Negative above it: the propeller brakes. ValueError: a value out of range.
    Source: a straight line between the two, common practice, no source.
    """
    within(max_thrust_n=max_thrust_n, airspeed_m_s=airspeed_m_s, pitch_speed_m_s=pitch_speed_m_s)
    return max_thrust_n * (1 - airspeed_m_s / pitch_speed_m_s) * airspeed_m_s


@finite_only
def hinge_moment_nm(
    airspeed_m_s: float,
    density_kg_m3: float,
    surface_chord_m: float,
    surface_length_m: float,
    hinge_coefficient: float,
) -> float:
    """Moment in N·m of the air about the hinge of a surface.

    ValueError: a value out of range. Source: H = ρ V²/2 · c² l C_h, any text on stability.
    """
    within(airspeed_m_s=airspeed_m_s, density_kg_m3=density_kg_m3)
    within(surface_chord_m=surface_chord_m, surface_length_m=surface_length_m)
    within(hinge_coefficient=hinge_coefficient)
    return (
        density_kg_m3
        * airspeed_m_s**2
        / 2
        * surface_chord_m**2
        * surface_length_m
        * hinge_coefficient
    )


@finite_only
def servo_torque_nm(
    hinge_moment_nm: float, servo_arm_m: float, horn_m: float, deflection_rad: float
) -> float:
    """Torque in N·m that a servo needs against a moment about the hinge, by a plain pushrod.

    ValueError: a value out of range, or the servo's arm is too short for the throw.
    Source: both arms move the rod alike: r_s sin σ = r_h sin δ, T_s = H r_s cos σ/(r_h cos δ).
    """
    within(hinge_moment_nm=hinge_moment_nm, servo_arm_m=servo_arm_m, horn_m=horn_m)
    within(deflection_rad=deflection_rad)
    sine = horn_m * math.sin(deflection_rad) / servo_arm_m
    if not -1 < sine < 1:
        raise ValueError(
            f"servo_arm_m must be above {horn_m * abs(math.sin(deflection_rad)):g} for that throw, "
            f"got {servo_arm_m:g}"
        )
    return (
        hinge_moment_nm * servo_arm_m * math.sqrt(1 - sine**2) / (horn_m * math.cos(deflection_rad))
    )
