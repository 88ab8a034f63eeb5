"""Copper wire: gauge, resistance, and what a run loses. Both conductors are counted.

A stranded wire of a gauge has the same nominal area of copper as the solid one.
"""

import math

from buildbook.figures.laws.constants import (
    COPPER_HEATING_A_M2,
    COPPER_REFERENCE_K,
    COPPER_RESISTIVITY_OHM_M,
    COPPER_TEMPERATURE_COEFFICIENT_PER_K,
    COPPER_ZERO_RESISTANCE_K,
)
from buildbook.figures.laws.numbers import checked


@checked
def wire_area_m2(wire_diameter_m: float) -> float:
    """Cross-section in m² of a round wire.

    ValueError: diameter outside 0.05 to 20 mm. Source: the circle.
    """
    return math.pi * wire_diameter_m**2 / 4


@checked
def run_resistance_ohm(
    one_way_length_m: float, wire_area_m2: float, wire_temperature_k: float
) -> float:
    """Resistance in Ω of a run, out and back, of a one-way length in m.

    Source: annealed copper, 100 % IACS: 1.7241e-8 Ω·m at
    20 degrees, temperature coefficient 0.00393.
    """
    return (
        2
        * one_way_length_m
        * COPPER_RESISTIVITY_OHM_M
        / wire_area_m2
        * (1 + COPPER_TEMPERATURE_COEFFICIENT_PER_K * (wire_temperature_k - COPPER_REFERENCE_K))
    )


@checked
def run_drop_v(current_a: float, resistance_ohm: float) -> float:
    """Voltage in V lost in a run. Source: Ohm's law."""
    return current_a * resistance_ohm


@checked
def run_loss_w(current_a: float, resistance_ohm: float) -> float:
    """Power in W lost in a run. Source: Joule's law."""
    return current_a**2 * resistance_ohm


@checked
def current_density_a_m2(current_a: float, wire_area_m2: float) -> float:
    """Current in A over cross-section in m²; a limit for it is common practice, no source.

    Source: the definition.
    """
    return current_a / wire_area_m2


@checked
def heating_s(current_a: float, wire_area_m2: float, cold_k: float, hot_k: float) -> float:
    """Seconds in which a current heats copper from one temperature in K to another, uncooled.

    ValueError: a value out of range, no current, or the end is not hotter than the start.
    Source: IEC 60949, adiabatic heating, from memory.
    """
    if not (current_a > 0 and hot_k > cold_k):
        raise ValueError(f"hot_k must be above {cold_k:g} with a current, got {hot_k:g}")
    return (COPPER_HEATING_A_M2 * wire_area_m2 / current_a) ** 2 * math.log(
        (hot_k - COPPER_ZERO_RESISTANCE_K) / (cold_k - COPPER_ZERO_RESISTANCE_K)
    )
