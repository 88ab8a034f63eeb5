"""The months of a logbook, and in them what leads and what is folded.

An owner looks for what was done and finds all of it open. Others read a year: for them plain
flights and looks that passed, one after the other, are one line that opens.
"""

import datetime
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import groupby

import msgspec
from markupsafe import Markup

from buildbook.basis import amounts
from buildbook.drawings.charts.bars import strip
from buildbook.pages.aircraft.log_parts import month_anchor
from buildbook.pages.linking import Piece
from buildbook.records import entries
from buildbook.report.drawn.pictures import Picture
from buildbook.report.history import LogLine
from buildbook.words.logbook.stretches import flown_words, stretch_words

Pieces = tuple[Piece, ...]


class Grid(msgspec.Struct, frozen=True):
    """The values of a gain set: axes as rows, terms as columns."""

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class Body(msgspec.Struct, frozen=True, kw_only=True):
    """What an entry says. details: label and words. flights: a line for each, where several."""

    kind: str
    line: Pieces
    details: tuple[tuple[str, Pieces], ...] = ()
    flights: tuple[Pieces, ...] = ()
    gains: Grid | None = None


class Amendment(msgspec.Struct, frozen=True, kw_only=True):
    """A later word on an entry."""

    verb: str
    on: datetime.date
    because: str
    uid: str


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """An entry as the page shows it.

    was: the body as first written, where something else stands now; now: what counts, None where
    nothing does. gone, come: the details that changed. note_was, by_was, checked_by_was: as
    first written, where corrected. about: words and uid of the entry that it is about.
    meanwhile: what was open while it was flown. milestone: what makes it more than one of many.
    """

    uid: str
    kind: str
    on: datetime.date
    now: Body | None
    was: Body | None = None
    gone: tuple[tuple[str, Pieces], ...] = ()
    come: tuple[tuple[str, Pieces], ...] = ()
    amendments: tuple[Amendment, ...] = ()
    corrected_later: bool = False
    about: tuple[str, str] | None = None
    note: Pieces = ()
    note_was: Pieces = ()
    by: str | None = None
    by_was: str | None = None
    checked_by: str | None = None
    checked_by_was: str | None = None
    time: str | None = None
    late_days: int = 0
    pictures: tuple[Picture, ...] = ()
    meanwhile: str = ""
    milestone: str = ""
    total: str = ""
    tags: tuple[str, ...] = ()
    stations: tuple[str, ...] = ()
    line: LogLine


class Day(msgspec.Struct, frozen=True, kw_only=True):
    """The entries of a day, or of a month where days are not shared."""

    on: datetime.date
    told: tuple[Told, ...]


class Stretch(msgspec.Struct, frozen=True, kw_only=True):
    """Entries that follow each other. words: in a line, where they are folded; strip: flights."""

    days: tuple[Day, ...]
    words: str = ""
    strip: Markup = Markup("")


class Month(msgspec.Struct, frozen=True, kw_only=True):
    """A month, its days newest first. flown: all its flights, where some are folded."""

    anchor: str
    words: str
    days: tuple[Day, ...]
    entries: int
    stretches: tuple[Stretch, ...]
    flown: str = ""


def by_month(told: Sequence[Told], leading: Collection[str] | None = None) -> tuple[Month, ...]:
    """Entries by month and day, newest first; within a day in the order of the log.

    leading: names of entries that are never folded; None folds nothing.
    """
    newest_first = sorted(told, key=lambda one: (one.on, -one.line.seq), reverse=True)
    most_s = max((seconds for one in told for seconds in _lengths_s(one)), default=0.0)
    months = []
    for (year, number), found in groupby(newest_first, lambda one: (one.on.year, one.on.month)):
        of_month = tuple(found)
        days = _days(of_month)
        stretches: tuple[Stretch, ...] = (Stretch(days=days),)
        if leading is not None:
            stretches = tuple(_stretches(of_month, leading, most_s))
        flown = flown_words(_flights(of_month)) if len(stretches) > 1 else ""
        months.append(
            Month(
                anchor=month_anchor(year, number),
                words=amounts.month(days[0].on),
                days=days,
                entries=len(of_month),
                stretches=stretches,
                flown=flown,
            )
        )
    return tuple(months)


def _days(told: Iterable[Told]) -> tuple[Day, ...]:
    return tuple(Day(on=on, told=tuple(of_day)) for on, of_day in groupby(told, lambda one: one.on))


def _stretches(told: Iterable[Told], leading: Collection[str], most_s: float) -> Iterator[Stretch]:
    for is_plain, found in groupby(told, lambda one: _is_plain(one) and one.uid not in leading):
        run = tuple(found)
        if not is_plain:
            yield Stretch(days=_days(run))
            continue
        lengths_s = tuple(seconds for one in run for seconds in _lengths_s(one))
        yield Stretch(
            days=_days(run),
            words=stretch_words([one.line.stands or one.line.entry for one in run]),
            strip=strip(lengths_s, most_s) if lengths_s else Markup(""),
        )


def _is_plain(one: Told) -> bool:
    """A flight like any other, a look that passed, a word on an entry that itself shows it."""
    if isinstance(one.line.entry, entries.Correction | entries.Void):
        return not one.note
    more = (one.was, one.amendments, one.corrected_later, one.about, one.note, one.pictures)
    if any(more) or one.milestone:
        return False
    match one.line.stands:
        case entries.Flight(purpose=None, result=None, noticed=(), gains=None) as flight:
            return all(row.landing == "normal" for row in flight.rows)
        case entries.Inspection(result="pass") | entries.Check(result="pass") as look:
            return not look.readings and not look.severity
        case _:
            return False


def _flights(told: Iterable[Told]) -> tuple[entries.Flight, ...]:
    return tuple(one.line.stands for one in told if isinstance(one.line.stands, entries.Flight))


def _lengths_s(one: Told) -> tuple[float, ...]:
    stands = one.line.stands
    return (
        tuple(row.duration_s for row in stands.rows) if isinstance(stands, entries.Flight) else ()
    )
