"""The hangar on a day: what sits where, what is in force, and the time in service of everything."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
import math
from bisect import bisect_right
from collections.abc import Iterable, Mapping
from typing import Annotated, Literal

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
from buildbook.records.declare import PRIVATE, PUBLIC, made, of
from buildbook.records.entries import Firmware
from buildbook.records.ledger import Ledger
from buildbook.records.parts import Item, ItemState, LifeBasis, Spec
from buildbook.records.surfaces import Surface
from buildbook.report.history import (
    CapacityDone,
    ChargeDone,
    Completion,
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
    Overhauled,
    Recorded,
    RepairDone,
    StateSince,
    Stay,
    Weighing,
)
from buildbook.report.packs.charge_tally import ChargeTally
from buildbook.report.packs.pack_history import Aside, RestReading, Told
from buildbook.report.snapshots import Snapshot
from buildbook.report.tally import Tally


class Fitted(msgspec.Struct, frozen=True):
    """An item in its slot since an entry."""

    tag: Annotated[str, PUBLIC]
    station: Annotated[str, PUBLIC]
    kind: Annotated[str, PUBLIC]
    since: Annotated[datetime.date, PUBLIC]
    since_seq: Annotated[int, PUBLIC]
    place: Annotated[Place, PRIVATE]


class Counters(msgspec.Struct, frozen=True, kw_only=True):
    """The time in service of an item or airframe, carried life included.

    cycles: equivalent full cycles (packs). basis: how sure the carried life is; ``unknown``
    makes every total an "at least". untimed: flights or cycles before the log were counted but not
    their hours, which makes the time alone an "at least". untold_s: of a driven part, the flights
    of its glider that do not say how long the motor ran: they count whole, which makes it an
    "at most".
    """

    duration_s: Annotated[float, PUBLIC] = 0.0
    flights: Annotated[int, PUBLIC] = 0
    flying_days: Annotated[int, PUBLIC] = 0
    cycles: Annotated[float, PUBLIC] = 0.0
    charges: Annotated[int, PUBLIC] = 0
    crashes: Annotated[int, PUBLIC] = 0
    hard_landings: Annotated[int, PUBLIC] = 0
    basis: Annotated[LifeBasis, PUBLIC] = "measured"
    untimed: Annotated[bool, PUBLIC] = False
    untold_s: Annotated[float, PUBLIC] = 0.0

    @property
    def time_at_least(self) -> bool:
        """Whether more was flown than the time tells."""
        return self.untimed or self.basis == "unknown"

    @property
    def time_at_most(self) -> bool:
        """Whether less was flown than the time tells: a motor that rested, nobody says how long."""
        return self.untold_s > 0


OfDefects = Literal["defect noted", "defect deferred", "failed look", "defect open"]
Condition = ItemState | OfDefects
"""How an item is, in the one word that lists of parts have for it."""

FIT: tuple[Condition, ...] = ("serviceable", "defect noted")
"""What may be fitted as it is."""


class ItemNow(msgspec.Struct, frozen=True, kw_only=True):
    """One item on the day. ``fitted`` None: in the drawer (packs always)."""

    tag: Annotated[str, PUBLIC]
    item: Annotated[Item, PUBLIC]
    spec: Annotated[Spec, PUBLIC]
    state: Annotated[StateSince, PUBLIC]
    fitted: Annotated[Fitted | None, PUBLIC] = None
    aircraft: Annotated[str | None, PUBLIC] = None
    stays: Annotated[tuple[Stay, ...], PUBLIC] = ()
    counters: Annotated[Counters, PUBLIC] = Counters()
    overhauled: Annotated[Overhauled | None, PUBLIC] = None
    firmware: Annotated[str | None, made("public", (of(Firmware, "versions"),))] = None
    events: Annotated[tuple[Event, ...], PRIVATE] = ()
    inspections: Annotated[tuple[Completion, ...], PUBLIC] = ()
    defects: Annotated[tuple[DefectState, ...], PUBLIC] = ()
    # packs
    flights: Annotated[tuple[FlightDone, ...], PUBLIC] = ()
    flown_on: Annotated[tuple[str, ...], PUBLIC] = ()
    tally: Annotated[Tally, PRIVATE] = msgspec.field(default_factory=Tally)
    through: Annotated[ChargeTally, PRIVATE] = msgspec.field(default_factory=ChargeTally)
    charges: Annotated[tuple[ChargeDone, ...], PUBLIC] = ()
    capacities: Annotated[tuple[CapacityDone, ...], PUBLIC] = ()
    rests: Annotated[tuple[RestReading, ...], PRIVATE] = ()
    asides: Annotated[tuple[Aside, ...], PRIVATE] = ()
    told: Annotated[tuple[Told, ...], PRIVATE] = ()
    kept: Annotated[tuple[Recorded, ...], PRIVATE] = ()  # where the keeper wrote why it stays

    @property
    def is_pack(self) -> bool:
        """Whether it is flown rather than fitted."""
        return self.spec.kind == "battery"

    @property
    def condition(self) -> Condition:
        """Its state; of a serviceable one the worst that is open of it."""
        if self.state.state != "serviceable":
            return self.state.state
        open_ = {one.defect.severity for one in self.defects if one.open}
        looks = {look.name: look for look in self.inspections if self.tag in look.tags}
        failed = any(
            look.result == "fail" and look.cleared_on is None and look.severity != "note"
            for look in looks.values()
        )
        if "grounds" in open_:
            return "defect open"
        if failed:
            return "failed look"
        if "defer" in open_:
            return "defect deferred"
        return "defect noted" if open_ else "serviceable"

    @property
    def share_of_rated(self) -> float | None:
        """The last measured capacity as a share of rated; None where either is not known."""
        return self.share_of_rated_in(self.capacities[-1]) if self.capacities else None

    def share_of_rated_in(self, done: CapacityDone) -> float | None:
        """What was measured as a share of rated; None: no rated capacity is known."""
        rated_ah = self._rated_ah
        return done.measured_ah / rated_ah if rated_ah else None

    @property
    def _rated_ah(self) -> float | None:
        """The rated capacity; None where it is not recorded or no number."""
        rated_ah = self.spec.capacity_ah
        return None if rated_ah is None or not math.isfinite(rated_ah) else rated_ah

    def is_below(self, share: float, done: CapacityDone) -> bool:
        """Whether less was measured than that share of rated; False where that is not known.

        Compared in whole mAh, so that 1040 of 1300 are 80 % exactly.
        """
        least_ah = (self._rated_ah or 0.0) * share
        return round(done.measured_ah * 1000) < round(least_ah * 1000)

    @property
    def mass_kg(self) -> float | None:
        """Measured, else of the spec."""
        return self.spec.mass_kg if self.item.mass_kg is None else self.item.mass_kg

    @property
    def born(self) -> datetime.date | None:
        """The day from which calendar life runs: made, else acquired."""
        return self.item.made or self.item.acquired

    @property
    def in_service_since(self) -> datetime.date | None:
        """The day a pack was first charged or flown; acquired, where it had a life before that."""
        if self.item.carried is not None:
            return self.item.acquired
        return min((done.on for done in (*self.charges, *self.flights)), default=None)


class AircraftNow(msgspec.Struct, frozen=True, kw_only=True):
    """One aircraft on the day.

    motor_stations: in the order of the layout (aeroplane, custom: as declared, then as fitted).
    places: where a key of aircraft.yaml was last written (``stations.front-left``, ``wiring`` …).
    settings: by (of, name); setting_log: all of them, oldest first.
    gain_sets: in order of first writing.
    ever_fitted: the tags of all that ever sat on it, as the parts files list them; packs_flown:
    those of all packs that it flew on, in order of first flight.
    """

    slug: Annotated[str, of(Aircraft, "slug")]
    record: Annotated[Aircraft, PUBLIC]
    status: Annotated[Status, of(Aircraft, "status")]
    programme: Annotated[str | None, of(Aircraft, "programme")]
    motor_stations: Annotated[tuple[str, ...], PUBLIC]
    stations: Annotated[Mapping[str, StationPlan], of(Aircraft, "stations")]
    receiver: Annotated[tuple[str, ...], of(Aircraft, "receiver")] = ()
    sockets: Annotated[tuple[str, ...], of(Aircraft, "sockets")] = ()
    radio: Annotated[Radio | None, of(Aircraft, "radio")] = None
    surfaces: Annotated[Mapping[str, Surface], of(Aircraft, "surfaces")] = {}
    wiring: Annotated[tuple[Run, ...], of(Aircraft, "wiring")] = ()
    positions: Annotated[Mapping[str, Place3], of(Aircraft, "positions")] = {}
    sundries: Annotated[tuple[Sundry, ...], of(Aircraft, "sundries")] = ()
    bounds: Annotated[Bounds | None, of(Aircraft, "bounds")] = None
    places: Annotated[Mapping[str, Place], PRIVATE] = {}
    fitted: Annotated[Mapping[str, Mapping[str, tuple[Fitted, ...]]], PUBLIC] = {}
    serves: Annotated[Mapping[str, tuple[str, ...]], PUBLIC] = {}
    settings: Annotated[Mapping[tuple[str | None, str], InForce], PUBLIC] = {}
    setting_log: Annotated[tuple[InForce, ...], PUBLIC] = ()
    gain_sets: Annotated[Mapping[str, GainSet], PUBLIC] = {}
    gain_periods: Annotated[tuple[GainsPeriod, ...], PUBLIC] = ()
    gain_verdicts: Annotated[tuple[GainsVerdict, ...], PUBLIC] = ()
    flights: Annotated[tuple[FlightDone, ...], PUBLIC] = ()
    tally: Annotated[Tally, PRIVATE] = msgspec.field(default_factory=Tally)
    counters: Annotated[Counters, PUBLIC] = Counters()
    events: Annotated[tuple[Event, ...], PUBLIC] = ()
    checks: Annotated[tuple[Completion, ...], PUBLIC] = ()
    inspections: Annotated[tuple[Completion, ...], PUBLIC] = ()
    weighings: Annotated[tuple[Weighing, ...], PUBLIC] = ()
    mass_changes: Annotated[tuple[MassChange, ...], PUBLIC] = ()
    defects: Annotated[tuple[DefectState, ...], PUBLIC] = ()
    incidents: Annotated[tuple[IncidentDone, ...], PUBLIC] = ()
    repairs: Annotated[tuple[RepairDone, ...], PUBLIC] = ()
    log: Annotated[tuple[LogLine, ...], PUBLIC] = ()
    snapshots: Annotated[tuple[Snapshot, ...], PUBLIC] = ()
    ever_fitted: Annotated[tuple[str, ...], PRIVATE] = ()
    packs_flown: Annotated[tuple[str, ...], PRIVATE] = ()

    def after(self, seq: int) -> Snapshot:
        """How it was right after an entry, of whatever log; IndexError: it has no snapshots."""
        return self.snapshots[bisect_right(self.snapshots, seq, key=_seq_of) - 1]

    @property
    def hovers(self) -> bool:
        """Whether it is carried by its rotors."""
        return self.record.kind == "multirotor"

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

    def driven(self, tags: Iterable[str]) -> frozenset[str]:
        """The surfaces that any of these servos drives."""
        named = set(tags)
        return frozenset(
            name for name, surface in self.surfaces.items() if named.intersection(surface.servos)
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
    """All of it. ``left_out``: how many entries are dated after the day.

    sure: the entries, by uid as first written, that stand and are right as written.
    """

    as_of: Annotated[datetime.date, PUBLIC]
    ledger: Annotated[Ledger, PUBLIC]
    aircraft: Annotated[Mapping[str, AircraftNow], PUBLIC]
    items: Annotated[Mapping[str, ItemNow], PUBLIC]
    store_log: Annotated[tuple[LogLine, ...], PUBLIC] = ()
    left_out: Annotated[int, PUBLIC] = 0
    sure: Annotated[frozenset[str], PRIVATE] = frozenset()
    problems: Annotated[tuple[Problem, ...], PRIVATE] = ()

    def item_at(self, aircraft: AircraftNow, station: str, kind: str) -> ItemNow | None:
        """The item in a slot of an aircraft."""
        fitted = aircraft.at(station, kind)
        return None if fitted is None else self.items.get(fitted.tag)
