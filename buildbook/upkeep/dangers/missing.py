"""Parts without which an aircraft cannot be controlled, and that came out and were not replaced.

What was never recorded on an aircraft is not recorded, said once, and grounds nothing.
"""

from collections.abc import Iterator

from buildbook.basis.place import Place
from buildbook.records.aircraft import Surface
from buildbook.records.parts import DRIVE
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import NotFitted
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.rows import Ask, danger_row

MISSING_PARTS = "missing-parts"

"""What every motor station must carry."""

_ONCE = ("frame", "receiver")
"""What every aircraft must carry; a multirotor its controller too."""

_ASK = Ask(name=MISSING_PARTS, what="Unplug the pack. Fit what is missing, and record it with fit.")


def missing_rows(aircraft: AircraftNow) -> Iterator[Row]:
    """A grounding row for each station, and one for the aircraft, that lacks what it had."""
    known = _ever_fitted(aircraft)
    central = central_esc(aircraft)
    for station in aircraft.motor_stations:
        lacks = [
            kind
            for kind in DRIVE
            if kind in known
            and aircraft.at(station, kind) is None
            and not (kind == "esc" and central)
        ]
        if lacks:
            yield _row(aircraft, lacks, station, _emptied(aircraft, station))
    once = (*_ONCE, "controller") if aircraft.record.kind == "multirotor" else _ONCE
    fitted = {here.kind for here in aircraft.items()}
    lacks = [kind for kind in once if kind in known and kind not in fitted]
    if lacks:
        yield _row(aircraft, lacks, None, _removed(aircraft, once))
    seated = {here.tag for here in aircraft.items()}
    for name, surface in aircraft.surfaces.items():
        if not seated.issuperset(surface.servos):
            yield _row(aircraft, ["servo"], name, _unseated(aircraft, name, surface))
    unknown = [kind for kind in DRIVE if kind not in known]
    if unknown and aircraft.motor_stations:
        yield _not_recorded(aircraft, unknown)


def central_esc(aircraft: AircraftNow) -> bool:
    """Whether an ESC sits at no motor station and names none: it may drive any of them."""
    return any(
        here.kind == "esc"
        and here.station not in aircraft.motor_stations
        and not aircraft.serves.get(here.tag)
        for here in aircraft.items()
    )


def _ever_fitted(aircraft: AircraftNow) -> frozenset[str]:
    """The kinds that were ever recorded on this aircraft."""
    return frozenset(event.subject or "" for event in aircraft.events if event.event == "fit")


def _row(aircraft: AircraftNow, lacks: list[str], station: str | None, place: Place) -> Row:
    because = Because(
        why="empty station" if station else "missing part",
        place=place,
        station=station,
        found=NotFitted(kinds=tuple(lacks)),
    )
    return danger_row(aircraft, _ASK, because, place, grounds=True, rank=ranks.EMPTY_STATION)


def _not_recorded(aircraft: AircraftNow, unknown: list[str]) -> Row:
    place = aircraft.record.place()
    because = Because(
        why="missing part", place=place, found=NotFitted(kinds=tuple(unknown), recorded=False)
    )
    return danger_row(
        aircraft,
        Ask(name="parts-recorded", what="Record what is fitted with fit."),
        because,
        place,
        grounds=False,
        state="open",
        rank=ranks.NOT_RECORDED,
    )


def _emptied(aircraft: AircraftNow, station: str) -> Place:
    for event in reversed(aircraft.events):
        if event.event == "remove" and station in event.stations:
            return event.place
    return aircraft.places.get(f"stations.{station}", aircraft.record.place())


def _unseated(aircraft: AircraftNow, name: str, surface: Surface) -> Place:
    for event in reversed(aircraft.events):
        if event.event == "remove" and set(event.tags).intersection(surface.servos):
            return event.place
    return aircraft.places.get(f"surfaces.{name}", aircraft.record.place())


def _removed(aircraft: AircraftNow, kinds: tuple[str, ...]) -> Place:
    for event in reversed(aircraft.events):
        if event.event == "remove" and event.subject in kinds:
            return event.place
    return aircraft.record.place()
