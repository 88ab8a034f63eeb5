"""Flights that were flown while something was open: each with what it was, the worst first.

Apart from the work list, which starts faster without.
"""

from collections.abc import Iterator

from buildbook.report.history import FlightDone
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.flown import MarkedFlight, Meanwhile
from buildbook.reporting.whole import Whole
from buildbook.upkeep.dangers.task_stretches import all_stretches_of
from buildbook.upkeep.warnings.check_flights import unchecked

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
    programme = whole.programmes.named(aircraft.programme)
    for flight in aircraft.flights:
        then = aircraft.after(flight.seq)
        if then.grounding:
            yield flight, Meanwhile(kind="defect")
        if then.status in ("retired", "sold", "building"):
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
