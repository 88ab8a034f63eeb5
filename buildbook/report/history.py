"""What happened, each with its day, its place in the total order, and the line it stands on.

``seq`` is the position of the entry in the one total order of the whole log; the rows of a
``flights`` entry share the ``seq`` of it. The uid is that of the entry as first written.
"""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from collections.abc import Mapping
from typing import Annotated, Literal

import msgspec

from buildbook.basis.place import Place
from buildbook.records.aircraft import Place3
from buildbook.records.declare import PRIVATE, PUBLIC, made, of
from buildbook.records.entries import (
    Alteration,
    AnyEntry,
    Capacity,
    Charge,
    Check,
    Cleared,
    Correction,
    Defect,
    Entry,
    Firmware,
    Fit,
    Flight,
    FlightRow,
    Gains,
    Incident,
    Inspection,
    Landing,
    Looked,
    Milder,
    Overhaul,
    Plain,
    Remove,
    Repair,
    Result,
    Setting,
    StateChange,
    Verdict,
    Void,
    Volts,
    Weigh,
)
from buildbook.records.keys.quantities import BalancePoint
from buildbook.records.parts import ItemState


class Recorded(msgspec.Struct, frozen=True, kw_only=True):
    """What every record of the history has: when it was, and where it was written."""

    seq: Annotated[int, PUBLIC]
    on: Annotated[datetime.date, PUBLIC]
    uid: Annotated[str, PUBLIC]
    place: Annotated[Place, PRIVATE]


class Event(Recorded, frozen=True, kw_only=True):
    """Something that can make earlier work worthless: the raw material of triggers.

    event, subject: in the words of a programme's triggers: ``fit`` KIND, ``remove`` KIND,
    ``overhaul`` KIND (pulls ``fit`` KIND too), ``repair``, ``crash``, ``hard landing`` (a crash
    appears as ``crash`` only), ``water``,
    ``firmware`` KIND, ``setting`` NAME, ``gains``, ``alteration`` KEY, ``move`` KIND,
    ``calibration`` NAME, ``transport``, ``rewired``, ``noticed`` WHAT.
    One pulls none: ``cleared defect``.
    stations, tags: what it touched. everything: it named nothing, so it touched all.
    row_index: after which flight of its entry, where it is of one; those after it came later.
    """

    event: Annotated[str, PUBLIC]
    subject: Annotated[str | None, PUBLIC] = None
    aircraft: Annotated[str | None, PUBLIC] = None
    stations: Annotated[tuple[str, ...], PUBLIC] = ()
    tags: Annotated[tuple[str, ...], PUBLIC] = ()
    everything: Annotated[bool, PUBLIC] = False
    row_index: Annotated[int | None, PUBLIC] = None


class FlightDone(Recorded, frozen=True, kw_only=True):
    """One flight. ``gains``: the set flown; ``firmware`` by tag, as in force then (R34)."""

    aircraft: Annotated[str, PUBLIC]
    row: Annotated[FlightRow, of(Flight, "rows")]
    row_index: Annotated[int, PUBLIC] = 0
    gains: Annotated[str | None, of(Flight, "gains")] = None
    volts: Annotated[Volts | None, of(Flight, "volts")] = None
    wind: Annotated[str | None, of(Flight, "wind")] = None
    temperature_k: Annotated[float | None, of(Flight, "temperature_k")] = None
    payload_kg: Annotated[float | None, of(Flight, "payload_kg")] = None
    where: Annotated[str | None, of(Flight, "where")] = None
    preflight: Annotated[Literal["done", "not done"] | None, of(Flight, "preflight")] = None
    purpose: Annotated[str | None, of(Flight, "purpose")] = None
    result: Annotated[Result | None, of(Flight, "result")] = None
    noticed: Annotated[tuple[str, ...], of(Flight, "noticed")] = ()
    handling: Annotated[str | None, of(Flight, "handling")] = None
    motor_run_s: Annotated[float | None, of(Flight, "motor_run_s")] = None
    timing: Annotated[Literal["airborne", "armed"] | None, of(Flight, "timing")] = None
    note: Annotated[str | None, of(Flight, "note")] = None
    firmware: Annotated[Mapping[str, str], made("public", (of(Firmware, "versions"),))] = {}
    packs_aside: Annotated[tuple[str, ...], PUBLIC] = ()  # of its packs, those that were set aside

    @property
    def duration_s(self) -> float:
        """How long it lasted."""
        return self.row.duration_s

    @property
    def motor_s(self) -> float:
        """How long the motors ran: all of it, unless the log says less."""
        if self.motor_run_s is None:
            return self.row.duration_s
        return min(self.motor_run_s, self.row.duration_s)

    @property
    def landing(self) -> Landing:
        """As its row says; one that says nothing ended well."""
        return self.row.landing


class Completion(Recorded, frozen=True, kw_only=True):
    """A check, task or look that was done, by whichever kind of entry.

    by_entry: ``check`` or ``inspection``, or another that counts as doing it (a flight, a charge).
    severity: of a failed one that does not ground. cleared_on: when its finding was cleared.
    aircraft: None in a store. stations, tags: of what; none of them means all that it applies to.
    """

    name: Annotated[str, made("public", (of(Check, "checks"), of(Inspection, "tasks")))]
    by_entry: Annotated[Literal["check", "inspection", "other"], PUBLIC]
    aircraft: Annotated[str | None, PUBLIC] = None
    result: Annotated[Looked, made("public", (of(Check, "result"), of(Inspection, "result")))] = (
        "pass"
    )
    readings: Annotated[Mapping[str, str], of(Check, "readings")] = {}
    stations: Annotated[tuple[str, ...], of(Check, "stations")] = ()
    tags: Annotated[tuple[str, ...], of(Inspection, "tags")] = ()
    findings: Annotated[str | None, of(Inspection, "findings")] = None
    severity: Annotated[
        Milder | None, made("public", (of(Check, "severity"), of(Inspection, "severity")))
    ] = None
    cleared_on: Annotated[datetime.date | None, PUBLIC] = None
    cleared_seq: Annotated[int | None, PUBLIC] = None
    surface: Annotated[str | None, of(Check, "surface")] = None
    taught: Annotated[bool, of(Check, "taught")] = False
    by: Annotated[str | None, of(Check, "by")] = None
    checked_by: Annotated[str | None, of(Check, "checked_by")] = None

    @property
    def seconded(self) -> bool:
        """Whether a second person looked at it."""
        return self.checked_by is not None and self.checked_by != self.by


class ChargeDone(Recorded, frozen=True, kw_only=True):
    """A charge of one pack. ``packs_together``: how many shared the charger's figures.

    most_a: what all of them may be charged at by their specs, None where one does not say.
    unequal: whether they differ in cells or chemistry. apart_v: how far the cells of packs on one
    lead lay apart before. set_aside: whether this one was. between: whether it may stand between
    any flights of its day, for nothing says between which.
    """

    pack: Annotated[str, of(Charge, "packs")]
    put_in_ah: Annotated[float | None, of(Charge, "put_in_ah")] = None
    resistance_ohm: Annotated[tuple[float, ...], of(Charge, "resistance_ohm")] = ()
    resting_v: Annotated[tuple[float, ...], of(Charge, "resting_v")] = ()
    temperature_k: Annotated[float | None, of(Charge, "temperature_k")] = None
    to: Annotated[Literal["full", "part", "storage"] | None, of(Charge, "to")] = None
    current_a: Annotated[float | None, of(Charge, "current_a")] = None
    packs_together: Annotated[int, PUBLIC] = 1
    most_a: Annotated[float | None, made("private", (of(Charge, "current_a"),))] = None
    unequal: Annotated[bool, made("private", (of(Charge, "packs"),))] = False
    apart_v: Annotated[float | None, made("private", (of(Charge, "together"),))] = None
    set_aside: Annotated[bool, PUBLIC] = False
    sure: Annotated[bool, of(Charge, "sure")] = False
    between: Annotated[bool, made("private", (of(Charge, "packs"),))] = False

    @property
    def fills(self) -> bool:
        """Whether it filled the pack: one that does not say how far did."""
        return self.to in (None, "full")

    @property
    def counts(self) -> bool:
        """Whether it is counted as a charge: one to storage fills no pack that then flies."""
        return self.to != "storage"


class CapacityDone(Recorded, frozen=True, kw_only=True):
    """A measured capacity. ``charges`` and ``cycles``: of the pack up to then."""

    pack: Annotated[str, of(Capacity, "pack")]
    measured_ah: Annotated[float, of(Capacity, "measured_ah")]
    current_a: Annotated[float | None, of(Capacity, "current_a")] = None
    temperature_k: Annotated[float | None, of(Capacity, "temperature_k")] = None
    down_to_v: Annotated[float | None, of(Capacity, "down_to_v")] = None
    charges: Annotated[int, PUBLIC] = 0
    cycles: Annotated[float, PUBLIC] = 0.0
    sure: Annotated[bool, of(Capacity, "sure")] = False


class Weighing(Recorded, frozen=True, kw_only=True):
    """The aircraft on the scales. ``fitted``: what sat where then, by tag."""

    mass_kg: Annotated[float, of(Weigh, "mass_kg")]
    pack: Annotated[str | None, of(Weigh, "pack")] = None
    without: Annotated[tuple[str, ...], of(Weigh, "without")] = ()
    cg_m: Annotated[BalancePoint | None, of(Weigh, "cg_m")] = None
    scales_kg: Annotated[Mapping[str, float], of(Weigh, "scales_kg")] = {}
    fitted: Annotated[Mapping[str, str], made("public", (of(Fit, "slots"),))] = {}


class MassChange(Recorded, frozen=True, kw_only=True):
    """An alteration that named a signed mass."""

    words: Annotated[str, of(Alteration, "words")]
    mass_kg: Annotated[float, of(Alteration, "mass_kg")]
    at: Annotated[Place3 | None, of(Alteration, "at")] = None


class InForce(Recorded, frozen=True, kw_only=True):
    """A setting in force. ``of``: a station, a tag, or None for the aircraft."""

    name: Annotated[str, of(Setting, "settings")]
    value: Annotated[str, of(Setting, "settings")]
    because: Annotated[str | None, of(Setting, "because")] = None
    of: Annotated[str | None, of(Setting, "of")] = None


class GainSet(Recorded, frozen=True, kw_only=True):
    """A gain set, whole (what ``from`` left out is filled in), as first written."""

    name: Annotated[str, of(Gains, "name")]
    values: Annotated[Mapping[str, Mapping[str, float]], of(Gains, "values")]
    base: Annotated[str | None, of(Gains, "base")] = None
    because: Annotated[str | None, of(Gains, "because")] = None


class GainsPeriod(Recorded, frozen=True, kw_only=True):
    """A set was in force from here until the next period began."""

    name: Annotated[str, of(Gains, "name")]
    until: Annotated[datetime.date | None, PUBLIC] = None
    until_seq: Annotated[int | None, PUBLIC] = None
    because: Annotated[str | None, of(Gains, "because")] = None


class GainsVerdict(Recorded, frozen=True, kw_only=True):
    """What was thought of a set."""

    name: Annotated[str, of(Verdict, "verdicts")]
    words: Annotated[str, of(Verdict, "verdicts")]


class DefectState(Recorded, frozen=True, kw_only=True):
    """A defect and how it stands. ``first_on``: the day it was first written (R31)."""

    defect: Annotated[Defect, PUBLIC]
    aircraft: Annotated[str | None, PUBLIC]
    open: Annotated[bool, PUBLIC]
    cleared_on: Annotated[datetime.date | None, PUBLIC] = None
    cleared_uid: Annotated[str | None, of(Cleared, "target")] = None
    cleared_seq: Annotated[int | None, PUBLIC] = None
    how: Annotated[str | None, of(Cleared, "how")] = None
    flights_since: Annotated[int, PUBLIC] = 0
    duration_since_s: Annotated[float, PUBLIC] = 0.0


class IncidentDone(Recorded, frozen=True, kw_only=True):
    """An incident, or a landing that was none of the good ones (then ``incident`` is None).

    A flight and an incident of one aircraft on one day count once: the incident stands and
    ``flight_uid`` names the flight.
    """

    aircraft: Annotated[str, PUBLIC]
    severity: Annotated[Literal["light", "hard", "total"], of(Incident, "severity")]
    incident: Annotated[Incident | None, PUBLIC] = None
    flight_uid: Annotated[str | None, PUBLIC] = None
    stations: Annotated[tuple[str, ...], of(Incident, "touched")] = ()
    tags: Annotated[tuple[str, ...], of(Incident, "touched")] = ()


class RepairDone(Recorded, frozen=True, kw_only=True):
    """A repair. after_uid: the incident that it mends, where one is known."""

    aircraft: Annotated[str, PUBLIC]
    repair: Annotated[Repair, PUBLIC]
    after_uid: Annotated[str | None, PUBLIC] = None


class Overhauled(Recorded, frozen=True, kw_only=True):
    """The last overhaul of an item, and what it has flown since."""

    steps: Annotated[tuple[str, ...], of(Overhaul, "steps")]
    duration_s: Annotated[float, PUBLIC] = 0.0
    flights: Annotated[int, PUBLIC] = 0


class Stay(msgspec.Struct, frozen=True, kw_only=True):
    """A time that an item sat somewhere; flown while it was there."""

    aircraft: Annotated[str, PUBLIC]
    station: Annotated[str, PUBLIC]
    kind: Annotated[str, PUBLIC]
    since: Annotated[datetime.date, PUBLIC]
    since_seq: Annotated[int, PUBLIC]
    since_place: Annotated[Place, PRIVATE]
    until: Annotated[datetime.date | None, PUBLIC] = None
    until_seq: Annotated[int | None, PUBLIC] = None
    duration_s: Annotated[float, PUBLIC] = 0.0
    flights: Annotated[int, PUBLIC] = 0
    because: Annotated[str | None, of(Remove, "because")] = None  # why it came out

    def holds(self, seq: int) -> bool:
        """Whether the item sat there at that entry; the one that took it out is past it."""
        return self.since_seq <= seq and (self.until_seq is None or seq < self.until_seq)

    def reaches(self, seq: int) -> bool:
        """The same, the entry that took it out among it: what happened then happened to it."""
        return self.holds(seq) or seq == self.until_seq


class StateSince(msgspec.Struct, frozen=True, kw_only=True):
    """The state of an item, and from which entry; no place means since it was acquired."""

    state: Annotated[ItemState, of(StateChange, "states")] = "serviceable"
    on: Annotated[datetime.date | None, PUBLIC] = None
    place: Annotated[Place | None, PRIVATE] = None
    because: Annotated[str | None, of(StateChange, "because")] = None


class LogLine(msgspec.Struct, frozen=True, kw_only=True):
    """An entry in the log as it reads on the day.

    entry: as first written. stands: what counts of it now (itself, what a correction made of
    it, or None where it was voided or is itself a correction or void). words_on: the later
    corrections and voids of it up to the day. corrected_later: there are some after the day.
    total: of the aircraft after this entry (R38); zeros in a store. late_days: how many days after
    the work it was written.
    """

    seq: Annotated[int, PUBLIC]
    entry: Annotated[AnyEntry, PUBLIC]
    stands: Annotated[Plain | None, PUBLIC]
    words_on: Annotated[tuple[Correction | Void, ...], PUBLIC] = ()
    corrected_later: Annotated[bool, PUBLIC] = False
    total_s: Annotated[float, PUBLIC] = 0.0
    total_flights: Annotated[int, PUBLIC] = 0
    late_days: Annotated[int, of(Entry, "entered")] = 0

    @property
    def name(self) -> str:
        """As the hangar names its entry; a projected one has no file before its opaque name."""
        return self.entry.uid.removeprefix("#")
