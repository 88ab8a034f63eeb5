"""Values as other people write them: days, times, numbers, names; read into the logbook's way."""

import datetime
import re
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import Literal

from buildbook.basis.days import month_named
from buildbook.desk.bringing_in.tables import Numeral

Days = Literal["year-first", "day-first", "month-first"]

_DAY = re.compile(
    r"\s*(\d{1,4})[-./ ]\s*(\d{1,2}|[^\W\d]{3,})[-./ ,]+\s*(\d{1,4})(?:[T ,]+(.+))?\s*"
).fullmatch
_SIX = re.compile(r"(20\d\d)(\d\d)(\d\d)").fullmatch
_TIME = re.compile(
    r"(\d{1,2})[:.h](\d{2})(?:[:.](\d{2}))?(?:\.\d+)?\s*([ap])?\.?m?\.?", re.I
).fullmatch
_HOUR = re.compile(r"(\d{1,2})\s*([ap])\.?m\.?", re.I).fullmatch
_PARTS = re.compile(r"[^\W\d_]+|\d+").findall


def likely_days(cells: Sequence[str]) -> tuple[Days, bool]:
    """The order in which days are written, and whether the cells leave no doubt of it.

    Where they do, it is the order in which more days come one after the other; else day first.
    """
    parts = [found for cell in cells if (found := _DAY(_plain_day(cell))) and len(found[1]) < 4]
    if not parts:  # or a sheet that keeps them as days
        return "year-first", True
    firsts = [int(found[1]) for found in parts if found[2].isdigit()]
    seconds = [int(found[2]) for found in parts if found[2].isdigit()]
    if not firsts or any(first > 12 for first in firsts):
        return "day-first", True
    if any(second > 12 for second in seconds):
        return "month-first", True
    if all("." in cell for cell in cells if cell):
        return "day-first", True
    rising = {order: _rising(cells, order) for order in ("day-first", "month-first")}
    return ("month-first" if rising["month-first"] > rising["day-first"] else "day-first"), False


def _rising(cells: Sequence[str], order: Days) -> int:
    days = [day for cell in cells if (day := day_of(cell, order))]
    return sum(first <= second for first, second in pairwise(days))


def day_of(cell: str, order: Days) -> str | None:
    """``2026-03-01``, or with a time ``2026-03-01T16:40``; None where it is no day."""
    cell = _plain_day(cell)
    six = _SIX(cell)
    if six:
        return _iso(int(six[1]), int(six[2]), int(six[3]), None)
    found = _DAY(cell)
    if found is None:
        return None
    one, two, three = found[1], found[2], found[3]
    month_word = None if two.isdigit() else month_named(two)
    if len(one) == 4:
        year, month, day = int(one), month_word or _int(two), int(three)
    elif order == "month-first" and month_word is None:
        month, day, year = int(one), _int(two), int(three)
    else:
        day, month, year = int(one), month_word or _int(two), int(three)
    time = None
    if found[4]:
        time = time_of(found[4])
        if time is None:
            return None
    return _iso(year + 2000 if year < 100 else year, month, day, time)


_MONTH_FIRST = re.compile(
    r"([^\W\d]{3,})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})\b(.*)"
).fullmatch
_WEEKDAY = re.compile(r"^[^\W\d]{2,10}[.,]*\s+(?=\d)")


def _plain_day(cell: str) -> str:
    """Without the name of the weekday; ``May 3, 2026`` as ``3 May 2026``."""
    text = cell.strip()
    found = _MONTH_FIRST(text)
    if found and month_named(found[1]):
        return f"{found[2]} {found[1]} {found[3]}{found[4]}"
    return _WEEKDAY.sub("", text)


def _int(text: str) -> int:
    return int(text) if text.isdigit() else 0


def _iso(year: int, month: int, day: int, time: str | None) -> str | None:
    try:
        on = datetime.date(year, month, day).isoformat()
    except ValueError:
        return None
    return on if time is None else f"{on}T{time}"


def time_of(cell: str) -> str | None:
    """``16:40`` from ``16:40``, ``16.40``, ``4:40 pm`` or ``4 pm``; None where it is no time."""
    text = cell.strip()
    found = _TIME(text.removesuffix("Z"))
    hour, minute, half = (0, 0, "")
    if found:
        hour, minute, half = int(found[1]), int(found[2]), (found[4] or "").lower()
    else:
        short = _HOUR(text)
        if short is None:
            return None
        hour, half = int(short[1]), short[2].lower()
    if half:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half == "p" else 0)
    return f"{hour:02d}:{minute:02d}" if hour < 24 and minute < 60 else None


def are_clocks(cells: Sequence[str]) -> bool:
    """Whether times of the day stand there, and not lengths: some of the afternoon."""
    times = [time_of(cell) for cell in cells]
    return len(times) > 2 and None not in times and max(map(str, times)) >= "13:00"


def is_no_time_of_day(cell: str) -> bool:
    """Under a head such as Time: no clock has it, or it is soon after midnight."""
    time = time_of(cell)
    return time is None or time < "01:00"


def second_of_day(cell: str) -> float | None:
    """Seconds since midnight of ``16:40:12`` or ``16:40:12.350``; None: no such time."""
    found = re.fullmatch(r"\s*(\d{1,2}):(\d{2}):(\d{2}(?:\.\d+)?)\s*", cell)
    return None if not found else int(found[1]) * 3600 + int(found[2]) * 60 + float(found[3])


def with_points(cell: str) -> str:
    """A number with a decimal comma, and perhaps points between thousands, with a point."""
    if isinstance(cell, Numeral):
        return cell
    plain = re.sub(r"(?<=\d)\.(?=\d{3}\b)", "", cell)
    if plain != cell:  # 0.878 beside 1.480
        plain = re.sub(r"^0+(?=[1-9])", "", plain)
    return re.sub(r"(?<=\d),(?=\d)", ".", plain)


def plain_number(cell: str, *, commas: bool, unit: str | None) -> str:
    """A number with a point and nothing between thousands. commas: decimals have one.

    1,480 mAh are thousands in any case: no pack gives a few of them.
    """
    whole = unit == "mAh" and thousands(cell)
    return with_points(cell) if commas and not whole else re.sub(r"(?<=\d),(?=\d{3}\b)", "", cell)


def has_commas(cells: Iterable[str]) -> bool:
    """Whether decimals are written with a comma: ``7,5`` is there, and no ``7.5`` is."""
    found = [cell for cell in cells if not isinstance(cell, Numeral)]
    comma = any(_DECIMAL_COMMA(cell.strip()) for cell in found)
    return comma and not any(re.search(r"(?<![\d.])\d+\.\d{1,2}(?![\d.])", cell) for cell in found)


_DECIMAL_COMMA = re.compile(r"[-+]?[\d.:]*\d,\d{1,2}(?: ?[^\W\d]+)?").fullmatch
"""A number, not a text with one in it: a remark tells nothing of how numbers are written."""

thousands = re.compile(r"\d{1,3}(?:,\d{3})+").fullmatch
"""A number with commas between thousands, if they are no decimal ones."""


def duration_of(cell: str, unit: str) -> str | None:
    """A duration as the logbook has it. unit: of a bare number, ``min``, ``s``, ``h``; or ``m:s``,
    ``h:m`` for what stands around a colon, ``h:m:s`` where there are two.
    """
    text = cell.strip()
    clock = re.fullmatch(r"(\d{1,3}):(\d{1,2})(?::(\d{2}))?(?:\.\d+)?", text)
    if clock:
        parts = [int(part) for part in clock.groups() if part is not None]
        if len(parts) == 3 and not (unit == "m:s" and parts[2] == 0):
            seconds = parts[0] * 3600 + parts[1] * 60 + parts[2]
        elif unit == "h:m":
            seconds = parts[0] * 3600 + parts[1] * 60
        else:
            seconds = parts[0] * 60 + parts[1]
        return clock_text(seconds)
    number = re.fullmatch(r"(\d+(?:\.\d+)?|\.\d+)\s*([^\W\d]*)\.?", text)
    own = _UNIT_WORDS.get(number[2].casefold()) if number else None
    if number and (own or not number[2]):
        each = {"s": 1, "h": 3600}.get(own or unit, 60)
        return clock_text(round(float(number[1]) * each))
    worded = re.fullmatch(
        r"(?:(\d+)\s*(?:m|min|mins|minutes?|'))?\s*(?:(\d+)\s*(?:s|sec|secs|seconds?|\"|'')?)?",
        text,
    )
    if worded and (worded[1] or worded[2]):
        return clock_text(60 * int(worded[1] or 0) + int(worded[2] or 0))
    return None


_UNIT_WORDS: Mapping[str, str] = {
    word: unit
    for unit, words in {
        "s": "s sec secs second seconds sek sekunden",
        "min": "m min mins minute minutes minuten",
        "h": "h hr hrs hour hours std stunden",
    }.items()
    for word in words.split()
}


def between(start: str, end: str) -> str | None:
    """The length from one time of day to a later one of that day, or of the night after it."""
    times = [time_of(start), time_of(end)]
    minutes = [int(time[:2]) * 60 + int(time[3:]) for time in times if time is not None]
    if len(minutes) < 2:
        return None
    return clock_text((minutes[1] - minutes[0]) % (24 * 60) * 60)


def several(cell: str) -> list[str]:
    """The names in a cell that holds more than one: ``P1/P2``, ``P1 + P2``, ``1 und 2``."""
    return [part for part in re.split(r"\s*[/+&,;]\s*|\s+(?:and|und)\s+", cell.strip()) if part]


def names_of_packs(cell: str, known: Iterable[str]) -> list[str]:
    """The names in a cell, which is one of a pack or several; as written there."""
    parts = several(cell)
    whole = len(parts) < 2 or same_name(cell, known) is not None
    return [cell] if whole else parts


def numbered(cell: str, names: Iterable[str]) -> list[str]:
    """The names that have the number of the cell: P-03 for ``3`` or ``Akku 3``."""
    number = re.fullmatch(r"[^\W\d]*\s*#?\s*0*(\d+)", cell)
    if number is None:
        return []
    return [name for name in names if re.sub(r"\D+", "", name).lstrip("0") == number[1]]


def clock_text(seconds: int) -> str:
    """``7:20``; from an hour on ``1 h 5 min 3 s``."""
    if seconds < 3600:
        return f"{seconds // 60}:{seconds % 60:02d}"
    return f"{seconds // 3600} h {seconds % 3600 // 60} min {seconds % 60} s"


def same_name(cell: str, names: Iterable[str]) -> str | None:
    """The one name that the cell means, whatever its capitals, signs and leading zeros."""
    found = [name for name in names if name == cell]
    if not found:
        plain = _plain(cell)
        found = [name for name in names if _plain(name) == plain]
    return found[0] if len(set(found)) == 1 else None


def _plain(name: str) -> tuple[str, ...]:
    return tuple(part.lstrip("0") if part.isdigit() else part for part in _PARTS(name.casefold()))
