"""Flown while something that grounds was open, stored, or without a part: one warning a stretch.

A flight is judged by what was written by then. A check that was never done counts from the first
check entry of that aircraft: before it nobody kept such records.
"""

import datetime
from collections.abc import Callable, Iterable, Iterator
from operator import itemgetter
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.records.programmes import CheckRule
from buildbook.report.history import Event, FlightDone
from buildbook.report.state import AircraftNow, Hangar
from buildbook.upkeep.counted.completions import CHECK_FLIGHT, CheckedStation, checks_of, covers
from buildbook.upkeep.programmes.programme import resolve
from buildbook.upkeep.rows.triggers import Triggers, matches

TOLD_DAYS = 90
"""Stretches that ended so long ago or longer are told as one count."""

Mark = tuple[int, int, FlightDone | bool]
"""Where in the log, what goes first there, and a flight, or whether it is open from there on."""


class Stretch(NamedTuple):
    """Flights of an aircraft, first to last, while one thing was open. ``place``: the first."""

    aircraft: str
    what: str
    flights: int
    first: datetime.date
    last: datetime.date
    place: Place


def stretches(hangar: Hangar) -> tuple[Stretch, ...]:
    """All of them, by aircraft, then in the order of the programme."""
    triggers = Triggers(hangar)
    found: list[Stretch] = []
    for slug in sorted(hangar.aircraft):
        aircraft = hangar.aircraft[slug]
        if not aircraft.flights:
            continue
        programme = resolve(hangar.ledger.programmes, aircraft.programme or "")
        rules = [] if programme is None else [one.rule for one in programme.checks]
        for rule in rules:
            if rule.grounds and rule.check != CHECK_FLIGHT:
                found += _of_check(triggers, aircraft, rule)
        found += _of_snapshots(aircraft, "missing a part", _lacks)
        found += _of_snapshots(aircraft, "stored", _stored)
    return tuple(found)


def flown_while(hangar: Hangar) -> Iterator[Problem]:
    """A warning for each that ended of late, and one that counts the others."""
    since = hangar.as_of - datetime.timedelta(days=TOLD_DAYS)
    found = stretches(hangar)
    yield from (_problem(one) for one in found if one.last >= since)
    earlier = [one for one in found if one.last < since]
    if earlier:
        times = "once" if len(earlier) == 1 else f"{len(earlier)} times"
        yield Problem(
            f"{times} before {since} it was flown while something that grounds was open",
            earlier[-1].place,
            "warning",
            "check --all lists them",
        )


def flown_while_earlier(hangar: Hangar) -> tuple[Problem, ...]:
    """A warning for each that ``flown_while`` only counts."""
    since = hangar.as_of - datetime.timedelta(days=TOLD_DAYS)
    return tuple(_problem(one) for one in stretches(hangar) if one.last < since)


def _problem(one: Stretch) -> Problem:
    times = amounts.count("time", one.flights)
    when = f"on {one.first}" if one.first == one.last else f"{one.first} to {one.last}"
    return Problem(
        f"{one.aircraft} flown {times} while {one.what}, {when}",
        one.place,
        "warning",
        None,
        (),
        one.aircraft,
    )


def _of_check(triggers: Triggers, aircraft: AircraftNow, rule: CheckRule) -> Iterator[Stretch]:
    """By station where the check goes by it; those that were open alike are one stretch."""
    every = rule.per == "motor station"
    of = aircraft.motor_stations if every else (None,)
    if rule.per not in (None, "motor station"):
        return
    done = checks_of(aircraft).get(rule.check, [])
    first = min((check.seq for check in aircraft.checks), default=None)
    asks = [
        (event, triggers.reach(aircraft, event))
        for event in aircraft.events
        if any(matches(trigger, event) for trigger in rule.stale_after)
    ]
    seen: set[tuple[datetime.date, datetime.date, int]] = set()
    for station in of:
        marks: list[Mark] = [(flight.seq, 0, flight) for flight in aircraft.flights]
        if first is not None:
            marks.append((first, 1, True))
        marks += [
            (event.seq, 2, True)
            for event, reach in asks
            if _counts(event, first) and (station is None or reach is None or station in reach)
        ]
        marks += [
            (one.seq, 3, one.result != "pass")
            for one in done
            if covers(aircraft, CheckedStation(station=station), one)
        ]
        what = f"{rule.check}{f' of {station}' if station else ''} was open"
        for stretch in _walked(aircraft, what, marks):
            key = (stretch.first, stretch.last, stretch.flights)
            if key not in seen:
                seen.add(key)
                yield stretch


def _counts(event: Event, first: int | None) -> bool:
    return first is not None and event.seq >= first


def _of_snapshots(
    aircraft: AircraftNow, what: str, wrong: Callable[[AircraftNow, int], bool]
) -> Iterator[Stretch]:
    marks: list[Mark] = []
    wrong_after: dict[int, bool] = {}  # by snapshot: nothing changes between two of them
    for flight in aircraft.flights:
        snapshot = aircraft.after(flight.seq).seq
        if snapshot not in wrong_after:
            wrong_after[snapshot] = wrong(aircraft, flight.seq)
        marks += [(flight.seq, 0, wrong_after[snapshot]), (flight.seq, 1, flight)]
    yield from _walked(aircraft, what, marks)


def _stored(aircraft: AircraftNow, seq: int) -> bool:
    return aircraft.after(seq).status == "stored"


def _lacks(aircraft: AircraftNow, seq: int) -> bool:
    """Whether a motor station, or the aircraft, lacked what was recorded on it before then."""
    then = aircraft.after(seq)
    fitted = then.fitted
    known = {one.subject for one in aircraft.events if one.event == "fit" and one.seq <= seq}
    here = {kind for (_, kind), tags in fitted.items() if tags}
    once = {"frame", "receiver"} | (
        {"controller"} if aircraft.record.kind == "multirotor" else set()
    )
    servos = {tag for (_, kind), tags in fitted.items() if kind == "servo" for tag in tags}
    if any(not servos.issuperset(surface.servos) for surface in then.surfaces.values()):
        return True
    return bool((once & known) - here) or any(
        kind in known and not fitted.get((station, kind))
        for station in aircraft.motor_stations
        for kind in ("motor", "propeller")
    )


def _walked(aircraft: AircraftNow, what: str, marks: Iterable[Mark]) -> Iterator[Stretch]:
    """Walk the log once; a stretch ends where what was open is closed."""
    open_, flown = False, list[FlightDone]()
    for _, _, mark in sorted(marks, key=itemgetter(0, 1)):
        if not isinstance(mark, bool):
            flown += [mark] if open_ else []
            continue
        if open_ and not mark and flown:
            yield _stretch(aircraft, what, flown)
            flown = []
        open_ = mark
    if flown:
        yield _stretch(aircraft, what, flown)


def _stretch(aircraft: AircraftNow, what: str, flown: list[FlightDone]) -> Stretch:
    first, last = flown[0], flown[-1]
    return Stretch(aircraft.slug, what, len(flown), first.on, last.on, first.place)
