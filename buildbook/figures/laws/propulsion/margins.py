"""Plain ratios against a rating, a weight or another reading."""

from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.numbers import finite_only
from buildbook.figures.laws.quantities import within


@finite_only
def thrust_to_weight(thrust_n: float, mass_kg: float) -> float:
    """Thrust in N of all rotors together over the weight of the mass in kg.

    ValueError: a value out of range. Source: the definition.
    """
    within(thrust_n=thrust_n, mass_kg=mass_kg)
    return thrust_n / (mass_kg * STANDARD_GRAVITY_M_S2)


@finite_only
def discharge_rate_c(current_a: float, capacity_ah: float) -> float:
    """Current in A over rated charge in Ah: how many times an hour the pack would be emptied.

    ValueError: a value out of range. Source: the definition of the C rate.
    """
    within(current_a=current_a, capacity_ah=capacity_ah)
    return current_a / capacity_ah


@finite_only
def rated_current_a(capacity_ah: float, discharge_rate_c: float) -> float:
    """Current in A that a discharge rating stands for.

    ValueError: a value out of range. Source: the definition of the C rate.
    """
    within(capacity_ah=capacity_ah, discharge_rate_c=discharge_rate_c)
    return capacity_ah * discharge_rate_c


@finite_only
def charge_current_a(capacity_ah: float, charge_rate_c: float) -> float:
    """Charge current in A at the rate that is recorded for the pack; there is no default rate.

    ValueError: a value out of range. Source: the definition of the C rate.
    """
    within(capacity_ah=capacity_ah, charge_rate_c=charge_rate_c)
    return capacity_ah * charge_rate_c


@finite_only
def current_margin(current_a: float, rating_a: float) -> float:
    """Share of a rating that is left: 0.2 is a fifth spare, below 0 is over the rating.

    ValueError: a value out of range. Source: the definition.
    """
    within(current_a=current_a, rating_a=rating_a)
    return 1 - current_a / rating_a


@finite_only
def power_margin(power_w: float, rating_w: float) -> float:
    """The same of a power in W and a rating in W.

    ValueError: a value out of range. Source: the definition.
    """
    within(power_w=power_w, rating_w=rating_w)
    return 1 - power_w / rating_w
