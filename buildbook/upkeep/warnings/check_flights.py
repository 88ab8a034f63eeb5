"""Flights that were made while a check flight was open: a warning on each of them."""

from buildbook.basis import amounts
from buildbook.basis.problems import Problem
from buildbook.records.programmes import CheckRule
from buildbook.report.history import Event, FlightDone
from buildbook.report.state import AircraftNow, Hangar
from buildbook.upkeep.counted.completions import CHECK_FLIGHT, check_flight_closed_by
from buildbook.upkeep.programmes.programme import resolve
from buildbook.upkeep.rows.triggers import matches

Unchecked = tuple[Event, list[FlightDone]]
"""What asked for a check flight, and the flights that were none before it."""


def flown_unchecked(hangar: Hangar) -> tuple[Problem, ...]:
    """One warning for each time: on the first flight that was no check flight, with the count."""
    return tuple(
        _problem(hangar.aircraft[slug], opened, flown)
        for slug in sorted(hangar.aircraft)
        for opened, flown in unchecked(hangar, hangar.aircraft[slug])
    )


def unchecked(hangar: Hangar, aircraft: AircraftNow) -> list[Unchecked]:
    """Each event that asked for a check flight, with the other flights before it was flown."""
    programme = resolve(hangar.ledger.programmes, aircraft.programme or "", as_of=hangar.as_of)
    rules = [] if programme is None else [one.rule for one in programme.checks]
    rule = next((one for one in rules if one.check == CHECK_FLIGHT), None)
    spans = [] if rule is None else _spans(aircraft, rule)
    return [(opened, flown) for opened, flown in spans if opened is not None and flown]


def _spans(aircraft: AircraftNow, rule: CheckRule) -> list[tuple[Event | None, list[FlightDone]]]:
    """Walk the log once: events that ask for a check flight, flights, and what closes it."""
    asks = [
        event
        for event in aircraft.events
        if any(matches(trigger, event) for trigger in rule.stale_after)
    ]
    closing = [done.seq for done in aircraft.checks if done.name == rule.check]
    marks: list[tuple[int, int, Event | FlightDone | None]] = [
        *((flight.seq, 0, flight) for flight in aircraft.flights),
        *((event.seq, 1, event) for event in asks),
        *((seq, 2, None) for seq in closing),
    ]
    found: list[tuple[Event | None, list[FlightDone]]] = []
    opened: Event | None = None
    flown: list[FlightDone] = []
    for _, _, mark in sorted(marks, key=lambda one: one[:2]):
        if isinstance(mark, Event):
            opened = opened or mark
        elif mark is None or check_flight_closed_by(mark):
            found.append((opened, flown))
            opened, flown = None, []
        elif opened is not None and mark.purpose != "check":
            flown.append(mark)
    return [*found, (opened, flown)]


def _problem(aircraft: AircraftNow, opened: Event, flown: list[FlightDone]) -> Problem:
    more = len(flown) - 1
    times = f", and {amounts.count('time', more).replace(' ', ' more ')}" if more else ""
    subject = f" {opened.subject}" if opened.subject else ""
    return Problem(
        f"{aircraft.slug} flown on {flown[0].on} before the check flight asked for by"
        f" {opened.event}{subject} of {opened.on}{times}",
        flown[0].place,
        "warning",
        "write purpose: check and result: pass on the flight that was the check flight",
        (opened.place,),
        aircraft.slug,
    )
