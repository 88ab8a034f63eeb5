"""Days, months and years. What day it is today is never asked here."""

import datetime
import re

from buildbook.basis.notation import NotationError, quoted

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)

_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})(?:(?:T| +)([0-9]{2}):([0-9]{2}))?").fullmatch
_LOOSE = re.compile(
    r"\s*([0-9]{4})[-./]([0-9]{1,2})[-./]([0-9]{1,2})(?:[T\s]+([0-9]{1,2})(?::([0-9]{2}))?(.*))?\s*"
).fullmatch
_HALF = re.compile(r"\s*([ap])\.?m\b\.?\s*", re.IGNORECASE).match
_FIRST_YEAR, _LAST_YEAR = 1950, 2199
_HINT = "write year-month-day, as in 2026-03-01 or 2026-03-01T16:40"

_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)

YEAR_DAYS = 365.25
"""In the mean, for rates and ages; a period of the calendar goes by its months."""


def days_in_month(year: int, month: int) -> int:
    """28 to 31; month counts from 1."""
    leap = month == 2 and year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    return _LENGTHS[month - 1] + leap


def parse_day(text: str) -> tuple[datetime.date, datetime.time | None]:
    """The day, and the clock time where one is written: ``2026-03-01``, ``2026-03-01T16:40``,
    or with a space in place of the T.

    NotationError: any other form, and days that the calendar does not have.
    """
    found = _DAY(text)
    if found is None:
        hint, meant = _suggestion(text)
        raise NotationError(f"{quoted(text)} is not a day", hint, meant)
    year, month, day = int(found[1]), int(found[2]), int(found[3])
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        raise NotationError(
            f"{quoted(text)} is not in the years {_FIRST_YEAR} to {_LAST_YEAR}", _HINT
        )
    try:
        date = datetime.date(year, month, day)
        time = None if found[4] is None else datetime.time(int(found[4]), int(found[5]))
    except ValueError:
        raise _not_in_calendar(text, year, month, day) from None
    return date, time


def minute_of_day(time: str) -> int:
    """Of a clock time as it is kept: ``16:40``."""
    hour, minute = time.split(":")
    return int(hour) * 60 + int(minute)


def add_months(anchor: datetime.date, months: int) -> datetime.date:
    """The same day of the month, clipped to its end; always step from the anchor, not in chains.

    OverflowError: outside the years 1 to 9999.
    """
    year, month0 = divmod(anchor.year * 12 + anchor.month - 1 + months, 12)
    if not 1 <= year <= 9999:
        raise OverflowError(f"{anchor} and {months} months is outside the calendar")
    return datetime.date(year, month0 + 1, min(anchor.day, days_in_month(year, month0 + 1)))


def next_day(day: datetime.date, after: int = 1) -> datetime.date:
    """So many days after a day; beyond the end of the calendar it is the last one that there is."""
    last = datetime.date.max.toordinal()
    return datetime.date.fromordinal(min(day.toordinal() + after, last))


def end_of_month(day: datetime.date) -> datetime.date:
    """The last day of the month of ``day``."""
    return day.replace(day=days_in_month(day.year, day.month))


def _not_in_calendar(text: str, year: int, month: int, day: int) -> NotationError:
    if not 1 <= month <= 12:
        return NotationError(f"{quoted(text)} has no month {month:02d}", _HINT)
    last = days_in_month(year, month)
    if not 1 <= day <= last:
        return NotationError(
            f"{quoted(text)} is not in the calendar", f"the month ends on {year}-{month:02d}-{last}"
        )
    return NotationError(
        f"{quoted(text)} has a time that no day has", "the time goes from 00:00 to 23:59"
    )


def _hour(written: int, rest: str) -> int | None:
    """The hour of 24 where ``rest`` says am or pm; None where no clock has it."""
    half = _HALF(rest)
    if half is None:
        return written
    if not 1 <= written <= 12:
        return None
    return written % 12 + (12 if half[1].lower() == "p" else 0)


_DAY_FIRST = re.compile(
    r"\s*([0-9]{1,2})(?:st|nd|rd|th)?([-./ ]+)([0-9]{1,2}|[^\W\d_]{3,})[-./ ,]+"
    r"([0-9]{4}|[0-9]{2})\s*"
).fullmatch
_MONTH_FIRST = re.compile(
    r"\s*([^\W\d_]{3,})\.?\s+([0-9]{1,2})(?:st|nd|rd|th)?,?\s+([0-9]{4})\s*"
).fullmatch
_RUN_TOGETHER = re.compile(r"\s*(20[0-9]{2})([0-9]{2})([0-9]{2})\s*").fullmatch
_MONTHS = (
    "jan", "feb", "mar mär mrz", "apr", "may mai", "jun", "jul", "aug", "sep", "oct okt", "nov",
    "dec dez",
)  # fmt: skip


def month_named(word: str) -> int | None:
    """1 to 12 from the name of a month, English or German, or its first three letters."""
    start = word[:3].lower()
    return next((at for at, names in enumerate(_MONTHS, 1) if start in names.split()), None)


def _month(word: str) -> int:
    """1 to 12 from its number or its name; 0 where it is none."""
    return int(word) if word.isdigit() else month_named(word) or 0


def days_meant(text: str) -> list[str]:
    """The days that a text may mean that has its year last, or no hyphens."""
    together, day_first, month_first = _RUN_TOGETHER(text), _DAY_FIRST(text), _MONTH_FIRST(text)
    meant: list[tuple[int, int, int]] = []
    if together:
        meant = [(int(together[1]), int(together[2]), int(together[3]))]
    elif month_first:
        meant = [(int(month_first[3]), _month(month_first[1]), int(month_first[2]))]
    elif day_first:
        year = int(day_first[4]) + (2000 if len(day_first[4]) == 2 else 0)
        meant = [(year, _month(day_first[3]), int(day_first[1]))]
        if "." not in day_first[2] and day_first[3].isdigit():  # points: the day is first
            meant.append((year, int(day_first[1]), int(day_first[3])))
    return [
        f"{year}-{month:02d}-{day:02d}"
        for year, month, day in dict.fromkeys(meant)
        if 1 <= month <= 12 and 1 <= day <= days_in_month(year, month)
    ]


def _suggestion(text: str) -> tuple[str, str | None]:
    """What to write, and the day where the text can mean but one."""
    loose = _LOOSE(text)
    if loose is None:
        if re.fullmatch(r"\s*[0-9]{1,2}:[0-9]{2}\s*", text):
            return f"write the day before the time, as in 2026-03-01T{text.strip():0>5}", None
        meant = days_meant(text)
        if not meant:
            return _HINT, None
        return f"did you mean {' or '.join(meant)}?", meant[0] if len(meant) == 1 else None
    rest = ""
    written = f"{int(loose[1]):04d}-{int(loose[2]):02d}-{int(loose[3]):02d}"
    if loose[4] is not None:
        hour = _hour(int(loose[4]), loose[6])
        if hour is None or (loose[5] is None and not _HALF(loose[6])):
            return _HINT, None
        written += f"T{hour:02d}:{loose[5] or '00'}"
        half = _HALF(loose[6])
        rest = loose[6][half.end() :] if half else loose[6]
    try:
        parse_day(written)
    except NotationError:
        return _HINT, None
    return f"write {written}", None if rest.strip() else written
