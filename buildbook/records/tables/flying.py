"""Flights, charges and capacities: what is written on a flying day."""

from collections.abc import Mapping
from typing import Any

from buildbook.basis.limits import between
from buildbook.records import entries as kinds
from buildbook.records.fields import Fields, OldGroup, key, table
from buildbook.records.shapes import Several
from buildbook.records.tables.entry_kind import RESULT, Read, entry_kind
from buildbook.records.tables.hearts import FLOWN, LANDING, TAG, TAGS, USED, FlightRows
from buildbook.records.values import TEXT, choice, quantity

_AIR = quantity("temperature", between("temperature", "-40 °C", "60 °C"))
_CELL = quantity("resistance", between("resistance", "0.05 mΩ", "1 Ω"))
_PACKS = key("pack", TAGS, "The pack flown, or a list", "P-01", "packs")
VOLTS: Fields = table(
    key("before", quantity("voltage"), "Before the flight, the whole pack", "16.7 V", "before_v"),
    key("lowest", quantity("voltage"), "Lowest in flight", "14.1 V", "lowest_v"),
    key("after", quantity("voltage"), "After the flight", "15.1 V", "after_v"),
)
_FLIGHT_FIELDS = (
    _PACKS,
    key("used", USED, "Charge taken out of all packs, shared evenly", "1480 mAh", "used_ah"),
    key(
        "volts",
        OldGroup(kinds.Volts, VOLTS, "volts"),
        "Voltage of the pack",
        "{before: 16.7 V, after: 15.1 V}",
    ),
    key("landing", LANDING, "How it came down", "normal"),
    key("wind", TEXT, "Wind in words or figures", "3 m/s, gusts"),
    key("temperature", _AIR, "Of the air", "18 °C", "temperature_k"),
    key("payload", quantity("mass"), "Carried on top", "120 g", "payload_kg"),
    key("place", TEXT, "Where; private", "lower meadow", "where"),
    key("preflight", choice("done", "not done"), "Whether the list was gone through", "done"),
    key("purpose", TEXT, "What for; check closes a check flight", "check"),
    key("result", RESULT, "Of a check flight", "pass"),
    key("handling", TEXT, "How it flew", "soft in yaw"),
    key(
        "motor_run",
        quantity("duration", between("duration", "1 s", "24 h", zero_ok=True)),
        "Motor time of an aeroplane",
        "2 min 10 s",
        "motor_run_s",
    ),
    key("timing", choice("airborne", "armed"), "What was timed", "airborne"),
    key("gains", TEXT, "A gain set switched in flight", "windy"),
)


def _one_flight(read: Read) -> Read:
    """One row of the flight's own values."""
    row = {
        key: read.pop(key) for key in ("duration_s", "packs", "used_ah", "landing") if key in read
    }
    read["rows"] = (kinds.FlightRow(line=read.pop("line_of_heart"), **row),)
    return read


def _day_of_flights(read: Read) -> Read:
    """What is said for all rows fills the rows that don't say it."""
    shared = {key: read.pop(key) for key in ("packs", "used_ah", "landing") if key in read}
    rows = read["rows"]
    if shared:
        rows = tuple(_filled(row, shared) for row in rows)
    read["rows"] = rows
    return read


def _filled(row: kinds.FlightRow, shared: Mapping[Any, Any]) -> kinds.FlightRow:
    return kinds.FlightRow(
        duration_s=row.duration_s,
        line=row.line,
        packs=row.packs or shared.get("packs", ()),
        used_ah=row.used_ah if row.used_ah is not None else shared.get("used_ah"),
        landing=row.landing if row.landing != "normal" else shared.get("landing", "normal"),
    )


FLIGHT = entry_kind(
    kinds.Flight,
    key("flight", FLOWN, "How long", "7:20", "duration_s"),
    "One flight",
    *_FLIGHT_FIELDS,
    build=_one_flight,
)
FLIGHTS = entry_kind(
    kinds.Flight,
    key(
        "flights",
        FlightRows(),
        "Rows of one day",
        "[[7:20, P-01, 1480 mAh], [6:50, P-02]]",
        "rows",
    ),
    "Several flights of one day; further keys hold for all rows",
    *_FLIGHT_FIELDS,
    build=_day_of_flights,
)
CHARGE = entry_kind(
    kinds.Charge,
    key("charge", TAGS, "The pack, or a list", "P-01", "packs"),
    "Packs were charged",
    key("put_in", USED, "Charge put into all packs, shared evenly", "1540 mAh", "put_in_ah"),
    key(
        "resistance",
        Several(_CELL),
        "Resistance of each cell",
        "[8.1 mΩ, 8.3 mΩ]",
        "resistance_ohm",
    ),
    key(
        "resting",
        Several(quantity("voltage", between("voltage", "1 mV", "5 V", zero_ok=True))),
        "Resting voltage of each cell",
        "[4.18 V, 4.19 V]",
        "resting_v",
    ),
    key("temperature", _AIR, "Of the pack", "21 °C", "temperature_k"),
    key("to", choice("full", "part", "storage"), "How far", "full"),
)
CAPACITY = entry_kind(
    kinds.Capacity,
    key("capacity", TAG, "The pack", "P-01", "pack"),
    "A measured capacity",
    key(
        "measured",
        quantity("charge", between("charge", "1 mAh", "200 Ah")),
        "What came out",
        "2140 mAh",
        "measured_ah",
        required=True,
    ),
    key("current", quantity("current"), "At this current", "2 A", "current_a"),
    key("temperature", _AIR, "Of the pack", "21 °C", "temperature_k"),
    key(
        "down_to",
        quantity("voltage"),
        "Stopped at this voltage of the pack",
        "12 V",
        "down_to_v",
    ),
)
