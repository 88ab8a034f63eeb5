"""Warnings of flights while a check flight was open, and of check flights that nobody flew."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from operator import attrgetter

from buildbook.basis import amounts
from buildbook.basis.problems import Problem, either
from buildbook.records.aircraft import LEFT
from buildbook.records.programmes import CheckRule
from buildbook.records.row_names import CHECK_FLIGHT
from buildbook.report.history import Event, FlightDone
from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep.programme import Resolved
from buildbook.upkeep.counted.completions import check_flight_closed_by, unflown
from buildbook.upkeep.programme import Programmes
from buildbook.upkeep.rows.triggers import matches

_AS_CHECK = either("purpose: check and result: pass", "--purpose check --result pass")
_SEQ, _FLOWN_AT = attrgetter("seq"), attrgetter("seq", "row_index")
_WHOLE_ENTRY = 2**31
_NEVER = (2**62, 0)

Unchecked = tuple[Event, list[FlightDone]]
"""What asked for a check flight, and the flights that were none before it."""


def flown_unchecked(
    hangar: Hangar, programmes: Programmes, each: bool = False
) -> tuple[Problem, ...]:
    """One warning for each time: on the first flight that was no check flight, with the count.

    each: one for each such flight.
    """
    return tuple(
        _problem(aircraft, opened, told)
        for _, aircraft in sorted(hangar.aircraft.items())
        for opened, flown in unchecked(hangar, aircraft, programmes.named(aircraft.programme))
        for told in ([[flight] for flight in flown] if each else [flown])
    )


def never_flown(hangar: Hangar, programmes: Programmes) -> Iterator[Problem]:
    """The last pass of each check that is a flight, on a day on which that aircraft has none."""
    for slug, aircraft in sorted(hangar.aircraft.items()):
        programme = programmes.named(aircraft.programme)
        if programme is None or aircraft.status in LEFT:
            continue
        flights = {one.rule.check for one in programme.checks if one.rule.stage == "flight"}
        last = {done.name: done for done in aircraft.checks if done.name in flights}
        flown = (flight.seq for flight in aircraft.flights if check_flight_closed_by(flight))
        flown_seq = max(flown, default=-1)
        for name, done in last.items():
            if unflown(hangar, aircraft, done) and not (
                name == CHECK_FLIGHT and flown_seq > done.seq
            ):
                yield Problem(
                    f"{name} of {slug} passed on {done.on}, a day without a flight of it",
                    done.place,
                    "warning",
                    f"write the flight, with {_AS_CHECK}; until then it is open",
                    (),
                    slug,
                )


def unchecked(
    hangar: Hangar, aircraft: AircraftNow, programme: Resolved | None
) -> Iterator[Unchecked]:
    """Each event that asked for a check flight, with the other flights before it was flown.

    programme: that of the aircraft.
    """
    return _spans(hangar, aircraft, _rule(programme))


def _rule(programme: Resolved | None) -> CheckRule | None:
    rules = () if programme is None else (one.rule for one in programme.checks)
    return next((one for one in rules if one.check == CHECK_FLIGHT), None)


def _spans(hangar: Hangar, aircraft: AircraftNow, rule: CheckRule | None) -> Iterator[Unchecked]:
    """From each event that asks for a check flight to what closes it, where others were flown."""
    if rule is None:
        return
    asks = [
        event
        for event in aircraft.events
        if any(matches(trigger, event) for trigger in rule.stale_after)
    ]
    if not asks:
        return
    flights = aircraft.flights
    # At one place of the log a flight comes first, then what asks, then a check.
    closing = [(flight.seq, 0) for flight in flights if check_flight_closed_by(flight)]
    closing += [
        (done.seq, 2)
        for done in aircraft.checks
        if done.name == rule.check and not unflown(hangar, aircraft, done)
    ]
    closing.sort()
    closed = (-1, 0)
    for event in asks:
        if (event.seq, 1) < closed:
            continue
        at = bisect_right(closing, (event.seq, 1))
        closed = closing[at] if at < len(closing) else _NEVER
        row = _WHOLE_ENTRY if event.row_index is None else event.row_index
        begin = bisect_right(flights, (event.seq, row), key=_FLOWN_AT)
        end = (bisect_right if closed[1] else bisect_left)(flights, closed[0], key=_SEQ)
        flown = [flight for flight in flights[begin:end] if flight.purpose != "check"]
        if flown:
            yield event, flown


def _problem(aircraft: AircraftNow, opened: Event, flown: list[FlightDone]) -> Problem:
    more = len(flown) - 1
    times = f", and {amounts.count('time', more).replace(' ', ' more ')}" if more else ""
    subject = f" {opened.subject}" if opened.subject else ""
    reason = (
        f"{aircraft.slug} flown on {flown[0].on} before the check flight asked for by"
        f" {opened.event}{subject} of {opened.on}"
    )
    return Problem(
        f"{reason}{times}",
        flown[0].place,
        "warning",
        f"write {_AS_CHECK} on the flight that was the check flight",
        () if opened.place == flown[0].place else (opened.place,),
        aircraft.slug,
        once=reason,
    )
