"""The hangar on a day: what sits where, what is in force, what everything has lived through."""

import datetime
from bisect import bisect_right
from collections.abc import Mapping

import msgspec

from buildbook.basis.place import Place
from buildbook.basis.problems import Problem
from buildbook.records.aircraft import (
    Aircraft,
    Bounds,
    Place3,
    Radio,
    Run,
    StationPlan,
    Status,
    Sundry,
)
from buildbook.records.ledger import Ledger
from buildbook.records.parts import Item, LifeBasis, Spec
from buildbook.report.history import (
    CapacityDone,
    ChargeDone,
    CheckDone,
    DefectState,
    Event,
    FlightDone,
    GainSet,
    GainsPeriod,
    GainsVerdict,
    IncidentDone,
    InForce,
    LogLine,
    MassChange,
    RepairDone,
    StateSince,
    Stay,
    TaskDone,
    Weighing,
)
from buildbook.report.snapshots import Snapshot
from buildbook.report.tally import Tally


class Fitted(msgspec.Struct, frozen=True):
    """An item in its slot since an entry."""

    tag: str
    station: str
    kind: str
    since: datetime.date
    since_seq: int
    place: Place


class Counters(msgspec.Struct, frozen=True, kw_only=True):
    """What an item or airframe has lived through, carried life included.

    cycles: equivalent full cycles (packs). basis: how sure the carried life is; ``unknown``
    makes every total an "at least".
    """

    duration_s: float = 0.0
    flights: int = 0
    flying_days: int = 0
    cycles: float = 0.0
    charges: int = 0
    crashes: int = 0
    hard_landings: int = 0
    basis: LifeBasis = "measured"


class ItemNow(msgspec.Struct, frozen=True, kw_only=True):
    """One item on the day. ``fitted`` None: in the drawer (packs always)."""

    tag: str
    item: Item
    spec: Spec
    state: StateSince
    fitted: Fitted | None = None
    aircraft: str | None = None
    stays: tuple[Stay, ...] = ()
    counters: Counters = Counters()
    firmware: str | None = None
    events: tuple[Event, ...] = ()
    inspections: tuple[TaskDone, ...] = ()
    defects: tuple[DefectState, ...] = ()
    # packs
    flights: tuple[FlightDone, ...] = ()
    flown_on: tuple[str, ...] = ()
    tally: Tally = msgspec.field(default_factory=Tally)
    charges: tuple[ChargeDone, ...] = ()
    capacities: tuple[CapacityDone, ...] = ()

    @property
    def is_pack(self) -> bool:
        """Whether it is flown rather than fitted."""
        return self.spec.kind == "battery"

    @property
    def mass_kg(self) -> float | None:
        """Measured, else of the spec."""
        return self.spec.mass_kg if self.item.mass_kg is None else self.item.mass_kg

    @property
    def born(self) -> datetime.date | None:
        """The day from which calendar life runs: made, else acquired."""
        return self.item.made or self.item.acquired


class AircraftNow(msgspec.Struct, frozen=True, kw_only=True):
    """One aircraft on the day.

    motor_stations: in the order of the layout (aeroplane, custom: as declared, then as fitted).
    places: where a key of aircraft.yaml was last written (``stations.front-left``, ``wiring`` …).
    settings: by (of, name); setting_log: all of them, oldest first.
    gain_sets: in order of first writing.
    """

    slug: str
    record: Aircraft
    status: Status
    programme: str | None
    motor_stations: tuple[str, ...]
    stations: Mapping[str, StationPlan]
    receiver: tuple[str, ...] = ()
    radio: Radio | None = None
    wiring: tuple[Run, ...] = ()
    positions: Mapping[str, Place3] = {}
    sundries: tuple[Sundry, ...] = ()
    bounds: Bounds | None = None
    places: Mapping[str, Place] = {}
    fitted: Mapping[str, Mapping[str, tuple[Fitted, ...]]] = {}
    serves: Mapping[str, tuple[str, ...]] = {}
    settings: Mapping[tuple[str | None, str], InForce] = {}
    setting_log: tuple[InForce, ...] = ()
    gain_sets: Mapping[str, GainSet] = {}
    gain_periods: tuple[GainsPeriod, ...] = ()
    gain_verdicts: tuple[GainsVerdict, ...] = ()
    flights: tuple[FlightDone, ...] = ()
    tally: Tally = msgspec.field(default_factory=Tally)
    counters: Counters = Counters()
    events: tuple[Event, ...] = ()
    checks: tuple[CheckDone, ...] = ()
    inspections: tuple[TaskDone, ...] = ()
    weighings: tuple[Weighing, ...] = ()
    mass_changes: tuple[MassChange, ...] = ()
    defects: tuple[DefectState, ...] = ()
    incidents: tuple[IncidentDone, ...] = ()
    repairs: tuple[RepairDone, ...] = ()
    log: tuple[LogLine, ...] = ()
    snapshots: tuple[Snapshot, ...] = ()

    def after(self, seq: int) -> Snapshot:
        """How it was right after an entry, of whatever log; IndexError: it has no snapshots."""
        return self.snapshots[bisect_right(self.snapshots, seq, key=_seq_of) - 1]

    @property
    def gains(self) -> str | None:
        """The set in force."""
        return self.gain_periods[-1].name if self.gain_periods else None

    def items(self) -> tuple[Fitted, ...]:
        """All that is fitted, station by station."""
        return tuple(
            fitted
            for by_kind in self.fitted.values()
            for slot in by_kind.values()
            for fitted in slot
        )

    def at(self, station: str, kind: str) -> Fitted | None:
        """What sits in that slot, an ESC that serves the station included; the first of several."""
        slot = self.fitted.get(station, {}).get(kind)
        if slot:
            return slot[0]
        if kind == "esc":
            serving = {tag for tag, served in self.serves.items() if station in served}
            return next((fitted for fitted in self.items() if fitted.tag in serving), None)
        return None


def _seq_of(snapshot: Snapshot) -> int:
    return snapshot.seq


class Hangar(msgspec.Struct, frozen=True, kw_only=True):
    """All of it. ``left_out``: how many entries are dated after the day."""

    as_of: datetime.date
    ledger: Ledger
    aircraft: Mapping[str, AircraftNow]
    items: Mapping[str, ItemNow]
    store_log: tuple[LogLine, ...] = ()
    left_out: int = 0
    problems: tuple[Problem, ...] = ()

    def item_at(self, aircraft: AircraftNow, station: str, kind: str) -> ItemNow | None:
        """The item in a slot of an aircraft."""
        fitted = aircraft.at(station, kind)
        return None if fitted is None else self.items.get(fitted.tag)
