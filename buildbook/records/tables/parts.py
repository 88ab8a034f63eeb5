"""The keys of kinds of part (by kind) and of tagged items."""

from collections.abc import Mapping

from buildbook.basis.limits import Limits, between, plain
from buildbook.records.parts import KINDS, Carried
from buildbook.records.shapes import PUBLIC_OK, Fields, Group, Several, key, key_owners, table
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
    key("spec", NAME, "Its id, unique in the hangar", "motor-2310-870", required=True),
    key("kind", choice(*KINDS, what="kind of part"), "What it is", "motor", required=True),
    key("name", TEXT, "Name in words", "2310 motor, 870 kv"),
    key(
        "mass",
        quantity("mass", between("mass", "0.01 g", "50 kg")),
        "Mass of one",
        "54 g",
        "mass_kg",
    ),
    key("note", TEXT, "Remarks", "long shaft"),
    key("sheet", TEXT, "Where its figures come from", "seller's sheet of 2026-01"),
    key("link", TEXT, "A page about it", "https://parts.example.org/2310"),
    PUBLIC_OK,
)

_MAX_CURRENT = key("max_current", quantity("current"), "Most it may carry", "22 A", "max_current_a")

_MOTOR = (
    key("kv", quantity("speed_constant"), "Speed constant", "870 rpm/V", "kv_rpm_v"),
    key(
        "resistance",
        quantity("resistance", between("resistance", "0.1 mΩ", "10 Ω")),
        "Winding resistance, lead to lead",
        "96 mΩ",
        "resistance_ohm",
    ),
    key(
        "no_load_current",
        quantity("current", between("current", "1 mA", "20 A")),
        "Current without propeller",
        "0.6 A",
        "no_load_current_a",
    ),
    key(
        "no_load_voltage",
        quantity("voltage"),
        "Voltage at which that was measured",
        "10 V",
        "no_load_voltage_v",
    ),
    _MAX_CURRENT,
    key("max_power", quantity("power"), "Most power it may take", "240 W", "max_power_w"),
    key("poles", whole(plain(2, 60)), "Number of magnet poles", "14"),
    key("bench", TEXT, "Thrust-stand table, a file of bench/", "2310-11x45.csv"),
)
_ESC = (
    key(
        "continuous_current",
        quantity("current"),
        "Current it carries for good",
        "30 A",
        "continuous_current_a",
    ),
    key(
        "burst_current",
        quantity("current"),
        "Current it carries for seconds",
        "40 A",
        "burst_current_a",
    ),
    key("cells", cells(_COUNT_OF_CELLS), "Cells it may be fed from", "2S-4S"),
)
_PROPELLER = (
    key("size", PROPELLER_SIZE, "Diameter and pitch", "10x4.5", required=True),
    key("hand", choice("cw", "ccw"), "How it turns when it lifts, seen from above", "cw"),
    key("blades", whole(plain(1, 12)), "Number of blades", "2"),
    key("thrust_coefficient", number(Limits(1e-4, 1.0)), "Static thrust coefficient CT", "0.11"),
    key("power_coefficient", number(Limits(1e-4, 1.0)), "Static power coefficient CP", "0.045"),
    key("figure_of_merit", number(Limits(0.05, 1.0)), "Ideal over true hover power", "0.62"),
)
_BATTERY = (
    key(
        "cells",
        cells(_COUNT_OF_CELLS),
        "Cells in series, and parallel strings",
        "4S",
        required=True,
    ),
    key(
        "capacity",
        quantity("charge", between("charge", "10 mAh", "100 Ah")),
        "Rated capacity of the pack",
        "2200 mAh",
        "capacity_ah",
        required=True,
    ),
    key("chemistry", choice("LiPo", "LiHV", "LiIon", "LiFe", "NiMH"), "Chemistry", "LiPo"),
    key("discharge_rate", rate(plain(0.1, 300)), "Rated discharge", "25C", "discharge_rate_c"),
    key("charge_rate", rate(plain(0.05, 20)), "Rated charge", "1C", "charge_rate_c"),
    key(
        "cell_resistance",
        quantity("resistance", between("resistance", "0.05 mΩ", "1 Ω")),
        "Resistance of one new cell",
        "6 mΩ",
        "cell_resistance_ohm",
    ),
    key(
        "nominal_cell_voltage",
        quantity("voltage", _CELL_VOLTAGE),
        "Nominal voltage of a cell",
        "3.7 V",
        "nominal_cell_voltage_v",
    ),
    key(
        "cutoff_cell_voltage",
        quantity("voltage", _CELL_VOLTAGE),
        "Voltage of a cell under load at which to stop",
        "3.3 V",
        "cutoff_cell_voltage_v",
    ),
)
_POWERED = (
    _MAX_CURRENT,
    key("voltage", quantity("voltage"), "Voltage it gives or needs", "5 V", "voltage_v"),
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
    key(
        "hours",
        hours(Limits(1, 3.6e8, True, "1 s", "100000 hours")),
        "Hours flown before",
        "3.2",
        "duration_s",
    ),
    key("flights", whole(plain(0, 1_000_000)), "Flights before", "20"),
    key("cycles", number(plain(0, 100_000)), "Full charge cycles before", "0"),
    key("basis", choice("measured", "estimate", "unknown"), "How that is known", "measured"),
)
CARRIED_LIFE = Group(Carried, CARRIED, "carried life")

ITEM: Fields = table(
    key("tag", NAME, "Unique in the hangar", "M-01"),
    key(
        "tags",
        Several(TEXT, single=True, least=1),
        "Instead of tag: a bag of the same",
        "R-01..R-08",
    ),
    key("spec", TEXT, "The kind of part", "motor-2310-870", required=True),
    key("acquired", DAY, "Day it came in", "2026-02-03"),
    key(
        "made",
        DAY,
        "Day it was made: the age of a pack counts from here, else from acquired",
        "2025-11-01",
    ),
    key(
        "mass",
        quantity("mass", between("mass", "0.01 g", "50 kg")),
        "Measured mass, wins over the spec",
        "54.2 g",
        "mass_kg",
    ),
    key("mark", TEXT, "What is written on it", "blue dot"),
    key("serial", TEXT, "Serial number; private", "K7731"),
    key("price", MONEY, "Price; private", "14.50 EUR"),
    key(
        "carried",
        CARRIED_LIFE,
        "Life before these records; absent means new",
        "{hours: 3.2, flights: 20, cycles: 0, basis: measured}",
    ),
    key("note", TEXT, "Remarks", "from the old trainer"),
    PUBLIC_OK,
)


def spec_fields(kind: str) -> Fields:
    """All keys of a spec of that kind."""
    return {**SPEC, **SPEC_KINDS.get(kind, {})}


SPEC_OWNERS = key_owners(SPEC_KINDS)
