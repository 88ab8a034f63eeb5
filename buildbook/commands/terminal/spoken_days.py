"""Days as one says them at a keyboard: ``yesterday 16:40``, ``last saturday``, ``24 Nov``."""

import datetime
import re
from collections.abc import Mapping

import msgspec

from buildbook.basis.days import days_meant, parse_day
from buildbook.basis.notation import NotationError, quoted
from buildbook.basis.place import NOWHERE
from buildbook.basis.problems import Problem

_FAR_DAYS = 60
"""A day without a year that is longer ago may be one of another year."""


def _numbered(*lines: str) -> Mapping[str, int]:
    """Each word by the number of its line."""
    return {word: number for number, line in enumerate(lines) for word in line.split()}


_AGO = _numbered(
    "today heute aujourd'hui aujourd’hui hoy",
    "yesterday gestern hier ayer",
    "vorgestern avant-hier anteayer",
)
_WEEKDAYS = _numbered(
    "monday mon montag lundi lunes",
    "tuesday tue tues dienstag mardi martes",
    "wednesday wed mittwoch mercredi miércoles miercoles",
    "thursday thu thurs donnerstag jeudi jueves",
    "friday fri freitag vendredi viernes",
    "saturday sat samstag sonnabend samedi sábado sabado",
    "sunday sun sonntag dimanche domingo",
)
_LAST = frozenset(["last", "letzten", "letzter", "dernier", "pasado"])
_BESIDE = frozenset(["on", "am", "le", "el", "this", "diesen"])
_TIME = r"\d{1,2}:\d{2}(?: ?[ap]\.?m\.?)?"
_WITH_TIME = re.compile(rf"(.*?)[\s,]*\b({_TIME})", re.IGNORECASE).fullmatch
_DAYS_AGO = re.compile(r"(\d{1,3}) days? ago", re.IGNORECASE).fullmatch
_NO_YEAR = re.compile(
    r"(?:\d{1,2}(?:st|nd|rd|th)?([-./ ]+)(?:\d{1,2}|[^\W\d_]{3,})"
    r"|[^\W\d_]{3,} \d{1,2}(?:st|nd|rd|th)?)[. ]*"
).fullmatch
_YEARS_BACK = 8
"""Between two 29ths of February there are at most so many years."""

_HOW = "write it as in yesterday 16:40, last saturday, 24 Nov or 2026-03-01"


class SpokenDay(msgspec.Struct, frozen=True):
    """A day as a record has it, with its time where one was said.

    guessed: whether the words name no day of the calendar by themselves, so that it is to be told
    which was taken. no_year: whether they left out the year.
    """

    text: str
    guessed: bool = False
    no_year: bool = False

    @property
    def day(self) -> datetime.date:
        """Without its time."""
        return parse_day(self.text)[0]

    @property
    def time(self) -> datetime.time | None:
        """Of the day, where one was said."""
        return parse_day(self.text)[1]


def spoken_day(text: str, now: datetime.date) -> SpokenDay:
    """The day that is meant: of days without a year the latest that is not to come.

    NotationError: it is none, or could be two.
    """
    plain = " ".join(text.split())
    whole = _of_calendar(plain)
    if whole is not None:
        return SpokenDay(whole)
    timed = _WITH_TIME(plain)
    said, time = (timed[1], timed[2]) if timed else (plain, "")
    found = _day_said(said, now) if said else SpokenDay(now.isoformat())
    if found is None:
        if any(letter.isdigit() for letter in said) and not _NO_YEAR(said):
            parse_day(plain)  # it tells what is wrong
        raise NotationError(f"{quoted(text)} is not a day", _HOW)
    if not time:
        return found
    whole = _of_calendar(timed_text := f"{found.text}T{time:0>5}")
    if whole is None:
        parse_day(timed_text)
    return msgspec.structs.replace(found, text=whole or timed_text)


def _of_calendar(text: str) -> str | None:
    """A day with its year, and perhaps a time, as a record has it; None where it is none."""
    try:
        day, time = parse_day(text)
    except NotationError as error:
        return error.meant
    return day.isoformat() if time is None else f"{day}T{time:%H:%M}"


def _day_said(said: str, now: datetime.date) -> SpokenDay | None:
    """The day of words without a time; None where they are none."""
    words = [word for word in said.casefold().split() if word not in _BESIDE]
    last = bool(words) and not _LAST.isdisjoint(words)
    words = [word for word in words if word not in _LAST]
    if (whole := _of_calendar(said)) is not None:
        return SpokenDay(whole)
    ago = _DAYS_AGO(said)
    if ago:
        return SpokenDay((now - datetime.timedelta(int(ago[1]))).isoformat(), guessed=True)
    if len(words) == 1 and words[0] in _AGO and not last:
        return SpokenDay((now - datetime.timedelta(_AGO[words[0]])).isoformat())
    if len(words) == 1 and words[0] in _WEEKDAYS:
        days = (now.weekday() - _WEEKDAYS[words[0]]) % 7 or (7 if last else 0)
        return SpokenDay((now - datetime.timedelta(days)).isoformat(), guessed=True)
    return _of_this_or_an_earlier_year(said, now)


def _of_this_or_an_earlier_year(said: str, now: datetime.date) -> SpokenDay | None:
    """NotationError: it could be two days."""
    found = _NO_YEAR(said)
    if found is None:
        return None
    between = (found[1] or " ").strip()[:1] or " "
    for year in range(now.year, now.year - _YEARS_BACK - 1, -1):
        meant = days_meant(f"{said.rstrip('. ')}{between}{year}")
        if len(meant) > 1:
            hint = f"did you mean {' or '.join(meant)}?"
            raise NotationError(f"{quoted(said)} may be two days", hint)
        if meant and datetime.date.fromisoformat(meant[0]) <= now:
            return SpokenDay(meant[0], guessed=True, no_year=True)
    return None


def goes_on(text: str, word: str, now: datetime.date) -> bool:
    """Whether a day is said with the next word, and none without: ``24``, ``Nov``."""
    return not _is_day(text, now) and _is_day(f"{text} {word}", now)


def _is_day(text: str, now: datetime.date) -> bool:
    try:
        spoken_day(text, now)
    except NotationError:
        return False
    return True


def day_doubts(on: SpokenDay | None, moment: datetime.datetime) -> tuple[Problem, ...]:
    """What may be meant otherwise: a time of today that is to come, a day of another year.

    After midnight 16:40 is that of yesterday. A clock at midnight sharp is a day that was fixed,
    and tells no time.
    """
    if on is None:
        return ()
    days, time = (moment.date() - on.day).days, on.time
    if days == 0 and time is not None and datetime.time() < moment.time() < time:
        said = f"{time:%H:%M}"
        meant = f'write "yesterday {said}" if that is meant'
        return (Problem(f"{said} today is still to come", NOWHERE, "warning", hint=meant),)
    if on.no_year and days > _FAR_DAYS:
        latest = f"the latest such day is {on.day}, {days} days ago"
        return (Problem(latest, NOWHERE, "warning", hint="write its year"),)
    return ()
