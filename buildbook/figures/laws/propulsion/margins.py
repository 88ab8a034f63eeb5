"""Plain ratios against a rating, a weight or another reading."""

from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.numbers import checked


@checked
def thrust_to_weight(thrust_n: float, mass_kg: float) -> float:
    """Thrust in N of all rotors together over the weight of the mass in kg.

    Source: the definition.
    """
    return thrust_n / (mass_kg * STANDARD_GRAVITY_M_S2)


@checked
def discharge_rate_c(current_a: float, capacity_ah: float) -> float:
    """Current in A over rated charge in Ah: how many times an hour the pack would be emptied.

    Source: the definition of the C rate.
    """
    return current_a / capacity_ah


@checked
def rated_current_a(capacity_ah: float, discharge_rate_c: float) -> float:
    """Current in A that a discharge rating stands for. Source: the definition of the C rate."""
    return capacity_ah * discharge_rate_c


@checked
def charge_current_a(capacity_ah: float, charge_rate_c: float) -> float:
    """Charge current in A at the rate that is recorded for the pack; there is no default rate.

    Source: the definition of the C rate.
    """
    return capacity_ah * charge_rate_c


@checked
def current_margin(current_a: float, rating_a: float) -> float:
    """Share of a rating that is left: 0.2 is a fifth spare, below 0 is over the rating.

    Source: the definition.
    """
    return 1 - current_a / rating_a


@checked
def power_margin(power_w: float, rating_w: float) -> float:
    """The same of a power in W and a rating in W. Source: the definition."""
    return 1 - power_w / rating_w
