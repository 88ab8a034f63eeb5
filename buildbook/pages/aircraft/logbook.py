"""The logbook of an aircraft, and of what is on no aircraft: every entry, by month and day.

Newest day first, because the last thing that was done is asked for most often; within a day in
the order of the work, because a day's work is read as one story.
"""

from collections.abc import Container, Iterable, Mapping, Sequence
from typing import Any

from buildbook.basis import amounts
from buildbook.pages.addresses import PART_MARK, address_of
from buildbook.pages.aircraft.log_months import Amendment, Body, Grid, Pieces, Told, by_month
from buildbook.pages.aircraft.log_parts import address_of_part, month_places, parts_of_log
from buildbook.pages.aircraft.timeline_moments import moment_anchors
from buildbook.pages.linking import Linker
from buildbook.pages.page import Page, crumbs
from buildbook.records import entries
from buildbook.records.entries import AnyEntry
from buildbook.report.drawn.pictures import Picture
from buildbook.report.history import FlightDone, LogLine
from buildbook.report.milestones import milestones
from buildbook.report.reports import Reports
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.flown import MarkedFlight
from buildbook.words.logbook.entries import entry_kind, entry_line
from buildbook.words.logbook.entry_details import (
    details_of,
    flight_lines,
    gain_table,
    stations_of,
    tags_of,
)
from buildbook.words.logbook.stretches import meanwhile_words, milestone_words
from buildbook.words.names import sentence

LATE_DAYS = 30
"""An entry written later than this after the work says so."""


def store_keys(reports: Reports) -> Iterable[str]:
    """One, where something was written of items on no aircraft."""
    return ("",) if reports.hangar.store_log else ()


def page(reports: Reports, slug: str) -> Page:
    """The logbook of an aircraft, or the newest part of it."""
    return _page(reports, slug, "")


def earlier_page(reports: Reports, key: str) -> Page:
    """An older part of the logbook of an aircraft."""
    slug, _, part = key.partition(PART_MARK)
    return _page(reports, slug, part)


def _page(reports: Reports, slug: str, key: str) -> Page:
    aircraft = reports.hangar.aircraft[slug]
    name = aircraft.record.aircraft
    about = f"All entries of {name}, newest day first."
    facts, span = _part_facts(reports, slug, key, aircraft.log)
    title = f"Logbook of {name}"
    return Page(
        address=address_of_part(slug, key),
        template="logbook.html.j2",
        title=f"{title}, {span}" if key else title,
        crumbs=(
            *crumbs(reports, slug),
            *(((address_of("logbook", slug), "Logbook"),) if key else ()),
        ),
        facts={
            **facts,
            "as_it_was": _moments(reports, slug),
            "counters": aircraft.counters,
            "charging": False,
            "cautions_at": _cautions_at(aircraft.log),
        },
        about=f"Entries of {name} in {span}, newest day first." if span else about,
    )


def _moments(reports: Reports, slug: str) -> Mapping[str, str]:
    """Where it is told how the aircraft was after an entry; to others, of those that changed it."""
    anchors = moment_anchors(reports, slug)
    if not reports.is_public:
        return anchors
    first = {anchor: name for name, anchor in reversed([*anchors.items()])}
    return {name: anchor for anchor, name in first.items()}


def _part_facts(
    reports: Reports, slug: str | None, key: str, log: Sequence[LogLine]
) -> tuple[dict[str, Any], str]:
    """What the page of one part of a log shows, and what that part spans."""
    parts = parts_of_log(reports, slug)
    at = next(at for at, part in enumerate(parts) if part.key == key)
    part = parts[at]
    older, newer = parts[at + 1 : at + 2], parts[max(at - 1, 0) : at]
    flights: tuple[FlightDone, ...] = ()
    after: Mapping[str, str] = {}
    first: Mapping[str, str] = {}
    marks: Mapping[str, str] = {}
    spent: Container[str] = ()
    if slug:
        aircraft = reports.hangar.aircraft[slug]
        flights, after = aircraft.flights, _repairs_after(aircraft)
        first = first_marks(reports, slug)
        marks, spent = marks_of(reports, slug), _into_reserve(reports, slug)
    teller = _Teller(reports, log, flights, after, marks, spent)
    facts = {
        "slug": slug,
        "months": by_month(
            tuple(teller.tell(line) for line in part.lines),
            {*_cautions_at(log), *first} if reports.is_public else None,
        ),
        "month_places": month_places(parts, slug),
        "entries": len(log),
        "shown": len(part.lines),
        "span": part.words,
        "older": tuple((address_of_part(slug, one.key), one.words) for one in older),
        "newer": tuple((address_of_part(slug, one.key), one.words) for one in newer),
    }
    return facts, part.words


def told_of(reports: Reports, slug: str, uid: str) -> Told | None:
    """One entry of an aircraft's logbook; None where it was written later than the day shown."""
    aircraft = reports.hangar.aircraft[slug]
    line = next((line for line in aircraft.log if _uid(line.entry) == uid), None)
    if line is None:
        return None
    after, marks = _repairs_after(aircraft), marks_of(reports, slug)
    return _Teller(reports, aircraft.log, aircraft.flights, after, marks).tell(line)


def marks_of(reports: Reports, slug: str) -> Mapping[str, str]:
    """By uid of an entry of flights, what was open while they were flown."""
    return {one.uid: meanwhile_words(one.meanwhile) for one in reports.marked_flights(slug)}


def _into_reserve(reports: Reports, slug: str) -> frozenset[str]:
    """The names of the entries whose flights went into the reserve of a pack."""
    return frozenset(
        one.uid.removeprefix("#")
        for one in reports.marked_flights(slug)
        if any(what.kind == "reserve" for what in one.meanwhile)
    )


def first_marks(reports: Reports, slug: str) -> Mapping[str, str]:
    """Of flights one after the other with the same things open, the first with what they are."""
    marked = {one.uid: one for one in reports.marked_flights(slug)}
    found: dict[str, str] = {}
    last: MarkedFlight | None = None
    for line in reports.hangar.aircraft[slug].log:
        if not isinstance(line.stands, entries.Flight):
            continue
        this = marked.get(line.name)
        if this is not None and not (last is not None and this.is_like(last)):
            found[line.name] = meanwhile_words(this.meanwhile)
        last = this
    return found


def _repairs_after(aircraft: AircraftNow) -> Mapping[str, str]:
    """By the uid of a repair, the incident that it came after."""
    return {repair.uid: repair.after_uid for repair in aircraft.repairs if repair.after_uid}


def store_page(reports: Reports, _key: str) -> Page:
    """The log of what is on no aircraft, or the newest part of it."""
    return earlier_store_page(reports, "")


def earlier_store_page(reports: Reports, key: str) -> Page:
    """A part of the log of what is on no aircraft."""
    log = reports.hangar.store_log
    facts, span = _part_facts(reports, None, key, log)
    return Page(
        address=address_of_part(None, key),
        template="logbook.html.j2",
        title=f"Store log, {span}" if key else "Store log",
        crumbs=(
            *crumbs(reports),
            *(((address_of("store-log"), "Store log"),) if key else ()),
        ),
        facts={
            **facts,
            "as_it_was": {},
            "counters": None,
            "charging": any(
                isinstance(line.entry, entries.Charge | entries.Capacity) for line in log
            ),
            "cautions_at": {},
        },
        about="Charges, capacities and work on items that were on no aircraft.",
    )


def _cautions_at(log: Iterable[LogLine]) -> Mapping[str, str]:
    """Which caution stands at which entry: at the newest crash, and the newest repair after one."""
    cautions = {"incident": "SW4", "repair": "SW2"}
    newest = {
        kind: _uid(line.entry)
        for line in log
        if line.stands is not None and (kind := entry_kind(line.entry)) in cautions
    }
    return {uid: cautions[kind] for kind, uid in newest.items()}


class _Teller:
    """Tells the lines of one log."""

    def __init__(
        self,
        reports: Reports,
        log: Iterable[LogLine],
        flights: Iterable[FlightDone],
        after: Mapping[str, str],
        marks: Mapping[str, str],
        spent: Container[str] = (),
    ) -> None:
        self._reports = reports
        self._link = Linker(reports).pieces
        self._flown = {flight.uid: flight for flight in flights if flight.row_index == 0}
        self._lines = {_uid(line.entry): line for line in log}
        self._after = after
        self._marks = marks
        self._milestones: dict[str, str] = {}
        for name, milestone in milestones(self._lines.values(), spent):
            words = milestone_words(milestone)
            self._milestones[name] = (
                f"{self._milestones[name]}, {words.lower()}" if name in self._milestones else words
            )

    def tell(self, line: LogLine) -> Told:
        entry, stands = line.entry, line.stands
        uid = _uid(entry)
        amending = isinstance(entry, entries.Correction | entries.Void)
        first = self._body(entry, uid)
        now = first if amending else (self._body(stands, uid) if stands else None)
        changed = now != first
        counted = stands or entry
        return Told(
            uid=uid,
            kind=entry_kind(entry),
            on=entry.on,
            now=now,
            was=first if changed else None,
            gone=_missing(first, now) if changed and now else (),
            come=_missing(now, first) if changed and now else (),
            amendments=tuple(_amendment(word) for word in line.words_on),
            corrected_later=line.corrected_later,
            about=self._about(counted),
            note=self._link(counted.note or "") if amending or stands else (),
            note_was=self._link(_was(entry.note, stands.note if stands else None, amending) or ""),
            by=counted.by,
            by_was=_was(entry.by, counted.by, amending),
            checked_by=counted.checked_by,
            checked_by_was=_was(entry.checked_by, counted.checked_by, amending),
            time=entry.time,
            late_days=line.late_days if line.late_days > LATE_DAYS else 0,
            pictures=self._pictures(counted),
            meanwhile=self._marks.get(uid, "") if stands else "",
            milestone=self._milestones.get(uid, ""),
            total=_total(line),
            tags=tags_of(counted, self._reports.hangar.items),
            stations=stations_of(counted),
            line=line,
        )

    def _body(self, entry: AnyEntry, uid: str) -> Body:
        details = details_of(entry, self._reports.day, self._flown.get(uid))
        gains = gain_table(entry)
        return Body(
            kind=entry_kind(entry),
            line=self._link(sentence(entry_line(entry))),
            details=tuple((label, self._link(words)) for label, words in details),
            flights=tuple(self._link(line) for line in flight_lines(entry)),
            gains=Grid(*gains) if gains else None,
        )

    def _pictures(self, entry: AnyEntry) -> tuple[Picture, ...]:
        """Those of the entry that this audience may see."""
        named = ((entry.aircraft or "", photo) for photo in entry.photos)
        known = (self._reports.pictures.get(name) for name in named)
        return tuple(picture for picture in known if picture is not None)

    def _about(self, entry: AnyEntry) -> tuple[str, str] | None:
        target, words = None, ""
        match entry:
            case entries.Correction() | entries.Void():
                target, words = entry.original, "the entry"
            case entries.Cleared():
                target, words = entry.target, "the defect"
            case entries.Repair():
                target, words = self._after.get(_uid(entry)), "after the incident"
            case _:
                pass
        found = self._lines.get(target or "")
        if target is None or found is None:
            return None
        return f"{words} of {self._reports.day(found.entry.on)}", target


def _uid(entry: AnyEntry) -> str:
    """As the hangar names it; a projected entry has no file before its opaque name."""
    return entry.uid.removeprefix("#")


def _was(first: str | None, now: str | None, amending: bool) -> str | None:
    """What was first written, where something else stands now."""
    return first if not amending and first != now else None


def _missing(of: Body | None, elsewhere: Body | None) -> tuple[tuple[str, Pieces], ...]:
    """The details of one body that the other does not have."""
    if of is None or elsewhere is None:
        return ()
    return tuple(detail for detail in of.details if detail not in elsewhere.details)


def _amendment(word: entries.Correction | entries.Void) -> Amendment:
    return Amendment(
        verb="corrected" if isinstance(word, entries.Correction) else "voided",
        on=word.on,
        because=word.because,
        uid=_uid(word),
    )


def _total(line: LogLine) -> str:
    if not isinstance(line.stands, entries.Flight) or not line.total_flights:
        return ""
    return f"{amounts.hours(line.total_s)}, {amounts.count('flight', line.total_flights)}"
