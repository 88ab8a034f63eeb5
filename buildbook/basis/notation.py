"""Text as it is said at the bench, read into plain numbers: SI, unless a name says otherwise.

Every refusal is a ``NotationError``; nothing else is raised, whatever the text. All functions are
pure, and the ones a log calls thousands of times remember the texts they have seen.
"""

import math
import re
from functools import lru_cache
from typing import NamedTuple

from buildbook.basis.nearest import nearest
from buildbook.basis.units import OTHERWISE, UNITS, Dimension, accepted, known_as

_REMEMBERED = 1 << 15

# A plain decimal: no leading zero, no underscore, no comma; a small power of ten may follow.
_DECIMAL = r"[+-]?(?:(?:0|[1-9][0-9]*)(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_NUMBER = re.compile(rf"\s*({_DECIMAL})\s*").fullmatch
_QUANTITY = re.compile(rf"\s*({_DECIMAL})\s*((?:[^\s\d.,+\-:_]\S*)?)\s*").fullmatch
_PIECE = re.compile(r"\s*([0-9]+(?:\.[0-9]+)?)\s*(h|min|s)(?![a-z])\s*").match
_CLOCK = re.compile(r"\s*([0-9]{1,3}):([0-5][0-9])\s*").fullmatch
_AGE = re.compile(r"\s*([0-9]{1,6}(?:\.[0-9]{1,3})?)\s*([^\s\d.]+)\s*").match
_RATE = re.compile(rf"\s*({_DECIMAL})\s*C\s*").fullmatch
_CELLS = re.compile(
    r"\s*([1-9][0-9]?)(?:S?\s*[-–]\s*([1-9][0-9]?))?\s*S(?:\s*([1-9][0-9]?)\s*P)?\s*"
).fullmatch
_GAUGE = re.compile(r"\s*(0|[1-9][0-9]?)\s*AWG\s*").fullmatch
_AREA = re.compile(rf"\s*({_DECIMAL})\s*mm[²2]\s*").fullmatch
_SIZE = re.compile(rf"\s*({_DECIMAL})\s*[x×]\s*({_DECIMAL})\s*(in|mm)?\s*").fullmatch
_MONEY = re.compile(r"\s*((?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,3})?)\s*([A-Z]{3})\s*").fullmatch
_WHOLE = re.compile(r"\s*([+-]?(?:0|[1-9][0-9]{0,17}))\s*").fullmatch
_DECIMAL_COMMA = re.compile(r"([0-9]+),([0-9]+)").search
_LEADING_ZERO = re.compile(r"\s*[+-]?0+([1-9][0-9.]*)(.*)", re.DOTALL).fullmatch

# Signs that look alike become the one that the table has.
_ALIKE = str.maketrans(
    {"−": "-", "\u2126": "Ω", "\u03bc": "µ", "\u00ba": "°", "℃": "°C", "℉": "°F"}
)

_LEAST_GAUGE, _MOST_GAUGE = 0, 40
_LARGEST_BARE_SHARE = 10.0
_MOST_YEARS = 200


class NotationError(ValueError):
    """A text that cannot be read. ``reason``: lower case, no full stop; ``hint``: what to write."""

    def __init__(self, reason: str, hint: str | None = None) -> None:
        super().__init__(reason)
        self.reason = reason
        self.hint = hint


class Age(NamedTuple):
    """A span of the calendar: days and months are kept apart, as a month has no fixed length."""

    days: int
    months: int


class CellCount(NamedTuple):
    """Cells in series (``series_most`` where it is a range) and strings in parallel."""

    series: int
    series_most: int
    parallel: int


def said(text: str) -> str:
    """The text as a message quotes it: on one line, printable, not endless."""
    line = " ".join(text.split())
    line = "".join(sign if sign.isprintable() else "�" for sign in line)
    return f"'{line}'" if len(line) <= 60 else f"'{line[:57]}…'"


@lru_cache(_REMEMBERED)
def number(text: str) -> float:
    """A plain decimal such as ``12``, ``-0.5`` or ``1.2e-3``."""
    found = _NUMBER(_plain(text))
    if found is None:
        raise _refused_number(text, "a number", "write a plain number, as in 12 or 0.5")
    return _float(found[1], text)


def whole(text: str) -> int:
    """A whole number such as ``12``."""
    found = _WHOLE(_plain(text))
    if found is None:
        raise _refused_number(text, "a whole number", "write a whole number, as in 12")
    return int(found[1])


def truth(text: str) -> bool:
    """``true`` or ``false``, and nothing else."""
    if text == "true":
        return True
    if text == "false":
        return False
    raise NotationError(f"{said(text)} is neither true nor false", "write true or false")


@lru_cache(_REMEMBERED)
def quantity(text: str, dimension: Dimension) -> float:
    """A number and a unit, in the unit that ``UNITS[dimension].kept_in`` names."""
    found = _QUANTITY(text if text.isascii() else text.translate(_ALIKE))
    if found is not None:
        unit = UNITS[dimension].units.get(found[2])
        if unit is not None:
            times, over, plus = unit
            return _finite((_float(found[1], text) + plus) * times / over, text)
    if dimension == "duration":
        return duration_s(text)
    raise _refused_quantity(text, dimension)


@lru_cache(_REMEMBERED)
def duration_s(text: str) -> float:
    """Seconds from ``7 min 20 s``, ``7:20`` (minutes and seconds), ``90 s`` or ``1.5 h``."""
    clock = _CLOCK(text)
    if clock is not None:
        return int(clock[1]) * 60.0 + int(clock[2])
    plain = _plain(text)
    found = _QUANTITY(plain)
    if found is not None:
        unit = UNITS["duration"].units.get(found[2])
        if unit is not None:
            return _finite(_float(found[1], text) * unit.times, text)
    return _duration_of_pieces(text, plain)


def _duration_of_pieces(text: str, plain: str) -> float:
    """``1 h 5 min 20 s``: falling units, each once, decimals in the last piece only."""
    total, at, last = 0.0, 0, 4000.0
    while at < len(plain):
        piece = _PIECE(plain, at)
        if piece is None:
            raise _refused_duration(text)
        times = UNITS["duration"].units[piece[2]].times
        at = piece.end()
        amount = _float(piece[1], text)
        if times >= last or ("." in piece[1] and at < len(plain)):
            raise _refused_duration(text)
        if last < 4000.0 and amount >= 60.0:
            raise NotationError(
                f"{said(text)} has {piece[1]} {piece[2]}, which is 60 or more",
                "write it as in 7 min 20 s",
            )
        total += amount * times
        last = times
    if at == 0:
        raise _refused_duration(text)
    return _finite(total, text)


def age(text: str) -> Age:
    """``30 days``, ``6 months``, ``4 years``, also ``1 year 6 months`` and ``2 weeks``."""
    plain = _plain(text)
    days = months = 0.0
    at = 0
    seen: set[str] = set()
    while at < len(plain):
        piece = _AGE(plain, at)
        word = piece[2].removesuffix("s") if piece else ""
        if piece is None or word in seen or word not in _AGE_WORDS:
            raise _refused_age(text)
        in_days, in_months = _AGE_WORDS[word]
        days += float(piece[1]) * in_days
        months += float(piece[1]) * in_months
        seen.add(word)
        at = piece.end()
    if not seen:
        raise _refused_age(text)
    if days != int(days) or months != int(months):
        raise NotationError(
            f"{said(text)} is no whole number of days or months", "write 18 months, not 1.5 years"
        )
    if months > _MOST_YEARS * 12 or days > _MOST_YEARS * 366:
        raise NotationError(f"{said(text)} is more than {_MOST_YEARS} years")
    return Age(int(days), int(months))


_AGE_WORDS: dict[str, tuple[int, int]] = {
    "day": (1, 0),
    "week": (7, 0),
    "month": (0, 1),
    "year": (0, 12),
}


def share(text: str) -> float:
    """A ratio from ``20 %`` or ``0.2``; a bare number over 10 can only mean percent."""
    value = quantity(text, "share")
    if abs(value) > _LARGEST_BARE_SHARE and "%" not in text:
        bare = text.strip()
        raise NotationError(
            f"{said(text)} is not a share", f"did you mean {bare} %? write 20 % or 0.2"
        )
    return value


def discharge_rate(text: str) -> float:
    """Multiples of the capacity per hour from ``25C``."""
    found = _RATE(_plain(text))
    if found is None:
        raise _refused_bare(text, "a discharge rate", "write it as in 25C")
    return _float(found[1], text)


def cells(text: str) -> CellCount:
    """``3S``, ``3S1P``, or ``2S-4S`` for a range."""
    found = _CELLS(text)
    if found is None or (found[2] and found[3]):
        raise _refused_bare(text, "a count of cells", "write it as in 3S, 3S1P or 2S-4S")
    least, most = int(found[1]), int(found[2] or found[1])
    if most < least:
        raise NotationError(f"{said(text)} falls", f"write {most}S-{least}S")
    return CellCount(least, most, int(found[3] or 1))


def wire(text: str) -> float:
    """Area of the conductor, m², from ``16 AWG`` or ``1.5 mm²``.

    Source: ASTM B258, diameter = 0.127 mm × 92^((36 − n)/39).
    """
    gauge = _GAUGE(text)
    if gauge is not None and _LEAST_GAUGE <= int(gauge[1]) <= _MOST_GAUGE:
        diameter_m: float = 0.127e-3 * 92.0 ** ((36 - int(gauge[1])) / 39)
        return math.pi / 4 * diameter_m**2
    area = _AREA(_plain(text))
    if area is not None:
        return _finite(_float(area[1], text) / 1e6, text)
    if gauge is not None:
        raise NotationError(
            f"{said(text)} is not a gauge that is known here",
            f"AWG goes from {_LEAST_GAUGE} to {_MOST_GAUGE}",
        )
    raise _refused_bare(text, "a wire size", "write it as in 16 AWG or 1.5 mm²")


def propeller_size(text: str) -> tuple[float, float]:
    """Diameter and pitch, m, from ``10x4.5`` (inches) or ``254x114 mm``."""
    found = _SIZE(_plain(text))
    if found is None:
        raise NotationError(
            f"{said(text)} is not a propeller size",
            "write diameter and pitch as in 10x4.5 (inches) or 254x114 mm",
        )
    times, over = (1.0, 1000.0) if found[3] == "mm" else (254.0, 1e4)
    diameter, pitch = _float(found[1], text), _float(found[2], text)
    return _finite(diameter * times / over, text), _finite(pitch * times / over, text)


def money(text: str) -> tuple[float, str]:
    """Amount and currency (three capitals, ISO 4217) from ``14.50 EUR``."""
    found = _MONEY(text)
    if found is None:
        raise _refused_bare(text, "a sum of money", "write it as in 14.50 EUR", "currency")
    return float(found[1]), found[2]


def _plain(text: str) -> str:
    return text if text.isascii() else text.translate(_ALIKE)


def _float(digits: str, text: str) -> float:
    value = float(digits)
    if value == 0.0 and any(digit in "123456789" for digit in re.split("[eE]", digits)[0]):
        raise NotationError(f"{said(text)} is too small for a number")
    return _finite(value, text)


def _finite(value: float, text: str) -> float:
    if not math.isfinite(value):
        raise NotationError(f"{said(text)} is too large for a number")
    return value


def _refused_number(text: str, words: str, hint: str) -> NotationError:
    """Comma and leading zero have a message of their own."""
    comma = _DECIMAL_COMMA(text)
    if comma is not None:
        whole_part, decimals = comma[1][-9:], comma[2][:9]
        dotted = f"{whole_part}.{decimals}"
        either = f"{whole_part}{decimals} or {dotted}" if len(decimals) == 3 else dotted
        return NotationError(
            f"{said(text)} has a comma", f"write {either}, not {whole_part},{decimals}"
        )
    zero = _LEADING_ZERO(_plain(text))
    if zero is not None and ":" not in text:
        tail = " ".join(f"{zero[1]}{zero[2]}".split())
        return NotationError(f"{said(text)} starts with a zero", f"write {tail[:60]}")
    return NotationError(f"{said(text)} is not {words}", hint)


def _refused_bare(text: str, words: str, hint: str, lacks: str = "unit") -> NotationError:
    if _NUMBER(_plain(text)):
        return NotationError(f"{said(text)} has no {lacks}", hint)
    return _refused_number(text, words, hint)


def _refused_quantity(text: str, dimension: Dimension) -> NotationError:
    kind = UNITS[dimension]
    hint = f"write it with {accepted(dimension)}"
    plain = _plain(text)
    if _NUMBER(plain):
        example = f"{plain.strip()[:20]} {next(iter(kind.units))}"
        return NotationError(f"{said(text)} has no unit", f"{hint}, as in {example}")
    found = _QUANTITY(plain)
    if found is None:
        return _refused_number(text, kind.words, hint)
    unit = found[2]
    meant = OTHERWISE.get(unit.casefold())
    if meant not in kind.units:
        others = known_as(unit)
        if others:
            return NotationError(
                f"{said(text)} is {UNITS[others[0]].words}, not {kind.words}", hint
            )
        meant = nearest(unit, [spelling for spelling in kind.units if spelling])
    if meant:
        hint = f"did you mean {found[1][:20]} {meant}? {hint}"
    return NotationError(f"{said(text)} is not {kind.words}", hint)


def _refused_duration(text: str) -> NotationError:
    hint = "write it as in 7 min 20 s, 7:20, 90 s or 1.5 h"
    plain = _plain(text)
    if _NUMBER(plain):
        return NotationError(f"{said(text)} has no unit", hint)
    found = _QUANTITY(plain)
    if found is not None:
        meant = OTHERWISE.get(found[2].casefold()) or nearest(found[2], UNITS["duration"].units)
        if meant in UNITS["duration"].units:
            hint = f"did you mean {found[1][:20]} {meant}? {hint}"
    return _refused_number(text, "a duration", hint)


def _refused_age(text: str) -> NotationError:
    return _refused_bare(text, "an age", "write it with days, months or years, as in 6 months")
