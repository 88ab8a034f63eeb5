"""How the value of a figure or of an input is said: by its unit, unless the figure says more."""

from collections.abc import Callable, Mapping

from buildbook.basis import amounts
from buildbook.report.figure import Figure, Input, Wording

_HEIGHTS = ("altitude", "elevation")


def _few_digits(value: float) -> str:
    return amounts.significant(value, 2)


def _fine_charge(value: float) -> str:
    """A change a charge is a few mAh: two digits of it, where ``charge`` would say whole ones."""
    if abs(value) >= 0.05:
        return amounts.charge(value)
    return f"{amounts.significant(value * 1000, 2)} mAh"


def _rough(value: float, unit: str) -> str:
    """A number that is known only roughly, two digits of it: ``7.5``, ``1700``, ``550 h``."""
    digits = amounts.significant(value, 2)
    if abs(value) >= 100:
        step = 10 ** (len(str(int(abs(value)))) - 2)
        digits = str(int(abs(value) / step + 0.5) * step)
    return digits if unit == "count" else f"{digits} {unit}"


def _throttle(value: float) -> str:
    return f"{amounts.share(value)} throttle"


def _one_place(value: float) -> str:
    return amounts.fixed(value, 1)


WORDED: Mapping[Wording, Callable[[float], str]] = {
    "share": amounts.share,
    "throttle": _throttle,
    "capacities an hour": amounts.discharge_rate,
    "fine charge": _fine_charge,
    "two digits": _few_digits,
    "tenths": _one_place,
    "height": amounts.altitude,
    "torque": amounts.torque,
}
"""How values are said that their unit alone would not tell."""


def value_words(figure: Figure, value: float) -> str:
    """The value of a figure, or an end of its interval."""
    if figure.worded == "rough":
        return _rough(value, figure.unit)
    say = WORDED.get(figure.worded)
    return amounts.figure(value, figure.unit) if say is None else say(value)


def input_words(given: Input) -> str:
    """The value of an input."""
    if given.value is None:
        return "not recorded"
    if isinstance(given.value, str):
        return given.value
    if given.unit == "N·m":
        return amounts.torque(given.value)
    if given.unit == "m" and given.name.endswith(_HEIGHTS):
        return amounts.altitude(given.value)
    return amounts.figure(given.value, given.unit)
