"""Where a station is: the one place where its records are weighed against each other.

``positions`` of aircraft.yaml or of an alteration, then ``at`` beside the station, then the layout
by the diagonal; the reference point is the centre. An alteration that gives one of the first two
replaces the other (``hangar.handlers.alterations``), so that they can only disagree where
aircraft.yaml itself gives both.
"""

from __future__ import annotations  # marks are looked at for the public only

from typing import Annotated, Literal

import msgspec

from buildbook.records.aircraft import Aircraft, Place3, StationPlan
from buildbook.records.declare import PUBLIC, made, of
from buildbook.records.layouts import LAYOUTS
from buildbook.report.snapshots import Snapshot
from buildbook.report.state import AircraftNow

CENTRE = "centre"


class StationPlace(msgspec.Struct, frozen=True):
    """Forward, right, down from the reference point in m, and which record says so."""

    at_m: Annotated[Place3, made("public", (of(Aircraft, "positions"), of(StationPlan, "at")))]
    source: Annotated[Literal["positions", "station", "layout", "reference"], PUBLIC]


def place_of_station(
    aircraft: AircraftNow,
    station: str,
    then: Snapshot | None = None,
    arm_m: float | None = None,
) -> StationPlace | None:
    """Where a station is, or None where nothing says.

    then: how the aircraft was, where it is not asked of now. arm_m: of the layout where no diagonal
    is written, for a drawing that is not to scale.
    """
    positions = aircraft.positions if then is None else then.positions
    if station in positions:
        return StationPlace(positions[station], "positions")
    plan = (aircraft.stations if then is None else then.stations).get(station)
    if plan is not None and plan.at is not None:
        return StationPlace(plan.at, "station")
    layout, diagonal_m = LAYOUTS.get(aircraft.record.layout), aircraft.record.diagonal_m
    reach_m = arm_m if diagonal_m is None else diagonal_m / 2
    if layout is not None and reach_m is not None:
        for one in layout.stations:
            if one.name == station:
                return StationPlace((one.forward * reach_m, one.right * reach_m, 0.0), "layout")
    return StationPlace((0.0, 0.0, 0.0), "reference") if station == CENTRE else None
