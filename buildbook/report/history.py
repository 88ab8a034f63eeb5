"""What happened, each with its day, its place in the total order, and the line it stands on.

``seq`` is the position of the entry in the one total order of the whole log; the rows of a
``flights`` entry share the ``seq`` of it. The uid is that of the entry as first written.
"""

import datetime
from collections.abc import Mapping
from typing import Literal

import msgspec

from buildbook.basis.place import Place
from buildbook.records.aircraft import Place3
from buildbook.records.entries import (
    AnyEntry,
    Correction,
    Defect,
    FlightRow,
    Incident,
    Landing,
    Looked,
    Plain,
    Repair,
    Result,
    Void,
    Volts,
)
from buildbook.records.parts import ItemState


class Happened(msgspec.Struct, frozen=True, kw_only=True):
    """Base: when, and where it was written."""

    seq: int
    on: datetime.date
    uid: str
    place: Place


class Event(Happened, frozen=True, kw_only=True):
    """Something that can make earlier work worthless: the raw material of triggers.

    event, subject: in the words of a programme's triggers: ``fit`` KIND, ``remove`` KIND,
    ``repair``, ``crash``, ``hard landing`` (a crash appears as ``crash`` only), ``water``,
    ``firmware`` KIND, ``setting`` NAME, ``gains``, ``alteration`` KEY, ``move`` KIND,
    ``calibration`` NAME, ``transport``.
    stations, tags: what it touched. everything: it named nothing, so it touched all.
    """

    event: str
    subject: str | None = None
    aircraft: str | None = None
    stations: tuple[str, ...] = ()
    tags: tuple[str, ...] = ()
    everything: bool = False


class FlightDone(Happened, frozen=True, kw_only=True):
    """One flight. ``gains``: the set flown; ``firmware`` by tag, as in force then (R34)."""

    aircraft: str
    row: FlightRow
    row_index: int = 0
    gains: str | None = None
    volts: Volts | None = None
    wind: str | None = None
    temperature_k: float | None = None
    payload_kg: float | None = None
    where: str | None = None
    preflight: Literal["done", "not done"] | None = None
    purpose: str | None = None
    result: Result | None = None
    handling: str | None = None
    motor_run_s: float | None = None
    timing: Literal["airborne", "armed"] | None = None
    note: str | None = None
    firmware: Mapping[str, str] = {}

    @property
    def duration_s(self) -> float:
        """How long it lasted."""
        return self.row.duration_s

    @property
    def landing(self) -> Landing:
        """How it ended."""
        return self.row.landing


class CheckDone(Happened, frozen=True, kw_only=True):
    """A set-up check done; no stations means all of them."""

    check: str
    aircraft: str
    result: Result
    readings: Mapping[str, str] = {}
    stations: tuple[str, ...] = ()
    surface: str | None = None
    taught: bool = False
    by: str | None = None
    checked_by: str | None = None


class TaskDone(Happened, frozen=True, kw_only=True):
    """A task done; no tags means all items that it applies to. ``aircraft`` None: in a store."""

    task: str
    aircraft: str | None
    tags: tuple[str, ...] = ()
    result: Looked = "pass"
    findings: str | None = None
    by: str | None = None
    checked_by: str | None = None


class ChargeDone(Happened, frozen=True, kw_only=True):
    """A charge of one pack. ``packs_together``: how many shared the charger's figures."""

    pack: str
    put_in_ah: float | None = None
    resistance_ohm: tuple[float, ...] = ()
    resting_v: tuple[float, ...] = ()
    temperature_k: float | None = None
    to: Literal["full", "part", "storage"] | None = None
    packs_together: int = 1


class CapacityDone(Happened, frozen=True, kw_only=True):
    """A measured capacity. ``charges`` and ``cycles``: of the pack up to then."""

    pack: str
    measured_ah: float
    current_a: float | None = None
    temperature_k: float | None = None
    down_to_v: float | None = None
    charges: int = 0
    cycles: float = 0.0


class Weighing(Happened, frozen=True, kw_only=True):
    """The aircraft on the scales. ``fitted``: what sat where then, by tag."""

    mass_kg: float
    pack: str | None = None
    without: tuple[str, ...] = ()
    cg_m: Place3 | None = None
    scales_kg: Mapping[str, float] = {}
    fitted: Mapping[str, str] = {}
    alterations_kg: float = 0.0  # the sum of signed masses of alterations up to then


class MassChange(Happened, frozen=True, kw_only=True):
    """An alteration that named a signed mass."""

    words: str
    mass_kg: float
    at: Place3 | None = None


class InForce(Happened, frozen=True, kw_only=True):
    """A setting in force. ``of``: a station, a tag, or None for the aircraft."""

    name: str
    value: str
    of: str | None = None
    because: str | None = None


class GainSet(Happened, frozen=True, kw_only=True):
    """A gain set, whole (what ``from`` left out is filled in), as first written."""

    name: str
    values: Mapping[str, Mapping[str, float]]
    base: str | None = None
    because: str | None = None


class GainsPeriod(Happened, frozen=True, kw_only=True):
    """A set was in force from here until the next period began."""

    name: str
    until: datetime.date | None = None
    until_seq: int | None = None
    because: str | None = None


class GainsVerdict(Happened, frozen=True, kw_only=True):
    """What was thought of a set."""

    name: str
    words: str


class DefectState(Happened, frozen=True, kw_only=True):
    """A defect and how it stands. ``first_on``: the day it was first written (R31)."""

    defect: Defect
    aircraft: str | None
    open: bool
    cleared_on: datetime.date | None = None
    cleared_uid: str | None = None
    cleared_seq: int | None = None
    how: str | None = None
    flights_since: int = 0
    duration_since_s: float = 0.0


class IncidentDone(Happened, frozen=True, kw_only=True):
    """An incident, or a landing that was none of the good ones (then ``incident`` is None).

    A flight and an incident of one aircraft on one day count once: the incident stands and
    ``flight_uid`` names the flight.
    """

    aircraft: str
    severity: Literal["light", "hard", "total"]
    incident: Incident | None = None
    flight_uid: str | None = None
    stations: tuple[str, ...] = ()
    tags: tuple[str, ...] = ()


class RepairDone(Happened, frozen=True, kw_only=True):
    """A repair."""

    aircraft: str
    repair: Repair
    after_uid: str | None = None


class Stay(msgspec.Struct, frozen=True, kw_only=True):
    """A time that an item sat somewhere; flown while it was there."""

    aircraft: str
    station: str
    kind: str
    since: datetime.date
    since_seq: int
    since_place: Place
    until: datetime.date | None = None
    until_seq: int | None = None
    duration_s: float = 0.0
    flights: int = 0
    because: str | None = None  # why it came out


class StateSince(msgspec.Struct, frozen=True, kw_only=True):
    """The state of an item, and from which entry; no place means since it was acquired."""

    state: ItemState = "serviceable"
    on: datetime.date | None = None
    place: Place | None = None
    because: str | None = None


class LogLine(msgspec.Struct, frozen=True, kw_only=True):
    """An entry in the log as it reads on the day.

    entry: as first written. stands: what counts of it now (itself, what a correction made of
    it, or None where it was voided or is itself a correction or void). words_on: the later
    corrections and voids of it up to the day. corrected_later: there are some after the day.
    total: of the aircraft after this entry (R38); zeros in a store.
    """

    seq: int
    entry: AnyEntry
    stands: Plain | None
    words_on: tuple[Correction | Void, ...] = ()
    corrected_later: bool = False
    total_s: float = 0.0
    total_flights: int = 0
