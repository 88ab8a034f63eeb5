"""Readings and figures that ask for a look: each opens a task named for what to look at.

A signal is closed by a better reading, or by an inspection of that name after it. A drift is
still there on the next flight, so it keeps quiet for a while once somebody looked.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from buildbook.figures.answers.log.drift import Signal as Figured
from buildbook.figures.answers.log.drift import signals_of_aircraft, signals_of_pack
from buildbook.records.programmes import LimitRule
from buildbook.records.row_names import (
    AIRCRAFT_DRIFT,
    END_OF_LIFE,
    ODD_CELL,
    PACK_CAPACITY,
    PACK_DRIFT,
    WEIGHING,
)
from buildbook.report.history import Completion, FlightDone, Recorded
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.findings import Finding, MassComputed
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.context import Subject
from buildbook.upkeep.rows.tasks import found_task
from buildbook.upkeep.rows.weighing import unweighed

QUIET_FLIGHTS = 15
"""So many flights after a look a drift asks for another one. Common practice, no source."""

DRIFTS = (AIRCRAFT_DRIFT, PACK_DRIFT)
_NAMED: Mapping[str, str] = {PACK_CAPACITY: END_OF_LIFE}
"""Signals that are called otherwise here: a task of their name counts intervals."""

LOOK_AT: Mapping[str, str] = {
    AIRCRAFT_DRIFT: "Look at propellers, motors, balance, and anything that was added.",
    ODD_CELL: "Measure that cell at rest and under load.",
    PACK_DRIFT: "Look at the pack, its plug and its leads.",
    END_OF_LIFE: "Measure its capacity again, then decide whether to retire it.",
    WEIGHING: "Weigh it ready to fly, with the pack in place but unplugged.",
}
"""What each one asks for, by the name of the task that it opens."""


class Signal(NamedTuple):
    """What was seen, and where."""

    name: str
    seen: Recorded
    found: Finding


def aircraft_signals(hangar: Hangar, aircraft: AircraftNow, rows: Iterable[Row]) -> Iterator[Row]:
    """A row for each signal of an aircraft that stands. rows: those that it has already."""
    subject = Subject(aircraft.slug, None, None, aircraft.record.place())
    found = [_figured(signal) for signal in signals_of_aircraft(hangar, aircraft.slug)]
    if not any(row.name == WEIGHING for row in rows):
        found += _unweighed(hangar, aircraft)
    for signal in found:
        if not _looked_at(signal, aircraft.inspections, aircraft.flights):
            yield _row(signal, subject)


def pack_signals(hangar: Hangar, pack: ItemNow, rows: Iterable[Row]) -> Iterator[Row]:
    """A row for each signal of a pack that stands. rows: those that it has already."""
    subject = Subject(None, pack.tag, None, pack.item.place())
    limited = any(isinstance(row.rule, LimitRule) and row.rule.capacity_share for row in rows)
    found = [*map(_figured, signals_of_pack(hangar, pack.tag))]
    for signal in found:
        if signal.name == END_OF_LIFE and limited:
            continue  # its life limit says so
        if not _looked_at(signal, pack.inspections, pack.flights):
            yield _row(signal, subject)


def _figured(signal: Figured) -> Signal:
    name = _NAMED.get(signal.task, signal.task)
    return Signal(name, signal.entry, signal.found)


def _unweighed(hangar: Hangar, aircraft: AircraftNow) -> list[Signal]:
    """Where no programme asks for a weighing: changes of mass that no scales have confirmed."""
    if not aircraft.weighings:
        return []
    weighed = aircraft.weighings[-1]
    change = unweighed(hangar, aircraft, weighed)
    if change is None:
        return []
    found = MassComputed(change_kg=change.mass_kg, weighed_on=weighed.on)
    seen = Recorded(seq=weighed.seq, on=change.on, uid=change.uid, place=change.place)
    return [Signal(WEIGHING, seen, found)]


def _looked_at(signal: Signal, looks: Iterable[Completion], flights: Iterable[FlightDone]) -> bool:
    """Whether somebody looked since; a drift was seen before that as well. Only scales weigh."""
    last = max((look.seq for look in looks if look.name == signal.name), default=-1)
    if signal.name in DRIFTS and last >= 0:
        return sum(flight.seq > last for flight in flights) < QUIET_FLIGHTS
    return signal.name != WEIGHING and last > signal.seen.seq


def _row(signal: Signal, subject: Subject) -> Row:
    seen = signal.seen
    because = Because(why="signal", tag=subject.tag, found=signal.found).by(seen)
    return found_task(
        subject.aircraft,
        signal.name,
        because,
        seen.place,
        what=LOOK_AT[signal.name],
        each="aircraft" if subject.tag is None else "battery",
    )
