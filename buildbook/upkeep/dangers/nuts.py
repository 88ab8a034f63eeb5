"""A propeller nut that the motor unscrews: its thread must tighten against the turn.

Seen from the side of the nut a right-hand thread wants a motor that turns ccw, a left-hand one cw.
Spin is as seen from above, where the nut of a rotor sits, except below on the lower one of a pair;
of an aeroplane from behind, where the nut sits only of a pusher. Mechanics, no source.
"""

from collections.abc import Iterator

from buildbook.records.layouts import LAYOUTS
from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep.findings import NutAgainst
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.rows import Ask, danger_row

_ASK = Ask(
    name="propeller-nut",
    what="Unplug the pack. Does this nut tighten against the turn of its motor? Fit the other"
    " thread, or a locking nut, and look at it before each flight.",
)
_WANTS = {"right": "ccw", "left": "cw"}
_OTHER = {"cw": "ccw", "ccw": "cw"}
PUSHERS = ("tail-motor",)


def nut_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """A row for each motor whose nut does not tighten as it turns; it grounds nothing."""
    for station in aircraft.motor_stations:
        plan, fitted = aircraft.stations.get(station), aircraft.at(station, "motor")
        motor = hangar.item_at(aircraft, station, "motor")
        if plan is None or plan.spin is None or fitted is None or motor is None:
            continue
        nut = motor.spec.nut
        if nut is None:
            continue
        seen = _OTHER[plan.spin] if _turned_round(aircraft, station) else plan.spin
        if seen == _WANTS[nut]:
            continue
        because = Because(
            why="nut",
            on=fitted.since,
            place=fitted.place,
            tag=motor.tag,
            station=station,
            found=NutAgainst(tag=motor.tag, station=station, thread=nut, spin=seen),
        )
        yield danger_row(aircraft, _ASK, because, fitted.place, grounds=False)


def _turned_round(aircraft: AircraftNow, station: str) -> bool:
    """Whether the nut is on the other side than the one from which the spin is seen."""
    if aircraft.record.kind == "aeroplane":
        return station not in PUSHERS
    layout = LAYOUTS.get(aircraft.record.layout)
    stations = layout.stations if layout is not None else ()
    return any(one.name == station and one.tier == "lower" for one in stations)
