"""How the value of a figure or of an input is said: by its unit, unless its name says more."""

from collections.abc import Callable, Mapping

from buildbook.basis import amounts
from buildbook.report.figure import Figure, Input

_HEIGHTS = ("altitude", "elevation")


def _few_digits(value: float) -> str:
    return amounts.significant(value, 2)


def _fine_charge(value: float) -> str:
    """A change a charge is a few mAh: two digits of it, where ``charge`` would say whole ones."""
    if abs(value) >= 0.05:
        return amounts.charge(value)
    return f"{amounts.significant(value * 1000, 2)} mAh"


def _one_place(value: float) -> str:
    return amounts.fixed(value, 1)


BY_NAME: Mapping[tuple[str, str], Callable[[float], str]] = {
    ("balance", "ratio"): amounts.share,
    ("hover_throttle", "ratio"): amounts.share,
    ("start_spread", "ratio"): amounts.share,
    ("esc_margin", "ratio"): amounts.share,
    ("motor_margin", "ratio"): amounts.share,
    ("battery_margin", "ratio"): amounts.share,
    ("regulator_margin", "ratio"): amounts.share,
    ("drift", "ratio"): amounts.share,
    ("discharge_rate", "ratio"): amounts.discharge_rate,
    ("pack_capacity", "Ah"): _fine_charge,
    ("failure_rate", "count"): _few_digits,
    ("pack_cycles", "count"): _one_place,
    ("component_cycles", "count"): _one_place,
}
"""Name and unit of figures that are not said as their unit alone would have it."""


def amount_words(name: str, value: float, unit: str) -> str:
    """A number in words. KeyError: a unit that no figure and no input has."""
    if unit == "m" and name.endswith(_HEIGHTS):
        return amounts.altitude(value)
    say = BY_NAME.get((name, unit))
    return amounts.figure(value, unit) if say is None else say(value)


def value_words(figure: Figure, value: float) -> str:
    """The value of a figure, or an end of its interval."""
    return amount_words(figure.name, value, figure.unit)


def input_words(given: Input) -> str:
    """The value of an input. KeyError: as ``amount_words``."""
    if given.value is None:
        return "not recorded"
    if isinstance(given.value, str):
        return given.value
    return amount_words(given.name, given.value, given.unit)
