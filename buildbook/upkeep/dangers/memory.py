"""Two flying aircraft on one memory of one transmitter: the wrong one may answer the sticks."""

from collections.abc import Iterator

from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep.findings import SameMemory
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.rows import Ask, danger_row

MEMORY = "memory"

_ASK = Ask(
    name=MEMORY,
    what="Propellers off, see which one answers the sticks. Give each a memory of its own, then"
    " check sticks, throttle cut and failsafe of both again.",
    stage="plugged",
)


def memory_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """A row where another flying aircraft has the same memory; it grounds nothing."""
    radio = aircraft.radio
    if radio is None or radio.memory is None:
        return
    mine = _transmitter(aircraft)
    others = [
        other.record.aircraft
        for slug, other in sorted(hangar.aircraft.items())
        if slug != aircraft.slug
        and other.status == "flying"
        and other.radio is not None
        and other.radio.memory == radio.memory
        and mine in (None, _transmitter(other) or mine)
    ]
    if not others:
        return
    place = aircraft.places.get("radio", aircraft.record.place("radio"))
    found = SameMemory(memory=radio.memory, others=tuple(others))
    because = Because(why="memory", place=place, found=found)
    yield danger_row(aircraft, _ASK, because, place, grounds=False)


def _transmitter(aircraft: AircraftNow) -> str | None:
    """The transmitter recorded for it, by tag; None: nobody wrote which, so it may be the same."""
    if aircraft.radio is not None and aircraft.radio.transmitter is not None:
        return aircraft.radio.transmitter
    return next((here.tag for here in aircraft.items() if here.kind == "transmitter"), None)
