"""Flights that were flown while something was open: each with what it was, the worst first."""

from collections.abc import Iterable, Iterator

from buildbook.report.history import FlightDone
from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep.flown import MarkedFlight, Meanwhile
from buildbook.report.upkeep.programme import Resolved
from buildbook.upkeep.dangers.task_stretches import all_stretches_of
from buildbook.upkeep.programmes.by_name import Programmes
from buildbook.upkeep.rows.triggers import Triggers
from buildbook.upkeep.warnings.check_flights import unchecked
from buildbook.upkeep.warnings.past_limits import PastLimit

_ORDER = ("defect", "limit", "pack", "missing part", "status", "look", "check", "check flight")


def marked_flights(
    hangar: Hangar,
    past: Iterable[PastLimit],
    triggers: Triggers,
    programmes: Programmes,
    aircraft: AircraftNow,
) -> tuple[MarkedFlight, ...]:
    """By entry, in the order of the log; several rows of one entry are one.

    past, triggers, programmes: of the whole hangar, on its day.
    """
    found: dict[str, dict[Meanwhile, None]] = {}
    programme = programmes.named(aircraft.programme)
    for flight, what in _all(hangar, past, triggers, programme, aircraft):
        found.setdefault(flight.uid, {})[what] = None
    order = {flight.uid: at for at, flight in enumerate(aircraft.flights)}
    return tuple(
        MarkedFlight(uid=uid, meanwhile=tuple(sorted(what, key=lambda one: _ORDER.index(one.kind))))
        for uid, what in sorted(found.items(), key=lambda one: order[one[0]])
    )


def _all(
    hangar: Hangar,
    past: Iterable[PastLimit],
    triggers: Triggers,
    programme: Resolved | None,
    aircraft: AircraftNow,
) -> Iterator[tuple[FlightDone, Meanwhile]]:
    for flight in aircraft.flights:
        then = aircraft.after(flight.seq)
        if then.grounding:
            yield flight, Meanwhile(kind="defect")
        if then.status in ("retired", "sold", "building"):
            yield flight, Meanwhile(kind="status", name=then.status)
        for tag in flight.packs_aside:
            yield flight, Meanwhile(kind="pack", name=tag)
    for row, flown in past:
        for flight in flown:
            if flight.aircraft == aircraft.slug:
                yield flight, Meanwhile(kind="limit", name=row.name, of=row.tag)
    for stretch in all_stretches_of(hangar, triggers, aircraft, programme):
        for flight in stretch.flights:
            yield flight, stretch.what
    for _, flown in unchecked(aircraft, programme):
        for flight in flown:
            yield flight, Meanwhile(kind="check flight")
