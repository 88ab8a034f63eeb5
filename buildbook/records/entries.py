"""The entries of a logbook: one frozen type for each kind, all dated, all with their place."""

import datetime
from collections.abc import Mapping
from typing import Literal, Union

import msgspec

from buildbook.records.aircraft import Bounds, Place3, Radio, Run, StationPlan, Status, Sundry
from buildbook.records.parts import ItemState
from buildbook.records.record import Record

Landing = Literal["normal", "hard", "crash"]
Result = Literal["pass", "fail"]
Looked = Literal["pass", "fail", "not applicable"]
"""How an inspection came out; only a notice may be not applicable."""


class Entry(Record, frozen=True, kw_only=True, tag_field="kind"):
    """What all entries share.

    log: ``aircraft/<slug>`` or ``stores/<name>``; files of one log are read as one list.
    index: the position in that list.
    id: as written, or ``<day>-<n>`` (the nth of that day in its file).
    uid: ``<file>#<id>``, unique in the hangar.
    time: the clock time as written, never shown in public.
    """

    log: str
    aircraft: str | None
    index: int
    id: str
    on: datetime.date
    time: str | None = None
    by: str | None = None
    checked_by: str | None = None
    note: str | None = None
    photos: tuple[str, ...] = ()
    entered: datetime.date | None = None

    @property
    def uid(self) -> str:
        """Unique in the hangar."""
        return f"{self.file}#{self.id}"


class Slot(msgspec.Struct, frozen=True):
    """A station, the kind of item that sits there, and the tags of it."""

    station: str
    kind: str
    tags: tuple[str, ...]


class Fit(Entry, frozen=True, kw_only=True, tag="fit"):
    """Parts go in. ``serves``: a shared ESC and the motor stations it drives."""

    slots: tuple[Slot, ...]
    instead_of: Mapping[str, ItemState] = {}
    serves: Mapping[str, tuple[str, ...]] = {}


class Remove(Entry, frozen=True, kw_only=True, tag="remove"):
    """Parts come out."""

    tags: tuple[str, ...]
    because: str | None = None
    state: ItemState | None = None


class StateChange(Entry, frozen=True, kw_only=True, tag="state"):
    """An item is set aside, retired, or returned."""

    states: Mapping[str, ItemState]
    because: str | None = None


class FlightRow(msgspec.Struct, frozen=True, kw_only=True):
    """One flight. ``packs`` as flown together; ``line`` is where its row stands."""

    duration_s: float
    packs: tuple[str, ...] = ()
    used_ah: float | None = None
    landing: Landing = "normal"
    line: int = 0


class Volts(msgspec.Struct, frozen=True, kw_only=True):
    """Voltage of the whole pack before, at its lowest, and after."""

    before_v: float | None = None
    lowest_v: float | None = None
    after_v: float | None = None


class Flight(Entry, frozen=True, kw_only=True, tag="flight"):
    """``flight`` (one row) or ``flights`` (rows of one day); the rest holds for all rows."""

    rows: tuple[FlightRow, ...]
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
    gains: str | None = None


class Charge(Entry, frozen=True, kw_only=True, tag="charge"):
    """Packs were charged; per-cell readings in the order of the cells."""

    packs: tuple[str, ...]
    put_in_ah: float | None = None
    resistance_ohm: tuple[float, ...] = ()
    resting_v: tuple[float, ...] = ()
    temperature_k: float | None = None
    to: Literal["full", "part", "storage"] | None = None


class Capacity(Entry, frozen=True, kw_only=True, tag="capacity"):
    """A measured capacity of a pack."""

    pack: str
    measured_ah: float
    current_a: float | None = None
    temperature_k: float | None = None
    down_to_v: float | None = None


class Check(Entry, frozen=True, kw_only=True, tag="check"):
    """Set-up checks done; ``taught`` where it was written as ``calibration``.

    readings: flat, by name (nested names joined by a dot), as written.
    """

    checks: tuple[str, ...]
    result: Result
    readings: Mapping[str, str] = {}
    stations: tuple[str, ...] = ()
    surface: str | None = None
    taught: bool = False


class Setting(Entry, frozen=True, kw_only=True, tag="setting"):
    """Settings by the keeper's own names; ``of`` is a station or a tag."""

    settings: Mapping[str, str]
    of: str | None = None
    because: str | None = None


class Gains(Entry, frozen=True, kw_only=True, tag="gains"):
    """A gain set comes into force. No values: back to the set of that name.

    ``values`` holds what is written here; with ``base`` only the axes that differ from it.
    """

    name: str
    values: Mapping[str, Mapping[str, float]] = {}
    base: str | None = None
    because: str | None = None


class Verdict(Entry, frozen=True, kw_only=True, tag="verdict"):
    """What was thought of gain sets, by name."""

    verdicts: Mapping[str, str]


class Weigh(Entry, frozen=True, kw_only=True, tag="weigh"):
    """The aircraft on the scales, with the pack named, without the tags named."""

    mass_kg: float
    pack: str | None = None
    without: tuple[str, ...] = ()
    cg_m: Place3 | None = None
    scales_kg: Mapping[str, float] = {}


class Incident(Entry, frozen=True, kw_only=True, tag="incident"):
    """Something went wrong; nothing named as touched means everything."""

    words: str
    severity: Literal["light", "hard", "total"] = "hard"
    touched: tuple[str, ...] = ()
    cause: str | None = None
    injury: bool | None = None
    property: bool | None = None
    reportable: Literal["yes", "no", "unsure"] | None = None


class Repair(Entry, frozen=True, kw_only=True, tag="repair"):
    """A repair; ``after`` is the id of the incident as written."""

    words: str
    after: str | None = None
    touched: tuple[str, ...] = ()


class Inspection(Entry, frozen=True, kw_only=True, tag="inspection"):
    """Tasks of the programme, or notices, done; no tags means all that they apply to.

    because: why a notice is not applicable.
    """

    tasks: tuple[str, ...]
    tags: tuple[str, ...] = ()
    result: Looked = "pass"
    findings: str | None = None
    because: str | None = None


class Until(msgspec.Struct, frozen=True, kw_only=True):
    """How long a defect may wait: a day, or so many flights or seconds of flying from its entry."""

    on: datetime.date | None = None
    flights: int | None = None
    duration_s: float | None = None


class Defect(Entry, frozen=True, kw_only=True, tag="defect"):
    """Something is wrong, until it is cleared."""

    words: str
    item: str | None = None
    station: str | None = None
    severity: Literal["grounds", "defer", "note"] = "grounds"
    deferred_until: Until | None = None


class Cleared(Entry, frozen=True, kw_only=True, tag="cleared"):
    """A defect is closed; ``defect`` as written, ``target`` the uid of its entry."""

    defect: str
    target: str
    how: str | None = None


class Firmware(Entry, frozen=True, kw_only=True, tag="firmware"):
    """Firmware versions by tag."""

    versions: Mapping[str, str]


class Alteration(Entry, frozen=True, kw_only=True, tag="alteration"):
    """A dated change of the aircraft. Named keys replace; what is None or absent stays.

    ``keys`` names the keys of aircraft.yaml that were written here.
    """

    words: str
    keys: tuple[str, ...] = ()
    stations: Mapping[str, StationPlan] = {}
    receiver: tuple[str, ...] = ()
    radio: Radio | None = None
    wiring: tuple[Run, ...] = ()
    positions: Mapping[str, Place3] = {}
    sundries: tuple[Sundry, ...] = ()
    bounds: Bounds | None = None
    status: Status | None = None
    mass_kg: float | None = None
    at: Place3 | None = None


class Transport(Entry, frozen=True, kw_only=True, tag="transport"):
    """A long trip."""

    words: str


class Water(Entry, frozen=True, kw_only=True, tag="water"):
    """It got wet."""

    words: str


class Note(Entry, frozen=True, kw_only=True, tag="note"):
    """Just words."""

    words: str


class Correction(Entry, frozen=True, kw_only=True, tag="corrects"):
    """A later word on an earlier entry, which stays visible.

    corrects: the id as written. original: the uid of the entry at the root of the chain.
    becomes: what that entry says from now on, earlier corrections of it included.
    changed: the keys that were written under ``set``; empty where the whole entry was replaced.
    """

    corrects: str
    original: str
    becomes: "Plain"
    changed: tuple[str, ...] = ()
    because: str


class Void(Entry, frozen=True, kw_only=True, tag="voids"):
    """An earlier entry counts no more; it stays visible. ``original`` is its uid."""

    voids: str
    original: str
    because: str


Plain = Union[  # noqa: UP007 (read by msgspec and mypy alike)
    Fit,
    Remove,
    StateChange,
    Flight,
    Charge,
    Capacity,
    Check,
    Setting,
    Gains,
    Verdict,
    Weigh,
    Incident,
    Repair,
    Inspection,
    Defect,
    Cleared,
    Firmware,
    Alteration,
    Transport,
    Water,
    Note,
]
AnyEntry = Union[Plain, Correction, Void]  # noqa: UP007
