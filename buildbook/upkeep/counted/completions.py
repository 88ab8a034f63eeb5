"""Every completion of a check or task, by aircraft and by item, whichever kind of entry did it."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from operator import attrgetter
from typing import NamedTuple

from buildbook.records.entries import Looked
from buildbook.records.programmes import CheckRule
from buildbook.records.readings import station_read, turn_read
from buildbook.records.row_names import (
    BALANCE_POINT,
    CHECK_FLIGHT,
    PACK_CAPACITY,
    PACK_LOOK,
    PACK_RESISTANCE,
    PACK_RESTING,
    START_SPREAD,
    WEIGHING,
)
from buildbook.records.surfaces import surfaces_named
from buildbook.report.history import Completion, FlightDone, Recorded
from buildbook.report.state import AircraftNow, Fitted, Hangar, ItemNow
from buildbook.report.upkeep.findings import FailedAs
from buildbook.upkeep.rows.triggers import sat_there

_SEQ = attrgetter("seq")


class CheckedStation(NamedTuple):
    """What one row of a check is about."""

    tag: str | None = None
    station: str | None = None
    item: ItemNow | None = None


def checked_stations(
    hangar: Hangar, aircraft: AircraftNow, rule: CheckRule
) -> list[CheckedStation]:
    """What a check has a row for: the aircraft, its motor stations or surfaces, or its items.

    Where no surface is recorded, one row speaks for all of them.
    """
    if rule.per is None:
        return [CheckedStation()]
    if rule.check == START_SPREAD and len(aircraft.motor_stations) < 2:
        return []  # one motor starts with no other
    if rule.per == "motor station":
        return [CheckedStation(station=station) for station in aircraft.motor_stations]
    if rule.per == "surface":
        surfaces = [CheckedStation(station=name) for name in aircraft.surfaces]
        return surfaces or [CheckedStation()]
    fitted = [here for here in aircraft.items() if here.kind == rule.per]
    order = {station: index for index, station in enumerate(aircraft.motor_stations)}

    def place(here: Fitted) -> tuple[int, str, str]:
        return order.get(here.station, len(order)), here.station, here.tag

    return [
        CheckedStation(here.tag, here.station, hangar.items.get(here.tag))
        for here in sorted(fitted, key=place)
    ]


def completed_by(what: Recorded, name: str, result: Looked = "pass") -> Completion:
    """An entry of another kind that counts as doing a check or task."""
    return Completion(
        seq=what.seq,
        on=what.on,
        uid=what.uid,
        place=what.place,
        name=name,
        by_entry="other",
        result=result,
    )


def checks_of(aircraft: AircraftNow) -> dict[str, list[Completion]]:
    """By check, oldest first; a task of the same name that named no item counts as well."""
    found: dict[str, list[Completion]] = {}
    for check in aircraft.checks:
        if check.cleared_on is None:
            found.setdefault(check.name, []).append(check)
    for task in aircraft.inspections:
        if not task.tags and task.result != "not applicable" and task.cleared_on is None:
            found.setdefault(task.name, []).append(task)
    for flight in aircraft.flights:
        if flight.purpose == "check" and flight.result is not None:
            done = completed_by(flight, CHECK_FLIGHT, flight.result)
            found.setdefault(CHECK_FLIGHT, []).append(done)
    for weighing in aircraft.weighings:
        found.setdefault(WEIGHING, []).append(completed_by(weighing, WEIGHING))
        if weighing.cg_m is not None or weighing.scales_kg:
            found.setdefault(BALANCE_POINT, []).append(completed_by(weighing, BALANCE_POINT))
    return _sorted(found)


def covers(aircraft: AircraftNow, of: CheckedStation, done: Completion) -> bool:
    """Whether it was done of this station, or of the item where it sat at that moment."""
    if of.item is not None:
        there = sat_there(of.item, aircraft.slug, done.seq)
        if there is None:
            return False
        if not _reads(aircraft, done, there):
            return False
        served = aircraft.serves.get(of.item.tag, ())
        return (
            not done.stations
            or there in done.stations
            or (bool(served) and set(served) <= set(done.stations))
        )
    if of.station is None or of.station in done.stations:
        return True
    if not done.stations:
        return _reads(aircraft, done, of.station)
    servos = aircraft.surfaces[of.station].servos if of.station in aircraft.surfaces else ()
    return any(here.tag in servos and here.station in done.stations for here in aircraft.items())


def _reads(aircraft: AircraftNow, done: Completion, station: str) -> bool:
    """Whether a pass that read some motors or surfaces read this one: it is of those alone."""
    if done.result != "pass" or done.stations or not done.readings:
        return True
    if station in aircraft.surfaces:
        read = {one for name in done.readings for one in surfaces_named(name, aircraft.surfaces)}
        return not read or station in read
    known = aircraft.motor_stations
    named = ((station_read(name, known), said) for name, said in done.readings.items())
    turned = {at for (at, rest), said in named if at and not rest and turn_read(said)}
    return not turned or station in turned or station not in known


def unflown(hangar: Hangar, aircraft: AircraftNow, done: Completion) -> bool:
    """Whether a check that is a flight was passed on a day without one, and its keeper is not sure.

    What was flown before these records began has no flight here.
    """
    if done.by_entry == "other" or done.result != "pass" or done.uid in hangar.sure:
        return False
    before = [flight for flight in aircraft.flights if flight.on <= done.on]
    if not before:
        return aircraft.record.carried is None
    return all(flight.on != done.on for flight in before)


def check_flight_closed_by(flight: FlightDone) -> bool:
    """Whether a flight closes an open check flight."""
    return flight.purpose == "check" and flight.result == "pass"


def tasks_of_aircraft(aircraft: AircraftNow) -> dict[str, list[Completion]]:
    """By task, oldest first; a check of the same name counts as well."""
    found = _looks(aircraft.inspections)
    for check in aircraft.checks:
        if check.stations or check.cleared_on is not None or check.result == "not applicable":
            continue
        found.setdefault(check.name, []).append(check)
    return _sorted(found)


def tasks_of_item(item: ItemNow) -> dict[str, list[Completion]]:
    """By task, oldest first. A pack's tasks are also done by its charges and measurements.

    A pack whose keeper wrote why it stays in service was looked at.
    """
    found = _looks(item.inspections)
    for capacity in item.capacities:
        found.setdefault(PACK_CAPACITY, []).append(completed_by(capacity, PACK_CAPACITY))
    for word in item.kept:
        found.setdefault(PACK_LOOK, []).append(completed_by(word, PACK_LOOK))
    for charge in item.charges:
        if charge.resistance_ohm:
            done = completed_by(charge, PACK_RESISTANCE)
            found.setdefault(PACK_RESISTANCE, []).append(done)
        if charge.resting_v:
            found.setdefault(PACK_RESTING, []).append(completed_by(charge, PACK_RESTING))
    return _sorted(found)


def checks_of_item(hangar: Hangar, item: ItemNow, names: Collection[str]) -> list[Completion]:
    """Checks of these names that were done while the item sat where they were done."""
    return [
        check
        for stay in item.stays
        for check in hangar.aircraft[stay.aircraft].checks
        if check.name in names
        and stay.reaches(check.seq)
        and (not check.stations or stay.station in check.stations)
    ]


def together(*lists: Sequence[Completion]) -> list[Completion]:
    """Completions of several kinds, oldest first, each entry once."""
    found = {done.seq: done for dones in lists for done in dones}
    return [found[seq] for seq in sorted(found)]


def passed(dones: Iterable[Completion]) -> list[Completion]:
    """Those that passed: a larger look that failed has a row of its own to say so."""
    return [done for done in dones if done.result == "pass"]


def _looks(inspections: Sequence[Completion]) -> dict[str, list[Completion]]:
    found: dict[str, list[Completion]] = defaultdict(list)
    for look in inspections:
        if look.result != "not applicable" and look.cleared_on is None:
            found[look.name].append(look)
    return found


def _sorted(found: dict[str, list[Completion]]) -> dict[str, list[Completion]]:
    for dones in found.values():
        dones.sort(key=_SEQ)
    return found


def failed_as(done: Completion) -> FailedAs:
    """What a look or check that failed found and read."""
    return FailedAs(findings=done.findings, readings=tuple(sorted(done.readings.items())))
