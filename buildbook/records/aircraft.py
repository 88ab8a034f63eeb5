"""``aircraft.yaml``: what an aircraft was when its log began."""

import datetime
from collections.abc import Mapping
from typing import Literal

import msgspec

from buildbook.records.parts import Carried, Hand
from buildbook.records.record import Record
from buildbook.records.sizes import Wire as Wire

Place3 = tuple[float, float, float]
"""Forward, right, down from the reference point of the aircraft, in metres."""

AircraftKind = Literal["multirotor", "aeroplane"]
Status = Literal["building", "flying", "stored", "retired", "sold"]


class StationPlan(msgspec.Struct, frozen=True, kw_only=True):
    """What a motor station should do: spin seen from above (aeroplane: from behind)."""

    spin: Hand | None = None
    output: int | None = None
    at: Place3 | None = None


class Run(msgspec.Struct, frozen=True, kw_only=True):
    """A run of two conductors; ``length_m`` is one way."""

    start: str
    end: str
    wire: Wire | None = None
    length_m: float | None = None
    plug: str | None = None
    line: int = 0


class Sundry(msgspec.Struct, frozen=True, kw_only=True):
    """Something weighed but not tracked."""

    what: str
    mass_kg: float
    at: Place3 | None = None
    line: int = 0


class Radio(msgspec.Struct, frozen=True, kw_only=True):
    """How the transmitter is set up for this aircraft."""

    memory: str | None = None
    mode: int | None = None
    reversed: tuple[str, ...] = ()
    throttle_cut: str | None = None
    failsafe: Mapping[str, str] = {}
    switches: Mapping[str, Mapping[str, str]] = {}


class Wing(msgspec.Struct, frozen=True, kw_only=True):
    """A wing; lengths are measured aft from the reference point."""

    area_m2: float | None = None
    span_m: float | None = None
    mean_chord_m: float | None = None
    leading_edge_m: float | None = None
    max_lift_coefficient: float | None = None


class Bounds(msgspec.Struct, frozen=True, kw_only=True):
    """Limits the keeper set. A CG limit is a share of the mean chord, or metres forward."""

    max_mass_kg: float | None = None
    forward_cg_share: float | None = None
    aft_cg_share: float | None = None
    forward_cg_m: float | None = None
    aft_cg_m: float | None = None


class Aircraft(Record, frozen=True, kw_only=True):
    """One airframe with a name, a layout and a logbook, as of the start of its log."""

    slug: str
    aircraft: str
    kind: AircraftKind
    layout: str
    status: Status = "flying"
    in_service: datetime.date | None = None
    registration: str | None = None
    carried: Carried | None = None
    programme: str | None = None
    diagonal_m: float | None = None
    stations: Mapping[str, StationPlan] = {}
    receiver: tuple[str, ...] = ()
    radio: Radio | None = None
    wiring: tuple[Run, ...] = ()
    sundries: tuple[Sundry, ...] = ()
    positions: Mapping[str, Place3] = {}
    wing: Wing | None = None
    bounds: Bounds | None = None
    note: str | None = None
