"""Constants of nature, of the standard atmosphere and of standards, with their symbols."""

from buildbook.basis.units import STANDARD_GRAVITY_M_S2 as STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.law import Quantity

AIR_GAS_CONSTANT_J_KG_K = 287.05287
HEAT_CAPACITY_RATIO = 1.4
SEA_LEVEL_TEMPERATURE_K = 288.15
SEA_LEVEL_PRESSURE_PA = 101325.0
SEA_LEVEL_DENSITY_KG_M3 = 1.225
LAPSE_RATE_K_M = 0.0065
PRESSURE_EXPONENT = 5.25588
DENSITY_EXPONENT = 4.25588

COPPER_RESISTIVITY_OHM_M = 1.7241e-8  # at 20 degrees, 100 % IACS
COPPER_TEMPERATURE_COEFFICIENT_PER_K = 0.00393
COPPER_REFERENCE_K = 293.15
# Of copper that is heated too fast to give any heat away: IEC 60949, from memory.
COPPER_HEATING_A_M2 = 2.26e8  # for a second
COPPER_ZERO_RESISTANCE_K = 38.65  # 234.5 degrees below zero
# How warm a loaded run is taken to be. Common practice, no source.
HOT_COPPER_K = 353.15

SECONDS_PER_MINUTE = 60.0

CONSTANTS: dict[str, Quantity] = {
    "STANDARD_GRAVITY_M_S2": Quantity("g", "m/s²"),
    "AIR_GAS_CONSTANT_J_KG_K": Quantity("R_air", "J/(kg·K)"),
    "HEAT_CAPACITY_RATIO": Quantity("γ", ""),
    "SEA_LEVEL_TEMPERATURE_K": Quantity("T_0", "K"),
    "SEA_LEVEL_PRESSURE_PA": Quantity("p_0", "Pa"),
    "SEA_LEVEL_DENSITY_KG_M3": Quantity("ρ_0", "kg/m³"),
    "LAPSE_RATE_K_M": Quantity("Λ", "K/m"),
    "PRESSURE_EXPONENT": Quantity("κ", ""),
    "DENSITY_EXPONENT": Quantity("κ_ρ", ""),
    "COPPER_RESISTIVITY_OHM_M": Quantity("ρ_Cu", "Ω·m"),
    "COPPER_TEMPERATURE_COEFFICIENT_PER_K": Quantity("α", "1/K"),
    "COPPER_REFERENCE_K": Quantity("T_20", "K"),
    "COPPER_HEATING_A_M2": Quantity("K_Cu", "A·s½/m²"),
    "COPPER_ZERO_RESISTANCE_K": Quantity("T_Cu", "K"),
    "SECONDS_PER_MINUTE": Quantity("t_min", "s"),
}
