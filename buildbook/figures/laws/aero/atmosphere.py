"""The International Standard Atmosphere up to the tropopause, and density on the day.

Dry air. Source of all but the rule of thumb: US Standard Atmosphere 1976 / ICAO Doc 7488.
"""

import math

from buildbook.figures.laws.constants import (
    AIR_GAS_CONSTANT_J_KG_K,
    DENSITY_EXPONENT,
    HEAT_CAPACITY_RATIO,
    LAPSE_RATE_K_M,
    PRESSURE_EXPONENT,
    SEA_LEVEL_DENSITY_KG_M3,
    SEA_LEVEL_PRESSURE_PA,
    SEA_LEVEL_TEMPERATURE_K,
)
from buildbook.figures.laws.numbers import checked


@checked
def isa_temperature_k(pressure_altitude_m: float) -> float:
    """Temperature in K of the standard day at a geopotential (pressure) altitude in m.

    ValueError: outside -1000 to 11000 m. Source: US Standard Atmosphere 1976.
    """
    return SEA_LEVEL_TEMPERATURE_K - LAPSE_RATE_K_M * pressure_altitude_m


@checked
def isa_pressure_pa(pressure_altitude_m: float) -> float:
    """Pressure in Pa of the standard day at a geopotential (pressure) altitude in m.

    ValueError: outside -1000 to 11000 m. Source: US Standard Atmosphere 1976.
    """
    return SEA_LEVEL_PRESSURE_PA * math.pow(
        1 - LAPSE_RATE_K_M * pressure_altitude_m / SEA_LEVEL_TEMPERATURE_K, PRESSURE_EXPONENT
    )


@checked
def air_density_kg_m3(pressure_altitude_m: float, temperature_k: float) -> float:
    """Density in kg/m³ at a pressure altitude in m and the air temperature of the day in K.

    A field elevation may stand for the pressure altitude when no pressure is known.
    ValueError: outside -1000 to 11000 m or 200 to 340 K. Source: US Standard Atmosphere 1976.
    """
    return isa_pressure_pa(pressure_altitude_m) / (AIR_GAS_CONSTANT_J_KG_K * temperature_k)


@checked
def density_altitude_m(density_kg_m3: float) -> float:
    """Altitude in m at which the standard day has the density in kg/m³, exactly.

    ValueError: density outside 0.3639 (the tropopause) to 2 kg/m³.
    Source: US Standard Atmosphere 1976, inverted.
    """
    if density_kg_m3 < 0.3639:
        raise ValueError(f"density_kg_m3 must be from 0.3639 to 2, got {density_kg_m3:g}")
    return (SEA_LEVEL_TEMPERATURE_K / LAPSE_RATE_K_M) * (
        1 - math.pow(density_kg_m3 / SEA_LEVEL_DENSITY_KG_M3, 1 / DENSITY_EXPONENT)
    )


@checked
def pressure_altitude_m(elevation_m: float, altimeter_setting_pa: float) -> float:
    """Pressure altitude in m of a field from its elevation in m and the altimeter setting in Pa.

    ValueError: outside -500 to 9000 m or 85000 to 110000 Pa.
    Source: US Standard Atmosphere 1976, as in FAA-H-8083-25, performance chapter.
    """
    return elevation_m + (SEA_LEVEL_TEMPERATURE_K / LAPSE_RATE_K_M) * (
        1 - math.pow(altimeter_setting_pa / SEA_LEVEL_PRESSURE_PA, 1 / PRESSURE_EXPONENT)
    )


@checked
def speed_of_sound_m_s(temperature_k: float) -> float:
    """Speed of sound in m/s in dry air at a temperature in K.

    ValueError: outside 200 to 340 K. Source: US Standard Atmosphere 1976.
    """
    return math.sqrt(HEAT_CAPACITY_RATIO * AIR_GAS_CONSTANT_J_KG_K * temperature_k)
