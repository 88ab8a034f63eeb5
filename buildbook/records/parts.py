"""Kinds of part (specs) and tagged physical parts (items)."""

import datetime
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import count
from typing import Annotated, ClassVar, Literal

import msgspec

from buildbook.records.declare import PUBLIC, WrittenOnly, key
from buildbook.records.keys.fields import Fields, Group, fields_of
from buildbook.records.keys.quantities import (
    SOME_TEXTS,
    Blades,
    CarriedCycles,
    CarriedFlights,
    CarriedTime_s,
    CellCount,
    CellResistance_ohm,
    CellVoltage_v,
    ChargeRate_c,
    Coefficient,
    Current_a,
    DischargeRate_c,
    Efficiency,
    FigureOfMerit,
    Link,
    Name,
    NoLoadCurrent_a,
    PartMass_kg,
    Poles,
    Power_w,
    RatedCharge_ah,
    SpeedConstant_rpm_v,
    Torque_nm,
    Voltage_v,
    WindingResistance_ohm,
)
from buildbook.records.keys.values import MONEY, PROPELLER_SIZE, choice
from buildbook.records.keys.values import Cells as Cells
from buildbook.records.keys.values import Money as Money
from buildbook.records.keys.values import PropellerSize as PropellerSize
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
    "remote_id",
    "charger",
    "sensor",
    "camera",
    "wing",
    "tail",
    "undercarriage",
    "hardware",
    "other",
)

DRIVE = ("motor", "esc", "propeller")
"""What sits at a motor station, and serves while the motors run."""

_POWERED = ("regulator", "current_sensor", "servo")

Hand = Literal["cw", "ccw"]
LifeBasis = Literal["measured", "estimate", "unknown"]
ItemState = Literal["serviceable", "quarantined", "retired", "scrapped"]
GONE: tuple[ItemState, ...] = ("retired", "scrapped")
"""Out of use for good."""
AT_HAND: tuple[ItemState, ...] = ("serviceable", "quarantined")


CHEMISTRIES = ("LiPo", "LiHV", "LiIon", "LiFe", "NiMH")


class CellVolts(msgspec.Struct, frozen=True, kw_only=True):
    """Limits of one cell as the keeper or the maker's sheet has them; they go before usual ones."""

    lowest_v: Annotated[
        CellVoltage_v | None, key("Lowest of a cell in flight", "3.1 V", shown="public")
    ] = None
    highest_v: Annotated[
        CellVoltage_v | None, key("Highest of a cell at rest", "4.2 V", shown="public")
    ] = None
    rest_lowest_v: Annotated[
        CellVoltage_v | None, key("Lowest of a cell at rest", "3.2 V", shown="public")
    ] = None


class Spec(Record, frozen=True, kw_only=True):
    """A kind of part, shared by many items."""

    spec: Annotated[Name, key("Its id, unique in the hangar", "motor-2310-870", shown="public")]
    kind: Annotated[
        str, choice(*KINDS, what="kind of part"), key("What it is", "motor", shown="public")
    ]
    name: Annotated[str | None, key("Name in words", "2310 motor, 870 kv", shown="public")] = None
    mass_kg: Annotated[PartMass_kg | None, key("Mass of one", "54 g", shown="public")] = None
    note: Annotated[str | None, key("Remarks", "long shaft")] = None
    sheet: Annotated[
        str | None,
        key("Where its figures come from", "seller's sheet of 2026-01", shown="public"),
    ] = None
    link: Annotated[
        Link | None, key("A page about it", "https://parts.example.org/2310", shown="public")
    ] = None
    sure: Annotated[
        bool, key("Meant as written: what the program would doubt of it is not said", "true")
    ] = False
    # motor
    kv_rpm_v: Annotated[
        SpeedConstant_rpm_v | None,
        key("Speed constant", "870 rpm/V", shown="public", kinds=("motor",)),
    ] = None
    resistance_ohm: Annotated[
        WindingResistance_ohm | None,
        key("Winding resistance, lead to lead", "96 mΩ", shown="public", kinds=("motor",)),
    ] = None
    no_load_current_a: Annotated[
        NoLoadCurrent_a | None,
        key("Current without propeller", "0.6 A", shown="public", kinds=("motor",)),
    ] = None
    no_load_voltage_v: Annotated[
        Voltage_v | None,
        key("Voltage at which that was measured", "10 V", shown="public", kinds=("motor",)),
    ] = None
    max_current_a: Annotated[
        Current_a | None,
        key("Maximum current", "22 A", shown="public", kinds=("motor", *_POWERED)),
    ] = None
    max_power_w: Annotated[
        Power_w | None,
        key("Maximum power", "240 W", shown="public", kinds=("motor",)),
    ] = None
    efficiency_share: Annotated[
        Efficiency | None,
        key(
            "Share of the power that comes through, as in a hover",
            "80 %",
            shown="public",
            kinds=("motor", "esc"),
        ),
    ] = None
    poles: Annotated[
        Poles | None, key("Number of magnet poles", "14", shown="public", kinds=("motor",))
    ] = None
    bench: Annotated[
        str | None,
        key(
            "Thrust-stand table, a file of bench/",
            "2310-11x45.csv",
            kinds=("motor",),
        ),
    ] = None
    nut: Annotated[
        Literal["right", "left"] | None,
        key("Thread of its propeller nut", "right", shown="public", kinds=("motor",)),
    ] = None
    # esc
    continuous_current_a: Annotated[
        Current_a | None,
        key("Current it carries continuously", "30 A", shown="public", kinds=("esc",)),
    ] = None
    burst_current_a: Annotated[
        Current_a | None,
        key("Current it carries for seconds", "40 A", shown="public", kinds=("esc",)),
    ] = None
    cells: Annotated[
        CellCount | None,
        key(
            "Cells it may be fed from",
            "2S-4S",
            shown="public",
            kinds=("esc", "motor", "regulator"),
        ),
        key(
            "Cells in series, and parallel strings",
            "4S",
            shown="public",
            kinds=("battery",),
            required=True,
        ),
    ] = None
    # propeller
    size: Annotated[
        PropellerSize | None,
        PROPELLER_SIZE,
        key("Diameter and pitch", "10x4.5", shown="public", kinds=("propeller",), required=True),
    ] = None
    hand: Annotated[
        Hand | None,
        key(
            "How it turns when it lifts, seen from above (aeroplane: from ahead)",
            "cw",
            shown="public",
            kinds=("propeller",),
        ),
    ] = None
    blades: Annotated[
        Blades | None, key("Number of blades", "2", shown="public", kinds=("propeller",))
    ] = None
    thrust_coefficient: Annotated[
        Coefficient | None,
        key("Static thrust coefficient CT", "0.11", shown="public", kinds=("propeller",)),
    ] = None
    power_coefficient: Annotated[
        Coefficient | None,
        key("Static power coefficient CP", "0.045", shown="public", kinds=("propeller",)),
    ] = None
    table: Annotated[
        str | None,
        key(
            "Measured coefficients CT and CP over rpm or J, a file of bench/",
            "10x47.csv",
            kinds=("propeller",),
        ),
    ] = None
    figure_of_merit: Annotated[
        FigureOfMerit | None,
        key("Ideal over true hover power", "0.62", shown="public", kinds=("propeller",)),
    ] = None
    # battery
    capacity_ah: Annotated[
        RatedCharge_ah | None,
        key(
            "Rated capacity of the pack",
            "2200 mAh",
            shown="public",
            kinds=("battery",),
            required=True,
        ),
    ] = None
    chemistry: Annotated[
        str | None,
        choice(*CHEMISTRIES),
        key("Chemistry", "LiPo", shown="public", kinds=("battery",)),
    ] = None
    discharge_rate_c: Annotated[
        DischargeRate_c | None,
        key("Rated discharge", "25C", shown="public", kinds=("battery",)),
    ] = None
    charge_rate_c: Annotated[
        ChargeRate_c | None, key("Rated charge", "1C", shown="public", kinds=("battery",))
    ] = None
    cell_resistance_ohm: Annotated[
        CellResistance_ohm | None,
        key("Resistance of one new cell", "6 mΩ", shown="public", kinds=("battery",)),
    ] = None
    nominal_cell_voltage_v: Annotated[
        CellVoltage_v | None,
        key("Nominal voltage of a cell", "3.7 V", shown="public", kinds=("battery",)),
    ] = None
    cutoff_cell_voltage_v: Annotated[
        CellVoltage_v | None,
        key(
            "Voltage of a cell under load at which to stop",
            "3.3 V",
            shown="public",
            kinds=("battery",),
        ),
    ] = None
    volts: Annotated[
        CellVolts | None,
        Group(CellVolts, "limits of a cell"),
        key(
            "Limits of a cell, where they differ from those usual for its chemistry",
            "{lowest: 3.1 V, highest: 4.2 V, rest_lowest: 3.2 V}",
            shown="public",
            kinds=("battery",),
        ),
    ] = None
    # regulator, current_sensor, servo
    torque_nm: Annotated[
        Torque_nm | None,
        key(
            "Torque of a servo, as its maker states it",
            "1.8 kg·cm",
            shown="public",
            written="torque",
            kinds=("servo",),
        ),
    ] = None
    voltage_v: Annotated[
        Voltage_v | None,
        key("Voltage it gives or needs", "5 V", shown="public", kinds=_POWERED),
    ] = None

    @property
    def title(self) -> str:
        """The name, or the id where it has none."""
        return self.name or self.spec


class Carried(msgspec.Struct, frozen=True, kw_only=True):
    """Life before these records began."""

    duration_s: Annotated[
        CarriedTime_s,
        key(
            "Hours flown before; of a glider's motor, ESC and propeller those that the motor ran",
            "3.2",
            shown="public",
            written="hours",
        ),
    ] = 0.0
    flights: Annotated[CarriedFlights, key("Flights before", "20", shown="public")] = 0
    cycles: Annotated[CarriedCycles, key("Full charge cycles before", "0", shown="public")] = 0.0
    basis: Annotated[LifeBasis, key("How that is known", "measured", shown="public")] = "measured"


CarriedLife = Annotated[Carried, Group(Carried, "carried life")]


class Item(Record, frozen=True, kw_only=True):
    """One physical part with a tag. ``aircraft`` is set where it was listed in aircraft.yaml."""

    tag: Annotated[Name, key("Unique in the hangar", "M-01", shown="public", required=False)]
    tags: ClassVar[
        Annotated[WrittenOnly, SOME_TEXTS, key("Instead of tag: several alike", "R-01..R-08")]
    ]
    spec: Annotated[str, key("The kind of part", "motor-2310-870", shown="public")]
    acquired: Annotated[
        datetime.date | None, key("Day it was acquired", "2026-02-03", shown="public")
    ] = None
    made: Annotated[
        datetime.date | None,
        key(
            "Day it was made: the age of a pack counts from here, else from acquired",
            "2025-11-01",
            shown="public",
        ),
    ] = None
    mass_kg: Annotated[
        PartMass_kg | None,
        key("Measured mass; overrides that of the spec", "54.2 g", shown="public"),
    ] = None
    mark: Annotated[str | None, key("What is written on it", "blue dot", shown="public")] = None
    serial: Annotated[str | None, key("Serial number; private", "K7731")] = None
    price: Annotated[Money | None, MONEY, key("Price; private", "14.50 EUR")] = None
    carried: Annotated[
        CarriedLife | None,
        key(
            "Life before these records; absent means new",
            "{hours: 3.2, flights: 20, cycles: 0, basis: measured}",
            shown="public",
        ),
    ] = None
    note: Annotated[str | None, key("Remarks", "from the old trainer")] = None
    aircraft: Annotated[str | None, PUBLIC] = None


def spec_kinds() -> Mapping[str, Fields]:
    """What a spec of each kind has beyond the keys that all have."""
    common = fields_of(Spec)
    return {
        kind: {key: field for key, field in fields_of(Spec, kind).items() if key not in common}
        for kind in KINDS
    }


LETTERS: Mapping[str, str] = {
    "motor": "M",
    "esc": "E",
    "propeller": "R",
    "battery": "P",
    "servo": "S",
    "frame": "F",
    "controller": "C",
    "receiver": "X",
}
"""What the tags of a kind of part begin with where a keeper has none of it yet."""

_NUMBERED = re.compile(r"(.*?)([0-9]+)").fullmatch


def stem_of(tags: Iterable[str]) -> str:
    """What these tags begin with before their number; nothing where that differs."""
    stems = {found[1] for tag in tags if (found := _NUMBERED(tag))}
    return stems.pop() if len(stems) == 1 else ""


def free_tags(kind: str, alike: Iterable[str], taken: Collection[str]) -> Iterator[str]:
    """Tags as those alike have them, numbered on from the highest that is taken."""
    stem = stem_of(alike) or f"{LETTERS[kind]}-"
    numbers = [int(found[2]) for tag in taken if (found := _NUMBERED(tag)) and found[1] == stem]
    yield from (f"{stem}{number}" for number in count(max(numbers, default=0) + 1))
