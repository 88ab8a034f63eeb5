"""An aircraft and an item while they are being folded: what the entries so far made of them.

Their fields have the names of the frozen types in ``report.state`` that they are built into. Both
are kept: what is reported is frozen, shared by snapshots and processes, and says of each field who
may see it; what is folded grows by an entry at a time and holds what nobody is told of.
"""

import datetime
from collections.abc import Callable, Iterable, Mapping
from itertools import pairwise
from typing import Any, TypeVar

import msgspec

from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.hangar.time_in_service import flown_on_stays, in_service, with_flown
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
from buildbook.records.layouts import AEROPLANE_MOTOR_STATIONS, LAYOUTS, WINGED
from buildbook.records.parts import Carried, Item, Spec
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
from buildbook.report.state import AircraftNow, Counters, Fitted, ItemNow
from buildbook.report.tally import Flown, Tally

NEW = Carried()
NO_SURFACE = Surface()
Made = TypeVar("Made", bound=msgspec.Struct)


class LastLoad(msgspec.Struct, frozen=True):
    """The last flight of a pack since its last charge; minutes of the day, where times say them."""

    on: datetime.date
    since: float | None
    until: float | None
    aircraft: str


class ItemBuilder(msgspec.Struct, eq=False):
    """One item so far.

    aside_log: the log of what set a pack aside. watched: whether its cells lay apart when they
    were last read at rest, so that the next reading decides.
    """

    tag: str
    item: Item
    spec: Spec
    state: StateSince = StateSince()
    aside_log: str | None = None
    fitted: Fitted | None = None
    aircraft: str | None = None
    stays: list[Stay] = []
    last_out: Place | None = None
    overhauled: Overhauled | None = None
    firmware: str | None = None
    events: list[Event] = []
    inspections: list[Completion] = []
    flights: list[FlightDone] = []
    flown_on: list[str] = []
    charges: list[ChargeDone] = []
    capacities: list[CapacityDone] = []
    rests: list[RestReading] = []
    asides: list[Aside] = []
    told: list[Told] = []
    kept: list[Recorded] = []
    watched: bool = False
    last_load: LastLoad | None = None
    tally: Tally = msgspec.field(default_factory=Tally)
    through: ChargeTally = msgspec.field(default_factory=ChargeTally)

    @property
    def words(self) -> str:
        """Its kind and tag, for problems: ``motor 'M-01'``."""
        return f"{self.spec.kind.replace('_', ' ')} {quoted(self.tag)}"

    @property
    def is_pack(self) -> bool:
        """Whether it is flown rather than fitted."""
        return self.spec.kind == "battery"

    def is_out(self, day: datetime.date, log: str) -> bool:
        """Whether it should not be flown or charged by an entry of that day and log.

        Nothing says which came first of a crash and something in another log on the same day.
        """
        if self.state.state == "serviceable":
            return False
        return self.aside_log in (None, log) or self.state.on != day

    @property
    def cycles(self) -> float:
        """Equivalent full cycles of rated capacity, carried ones included."""
        carried = self.item.carried.cycles if self.item.carried else 0.0
        rated_ah = self.spec.capacity_ah
        return carried + (self.through.through_ah / rated_ah if rated_ah else 0.0)


class AircraftBuilder(msgspec.Struct, eq=False):
    """One aircraft so far."""

    slug: str
    record: Aircraft
    status: Status
    stations: dict[str, StationPlan]
    receiver: tuple[str, ...]
    sockets: tuple[str, ...]
    radio: Radio | None
    surfaces: dict[str, Surface]
    wiring: tuple[Run, ...]
    positions: dict[str, Place3]
    sundries: tuple[Sundry, ...]
    bounds: Bounds | None
    places: dict[str, Place]
    status_since: datetime.date | None = None  # None: as in aircraft.yaml
    fitted: dict[str, dict[str, list[Fitted]]] = {}
    serves: dict[str, tuple[str, ...]] = {}
    settings: dict[tuple[str | None, str], InForce] = {}
    setting_log: list[InForce] = []
    gain_sets: dict[str, GainSet] = {}
    gain_periods: list[GainsPeriod] = []
    gain_verdicts: list[GainsVerdict] = []
    flights: list[FlightDone] = []
    packs: dict[str, None] = {}  # all that it was flown on, in order
    tally: Tally = msgspec.field(default_factory=Tally)
    events: list[Event] = []
    checks: list[Completion] = []
    inspections: list[Completion] = []
    weighings: list[Weighing] = []
    mass_changes: list[MassChange] = []
    incidents: list[IncidentDone] = []
    repairs: list[RepairDone] = []
    log: list[LogLine] = []
    open_defects: dict[str, DefectState] = {}  # by uid
    alterations: int = 0
    snapshots: list[Snapshot] = []
    tags: tuple[str, ...] | None = None  # of what is fitted; None: to be gathered anew
    firmware: dict[str, str] | None = None  # likewise

    @property
    def total(self) -> Flown:
        """All it has flown so far, carried life included."""
        carried = self.record.carried
        if carried is None:
            return self.tally.total
        return self.tally.total + Flown(carried.duration_s, carried.flights)

    def fitted_at(self, station: str) -> list[str]:
        """The tags at a station, with an ESC elsewhere that serves it; of a surface its servos."""
        here = [fit.tag for slot in self.fitted.get(station, {}).values() for fit in slot]
        served = [tag for tag, stations in self.serves.items() if station in stations]
        driving = self.surfaces.get(station, NO_SURFACE).servos
        served += [tag for tag in driving if tag in self.all_fitted()]
        return here + [tag for tag in served if tag not in here]

    def all_fitted(self) -> tuple[str, ...]:
        """All tags that are fitted, station by station; gathered anew only after a change."""
        if self.tags is None:
            slots = (slot for kinds in self.fitted.values() for slot in kinds.values())
            self.tags = tuple(fit.tag for slot in slots for fit in slot)
        return self.tags

    def stay(
        self,
        fitted: Fitted,
        until: datetime.date | None = None,
        until_seq: int | None = None,
        because: str | None = None,
    ) -> Stay:
        """A stay that ended at an entry, or (None) one that goes on."""
        flown = in_service(self.tally.between(fitted.since_seq, until_seq).flown, fitted.kind)
        return Stay(
            aircraft=self.slug,
            station=fitted.station,
            kind=fitted.kind,
            since=fitted.since,
            since_seq=fitted.since_seq,
            since_place=fitted.place,
            until=until,
            until_seq=until_seq,
            duration_s=flown.duration_s,
            flights=flown.flights,
            because=because,
        )

    def firmware_fitted(self, items: Mapping[str, ItemBuilder]) -> Mapping[str, str]:
        """The firmware of what is fitted, by tag; gathered anew only after a change."""
        if self.firmware is None:
            versions = ((tag, items[tag].firmware) for tag in self.all_fitted())
            self.firmware = {tag: version for tag, version in versions if version is not None}
        return self.firmware

    def write_snapshot(self, seq: int, items: Mapping[str, ItemBuilder]) -> None:
        """Write down how it is now. What did not change is shared with the snapshot before."""
        before = self.snapshots[-1] if self.snapshots else None
        fitted = {
            (station, kind): tuple(fit.tag for fit in slot)
            for station, kinds in self.fitted.items()
            for kind, slot in kinds.items()
        }
        states = {tag: items[tag].state.state for tags in fitted.values() for tag in tags}
        now = Snapshot(
            seq=seq,
            status=self.status,
            fitted=fitted,
            out_of_service={tag: state for tag, state in states.items() if state != "serviceable"},
            firmware=self.firmware_fitted(items),
            settings=self.settings,
            gains=self.gain_periods[-1].name if self.gain_periods else None,
            open_defects=tuple(self.open_defects.values()),
            stations=self.stations,
            surfaces=self.surfaces,
            positions=self.positions,
            sundries=self.sundries,
            alterations=self.alterations,
        )
        self.snapshots.append(now if before is None else now.sharing(before))


def first_of(record: Aircraft) -> AircraftBuilder:
    """An aircraft as ``aircraft.yaml`` has it."""
    written = {
        "receiver": record.receiver,
        "sockets": record.sockets,
        "radio": record.radio,
        "wiring": record.wiring,
        "sundries": record.sundries,
        "bounds": record.bounds,
        "status": record.status,
    }
    paths = [
        *(f"stations.{name}" for name in record.stations),
        *(f"positions.{name}" for name in record.positions),
        *(f"surfaces.{name}" for name in record.surfaces),
        *(key for key, value in written.items() if value),
    ]
    return AircraftBuilder(
        slug=record.slug,
        record=record,
        status=record.status,
        stations=dict(record.stations),
        receiver=record.receiver,
        sockets=record.sockets,
        radio=record.radio,
        surfaces=dict(record.surfaces),
        wiring=record.wiring,
        positions=dict(record.positions),
        sundries=record.sundries,
        bounds=record.bounds,
        places={path: record.place(path) for path in paths},
    )


def aircraft_built(
    aircraft: AircraftBuilder, defects: Iterable[DefectState], ever_fitted: Iterable[str]
) -> AircraftNow:
    """What the fold gathered of an aircraft, so that nothing changes it any more."""
    return _built(
        aircraft,
        AircraftNow,
        programme=aircraft.record.programme,
        motor_stations=motor_stations(aircraft),
        fitted={
            station: {kind: tuple(slot) for kind, slot in kinds.items()}
            for station, kinds in aircraft.fitted.items()
        },
        gain_periods=_closed(aircraft.gain_periods),
        counters=_counters(
            aircraft.record.carried, aircraft.tally.total._replace(untold_s=0.0), aircraft.events
        ),
        defects=tuple(defects),
        ever_fitted=tuple(ever_fitted),
        packs_flown=tuple(aircraft.packs),
    )


def item_built(
    item: ItemBuilder, aircraft: Mapping[str, AircraftBuilder], defects: Iterable[DefectState]
) -> ItemNow:
    """What the fold gathered of an item, with its time in service from its stays."""
    stays = tuple(stays_of(item, aircraft))
    kind = item.spec.kind

    def flown_upto(seq: int | None) -> Flown:
        return in_service(flown_on_stays(stays, lambda slug: aircraft[slug].tally, seq), kind)

    flown = item.tally.total if item.is_pack else flown_upto(None)
    counters = _counters(item.item.carried, flown, item.events)
    if item.is_pack:
        counters = msgspec.structs.replace(counters, cycles=item.cycles, charges=len(item.charges))
    last = item.overhauled
    return _built(
        item,
        ItemNow,
        stays=stays,
        counters=counters,
        defects=tuple(defects),
        overhauled=last and with_flown(last, flown - flown_upto(last.seq)),
    )


def stays_of(item: ItemBuilder, aircraft: Mapping[str, AircraftBuilder]) -> list[Stay]:
    """The ended ones, and the one that goes on."""
    if item.fitted is None or item.aircraft is None:
        return item.stays
    return [*item.stays, aircraft[item.aircraft].stay(item.fitted)]


def _built(builder: object, made: Callable[..., Made], **worked_out: Any) -> Made:
    """The frozen type of a builder: fields of the same name, lists as tuples, and the rest."""
    values: dict[str, Any] = {}
    for name in getattr(made, "__struct_fields__", ()):
        if name not in worked_out:
            value = getattr(builder, name)
            values[name] = tuple(value) if isinstance(value, list) else value
    return made(**values, **worked_out)


def motor_stations(aircraft: AircraftBuilder) -> tuple[str, ...]:
    """Of the layout; where that is free, those declared, then those with motor or propeller."""
    layout = LAYOUTS.get(aircraft.record.layout)
    if layout is not None and not layout.free:
        return layout.names
    declared = [
        name
        for name, plan in aircraft.stations.items()
        if layout is None
        or layout.name not in WINGED
        or name in AEROPLANE_MOTOR_STATIONS
        or plan.spin is not None
    ]
    driven = [
        station
        for station, kinds in aircraft.fitted.items()
        if "motor" in kinds or "propeller" in kinds
    ]
    return tuple(dict.fromkeys((*declared, *driven)))


def _closed(periods: list[GainsPeriod]) -> tuple[GainsPeriod, ...]:
    """Each period with its end, which is the beginning of the next."""
    ended = [
        msgspec.structs.replace(period, until=following.on, until_seq=following.seq)
        for period, following in pairwise(periods)
    ]
    return (*ended, *periods[-1:])


def _counters(carried: Carried | None, flown: Flown, events: Iterable[Event]) -> Counters:
    before = carried or NEW
    names = [event.event for event in events]
    return Counters(
        duration_s=before.duration_s + flown.duration_s,
        flights=before.flights + flown.flights,
        flying_days=flown.flying_days,
        cycles=before.cycles,
        crashes=names.count("crash"),
        hard_landings=names.count("hard landing"),
        basis=before.basis,
        untimed=before.duration_s <= 0 and (before.flights > 0 or before.cycles > 0),
        untold_s=flown.untold_s,
    )
