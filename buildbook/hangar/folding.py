"""The fold at work: where in the log it is, and what the entries so far have made of the hangar."""

import datetime
from collections.abc import Iterator
from typing import Any, NamedTuple

import msgspec

from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems, Severity
from buildbook.hangar.builders import AircraftBuilder, ItemBuilder, first_of
from buildbook.records.entries import AnyEntry, Entry, Incident, Plain
from buildbook.records.ledger import Ledger
from buildbook.records.parts import ItemState
from buildbook.report.history import DefectState, LogLine, StateSince
from buildbook.report.packs.pack_history import AsideWhy, Release


class Objections:
    """A growing list of contradictions.

    Two objections repeat each other when they are about the same aircraft and have the same
    ``again``, which names the contradiction without its day.
    """

    def __init__(self) -> None:
        self._first: dict[tuple[str | None, str], Problem] = {}
        self._counts: dict[tuple[str | None, str], int] = {}

    def object(
        self,
        reason: str,
        place: Place,
        *,
        again: str | None = None,
        severity: Severity = "problem",
        hint: str | None = None,
        also: tuple[Place, ...] = (),
        about: str | None = None,
        of_standing: bool = False,
    ) -> None:
        """Note one; ``again`` defaults to the reason itself."""
        key = (about, again or reason)
        self._counts[key] = self._counts.get(key, 0) + 1
        if key not in self._first:
            self._first[key] = Problem(
                reason, place, severity, hint, also, about, of_standing=of_standing
            )

    def __iter__(self) -> Iterator[Problem]:
        """All of them, sorted by place, each with its count where it came more than once."""
        found = Problems(
            problem
            if self._counts[key] == 1
            else msgspec.structs.replace(
                problem,
                reason=f"{problem.reason}, {self._counts[key]} times in all",
                once=problem.reason,
            )
            for key, problem in self._first.items()
        )
        return iter(found)


class Position(msgspec.Struct, frozen=True):
    """Where in the log the fold is; ``uid`` is that of the entry as first written."""

    sequence: int
    day: datetime.date
    time: str | None
    uid: str
    place: Place
    log: str

    def stamp(self, place: Place | None = None) -> dict[str, Any]:
        """What every record of the history carries; ``place``: where it isn't the entry's own.

        Flights, charges and looks, of which there are thousands, name the four: out of a mapping
        CPython takes thirty times as long over them.
        """
        return {
            "seq": self.sequence,
            "on": self.day,
            "uid": self.uid,
            "place": self.place if place is None else place,
        }


class BadLanding(NamedTuple):
    """A landing that was none of the good ones: which row of which flight entry."""

    entry_uid: str
    row_index: int


class Struck(NamedTuple):
    """What happened to an aircraft before a flight of that day was written."""

    why: AsideWhy
    release: Release
    because: str | None
    at: Position
    sure: bool


BEFORE = Position(-1, datetime.date.min, None, "", Place("", 0), "")
"""Before the first entry."""


class Fold:
    """The whole hangar so far, and the position of the entry that is being folded.

    incident_after: the incident that a bad landing was written up in, and its uid.
    landing_of: that landing, by the uid of the incident.
    altered: the aircraft, by slug, that changed since their last snapshot.
    struck: what hit an aircraft on a day before any flight of it was told (``packs.aside``).
    unnamed: what hit it on a flight that names no pack.
    between: charges, by uid and pack, that may stand between flights of their day (``pack_days``).
    """

    def __init__(self, ledger: Ledger, between: frozenset[tuple[str, str]] = frozenset()) -> None:
        self.ledger = ledger
        self.between = between
        self.at = BEFORE
        self.sure = False
        self.said_sure: set[str] = set()
        self.items = {
            tag: ItemBuilder(tag, item, ledger.specs[item.spec])
            for tag, item in ledger.items.items()
            if item.spec in ledger.specs
        }
        self.aircraft = {slug: first_of(record) for slug, record in ledger.aircraft.items()}
        self.objections = Objections()
        self.defects: dict[str, DefectState] = {}
        self.incident_after: dict[BadLanding, tuple[str, Incident]] = {}
        self.landing_of: dict[str, BadLanding] = {}
        self.store_log: list[LogLine] = []
        self.struck: dict[tuple[str, datetime.date], list[Struck]] = {}
        self.unnamed: list[tuple[str, Struck]] = []
        self.altered: dict[str, AircraftBuilder] = {}

    def go_to(self, sequence: int, entry: AnyEntry, stands: Plain) -> None:
        """Take up the next entry; ``stands``: what counts of it."""
        place = Place(stands.file, stands.line)
        self.at = Position(sequence, stands.on, stands.time, entry.uid, place, entry.log)
        self.sure = stands.sure
        if stands.sure:
            self.said_sure.add(entry.uid)

    def aircraft_of(self, entry: Entry) -> AircraftBuilder | None:
        """The aircraft whose logbook the entry stands in."""
        return self.aircraft.get(entry.aircraft or "")

    def item_used(self, tag: str, place: Place, about: str | None) -> ItemBuilder | None:
        """The item of that tag, for an entry that uses it; None where there is none.

        An unknown tag is the reader's to report.
        """
        item = self.items.get(tag)
        if item is None:
            return None
        acquired = item.item.acquired
        if acquired is not None and self.at.day < acquired:
            self.objections.object(
                f"{item.words} used on {self.at.day}, before it was acquired on {acquired}",
                place,
                again=f"{tag} before acquired",
                also=(item.item.place("acquired"),),
                about=about,
            )
        return item

    def object_to_state(
        self,
        item: ItemBuilder,
        done: str,
        place: Place,
        about: str | None,
        *,
        severity: Severity = "problem",
        again: str | None = None,
    ) -> None:
        """Object to what was done with an item although it is out of service.

        again: the same without its day, where repeats of it are one line.
        """
        state = item.state
        though = f"though {state.state} since {state.on}"
        self.objections.object(
            f"{item.words} {done} {though}",
            place,
            again=None if again is None else f"{item.tag} {again} {though}",
            severity=severity,
            also=() if state.place is None else (state.place,),
            about=about,
        )

    def put_in_state(
        self, item: ItemBuilder, state: ItemState, place: Place, because: str | None
    ) -> None:
        """From here on the item is in that state; the same state again changes nothing."""
        if item.state.state != state:
            item.aside_log = None
            item.state = StateSince(state=state, on=self.at.day, place=place, because=because)
            self.changed(item.aircraft)

    def changed(self, slug: str | None) -> None:
        """Note that an aircraft is no more as its last snapshot has it."""
        if slug is not None:
            self.altered[slug] = self.aircraft[slug]

    def write_first_snapshots(self) -> None:
        """Write down what ``aircraft.yaml`` says of each, before any entry."""
        for aircraft in self.aircraft.values():
            aircraft.write_snapshot(self.at.sequence, self.items)

    def write_snapshots(self) -> None:
        """Write down how every aircraft is that this entry has changed."""
        for aircraft in self.altered.values():
            aircraft.write_snapshot(self.at.sequence, self.items)
        self.altered.clear()
