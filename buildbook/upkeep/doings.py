"""Every doing of a set-up check, by whichever kind of entry, and what it was of."""

from typing import Literal, NamedTuple

from buildbook.records.programmes import CheckRule
from buildbook.report.history import FlightDone, Happened, TaskDone
from buildbook.report.state import AircraftNow, Fitted, Hangar, ItemNow
from buildbook.upkeep.triggers import sat_there

CHECK_FLIGHT = "check-flight"
WEIGHING = "weighing"
BALANCE_POINT = "balance-point"


class Doing(NamedTuple):
    """One time that a check was done, by whichever kind of entry."""

    what: Happened
    result: Literal["pass", "fail"]
    stations: tuple[str, ...] = ()
    by: str | None = None
    checked_by: str | None = None

    @property
    def seconded(self) -> bool:
        """Whether a second person looked at it."""
        return self.checked_by is not None and self.checked_by != self.by


class Spot(NamedTuple):
    """What one row of a check is about."""

    tag: str | None = None
    station: str | None = None
    item: ItemNow | None = None


def spots_of(hangar: Hangar, aircraft: AircraftNow, rule: CheckRule) -> list[Spot]:
    """What a check has a row for: the aircraft, its motor stations, or its items of a kind."""
    if rule.per is None:
        return [Spot()]
    if rule.per == "motor station":
        return [Spot(station=station) for station in aircraft.motor_stations]
    fitted = [here for here in aircraft.items() if here.kind == rule.per]
    order = {station: index for index, station in enumerate(aircraft.motor_stations)}

    def place(here: Fitted) -> tuple[int, str, str]:
        return order.get(here.station, len(order)), here.station, here.tag

    return [
        Spot(here.tag, here.station, hangar.items.get(here.tag))
        for here in sorted(fitted, key=place)
    ]


def doings_of(aircraft: AircraftNow) -> dict[str, list[Doing]]:
    """Every doing of every check, oldest first; a task of the same name counts as well."""
    found: dict[str, list[Doing]] = {}
    for check in aircraft.checks:
        found.setdefault(check.check, []).append(
            Doing(check, check.result, check.stations, check.by, check.checked_by)
        )
    for task in aircraft.inspections:
        if not task.tags and task.result != "not applicable":
            found.setdefault(task.task, []).append(_inspected(task))
    for flight in aircraft.flights:
        if flight.purpose == "check" and flight.result is not None:
            found.setdefault(CHECK_FLIGHT, []).append(Doing(flight, flight.result))
    for weighing in aircraft.weighings:
        found.setdefault(WEIGHING, []).append(Doing(weighing, "pass"))
        if weighing.cg_m is not None or weighing.scales_kg:
            found.setdefault(BALANCE_POINT, []).append(Doing(weighing, "pass"))
    for doings in found.values():
        doings.sort(key=lambda doing: doing.what.seq)
    return found


def _inspected(task: TaskDone) -> Doing:
    result: Literal["pass", "fail"] = "pass" if task.result == "pass" else "fail"
    return Doing(task, result, (), task.by, task.checked_by)


def covers(aircraft: AircraftNow, spot: Spot, doing: Doing) -> bool:
    """Whether a doing was of this station, or of the item where it sat at that moment."""
    if spot.item is not None:
        there = sat_there(spot.item, aircraft.slug, doing.what.seq)
        if there is None:
            return False
        served = aircraft.serves.get(spot.item.tag, ())
        return (
            not doing.stations
            or there in doing.stations
            or (bool(served) and set(served) <= set(doing.stations))
        )
    return spot.station is None or not doing.stations or spot.station in doing.stations


def check_flight_closed_by(flight: FlightDone) -> bool:
    """Whether a flight closes an open check flight."""
    return flight.purpose == "check" and flight.result == "pass"
