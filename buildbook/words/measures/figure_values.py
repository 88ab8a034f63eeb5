"""How the value of a figure or of an input is said: by its unit, unless the figure says more."""

import datetime
from collections.abc import Callable, Mapping

from buildbook.basis import amounts
from buildbook.basis.amounts import Measure, Said
from buildbook.basis.units import STANDARD_GRAVITY_M_S2
from buildbook.report.figure import Figure, Input, Wording

_ROUGH = ("rough", "two digits")
_BY_DIGITS = ("fine charge",)  # an end far smaller than the value would have more decimals
_YEAR = 365  # days: of an interval longer than this nobody reads the day
_FINEST = 3  # decimals more than usual, to tell two ends apart


@Measure
def _few_digits(value: float) -> Said:
    return Said(value, amounts.significant(value, 2), "")


@Measure
def _fine_charge(value: float) -> Said:
    """A change a charge is a few mAh: two digits of it, where ``charge`` would say whole ones."""
    if abs(value) >= 0.05:
        return amounts.charge.said(value)
    return Said(value * 1000, amounts.significant(value * 1000, 2), " mAh")


def _rough(value: float, unit: str) -> Said:
    """A number that is known only roughly, two digits of it: ``7.5``, ``1700``, ``550 h``."""
    digits = amounts.significant(value, 2)
    if abs(value) >= 100:
        step = 10 ** (len(str(int(abs(value)))) - 2)
        digits = str(int(abs(value) / step + 0.5) * step)
    return Said(value, digits, "" if unit == "count" else f" {unit}")


@Measure
def _throttle(value: float) -> Said:
    said = amounts.share.said(value)
    return said._replace(behind=f"{said.behind} throttle")


@Measure
def _one_place(value: float) -> Said:
    return Said(value, amounts.fixed(value, 1), "")


@Measure
def _milliohms(value: float) -> Said:
    """As a charger reads it: ``5.6 mΩ``, ``6.0 mΩ``."""
    if value >= 1:
        return amounts.resistance.said(value)
    return Said(value * 1000, amounts.fixed(value * 1000, 1), " mΩ")


@Measure
def _margin(value: float) -> Said:
    """What is left of a rating; where it is passed, by how much: ``1.3 times its rating``."""
    return amounts.share.said(value) if value >= 0 else _over(value, "its rating")


@Measure
def _usual_margin(value: float) -> Said:
    """The same of what has no rating: ``2.6 times what is usual``."""
    return amounts.share.said(value) if value >= 0 else _over(value, "what is usual")


_TIMES_FROM = 0.1


def _over(margin: float, of: str) -> Said:
    """A margin below 0: ``2.6 times its rating``, of little ``5 % over its rating``."""
    if margin > -_TIMES_FROM:
        said = amounts.share.said(-margin)
        return said._replace(behind=f"{said.behind} over {of}")
    return Said(1 - margin, amounts.significant(1 - margin, 2), f" times {of}")


@Measure
def _grams(value: float) -> Said:
    """A payload; less than none is too much on board already."""
    grams = abs(value) * 1000
    return Said(grams, amounts.fixed(grams, 0), " g" if value >= 0 else " g too heavy")


@Measure
def _wing_loading(value: float) -> Said:
    """As builders say it: ``27.1 g/dm²``."""
    loading = value / STANDARD_GRAVITY_M_S2 * 10
    return Said(loading, amounts.fixed(loading, 1), " g/dm²")


@Measure
def _charges(value: float) -> Said:
    digits, noun = amounts.count_parts("charge", round(value))
    return Said(value, digits, f" {noun}")


WORDED: Mapping[Wording, Measure | Callable[[float], str]] = {
    "share": amounts.share,
    "margin": _margin,
    "usual margin": _usual_margin,
    "wing loading": _wing_loading,
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
    return str(_alike(figure, value))


def _alike(figure: Figure, value: float) -> Said | str:
    said = _said(figure, value)
    ends = [one for one in (figure.low, figure.high) if one is not None]
    if isinstance(said, str) or figure.value is None or not ends:
        return said
    if figure.worded in _ROUGH:
        return _no_finer(said, value, _said(figure, figure.value))
    worded = [_said(figure, one) for one in (figure.value, *ends)]
    known = [one for one in worded if isinstance(one, Said) and one.behind == said.behind]
    if len(known) < len(worded):
        return said  # 750 mA to 1.2 A
    places = max(one.places for one in (known[:1] if figure.worded in _BY_DIGITS else known))
    if len(ends) == 2 and ends[0] < ends[1]:
        for _ in range(_FINEST):
            if known[1].with_places(places).digits != known[2].with_places(places).digits:
                break
            places += 1
    return said.with_places(places)


_WAYS = {
    "forward": ("forward of the reference point", "aft of the reference point"),
    "right": ("to the right", "to the left"),
    "down": ("below the reference point", "above the reference point"),
}
"""Of a balance: which way a number above zero lies, and one below."""


def _said(figure: Figure, value: float) -> Said | str:
    if figure.name == "balance" and figure.of in _WAYS and figure.unit == "m":
        said = amounts.length.said(abs(value))
        if said.digits == "0":
            return said
        return said._replace(behind=f"{said.behind} {_WAYS[figure.of][value < 0]}")
    if figure.name == "balance" and figure.of == "mean chord":
        said = amounts.share.said(value)
        return said._replace(behind=f"{said.behind} of the mean chord")
    if figure.worded == "rough":
        return _rough(value, figure.unit)
    say = WORDED.get(figure.worded)
    if say is None:
        return amounts.figure_said(value, figure.unit)
    return say.said(value) if isinstance(say, Measure) else say(value)


def _no_finer(said: Said, value: float, beside: Said | str) -> Said:
    """An end of a rough interval far below the value: one digit of it, ``0.06`` beside ``2.4``."""
    most = beside.places if isinstance(beside, Said) else 0
    if abs(value) >= 1 or said.places <= most:
        return said
    return said._replace(digits=amounts.significant(value, 1))


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
    low, high = (_alike(figure, end) for end in (figure.low, figure.high))
    if isinstance(low, Said) and isinstance(high, Said) and low.behind == high.behind:
        return f"{low.digits} to {high}"
    return f"{low} to {high}"


def input_words(given: Input) -> str:
    """An input as it says that it is worded, else by its unit."""
    if given.value is None:
        return "not recorded"
    if isinstance(given.value, str):
        return given.value
    if given.worded == "share":
        return amounts.share(given.value)
    if given.unit == "N·m":
        return amounts.torque(given.value)
    if given.worded == "altitude":
        return amounts.altitude(given.value)
    if given.worded == "aft":
        said = amounts.length(abs(given.value))
        return said if said == "0 mm" else f"{said} {'aft' if given.value > 0 else 'forward'}"
    return amounts.figure(given.value, given.unit)
