"""Kinds of part (specs) and tagged physical parts (items)."""

import datetime
from typing import Literal

import msgspec

from buildbook.records.record import Record

KINDS = (
    "motor",
    "esc",
    "propeller",
    "battery",
    "regulator",
    "current_sensor",
    "servo",
    "frame",
    "controller",
    "receiver",
    "transmitter",
    "charger",
    "sensor",
    "camera",
    "wing",
    "tail",
    "undercarriage",
    "hardware",
    "other",
)

Hand = Literal["cw", "ccw"]
LifeBasis = Literal["measured", "estimate", "unknown"]
ItemState = Literal["serviceable", "quarantined", "retired", "scrapped"]


class Cells(msgspec.Struct, frozen=True):
    """Cells in series (a range for an ESC) and strings in parallel."""

    series: int
    series_most: int
    parallel: int = 1


class PropellerSize(msgspec.Struct, frozen=True):
    """Diameter and pitch, metres; ``written`` is the size as the keeper wrote it."""

    diameter_m: float
    pitch_m: float
    written: str


class Money(msgspec.Struct, frozen=True):
    """An amount and its currency, as written."""

    amount: float
    currency: str


class Spec(Record, frozen=True, kw_only=True):
    """A kind of part, shared by many items."""

    spec: str
    kind: str
    name: str | None = None
    mass_kg: float | None = None
    note: str | None = None
    sheet: str | None = None
    link: str | None = None
    # motor
    kv_rpm_v: float | None = None
    resistance_ohm: float | None = None
    no_load_current_a: float | None = None
    no_load_voltage_v: float | None = None
    max_current_a: float | None = None
    max_power_w: float | None = None
    poles: int | None = None
    bench: str | None = None
    # esc
    continuous_current_a: float | None = None
    burst_current_a: float | None = None
    cells: Cells | None = None
    # propeller
    size: PropellerSize | None = None
    hand: Hand | None = None
    blades: int | None = None
    thrust_coefficient: float | None = None
    power_coefficient: float | None = None
    figure_of_merit: float | None = None
    # battery
    capacity_ah: float | None = None
    chemistry: str | None = None
    discharge_rate_c: float | None = None
    charge_rate_c: float | None = None
    cell_resistance_ohm: float | None = None
    nominal_cell_voltage_v: float | None = None
    cutoff_cell_voltage_v: float | None = None
    # regulator, current_sensor, servo
    voltage_v: float | None = None

    @property
    def title(self) -> str:
        """The name, or the id where it has none."""
        return self.name or self.spec


class Carried(msgspec.Struct, frozen=True, kw_only=True):
    """Life before these records began."""

    duration_s: float = 0.0
    flights: int = 0
    cycles: float = 0.0
    basis: LifeBasis = "measured"


class Item(Record, frozen=True, kw_only=True):
    """One physical part with a tag. ``aircraft`` is set where it was listed in aircraft.yaml."""

    tag: str
    spec: str
    acquired: datetime.date | None = None
    made: datetime.date | None = None
    mass_kg: float | None = None
    mark: str | None = None
    serial: str | None = None
    price: Money | None = None
    carried: Carried | None = None
    note: str | None = None
    aircraft: str | None = None
