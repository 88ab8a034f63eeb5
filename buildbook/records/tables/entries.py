"""The kinds of entry: the key of each, how its heart is read, and its further keys."""

from collections.abc import Callable, Mapping
from typing import Any

import msgspec

from buildbook.basis.limits import Limits, between, plain
from buildbook.records import entries as kinds
from buildbook.records.shapes import (
    FREE_TEXT,
    WORDS,
    ByName,
    Field,
    Fields,
    Group,
    Several,
    key_owners,
    table,
)
from buildbook.records.tables.aircraft import ALTERABLE, PLACE3
from buildbook.records.tables.hearts import FLOWN, LANDING, TAG, TAGS, USED, FlightRows, Slots
from buildbook.records.values import (
    DAY,
    MOMENT,
    NAME,
    TEXT,
    TRUTH,
    choice,
    hours,
    number,
    quantity,
    whole,
)

Read = dict[str, Any]


class EntryKind(msgspec.Struct, frozen=True, kw_only=True):
    """One kind of entry.

    make: its type. heart: the kind key itself. fields: the further keys.
    build: turns what was read into the arguments of the type, where they differ.
    """

    key: str
    make: Callable[..., Any]
    heart: Field
    fields: Fields
    doc: str
    build: Callable[[Read], Read] | None = None


COMMON: Fields = table(
    Field(
        key="on",
        attribute="moment",
        value=MOMENT,
        doc="The day, with a time where it matters",
        example="2026-03-01",
        required=True,
    ),
    Field(key="by", attribute="by", value=TEXT, doc="Who did it", example="ida"),
    Field(
        key="checked_by", attribute="checked_by", value=TEXT, doc="A second person", example="jon"
    ),
    Field(key="note", attribute="note", value=TEXT, doc="Remarks", example="gusty, landed early"),
    Field(
        key="photos",
        attribute="photos",
        value=Several(TEXT, single=True),
        doc="Files of photos/",
        example="[arm.jpg]",
    ),
    Field(
        key="id",
        attribute="id",
        value=NAME,
        doc="Its name; else the day and a count",
        example="crash-1",
    ),
    Field(
        key="entered",
        attribute="entered",
        value=DAY,
        doc="Day it was written, where that was later",
        example="2026-03-09",
    ),
)


STATE = choice("serviceable", "quarantined", "retired", "scrapped")
RESULT = choice("pass", "fail")
_AIR = quantity("temperature", between("temperature", "-40 °C", "60 °C"))
_CELL = quantity("resistance", between("resistance", "0.05 mΩ", "1 Ω"))


def _key(
    key: str, value: Any, doc: str, example: str, attribute: str = "", *, required: bool = False
) -> Field:
    """A further key, named as its attribute unless said otherwise."""
    return Field(
        key=key,
        attribute=attribute or key,
        value=value,
        doc=doc,
        example=example,
        required=required,
    )


def _kind(
    make: Callable[..., Any],
    heart: Field,
    doc: str,
    *fields: Field,
    build: Callable[[Read], Read] | None = None,
) -> EntryKind:
    return EntryKind(
        key=heart.key, make=make, heart=heart, fields=table(*fields), doc=doc, build=build
    )


_BECAUSE = _key("because", TEXT, "Why", "worn bearing")
_WHY = _key("because", TEXT, "Why", "misread the charger", required=True)
_PACKS = _key("pack", TAGS, "The pack flown, or a list", "P-01", "packs")

VOLTS: Fields = table(
    _key("before", quantity("voltage"), "Before the flight, the whole pack", "16.7 V", "before_v"),
    _key("lowest", quantity("voltage"), "Lowest in flight", "14.1 V", "lowest_v"),
    _key("after", quantity("voltage"), "After the flight", "15.1 V", "after_v"),
)
UNTIL: Fields = table(
    _key("on", DAY, "Not beyond this day", "2026-09-01"),
    _key("flights", whole(plain(1, 10_000)), "Not beyond so many flights", "5"),
    _key(
        "hours",
        hours(Limits(1, 3.6e7, False, "1 s", "10000 hours")),
        "Not beyond so many hours",
        "2",
        "duration_s",
    ),
)

_FLIGHT_FIELDS = (
    _PACKS,
    _key("used", USED, "Charge taken out, each pack alike", "1480 mAh", "used_ah"),
    _key(
        "volts",
        Group(kinds.Volts, VOLTS, "volts"),
        "Voltage of the pack",
        "{before: 16.7 V, after: 15.1 V}",
    ),
    _key("landing", LANDING, "How it came down", "normal"),
    _key("wind", TEXT, "Wind in words or figures", "3 m/s, gusts"),
    _key("temperature", _AIR, "Of the air", "18 °C", "temperature_k"),
    _key("payload", quantity("mass"), "Carried on top", "120 g", "payload_kg"),
    _key("place", TEXT, "Where; private", "lower meadow", "where"),
    _key("preflight", choice("done", "not done"), "Whether the list was gone through", "done"),
    _key("purpose", TEXT, "What for; check closes a check flight", "check"),
    _key("result", RESULT, "Of a check flight", "pass"),
    _key("handling", TEXT, "How it flew", "soft in yaw"),
    _key(
        "motor_run",
        quantity("duration", between("duration", "1 s", "24 h", zero_ok=True)),
        "Motor time of an aeroplane",
        "2 min 10 s",
        "motor_run_s",
    ),
    _key("timing", choice("airborne", "armed"), "What was timed", "airborne"),
    _key("gains", TEXT, "A gain set switched in flight", "windy"),
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


def _taught(read: Read) -> Read:
    return {"result": "pass", **read, "taught": True}


def _to_be_joined(read: Read) -> Read:
    """The entry that is cleared is found when all entries are there."""
    return {**read, "target": ""}


def _altered(read: Read) -> Read:
    read["keys"] = tuple(key for key in ALTERABLE if ALTERABLE[key].attribute in read)
    return read


_STATES = ByName(STATE, "tags with their state")
_CHECK_FIELDS = (
    _key("readings", FREE_TEXT, "What was read, by name", "{roll: 0, pitch: 1}"),
    _key("stations", Several(TEXT, single=True), "Only these stations; else all", "[front-left]"),
    _key("surface", TEXT, "Where it was done, for one that teaches", "kitchen table"),
)

KINDS: Mapping[str, EntryKind] = {
    kind.key: kind
    for kind in (
        _kind(
            kinds.Fit,
            _key("fit", Slots(), "Station, kind, tag", "{front-left: {motor: M-01}}", "slots"),
            "Parts go in",
            _key(
                "instead_of",
                _STATES,
                "What comes out in the same breath, and its state",
                "{R-01: scrapped}",
            ),
            _key(
                "serves",
                ByName(Several(TEXT, single=True), "tags with the stations they serve"),
                "A shared ESC and its stations",
                "{E-09: [front-left, front-right]}",
            ),
        ),
        _kind(
            kinds.Remove,
            _key("remove", TAGS, "Tags", "[R-03]", "tags"),
            "Parts come out",
            _BECAUSE,
            _key("state", STATE, "State from now on", "quarantined"),
        ),
        _kind(
            kinds.StateChange,
            _key("state", _STATES, "Tags with their state", "{P-02: quarantined}", "states"),
            "An item is set aside, retired, scrapped or returned",
            _BECAUSE,
        ),
        _kind(
            kinds.Flight,
            _key("flight", FLOWN, "How long", "7:20", "duration_s"),
            "One flight",
            *_FLIGHT_FIELDS,
            build=_one_flight,
        ),
        _kind(
            kinds.Flight,
            _key(
                "flights",
                FlightRows(),
                "Rows of one day",
                "[[7:20, P-01, 1480 mAh], [6:50, P-02]]",
                "rows",
            ),
            "Several flights of one day; further keys hold for all rows",
            *_FLIGHT_FIELDS,
            build=_day_of_flights,
        ),
        _kind(
            kinds.Charge,
            _key("charge", TAGS, "The pack, or a list", "P-01", "packs"),
            "Packs were charged",
            _key("put_in", USED, "Charge put in, each pack alike", "1540 mAh", "put_in_ah"),
            _key(
                "resistance",
                Several(_CELL),
                "Resistance of each cell",
                "[8.1 mΩ, 8.3 mΩ]",
                "resistance_ohm",
            ),
            _key(
                "resting",
                Several(quantity("voltage", between("voltage", "1 mV", "5 V", zero_ok=True))),
                "Resting voltage of each cell",
                "[4.18 V, 4.19 V]",
                "resting_v",
            ),
            _key("temperature", _AIR, "Of the pack", "21 °C", "temperature_k"),
            _key("to", choice("full", "part", "storage"), "How far", "full"),
        ),
        _kind(
            kinds.Capacity,
            _key("capacity", TAG, "The pack", "P-01", "pack"),
            "A measured capacity",
            _key(
                "measured",
                quantity("charge", between("charge", "1 mAh", "200 Ah")),
                "What came out",
                "2140 mAh",
                "measured_ah",
                required=True,
            ),
            _key("current", quantity("current"), "At this current", "2 A", "current_a"),
            _key("temperature", _AIR, "Of the pack", "21 °C", "temperature_k"),
            _key(
                "down_to",
                quantity("voltage"),
                "Stopped at this voltage of the pack",
                "12 V",
                "down_to_v",
            ),
        ),
        _kind(
            kinds.Check,
            _key(
                "check",
                WORDS,
                "Set-up check of the programme, or a list",
                "spin-directions",
                "checks",
            ),
            "Set-up checks were done",
            _key("result", RESULT, "How it came out", "pass", required=True),
            *_CHECK_FIELDS,
        ),
        _kind(
            kinds.Check,
            _key(
                "calibration",
                WORDS,
                "Set-up check that teaches, or a list",
                "accelerometer",
                "checks",
            ),
            "Something was taught; records the check of that name",
            _key("result", RESULT, "How it came out; pass unless said", "pass"),
            *_CHECK_FIELDS,
            build=_taught,
        ),
        _kind(
            kinds.Setting,
            _key(
                "setting",
                FREE_TEXT,
                "Settings by the keeper's own names",
                "{start_throttle: 14 %}",
                "settings",
            ),
            "Settings came into force",
            _key("of", TEXT, "A station or a tag", "front-left"),
            _BECAUSE,
        ),
        _kind(
            kinds.Gains,
            _key("gains", TEXT, "Name of the set", "calm", "name"),
            "A gain set came into force",
            _key(
                "values",
                ByName(
                    ByName(number(Limits(-1e6, 1e6, True)), "terms with numbers"),
                    "axes with their terms",
                ),
                "The whole set, by axis and term",
                "{roll: {p: 38, i: 21, d: 4}}",
            ),
            _key(
                "from",
                TEXT,
                "The set it starts from; values then hold what differs",
                "calm",
                "base",
            ),
            _BECAUSE,
        ),
        _kind(
            kinds.Verdict,
            _key(
                "verdict",
                ByName(TEXT, "gain sets with words"),
                "Gain sets, each with words",
                "{calm: steady but slow}",
                "verdicts",
            ),
            "What was thought of gain sets",
        ),
        _kind(
            kinds.Weigh,
            _key("weigh", quantity("mass"), "Mass on the scales", "1342 g", "mass_kg"),
            "Weighed with all that is fitted, sundries and the named pack",
            _key("pack", TAG, "The pack that was on", "P-01"),
            _key("without", TAGS, "What was off", "[C-02]"),
            _key("cg", PLACE3, "Centre of gravity", "[4 mm, 0 mm, 10 mm]", "cg_m"),
            _key(
                "scales",
                ByName(
                    quantity("mass", between("mass", "0.01 g", "150 kg", zero_ok=True)),
                    "stations with masses",
                ),
                "Mass on the scale below each station",
                "{front-left: 331 g}",
                "scales_kg",
            ),
        ),
        _kind(
            kinds.Incident,
            _key("incident", TEXT, "What happened", "clipped a branch", "words"),
            "Something went wrong",
            _key("severity", choice("light", "hard", "total"), "How hard", "hard"),
            _key(
                "touched",
                Several(TEXT, single=True),
                "Stations or tags; else everything",
                "[front-left]",
            ),
            _key("cause", TEXT, "Why", "lost orientation"),
            _key("injury", TRUTH, "Whether somebody was hurt; private", "false"),
            _key("property", TRUTH, "Whether others' property was damaged; private", "false"),
            _key("reportable", choice("yes", "no", "unsure"), "The keeper's own decision", "no"),
        ),
        _kind(
            kinds.Repair,
            _key("repair", TEXT, "What was done", "new arm front-left", "words"),
            "A repair",
            _key("after", TEXT, "Id of the incident", "crash-1"),
            _key("touched", Several(TEXT, single=True), "Stations or tags", "[front-left]"),
        ),
        _kind(
            kinds.Inspection,
            _key(
                "inspection", WORDS, "Task of the programme, or a list", "motor-bearings", "tasks"
            ),
            "Tasks were done",
            _key("tags", TAGS, "Only these items; else all it applies to", "[M-01]"),
            _key("result", RESULT, "How it came out; pass unless said", "pass"),
            _key("findings", TEXT, "What was found", "slight play"),
        ),
        _kind(
            kinds.Defect,
            _key("defect", TEXT, "What is wrong", "gear switch sticks", "words"),
            "Something is wrong until it is cleared",
            _key("item", TAG, "The item", "C-01"),
            _key("station", TEXT, "The station", "rear-left"),
            _key(
                "severity",
                choice("grounds", "defer", "note"),
                "What it means; grounds unless said",
                "defer",
            ),
            _key(
                "deferred_until",
                Group(kinds.Until, UNTIL, "a limit"),
                "How long it may wait",
                "{on: 2026-09-01, flights: 5}",
            ),
        ),
        _kind(
            kinds.Cleared,
            _key("cleared", TEXT, "Id of the defect", "2026-03-01-2", "defect"),
            "A defect is closed",
            _key("how", TEXT, "How", "switch replaced"),
            build=_to_be_joined,
        ),
        _kind(
            kinds.Firmware,
            _key(
                "firmware",
                ByName(TEXT, "tags with versions"),
                "Tags with versions",
                "{C-01: 2.4.1}",
                "versions",
            ),
            "Firmware came onto items",
        ),
        _kind(
            kinds.Alteration,
            _key("alteration", TEXT, "What was altered", "longer arms", "words"),
            "A dated change of the aircraft; named keys replace",
            *ALTERABLE.values(),
            _key(
                "mass",
                quantity("mass", between("mass", "-50 kg", "50 kg", zero_ok=True)),
                "Mass added, or taken off with a minus",
                "12 g",
                "mass_kg",
            ),
            _key("at", PLACE3, "Where that mass sits", "[0 mm, 0 mm, 5 mm]"),
            build=_altered,
        ),
        _kind(
            kinds.Transport,
            _key("transport", TEXT, "Words", "two hours by train", "words"),
            "A long trip",
        ),
        _kind(
            kinds.Water, _key("water", TEXT, "Words", "landed in wet grass", "words"), "It got wet"
        ),
        _kind(kinds.Note, _key("note", TEXT, "Words", "new season", "words"), "Just words"),
    )
}

# All keys that an entry of a kind may have, its own kind key among them.
ONE_OF: Mapping[str, Fields] = {
    kind.key: {**COMMON, kind.key: kind.heart, **kind.fields} for kind in KINDS.values()
}
OWNERS = key_owners({kind.key: kind.fields for kind in KINDS.values()})

# Entries about entries; what they do to the original is worked out in corrections.py.
CORRECTS: Fields = table(
    _key("corrects", TEXT, "Id of the entry", "2026-03-01-2", required=True),
    _key(
        "set",
        FREE_TEXT,
        "Keys with their right values, or nothing beside a whole new kind key",
        "{used: 1480 mAh}",
    ),
    _WHY,
)
VOIDS: Fields = table(_key("voids", TEXT, "Id of the entry", "2026-03-01-2", required=True), _WHY)
AMENDING = ("corrects", "voids")
