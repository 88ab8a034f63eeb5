"""What was remarked on the last days of the log: nobody but the keeper can judge it.

A pack that is puffed in a remark only, a servo that buzzes: no rule reads prose, so the work list
ends with the words themselves. The last remark about a pack stays until that pack is looked at, or
something is written of it again; so does one about a part or an aircraft that may tell of a danger.
"""

import datetime
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence

import msgspec

from buildbook.records.aircraft import LEFT
from buildbook.records.entries import (
    Capacity,
    Defect,
    Flight,
    Incident,
    Inspection,
    Note,
    Plain,
)
from buildbook.records.entries.entry import tags_named
from buildbook.records.entries.kinds import items_told_of
from buildbook.records.parts import GONE
from buildbook.records.readings import may_tell_danger
from buildbook.records.row_names import PACK_LOOK
from buildbook.report.history import DefectState, Event, FlightDone, LogLine, RepairDone
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow, ItemNow
from buildbook.report.upkeep.flown import MarkedFlight, Meanwhile, Remarked
from buildbook.report.upkeep.pack_findings import ToldSwollen
from buildbook.reporting.whole import Whole
from buildbook.upkeep.counted.completions import tasks_of_item

OF_LATE_DAYS = 14
"""So far back from the last entry. Common practice, no source."""

UNANSWERED_DAYS = 180
"""So far back for the last remark about a pack that nobody looked at since. Likewise."""


def remarks(whole: Whole) -> tuple[Remarked, ...]:
    """Those that nobody looked at since, then all that is new; newest first.

    Of aircraft that fly and of the store; retired and sold ones are left out.
    """
    hangar = whole.hangar
    logs = [one.log for one in hangar.aircraft.values() if one.status in ("flying", "stored")]
    late = _late((*logs, hangar.store_log), OF_LATE_DAYS)
    if not late:
        return ()
    rows = _told_by_a_row(whole.reports)
    new = [found for line in late for found in _of(line) if found.entry not in rows]
    kept = {(one.entry, one.words): one for one in whole.reports.once(_unanswered).values()}
    return (*kept.values(), *(one for one in new if (one.entry, one.words) not in kept))


def _late(logs: Iterable[Sequence[LogLine]], days: int) -> list[LogLine]:
    """What was written up to so many days before the last entry of all, newest first."""
    logs = [log for log in logs if log]
    last = max((log[-1].entry.on for log in logs), default=datetime.date.min)
    earliest = last.toordinal() - days
    late = [line for log in logs for line in log[bisect_left(log, earliest, key=_day) :]]
    return sorted(late, key=lambda line: line.seq, reverse=True)


def _day(line: LogLine) -> int:
    """Logs stand in the order of the days on which entries were first said to be."""
    return line.entry.on.toordinal()


def unanswered(whole: Whole, tag: str) -> Remarked | None:
    """The last remark about an item that nobody looked at since: of a pack any, of a part one that
    may tell of a danger."""
    return whole.reports.once(_unanswered).get(tag)


def unanswered_on(whole: Whole, slug: str) -> tuple[Remarked, ...]:
    """Those that may tell of a danger on an aircraft, its parts and packs, newest first."""
    hangar = whole.hangar
    about = {_of_all(slug), *(here.tag for here in hangar.aircraft[slug].items())}
    about |= {tag for tag, item in hangar.items.items() if slug in item.flown_on}
    found = [one for of, one in whole.reports.once(_unanswered).items() if of in about]
    return tuple(
        {(one.entry, one.words): one for one in found if may_tell_danger(one.words)}.values()
    )


def _of_all(slug: str) -> str:
    """Stands beside tags, which have no such sign."""
    return f"{slug}/"


def _unanswered(reports: Reports) -> dict[str, Remarked]:
    """By item, and by aircraft where none is named, newest first; each page of an item asks."""
    hangar = reports.hangar
    items = {tag: item for tag, item in hangar.items.items() if item.state.state not in GONE}
    logs = (hangar.store_log, *(one.log for one in hangar.aircraft.values()))
    looks, rows = _Looks(reports), _told_by_a_row(reports)
    found: dict[str, Remarked] = {}
    said: set[str] = set()
    for line in _late(logs, UNANSWERED_DAYS):
        if line.stands is None or line.entry.uid in rows or not _speaks(line.stands):
            continue
        told = tuple(_of(line))
        named = _named(line.stands, items)
        for tag in named:
            one = next(
                (one for one in told if tag in one.tags or tags_named(one.words, (tag,))), None
            )
            if one is not None and tag not in said and looks.is_open(items[tag], one, line.seq):
                found[tag] = msgspec.structs.replace(one, kept=True, tags=(tag,))
            said.add(tag)
        slug = line.stands.aircraft
        if slug is None or named:
            continue
        one = next((one for one in told if may_tell_danger(one.words)), None)
        if one is not None and _of_all(slug) not in found and looks.is_open_on(slug, line.seq):
            found[_of_all(slug)] = msgspec.structs.replace(one, kept=True)
    return found


def _told_by_a_row(reports: Reports) -> frozenset[str | None]:
    """The entries of which the words already opened a row of a pack, which has them."""
    return frozenset(
        row.because.entry
        for pack in reports.work.packs
        for row in pack.rows
        if row.because is not None and isinstance(row.because.found, ToldSwollen)
    )


def _named(entry: Plain, items: Mapping[str, ItemNow]) -> tuple[str, ...]:
    """The items that an entry with words is about, or that its words name."""
    if isinstance(entry, Defect):
        return (entry.item,) if entry.item is not None and entry.item in items else ()
    written = _words(entry)
    own = tuple(tag for tag in items_told_of(entry) if tag in items and written)
    if not written:
        return ()
    named = tags_named(" ".join(written), [tag for tag in items if tag not in own])
    # Of what was looked at or measured it says what was found then.
    return named if isinstance(entry, Inspection | Capacity) else (*own, *named)


_MENDED = ("fit", "remove", "repair", "overhaul", "cleared defect")


class _Looks:
    """What answers a remark: a look at the thing itself, or work on it."""

    def __init__(self, reports: Reports) -> None:
        self._reports = reports
        self._tasks: dict[str, set[str]] = {}
        for row in reports.work.rows:
            if row.tag is not None and row.kind == "task":
                self._tasks.setdefault(row.tag, set()).add(row.name)

    def is_open(self, item: ItemNow, told: Remarked, seq: int) -> bool:
        """Of a pack whatever was remarked; of a part what may tell of a danger."""
        if item.is_pack:
            return not any(done.seq > seq for done in tasks_of_item(item).get(PACK_LOOK, ()))
        if not may_tell_danger(told.words):
            return False
        tasks = self._tasks.get(item.tag, ())
        return not any(
            done.seq > seq and (item.tag in done.tags or done.name in tasks)
            for done in item.inspections
        ) and not _mended(item.events, seq)

    def is_open_on(self, slug: str, seq: int) -> bool:
        """Of an aircraft that flies, of which no part is named."""
        aircraft = self._reports.hangar.aircraft[slug]
        if aircraft.status not in ("flying", "stored"):
            return False
        looked = (*aircraft.inspections, *aircraft.defects)
        return not any(one.seq > seq for one in looked) and not _mended(aircraft.events, seq)


def _mended(events: Iterable[Event], seq: int) -> bool:
    return any(event.seq > seq and event.event in _MENDED for event in events)


def remarks_on(whole: Whole, tag: str) -> tuple[Remarked, ...]:
    """Notes that name an item, oldest first, from all logs."""
    found = whole.reports.once(_notes).get(tag, ())
    return tuple(each for line in found for each in _of(line))


def _notes(reports: Reports) -> dict[str, list[LogLine]]:
    """Notes by the item that they name, oldest first; each page of an item asks."""
    hangar = reports.hangar
    logs = (hangar.store_log, *(one.log for one in hangar.aircraft.values()))
    found: dict[str, list[LogLine]] = {}
    for line in sorted((line for log in logs for line in log), key=lambda line: line.seq):
        if isinstance(line.stands, Note) and line.stands.item is not None:
            found.setdefault(line.stands.item, []).append(line)
    return found


def _of(line: LogLine) -> Iterator[Remarked]:
    entry = line.stands
    if entry is None or isinstance(entry, Defect | Incident):
        return  # a row, or the log, has these in full
    for words in _words(entry):
        yield Remarked(
            aircraft=entry.aircraft,
            tags=items_told_of(entry),
            on=entry.on,
            kind=str(type(entry).__struct_config__.tag),
            entry=entry.uid,
            words=" ".join(words.split()),
            place=entry.place(),
        )


def _speaks(entry: Plain) -> bool:
    """Whether it says anything of what it is about; most do not, and are passed over quickly."""
    return isinstance(entry, Defect) or bool(_words(entry))


def _words(entry: Plain) -> list[str]:
    told = [entry.words if isinstance(entry, Note) else None, entry.note]
    if isinstance(entry, Flight):
        told.append(entry.handling)
    if isinstance(entry, Inspection) and entry.result == "pass":
        told.append(entry.findings)
    return [words for words in told if words]


def current_repairs(whole: Whole, slug: str) -> tuple[RepairDone, ...]:
    """Oldest first. One that names parts lasts as long as one of them sits there; any other as
    long as the frame does, or for good where no frame is recorded."""
    hangar = whole.hangar
    aircraft = hangar.aircraft[slug]
    return tuple(
        done
        for done in aircraft.repairs
        if _stands(aircraft, done, [tag for tag in done.repair.touched if tag in hangar.items])
    )


def _stands(aircraft: AircraftNow, done: RepairDone, tags: list[str]) -> bool:
    since = {here.tag: here.since_seq for here in aircraft.items()}
    if not tags:
        frames = [here for here in aircraft.items() if here.kind == "frame"]
        return not frames or any(here.since_seq <= done.seq for here in frames)
    return any(tag in since and since[tag] <= done.seq for tag in tags)


def inoperative(whole: Whole, slug: str) -> tuple[DefectState, ...]:
    """Open defects of things that were taken out or put out of use, oldest first.

    One of a part goes where that part goes; where it was taken out of, it is missing.
    """
    hangar = whole.hangar
    found: dict[str, DefectState] = {}
    for state in hangar.aircraft[slug].defects:
        item = hangar.items.get(state.defect.item or "")
        elsewhere = item is not None and item.aircraft not in (slug, None)
        if state.defect.inoperative == "removed" or not elsewhere:
            found[state.uid] = state
    for here in hangar.aircraft[slug].items():
        item = hangar.items.get(here.tag)
        found.update((state.uid, state) for state in (item.defects if item else ()))
    waiting = (one for one in found.values() if one.open and one.defect.inoperative)
    return tuple(sorted(waiting, key=lambda one: (one.on, one.seq)))


_ORDER = (
    "defect",
    "limit",
    "pack",
    "missing part",
    "status",
    "look",
    "check",
    "check flight",
    "reserve",
)


def marked_flights(whole: Whole, slug: str) -> tuple[MarkedFlight, ...]:
    """By entry, in the order of the log; several rows of one entry are one."""
    found: dict[str, dict[Meanwhile, None]] = {}
    aircraft = whole.hangar.aircraft[slug]
    for flight, what in _all(whole, aircraft):
        found.setdefault(flight.uid, {})[what] = None
    order = {flight.uid: at for at, flight in enumerate(aircraft.flights)}
    return tuple(
        MarkedFlight(uid=uid, meanwhile=tuple(sorted(what, key=lambda one: _ORDER.index(one.kind))))
        for uid, what in sorted(found.items(), key=lambda one: order[one[0]])
    )


def _all(whole: Whole, aircraft: AircraftNow) -> Iterator[tuple[FlightDone, Meanwhile]]:
    from buildbook.upkeep.dangers.flown_while import all_stretches_of  # only logbooks ask
    from buildbook.upkeep.warnings.check_flights import unchecked

    programme = whole.programmes.named(aircraft.programme)
    for flight in aircraft.flights:
        then = aircraft.after(flight.seq)
        if then.grounding:
            yield flight, Meanwhile(kind="defect")
        if then.status in (*LEFT, "building"):
            yield flight, Meanwhile(kind="status", name=then.status)
        for tag in flight.packs_aside:
            yield flight, Meanwhile(kind="pack", name=tag)
    for row, flown in whole.past_limits:
        for flight in flown:
            if flight.aircraft == aircraft.slug:
                yield flight, Meanwhile(kind="limit", name=row.name, of=row.tag)
    for stretch in all_stretches_of(whole.hangar, whole.gathered.triggers, aircraft, programme):
        for flight in stretch.flights:
            yield flight, stretch.what
    yield from _into_reserve(whole, aircraft)
    for _, flown in unchecked(whole.hangar, aircraft, programme):
        for flight in flown:
            yield flight, Meanwhile(kind="check flight")


def _into_reserve(whole: Whole, aircraft: AircraftNow) -> Iterator[tuple[FlightDone, Meanwhile]]:
    items = whole.hangar.items
    for pack in (items[tag] for tag in aircraft.packs_flown if tag in items):
        for flight, _ in whole.gathered.into_reserve(pack).reached:
            if flight.aircraft == aircraft.slug:
                yield flight, Meanwhile(kind="reserve", name=pack.tag)
