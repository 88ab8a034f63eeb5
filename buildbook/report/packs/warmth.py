"""How the resistance of a lithium cell goes with its temperature, and how far that is known.

R goes with exp(E_a / (R_gas·T)); E_a of small lithium cells is about 20 to 35 kJ/mol. Both from
memory, as texts on cells give them. Where the spread of E_a alone moves a reading by more than a
fifth, it is not corrected: then it may not be compared.
"""

import math

GAS_CONSTANT_J_MOL_K = 8.314462618
ACTIVATION_J_MOL, ACTIVATION_RANGE_J_MOL = 25_000.0, (20_000.0, 35_000.0)
MOST_SPREAD = 0.2
"""Of a reading. Common practice, no source; what is looked for is half as much again, or twice."""


def warmth_ratio(temperature_k: float, reference_k: float, activation_j_mol: float) -> float:
    """Resistance at a temperature over that at another, both in K (above 0)."""
    return math.exp(activation_j_mol / GAS_CONSTANT_J_MOL_K * (1 / temperature_k - 1 / reference_k))


def may_be_corrected(temperature_k: float, reference_k: float) -> bool:
    """Whether the spread of E_a leaves a reading good to within a fifth."""
    usual = warmth_ratio(temperature_k, reference_k, ACTIVATION_J_MOL)
    ends = (warmth_ratio(temperature_k, reference_k, end) for end in ACTIVATION_RANGE_J_MOL)
    return all(abs(math.log(end / usual)) <= math.log(1 + MOST_SPREAD) for end in ends)


def at_temperature(resistance_ohm: float, temperature_k: float, reference_k: float) -> float:
    """A reading as it would be at another temperature."""
    return resistance_ohm * warmth_ratio(reference_k, temperature_k, ACTIVATION_J_MOL)
