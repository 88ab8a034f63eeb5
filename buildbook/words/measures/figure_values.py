"""How the value of a figure or of an input is said: by its unit, unless the figure says more."""

import datetime
import math
import re
from collections.abc import Callable, Mapping

from buildbook.basis import amounts
from buildbook.report.figure import Figure, Input, Wording

_HEIGHTS = ("altitude", "elevation")
_AFT = "from the reference point"
_NUMBER = re.compile(r"(-?\d+)(?:\.(\d+))?(\D*)")
_ROUGH = ("rough", "two digits")
_BY_DIGITS = ("fine charge",)  # an end far smaller than the value would have more decimals
_YEAR = 365  # days: of an interval longer than this nobody reads the day
_FINEST = 3  # decimals more than usual, to tell two ends apart


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


def _milliohms(value: float) -> str:
    """As a charger reads it: ``5.6 mΩ``, ``6.0 mΩ``."""
    return f"{amounts.fixed(value * 1000, 1)} mΩ" if value < 1 else amounts.resistance(value)


def _grams(value: float) -> str:
    return f"{amounts.fixed(value * 1000, 0)} g"


def _charges(value: float) -> str:
    return amounts.count("charge", round(value))


WORDED: Mapping[Wording, Callable[[float], str]] = {
    "share": amounts.share,
    "throttle": _throttle,
    "capacities an hour": amounts.discharge_rate,
    "fine charge": _fine_charge,
    "two digits": _few_digits,
    "tenths": _one_place,
    "height": amounts.altitude,
    "torque": amounts.torque,
    "milliohms": _milliohms,
    "grams": _grams,
    "charges": _charges,
}
"""How values are said that their unit alone would not tell."""


def value_words(figure: Figure, value: float) -> str:
    """The value of a figure, or an end of its interval, all three with as many decimals."""
    ends = [one for one in (figure.low, figure.high) if one is not None]
    if figure.value is None or not ends:
        return _said(figure, value)
    if figure.worded in _ROUGH:
        return _no_finer(_said(figure, value), value, _said(figure, figure.value))
    known = [figure.value, *ends]
    words = [_said(figure, one) for one in known]
    if len({_NUMBER.sub(r"\3", one) for one in words}) > 1:
        return _said(figure, value)  # 750 mA to 1.2 A
    places = max(map(_places, words[:1] if figure.worded in _BY_DIGITS else words))
    if places >= 0 and len(ends) == 2 and ends[0] < ends[1]:
        for _ in range(_FINEST):
            if _with_places(words[1], ends[0], places) != _with_places(words[2], ends[1], places):
                break
            places += 1
    return _with_places(_said(figure, value), value, places)


_WAYS = {
    "forward": ("forward of the reference point", "aft of the reference point"),
    "right": ("to the right", "to the left"),
    "down": ("below the reference point", "above the reference point"),
}
"""Of a balance: which way a number above zero lies, and one below."""


def _said(figure: Figure, value: float) -> str:
    if figure.name == "balance" and figure.of in _WAYS and figure.unit == "m":
        said = amounts.length(abs(value))
        return said if said == "0 mm" else f"{said} {_WAYS[figure.of][value < 0]}"
    if figure.name == "balance" and figure.of == "mean chord":
        return f"{amounts.share(value)} of the mean chord"
    if figure.worded == "rough":
        return _rough(value, figure.unit)
    say = WORDED.get(figure.worded)
    return amounts.figure(value, figure.unit) if say is None else say(value)


def _places(words: str) -> int:
    """Decimals of the one number in some words; -1: there is more than one, or none."""
    found = _NUMBER.fullmatch(words)
    return -1 if found is None else len(found[2] or "")


def _with_places(words: str, value: float, places: int) -> str:
    """The same number with that many decimals, in the unit in which it was said."""
    found = _NUMBER.fullmatch(words)
    if found is None or places == len(found[2] or ""):
        return words
    shown = float(f"{found[1]}.{found[2] or 0}")
    scale = 10 ** round(math.log10(abs(shown / value))) if shown and value else 1
    near = value * scale
    if abs(near - shown) > 1:
        near = shown
    return f"{amounts.fixed(near, places)}{found[3]}"


def _no_finer(words: str, value: float, beside: str) -> str:
    """An end of a rough interval far below the value: one digit of it, ``0.06`` beside ``2.4``."""
    found, most = _NUMBER.fullmatch(words), _places(beside)
    if found is None or abs(value) >= 1 or len(found[2] or "") <= most:
        return words
    return f"{amounts.significant(value, 1)}{found[3]}"


def day_words(figure: Figure, day: datetime.date) -> str:
    """A day; the month alone where nobody can tell the day within a year."""
    low, high = figure.low_day, figure.high_day
    if low is not None and high is not None and (high - low).days > _YEAR:
        return amounts.month(day)
    return amounts.day(day)


def interval_words(figure: Figure) -> str:
    """Between what it lies: ``14.0 to 14.2 A``, ``12 min 56 s to 14 min 04 s``; none: nothing."""
    if figure.low is None or figure.high is None:
        return ""
    if figure.low_day is not None and figure.high_day is not None:
        return f"{day_words(figure, figure.low_day)} to {day_words(figure, figure.high_day)}"
    low, high = (value_words(figure, end) for end in (figure.low, figure.high))
    first, second = _NUMBER.fullmatch(low), _NUMBER.fullmatch(high)
    if first is not None and second is not None and first[3] == second[3]:
        low = low.removesuffix(first[3])
    return f"{low} to {high}"


def input_words(given: Input) -> str:
    """The value of an input."""
    if given.value is None:
        return "not recorded"
    if isinstance(given.value, str):
        return given.value
    if given.is_share:
        return amounts.share(given.value)
    if given.unit == "N·m":
        return amounts.torque(given.value)
    if given.unit == "m" and given.name.endswith(_HEIGHTS):
        return amounts.altitude(given.value)
    if given.unit == "m" and given.name.endswith(_AFT):
        said = amounts.length(abs(given.value))
        return said if said == "0 mm" else f"{said} {'aft' if given.value > 0 else 'forward'}"
    return amounts.figure(given.value, given.unit)
