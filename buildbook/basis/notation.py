"""Text as it is said at the bench, read into plain numbers: SI, unless a name says otherwise.

Every refusal is a ``NotationError``; nothing else is raised, whatever the text. All functions are
pure, and the ones a log calls thousands of times remember the texts they have seen.
"""

import math
import re
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from buildbook.basis.nearest import nearest
from buildbook.basis.units import UNITS, Dimension, accepted, area_of_gauge_m2, known_as, meant_unit

_REMEMBERED = 1 << 15

# A plain decimal: no leading zero, no underscore, no comma; a small power of ten may follow.
_DECIMAL = r"[+-]?(?:(?:0|[1-9][0-9]*)(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_NUMBER = re.compile(_DECIMAL).fullmatch
_WHOLE = re.compile(r"[+-]?(?:0|[1-9][0-9]{0,17})").fullmatch
_QUANTITY = re.compile(rf"({_DECIMAL})\s*((?:[^\s\d.,+\-:_]\S*)?)").fullmatch
_CLOCK = re.compile(r"([0-9]{1,3}):([0-5][0-9])").fullmatch
_POUNDS = re.compile(r"([0-9]+) ?lbs? ?([0-9.]+) ?oz").fullmatch
_LONG_CLOCK = re.compile(r"([0-9]{1,3}):([0-5]?[0-9]):([0-5]?[0-9])").fullmatch
_PIECE = re.compile(r"((?:[0-9]{1,2}|[1-9][0-9]*)(?:\.[0-9]+)?)\s*([^\s0-9.]+)\s*").match
_RATE = re.compile(rf"({_DECIMAL})\s*C").fullmatch
_CELLS = re.compile(
    r"([1-9][0-9]?)(?:S?\s*[-–]\s*([1-9][0-9]?))?\s*S(?:\s*([1-9][0-9]?)\s*P)?"
).fullmatch
_GAUGE = re.compile(r"(0|[1-9][0-9]?)\s*AWG").fullmatch
_GAUGE_LAST = re.compile(r"AWG\s*([0-9]{1,2})").fullmatch
_SIZE = re.compile(rf"({_DECIMAL})\s*[x×]\s*({_DECIMAL})\s*(in|mm)?").fullmatch
_SIZE_AND_BLADES = re.compile(r"([0-9.]+)\s*[x×]\s*([0-9.]+)\s*[x×]\s*([2-9])").fullmatch
_MONEY = re.compile(r"((?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,3})?)\s*([A-Z]{3})").fullmatch
_DECIMAL_COMMA = re.compile(r"([0-9]+),([0-9]+)").search
_LEADING_ZERO = re.compile(r"[+-]?0+([1-9][0-9.]*)(.*)", re.DOTALL).fullmatch
_MANTISSA_IS_ZERO = re.compile(r"[+-]?[0.]+(?:[eE].*)?").fullmatch

# Signs that look alike become the one that the table has.
_ALIKE = str.maketrans(
    {"−": "-", "\u2126": "Ω", "\u03bc": "µ", "\u00ba": "°", "℃": "°C", "℉": "°F"}
)

_LONGEST = 100
_LEAST_GAUGE, _MOST_GAUGE = 0, 40
_LARGEST_BARE_SHARE = 10.0
_MOST_YEARS = 200
_AGE_WORDS: dict[str, tuple[int, int]] = {  # days and months
    "day": (1, 0),
    "week": (7, 0),
    "month": (0, 1),
    "year": (0, 12),
}


class NotationError(ValueError):
    """A text that cannot be read. ``reason``: lower case, no full stop; ``hint``: what to write.

    ``meant``: how it is written rightly, where it can mean nothing else.
    """

    def __init__(self, reason: str, hint: str | None = None, meant: str | None = None) -> None:
        super().__init__(reason)
        self.reason = reason
        self.hint = hint
        self.meant = meant


class Age(NamedTuple):
    """A span of the calendar: days and months are kept apart, as a month has no fixed length."""

    days: int
    months: int


class CellCount(NamedTuple):
    """Cells in series (``series_most`` where it is a range) and strings in parallel."""

    series: int
    series_most: int
    parallel: int


def quoted(text: str) -> str:
    """The text as a message quotes it: on one line, printable, not endless."""
    line = " ".join(text[:300].split())
    line = "".join(sign if sign.isprintable() else "�" for sign in line)
    return f"'{line}'" if len(line) <= 60 else f"'{line[:57]}…'"


@lru_cache(_REMEMBERED)
def number(text: str) -> float:
    """A plain decimal such as ``12``, ``-0.5`` or ``1.2e-3``."""
    plain = _plain(text)
    if not _NUMBER(plain):
        raise _refused(text, "a number", "write a plain number, as in 12 or 0.5")
    return _float(plain, text)


def whole(text: str) -> int:
    """A whole number such as ``12``."""
    plain = _plain(text)
    if not _WHOLE(plain):
        raise _refused(text, "a whole number", "write a whole number, as in 12")
    return int(plain)


@lru_cache(_REMEMBERED)
def quantity(text: str, dimension: Dimension) -> float:
    """A number and a unit, in the unit that ``UNITS[dimension].kept_in`` names."""
    found = _QUANTITY(_plain(text))
    if found is not None:
        unit = UNITS[dimension].units.get(found[2])
        if unit is not None:
            times, over, plus = unit
            value = _finite((_float(found[1], text) + plus) * times / over, text)
            if not found[2] and abs(value) > _LARGEST_BARE_SHARE:
                raise NotationError(
                    f"{quoted(text)} has no unit", f"did you mean {found[1][:20]} %? {_SHARE_HINT}"
                )
            return value
    if dimension == "duration":
        return _duration_of_pieces(text)
    raise _refused_quantity(text, dimension)


def duration_s(text: str) -> float:
    """Seconds from ``7 min 20 s``, ``7:20`` (minutes and seconds), ``90 s`` or ``1.5 h``."""
    return quantity(text, "duration")


def quantity_or_none(text: str, dimension: Dimension) -> float | None:
    """The same of what may be anything, such as a reading; None where it is no such quantity."""
    try:
        return quantity(text, dimension)
    except NotationError:
        return None


def share(text: str) -> float:
    """A ratio from ``20 %`` or ``0.2``; a bare number over 10 can only mean percent."""
    return quantity(text, "share")


def age(text: str) -> Age:
    """``30 days``, ``6 months``, ``4 years``, also ``1 year 6 months`` and ``2 weeks``."""
    days = months = 0.0
    seen: set[str] = set()
    for amount, written in _pieces(text) or ():
        word = written.removesuffix("s")
        if word not in _AGE_WORDS:
            raise _refused_age(text)
        if word in seen:
            raise NotationError(f"{quoted(text)} names {word}s twice", _AGE_HINT)
        seen.add(word)
        days += amount * _AGE_WORDS[word][0]
        months += amount * _AGE_WORDS[word][1]
    if not seen:
        raise _refused_age(text)
    if days != int(days) or months != int(months):
        raise NotationError(
            f"{quoted(text)} is not a whole number of days or months",
            "write it in whole days, months or years",
        )
    if months > _MOST_YEARS * 12 or days > _MOST_YEARS * 366:
        raise NotationError(f"{quoted(text)} is more than {_MOST_YEARS} years")
    return Age(int(days), int(months))


def discharge_rate(text: str) -> float:
    """Multiples of the capacity per hour from ``25C``."""
    plain = _plain(text)
    found = _RATE(plain)
    if found is None:
        meant = plain.upper() if _RATE(plain.upper()) else None
        raise _refused_bare(text, "a discharge rate", "write it as in 25C", meant)
    return _float(found[1], text)


def cells(text: str) -> CellCount:
    """``3S``, ``3S1P``, or ``2S-4S`` for a range."""
    plain = _plain(text)
    found = _CELLS(plain)
    if found is None or (found[2] and found[3]):
        meant = plain.upper() if not found and _CELLS(plain.upper()) else None
        if plain.isdecimal() and _CELLS(f"{plain}S"):
            meant = f"{plain}S"
        raise _refused_bare(text, "a count of cells", "write it as in 3S, 3S1P or 2S-4S", meant)
    least, most = int(found[1]), int(found[2] or found[1])
    if most < least:
        reason = f"{quoted(text)} runs from more cells to fewer"
        raise NotationError(reason, f"write {most}S-{least}S")
    return CellCount(least, most, int(found[3] or 1))


def wire(text: str) -> float:
    """Area of the conductor, m², from ``16 AWG`` or ``1.5 mm²``."""
    plain = _plain(text)
    gauge = _GAUGE(plain)
    if gauge is not None:
        if int(gauge[1]) > _MOST_GAUGE:
            raise NotationError(
                f"{quoted(text)} is not a gauge",
                f"AWG goes from {_LEAST_GAUGE} to {_MOST_GAUGE} here",
            )
        return area_of_gauge_m2(int(gauge[1]))
    found = _QUANTITY(plain)
    if found is not None and found[2] in ("mm²", "mm2"):
        return _float(found[1], text) / 1e6
    last = _GAUGE_LAST(plain.upper())
    meant = f"{int(last[1])} AWG" if last else plain.upper() if _GAUGE(plain.upper()) else None
    raise _refused_bare(text, "a wire size", "write it as in 16 AWG or 1.5 mm²", meant)


def propeller_size(text: str) -> tuple[float, float]:
    """Diameter and pitch, m, from ``10x4.5`` (inches) or ``254x114 mm``."""
    plain = _plain(text)
    found = _SIZE(plain)
    if found is None:
        hint = "write diameter and pitch as in 10x4.5 (inches) or 254x114 mm"
        three = _SIZE_AND_BLADES(plain)
        bare = re.sub(r"\s|\"|''|″|in(?:ch)?\b", "", plain.casefold()).replace("*", "x")
        if three:
            hint = f"write {three[1]}x{three[2]}, and the blades apart"
        elif _SIZE(bare):
            hint = f"did you mean {bare}? {hint}"
        raise _refused(text, "a propeller size", hint)
    times, over = (1.0, 1000.0) if found[3] == "mm" else (254.0, 1e4)
    diameter, pitch = _float(found[1], text), _float(found[2], text)
    return _finite(diameter * times / over, text), _finite(pitch * times / over, text)


def money(text: str) -> tuple[float, str]:
    """Amount and currency (three capitals, ISO 4217) from ``14.50 EUR``."""
    plain = _plain(text)
    found = _MONEY(plain)
    if found is None:
        meant = plain.upper() if _MONEY(plain.upper()) else None
        raise _refused_bare(text, "a sum of money", "write it as in 14.50 EUR", meant, "currency")
    return float(found[1]), found[2]


def _plain(text: str) -> str:
    """Stripped, with the signs of the table; a text that is too long is none of ours."""
    if len(text) > _LONGEST:
        raise NotationError(f"{quoted(text)} is too long for a value")
    return (text if text.isascii() else text.translate(_ALIKE)).strip()


def _float(digits: str, text: str) -> float:
    value = float(digits)
    if value == 0.0 and not _MANTISSA_IS_ZERO(digits):
        raise NotationError(f"{quoted(text)} is too small for a number")
    return _finite(value, text) + 0.0  # no negative zero


def _finite(value: float, text: str) -> float:
    if not math.isfinite(value):
        raise NotationError(f"{quoted(text)} is too large for a number")
    return value


def _pieces(text: str) -> tuple[tuple[float, str], ...] | None:
    """``1 h 5 min`` as pairs of number and word, or None where it is not of that form."""
    plain, at, pieces = _plain(text), 0, []
    if plain[:1] == "0" and plain[1:2].isdigit():
        return None
    while at < len(plain):
        piece = _PIECE(plain, at)
        if piece is None:
            return None
        pieces.append((float(piece[1]), piece[2]))
        at = piece.end()
    return tuple(pieces)


def _duration_of_pieces(text: str) -> float:
    """``7:20``, or ``1 h 5 min 20 s``: units that fall, decimals in the last piece only."""
    clock = _CLOCK(_plain(text))
    if clock is not None:
        return int(clock[1]) * 60.0 + int(clock[2])
    pieces = _pieces(text)
    units = UNITS["duration"].units
    if not pieces or any(word not in units for _, word in pieces):
        raise _refused_duration(text, pieces)
    times = [units[word].times for _, word in pieces]
    if any(later >= earlier for earlier, later in pairwise(times)):
        raise NotationError(f"{quoted(text)} is out of order", "write h before min before s")
    if any(amount != int(amount) for amount, _ in pieces[:-1]):
        raise NotationError(
            f"{quoted(text)} has decimals before its last unit", "write it as in 1 h 30 min 20 s"
        )
    if any(amount >= 60 for amount, _ in pieces[1:]):
        raise NotationError(
            f"{quoted(text)} has 60 or more after its first unit", "write it as in 7 min 20 s"
        )
    return _finite(
        sum(amount * each for (amount, _), each in zip(pieces, times, strict=True)), text
    )


_SHARE_HINT = "write it as in 20 % or 0.2"
_AGE_HINT = "write it with days, months or years, as in 6 months"
_PARTED = re.compile(r"([0-9]{1,3})[.,]([0-9]{1,2})").fullmatch
_SHORT_CLOCK = re.compile(r"([0-9]{1,3}) ?(?:m|min|') ?([0-5][0-9])").fullmatch
_DURATION_HINT = "write it as in 7 min 20 s, 7:20, 90 s or 1.5 h"


def _refused(text: str, words: str, hint: str) -> NotationError:
    """Not readable at all; a comma and a leading zero have words of their own."""
    if (comma := _DECIMAL_COMMA(text)) is not None:
        before, after = comma[1][-9:], comma[2][:9]
        either = f"{before}.{after}"
        if len(after) == 3:
            either = f"{before}{after}" + ("" if "mAh" in text else f" or {either}")
        better = f"{either}, not {before},{after}" if len(after) < 4 else "one number"
        return NotationError(f"{quoted(text)} has a comma", f"write {better}")
    if (zero := _LEADING_ZERO(_plain(text))) is not None and not re.search("[:_/-]", text):
        tail = " ".join(f"{zero[1]}{zero[2]}".split())
        return NotationError(f"{quoted(text)} starts with a zero", f"write {tail}")
    return NotationError(f"{quoted(text)} is not {words}", hint)


def _refused_bare(
    text: str, words: str, hint: str, meant: str | None = None, lacks: str = "unit"
) -> NotationError:
    if meant is not None:
        return NotationError(f"{quoted(text)} is not {words}", f"did you mean {meant}? {hint}")
    if _NUMBER(_plain(text)):
        return NotationError(f"{quoted(text)} has no {lacks}", hint)
    return _refused(text, words, hint)


def _refused_quantity(text: str, dimension: Dimension) -> NotationError:
    kind = UNITS[dimension]
    hint = _SHARE_HINT if dimension == "share" else f"write it with {accepted(dimension)}"
    plain = _plain(text)
    if _NUMBER(plain):
        unit = "Ah" if dimension == "charge" and float(plain) < 20 else next(iter(kind.units))
        return NotationError(f"{quoted(text)} has no unit", f"{hint}, as in {plain[:20]} {unit}")
    found = _QUANTITY(plain)
    if found is None:
        pounds = _POUNDS(plain) if dimension == "mass" else None
        if pounds:
            ounces = f"{16 * float(pounds[1]) + float(pounds[2]):g} oz"
            return NotationError(f"{quoted(text)} has two units", f"write {ounces}", ounces)
        together = _QUANTITY(re.sub(r"\s+", "", plain))
        if together is not None and together[2] in kind.units and together[2]:
            hint = f"did you mean {together[1][:20]} {together[2]}? {hint}"
        return _refused(text, kind.words, hint)
    meant = meant_unit(found[2], dimension)
    others = known_as(found[2])
    if others and not meant:
        if f"{found[2]}h" in kind.units:  # mA for mAh
            hint = f"did you mean {found[1][:20]} {found[2]}h? {hint}"
        return NotationError(f"{quoted(text)} is {UNITS[others[0]].words}, not {kind.words}", hint)
    if meant:
        hint = f"did you mean {found[1][:20]} {meant}? {hint}"
    same = f"{found[1]} {meant}" if meant and meant.casefold() == found[2].casefold() else None
    return NotationError(f"{quoted(text)} is not {kind.words}", hint, same)


def _refused_duration(text: str, pieces: tuple[tuple[float, str], ...] | None) -> NotationError:
    plain, reason = _plain(text), f"{quoted(text)} is not a duration"
    clock = _LONG_CLOCK(plain)
    if clock is not None:
        whole = f"{int(clock[1])} h {int(clock[2])} min {int(clock[3])} s"
        is_sure = int(clock[3]) > 0  # 7:20:00 may be a sheet's way to write minutes and seconds
        return NotationError(reason, f"write {whole}", whole if is_sure else None)
    short = _SHORT_CLOCK(plain)
    if short is not None:
        return NotationError(reason, f"write {short[1]}:{short[2]}", f"{short[1]}:{short[2]}")
    parted = _PARTED(plain)
    if parted is not None:  # 7.20 and 7,20
        clock_like = (
            f"{parted[1]}:{parted[2]}, or " if re.fullmatch("[0-5][0-9]", parted[2]) else ""
        )
        better = f"did you mean {clock_like}{parted[1]}.{parted[2]} min? {_DURATION_HINT}"
        wrong = "has a comma" if "," in text else "has no unit"
        return NotationError(f"{quoted(text)} {wrong}", better)
    meant = [(amount, meant_unit(word, "duration") or word) for amount, word in pieces or ()]
    if meant and all(word in UNITS["duration"].units for _, word in meant):
        better = " ".join(f"{amount:g} {word}" for amount, word in meant)
        return NotationError(reason, f"did you mean {better}? {_DURATION_HINT}")
    return _refused_bare(text, "a duration", _DURATION_HINT)


def _refused_age(text: str) -> NotationError:
    meant = [(amount, _meant_age(word)) for amount, word in _pieces(text) or ()]
    better = " ".join(f"{amount:g} {word}{'' if amount == 1 else 's'}" for amount, word in meant)
    return _refused_bare(
        text, "an age", _AGE_HINT, better if meant and all(w for _, w in meant) else None
    )


def _meant_age(word: str) -> str | None:
    short = {"d": "day", "wk": "week", "mo": "month", "mth": "month", "y": "year", "yr": "year"}
    single = word.removesuffix("s")
    return single if single in _AGE_WORDS else short.get(single) or nearest(single, _AGE_WORDS)
