"""A long log on several pages: a year to a page, and which page each entry stands on.

The newest part keeps the plain address of its log. Parts of a year are filled from January on, so
that an older page stays as it is when the log grows.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby

import msgspec

from buildbook.basis import amounts
from buildbook.basis.days import MONTHS
from buildbook.pages.addresses import PART_MARK, address_of
from buildbook.report.history import LogLine
from buildbook.report.reports import Reports

MOST_ENTRIES = 150
"""On one page. The longest entries of the demo take 0.8 kB, and a page should stay under 150 kB."""

Lines = tuple[LogLine, ...]


class LogPart(msgspec.Struct, frozen=True, kw_only=True):
    """A page of a log.

    key: of an older page, ``2025`` or ``2025-2``; empty for the newest. words: what it spans;
    empty where the whole log stands on one page. lines: oldest first.
    """

    key: str
    words: str
    lines: Lines


class MonthAt(msgspec.Struct, frozen=True, kw_only=True):
    """A month of a log, and the page on which its newest entries stand."""

    year: int
    number: int
    address: str

    @property
    def short(self) -> str:
        """Three letters, as in ``Jan``."""
        return MONTHS[self.number - 1][:3]

    @property
    def anchor(self) -> str:
        """Where it begins on its page."""
        return month_anchor(self.year, self.number)


def month_anchor(year: int, number: int) -> str:
    """The anchor of a month on a page of a log."""
    return f"m-{year}-{number:02d}"


def parts_of(log: Iterable[LogLine]) -> tuple[LogPart, ...]:
    """The pages of a log, newest first; one of them always."""
    lines = tuple(sorted(log, key=lambda line: (line.entry.on, line.seq)))
    if len(lines) <= MOST_ENTRIES:
        return (LogPart(key="", words="", lines=lines),)
    parts: list[LogPart] = []
    for year, found in groupby(lines, lambda line: line.entry.on.year):
        pieces = tuple(_pieces(tuple(found)))
        spans = [_span(piece) if len(pieces) > 1 else str(year) for piece in pieces]
        for at, (piece, span) in enumerate(zip(pieces, spans, strict=True)):
            part = f", part {at + 1}" if spans.count(span) > 1 else ""
            key = f"{year}-{at + 1}" if len(pieces) > 1 else str(year)
            parts.append(LogPart(key=key, words=f"{span}{part}", lines=piece))
    parts[-1] = msgspec.structs.replace(parts[-1], key="")
    return tuple(reversed(parts))


def _pieces(lines: Lines, cuts: Sequence[str] = ("month", "day")) -> Iterator[Lines]:
    """Lines in pieces of at most ``MOST_ENTRIES``, cut between months, else days, else anywhere."""
    if not cuts:
        for at in range(0, len(lines), MOST_ENTRIES):
            yield lines[at : at + MOST_ENTRIES]
        return
    piece: Lines = ()
    for _, found in groupby(lines, lambda line: getattr(line.entry.on, cuts[0])):
        group = tuple(found)
        if len(piece) + len(group) <= MOST_ENTRIES:
            piece += group
            continue
        if piece:
            yield piece
        *full, piece = _pieces(group, cuts[1:]) if len(group) > MOST_ENTRIES else (group,)
        yield from full
    yield piece


def _span(lines: Lines) -> str:
    """``March 2025`` or ``March to June 2025``; both ends are in one year."""
    first, last = lines[0].entry.on, lines[-1].entry.on
    if first.month == last.month:
        return amounts.month(last)
    return f"{MONTHS[first.month - 1]} to {amounts.month(last)}"


def address_of_part(slug: str | None, key: str) -> str:
    """The address of a page of a log; ``slug`` none: the store log."""
    if not key:
        return address_of("logbook", slug) if slug else address_of("store-log")
    if slug is None:
        return address_of("earlier-store-log", key)
    return address_of("earlier-logbook", f"{slug}{PART_MARK}{key}")


def parts_of_log(reports: Reports, slug: str | None) -> tuple[LogPart, ...]:
    """The pages of one log of the hangar, newest first."""
    return reports.once(_all_parts)[slug]


def earlier_keys(reports: Reports) -> Iterable[str]:
    """The older pages of all logbooks."""
    return tuple(
        f"{slug}{PART_MARK}{part.key}"
        for slug, parts in reports.once(_all_parts).items()
        if slug is not None
        for part in parts[1:]
    )


def earlier_store_keys(reports: Reports) -> Iterable[str]:
    """The older pages of the store log."""
    return tuple(part.key for part in parts_of_log(reports, None)[1:])


def entry_place(reports: Reports, uid: str) -> tuple[str, str] | None:
    """The page and the anchor of an entry; None where this audience has no page with it."""
    address = reports.once(_addresses).get(uid.removeprefix("#"))
    anchor = reports.entry_anchor(uid.removeprefix("#")) if address else ""
    return (address, anchor) if address and anchor else None


def month_places(parts: Iterable[LogPart], slug: str | None) -> tuple[MonthAt, ...]:
    """The months of a log, newest first; one that is cut stands on the newest page that has it."""
    found = {
        (line.entry.on.year, line.entry.on.month): address_of_part(slug, part.key)
        for part in reversed(tuple(parts))
        for line in part.lines
    }
    return tuple(
        MonthAt(year=year, number=number, address=address)
        for (year, number), address in sorted(found.items(), reverse=True)
    )


def _all_parts(reports: Reports) -> Mapping[str | None, tuple[LogPart, ...]]:
    hangar = reports.hangar
    found: dict[str | None, tuple[LogPart, ...]] = {
        slug: parts_of(aircraft.log) for slug, aircraft in hangar.aircraft.items()
    }
    found[None] = () if reports.is_public else parts_of(hangar.store_log)
    return found


def _addresses(reports: Reports) -> Mapping[str, str]:
    return {
        line.entry.uid.removeprefix("#"): address_of_part(slug, part.key)
        for slug, parts in reports.once(_all_parts).items()
        for part in parts
        for line in part.lines
    }
