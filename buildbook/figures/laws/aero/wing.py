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
def cubic_wing_loading_kg_m3(mass_kg: float, wing_area_m2: float) -> float:
    """Mass in kg over wing area to the power 1.5: compares models of unlike size.

    ValueError: a value out of range. Source: modellers' custom; common practice, no source.
    """
    within(mass_kg=mass_kg, wing_area_m2=wing_area_m2)
    return mass_kg / math.pow(wing_area_m2, 1.5)


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
