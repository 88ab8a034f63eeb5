"""The hangar while it is being folded: what the entries so far have made of it."""

import datetime
from dataclasses import dataclass, field
from typing import NamedTuple

from buildbook.basis.notation import said
from buildbook.basis.place import Place
from buildbook.hangar.cycles import ThroughPack
from buildbook.hangar.objections import Objections
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
from buildbook.records.entries import Entry, Incident
from buildbook.records.ledger import Ledger
from buildbook.records.parts import Item, Spec
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
from buildbook.report.state import Fitted
from buildbook.report.tally import Flown, Tally


class Moment(NamedTuple):
    """Where in the log an entry stands; ``uid`` is that of the entry as first written."""

    seq: int
    on: datetime.date
    uid: str
    place: Place
    log: str


@dataclass(slots=True)
class ItemDraft:
    """One item so far."""

    tag: str
    item: Item
    spec: Spec
    state: StateSince = field(default_factory=StateSince)
    crash_log: str | None = None  # of the crash that put it in quarantine
    fitted: Fitted | None = None
    aircraft: str | None = None
    stays: list[Stay] = field(default_factory=list)
    last_out: Place | None = None
    firmware: str | None = None
    events: list[Event] = field(default_factory=list)
    inspections: list[TaskDone] = field(default_factory=list)
    flights: list[FlightDone] = field(default_factory=list)
    flown_on: list[str] = field(default_factory=list)
    charges: list[ChargeDone] = field(default_factory=list)
    capacities: list[CapacityDone] = field(default_factory=list)
    tally: Tally = field(default_factory=Tally)
    through: ThroughPack = field(default_factory=ThroughPack)

    @property
    def words(self) -> str:
        """Its kind and tag, for problems: ``motor 'M-01'``."""
        return f"{self.spec.kind.replace('_', ' ')} {said(self.tag)}"

    @property
    def is_pack(self) -> bool:
        """Whether it is flown rather than fitted."""
        return self.spec.kind == "battery"

    def is_out(self, moment: Moment) -> bool:
        """Whether it should not be flown or charged at that moment.

        Nothing says which came first of a crash and something in another log on the same day.
        """
        if self.state.state == "serviceable":
            return False
        return self.crash_log in (None, moment.log) or self.state.on != moment.on

    @property
    def cycles(self) -> float:
        """Equivalent full cycles of rated capacity, carried ones included."""
        carried = self.item.carried.cycles if self.item.carried else 0.0
        rated_ah = self.spec.capacity_ah
        return carried + (self.through.through_ah / rated_ah if rated_ah else 0.0)


@dataclass(slots=True)
class AircraftDraft:
    """One aircraft so far."""

    slug: str
    record: Aircraft
    status: Status
    stations: dict[str, StationPlan]
    receiver: tuple[str, ...]
    radio: Radio | None
    wiring: tuple[Run, ...]
    positions: dict[str, Place3]
    sundries: tuple[Sundry, ...]
    bounds: Bounds | None
    places: dict[str, Place]
    status_since: datetime.date | None = None  # None: as in aircraft.yaml
    fitted: dict[str, dict[str, list[Fitted]]] = field(default_factory=dict)
    serves: dict[str, tuple[str, ...]] = field(default_factory=dict)
    settings: dict[tuple[str | None, str], InForce] = field(default_factory=dict)
    setting_log: list[InForce] = field(default_factory=list)
    gain_sets: dict[str, GainSet] = field(default_factory=dict)
    gain_periods: list[GainsPeriod] = field(default_factory=list)
    gain_verdicts: list[GainsVerdict] = field(default_factory=list)
    flights: list[FlightDone] = field(default_factory=list)
    packs: dict[str, None] = field(default_factory=dict)  # all that it was flown on, in order
    tally: Tally = field(default_factory=Tally)
    events: list[Event] = field(default_factory=list)
    checks: list[CheckDone] = field(default_factory=list)
    inspections: list[TaskDone] = field(default_factory=list)
    weighings: list[Weighing] = field(default_factory=list)
    mass_changes: list[MassChange] = field(default_factory=list)
    incidents: list[IncidentDone] = field(default_factory=list)
    repairs: list[RepairDone] = field(default_factory=list)
    log: list[LogLine] = field(default_factory=list)
    grounding: dict[str, DefectState] = field(default_factory=dict)  # open ones, by uid
    firmware: dict[str, str] | None = None  # of what is fitted; None: to be gathered anew

    @property
    def total(self) -> Flown:
        """All it has flown so far, carried life included."""
        flown, carried = self.tally.total, self.record.carried
        if carried is None:
            return flown
        return flown + Flown(carried.duration_s, carried.flights)

    def fitted_at(self, station: str) -> list[str]:
        """The tags at a station, with an ESC elsewhere that serves it."""
        here = [fit.tag for slot in self.fitted.get(station, {}).values() for fit in slot]
        served = [tag for tag, stations in self.serves.items() if station in stations]
        return here + [tag for tag in served if tag not in here]

    def all_fitted(self) -> list[str]:
        """All tags that are fitted, station by station."""
        return [
            fit.tag for kinds in self.fitted.values() for slot in kinds.values() for fit in slot
        ]


class Landed(NamedTuple):
    """A landing that was none of the good ones: which row of which flight entry."""

    entry_uid: str
    row_index: int


@dataclass(slots=True)
class Draft:
    """The whole hangar so far.

    incident_after: the incident that a bad landing was written up in, and its uid.
    landing_of: that landing, by the uid of the incident.
    """

    ledger: Ledger
    items: dict[str, ItemDraft]
    aircraft: dict[str, AircraftDraft]
    objections: Objections = field(default_factory=Objections)
    defects: dict[str, DefectState] = field(default_factory=dict)
    incident_after: dict[Landed, tuple[str, Incident]] = field(default_factory=dict)
    landing_of: dict[str, Landed] = field(default_factory=dict)
    store_log: list[LogLine] = field(default_factory=list)

    def home(self, entry: Entry) -> AircraftDraft | None:
        """The aircraft whose logbook the entry stands in."""
        return None if entry.aircraft is None else self.aircraft.get(entry.aircraft)

    def used(self, moment: Moment, tag: str, place: Place, about: str | None) -> ItemDraft | None:
        """The item of that tag, for an entry that uses it; None where there is none.

        An unknown tag is the reader's to report.
        """
        item = self.items.get(tag)
        if item is None:
            return None
        acquired = item.item.acquired
        if acquired is not None and moment.on < acquired:
            self.objections.object(
                f"{item.words} used on {moment.on}, before it was acquired on {acquired}",
                place,
                again=f"{tag} before acquired",
                also=(item.item.place("acquired"),),
                about=about,
            )
        return item


def begin(ledger: Ledger) -> Draft:
    """The hangar before the first entry."""
    items = {
        tag: ItemDraft(tag, item, ledger.specs[item.spec])
        for tag, item in ledger.items.items()
        if item.spec in ledger.specs
    }
    return Draft(ledger, items, {slug: _first(record) for slug, record in ledger.aircraft.items()})


def _first(record: Aircraft) -> AircraftDraft:
    """An aircraft as ``aircraft.yaml`` has it."""
    written = {
        "receiver": record.receiver,
        "radio": record.radio,
        "wiring": record.wiring,
        "sundries": record.sundries,
        "bounds": record.bounds,
        "status": record.status,
    }
    paths = [
        *(f"stations.{name}" for name in record.stations),
        *(f"positions.{name}" for name in record.positions),
        *(key for key, value in written.items() if value),
    ]
    return AircraftDraft(
        slug=record.slug,
        record=record,
        status=record.status,
        stations=dict(record.stations),
        receiver=record.receiver,
        radio=record.radio,
        wiring=record.wiring,
        positions=dict(record.positions),
        sundries=record.sundries,
        bounds=record.bounds,
        places={path: record.place(path) for path in paths},
    )
