"""The keys of kinds of part (by kind) and of tagged items."""

from collections.abc import Mapping

from buildbook.basis.limits import Limits, between, plain
from buildbook.records.parts import KINDS, Carried
from buildbook.records.shapes import Field, Fields, Group, Several, key_owners, table
from buildbook.records.values import (
    DAY,
    MONEY,
    NAME,
    PROPELLER_SIZE,
    TEXT,
    cells,
    choice,
    hours,
    number,
    quantity,
    rate,
    whole,
)

# The most that one part of a kind weighs before it is warned about. Common practice, no source.
HEAVIEST: Mapping[str, str] = {
    "motor": "3 kg",
    "esc": "1 kg",
    "propeller": "1 kg",
    "battery": "15 kg",
    "servo": "1 kg",
    "controller": "1 kg",
    "receiver": "500 g",
    "sensor": "1 kg",
}

_COUNT_OF_CELLS = plain(1, 28)
_CELL_VOLTAGE = between("voltage", "0.5 V", "5 V")

SPEC: Fields = table(
    Field(
        key="spec",
        attribute="spec",
        value=NAME,
        doc="Its id, unique in the hangar",
        example="motor-2310-870",
        required=True,
    ),
    Field(
        key="kind",
        attribute="kind",
        value=choice(*KINDS),
        doc="What it is",
        example="motor",
        required=True,
    ),
    Field(
        key="name", attribute="name", value=TEXT, doc="Name in words", example="2310 motor, 870 kv"
    ),
    Field(
        key="mass",
        attribute="mass_kg",
        value=quantity("mass", between("mass", "0.01 g", "50 kg")),
        doc="Mass of one",
        example="54 g",
    ),
    Field(key="note", attribute="note", value=TEXT, doc="Remarks", example="long shaft"),
    Field(
        key="sheet",
        attribute="sheet",
        value=TEXT,
        doc="Where its figures come from",
        example="seller's sheet of 2026-01",
    ),
    Field(
        key="link",
        attribute="link",
        value=TEXT,
        doc="A page about it",
        example="https://parts.example.org/2310",
    ),
)

_MAX_CURRENT = Field(
    key="max_current",
    attribute="max_current_a",
    value=quantity("current"),
    doc="Most it may carry",
    example="22 A",
)

_MOTOR = (
    Field(
        key="kv",
        attribute="kv_rpm_v",
        value=quantity("speed_constant"),
        doc="Speed constant",
        example="870 rpm/V",
    ),
    Field(
        key="resistance",
        attribute="resistance_ohm",
        value=quantity("resistance", between("resistance", "0.1 mΩ", "10 Ω")),
        doc="Winding resistance, lead to lead",
        example="96 mΩ",
    ),
    Field(
        key="no_load_current",
        attribute="no_load_current_a",
        value=quantity("current", between("current", "1 mA", "20 A")),
        doc="Current without propeller",
        example="0.6 A",
    ),
    Field(
        key="no_load_voltage",
        attribute="no_load_voltage_v",
        value=quantity("voltage"),
        doc="Voltage at which that was measured",
        example="10 V",
    ),
    _MAX_CURRENT,
    Field(
        key="max_power",
        attribute="max_power_w",
        value=quantity("power"),
        doc="Most power it may take",
        example="240 W",
    ),
    Field(
        key="poles",
        attribute="poles",
        value=whole(plain(2, 60)),
        doc="Number of magnet poles",
        example="14",
    ),
    Field(
        key="bench",
        attribute="bench",
        value=TEXT,
        doc="Thrust-stand table, a file of bench/",
        example="2310-11x45.csv",
    ),
)
_ESC = (
    Field(
        key="continuous_current",
        attribute="continuous_current_a",
        value=quantity("current"),
        doc="Current it carries for good",
        example="30 A",
    ),
    Field(
        key="burst_current",
        attribute="burst_current_a",
        value=quantity("current"),
        doc="Current it carries for seconds",
        example="40 A",
    ),
    Field(
        key="cells",
        attribute="cells",
        value=cells(_COUNT_OF_CELLS),
        doc="Cells it may be fed from",
        example="2S-4S",
    ),
)
_PROPELLER = (
    Field(
        key="size",
        attribute="size",
        value=PROPELLER_SIZE,
        doc="Diameter and pitch",
        example="10x4.5",
        required=True,
    ),
    Field(
        key="hand",
        attribute="hand",
        value=choice("cw", "ccw"),
        doc="How it turns when it lifts, seen from above",
        example="cw",
    ),
    Field(
        key="blades",
        attribute="blades",
        value=whole(plain(1, 12)),
        doc="Number of blades",
        example="2",
    ),
    Field(
        key="thrust_coefficient",
        attribute="thrust_coefficient",
        value=number(Limits(1e-4, 1.0)),
        doc="Static thrust coefficient CT",
        example="0.11",
    ),
    Field(
        key="power_coefficient",
        attribute="power_coefficient",
        value=number(Limits(1e-4, 1.0)),
        doc="Static power coefficient CP",
        example="0.045",
    ),
    Field(
        key="figure_of_merit",
        attribute="figure_of_merit",
        value=number(Limits(0.05, 1.0)),
        doc="Ideal over true hover power",
        example="0.62",
    ),
)
_BATTERY = (
    Field(
        key="cells",
        attribute="cells",
        value=cells(_COUNT_OF_CELLS),
        doc="Cells in series, and parallel strings",
        example="4S",
        required=True,
    ),
    Field(
        key="capacity",
        attribute="capacity_ah",
        value=quantity("charge", between("charge", "10 mAh", "100 Ah")),
        doc="Rated capacity of the pack",
        example="2200 mAh",
        required=True,
    ),
    Field(
        key="chemistry",
        attribute="chemistry",
        value=choice("LiPo", "LiHV", "LiIon", "LiFe", "NiMH"),
        doc="Chemistry",
        example="LiPo",
    ),
    Field(
        key="discharge_rate",
        attribute="discharge_rate_c",
        value=rate(plain(0.1, 300)),
        doc="Rated discharge",
        example="25C",
    ),
    Field(
        key="charge_rate",
        attribute="charge_rate_c",
        value=rate(plain(0.05, 20)),
        doc="Rated charge",
        example="1C",
    ),
    Field(
        key="cell_resistance",
        attribute="cell_resistance_ohm",
        value=quantity("resistance", between("resistance", "0.05 mΩ", "1 Ω")),
        doc="Resistance of one new cell",
        example="6 mΩ",
    ),
    Field(
        key="nominal_cell_voltage",
        attribute="nominal_cell_voltage_v",
        value=quantity("voltage", _CELL_VOLTAGE),
        doc="Nominal voltage of a cell",
        example="3.7 V",
    ),
    Field(
        key="cutoff_cell_voltage",
        attribute="cutoff_cell_voltage_v",
        value=quantity("voltage", _CELL_VOLTAGE),
        doc="Voltage of a cell under load at which to stop",
        example="3.3 V",
    ),
)
_POWERED = (
    _MAX_CURRENT,
    Field(
        key="voltage",
        attribute="voltage_v",
        value=quantity("voltage"),
        doc="Voltage it gives or needs",
        example="5 V",
    ),
)

# What a spec of a kind has beyond the keys that all have.
SPEC_KINDS: Mapping[str, Fields] = {
    **{kind: table() for kind in KINDS},
    "motor": table(*_MOTOR),
    "esc": table(*_ESC),
    "propeller": table(*_PROPELLER),
    "battery": table(*_BATTERY),
    "regulator": table(*_POWERED),
    "current_sensor": table(*_POWERED),
    "servo": table(*_POWERED),
}

CARRIED: Fields = table(
    Field(
        key="hours",
        attribute="duration_s",
        value=hours(Limits(1, 3.6e8, True, "1 s", "100000 hours")),
        doc="Hours flown before",
        example="3.2",
    ),
    Field(
        key="flights",
        attribute="flights",
        value=whole(plain(0, 1_000_000)),
        doc="Flights before",
        example="20",
    ),
    Field(
        key="cycles",
        attribute="cycles",
        value=number(plain(0, 100_000)),
        doc="Full charge cycles before",
        example="0",
    ),
    Field(
        key="basis",
        attribute="basis",
        value=choice("measured", "estimate", "unknown"),
        doc="How that is known",
        example="measured",
    ),
)
CARRIED_LIFE = Group(Carried, CARRIED, "carried life")

ITEM: Fields = table(
    Field(key="tag", attribute="tag", value=NAME, doc="Unique in the hangar", example="M-01"),
    Field(
        key="tags",
        attribute="tags",
        value=Several(TEXT, single=True, least=1),
        doc="Instead of tag: a bag of the same",
        example="R-01..R-08",
    ),
    Field(
        key="spec",
        attribute="spec",
        value=TEXT,
        doc="The kind of part",
        example="motor-2310-870",
        required=True,
    ),
    Field(
        key="acquired", attribute="acquired", value=DAY, doc="Day it came in", example="2026-02-03"
    ),
    Field(
        key="made",
        attribute="made",
        value=DAY,
        doc="Day it was made: the age of a pack counts from here, else from acquired",
        example="2025-11-01",
    ),
    Field(
        key="mass",
        attribute="mass_kg",
        value=quantity("mass", between("mass", "0.01 g", "50 kg")),
        doc="Measured mass, wins over the spec",
        example="54.2 g",
    ),
    Field(
        key="mark", attribute="mark", value=TEXT, doc="What is written on it", example="blue dot"
    ),
    Field(
        key="serial", attribute="serial", value=TEXT, doc="Serial number; private", example="K7731"
    ),
    Field(key="price", attribute="price", value=MONEY, doc="Price; private", example="14.50 EUR"),
    Field(
        key="carried",
        attribute="carried",
        value=CARRIED_LIFE,
        doc="Life before these records; absent means new",
        example="{hours: 3.2, flights: 20, cycles: 0, basis: measured}",
    ),
    Field(key="note", attribute="note", value=TEXT, doc="Remarks", example="from the old trainer"),
)


def spec_fields(kind: str) -> Fields:
    """All keys of a spec of that kind."""
    return {**SPEC, **SPEC_KINDS.get(kind, {})}


SPEC_OWNERS = key_owners(SPEC_KINDS)
