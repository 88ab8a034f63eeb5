"""What was looked at, what went wrong, and what was done about it."""

from buildbook.basis.limits import Limits, between, plain
from buildbook.records import entries as kinds
from buildbook.records.fields import Fields, OldGroup, key, table
from buildbook.records.shapes import FREE_TEXT, WORDS, ByName, Several
from buildbook.records.tables.aircraft import PLACE3
from buildbook.records.tables.entry_kind import BECAUSE, LOOKED, RESULT, Read, entry_kind
from buildbook.records.tables.hearts import TAG, TAGS
from buildbook.records.values import DAY, TEXT, TRUTH, choice, hours, quantity, whole

_CHECK_FIELDS = (
    key("readings", FREE_TEXT, "What was read, by name", "{roll: 0, pitch: 1}"),
    key("stations", Several(TEXT, single=True), "Only these stations; else all", "[front-left]"),
)
UNTIL: Fields = table(
    key("on", DAY, "Not beyond this day", "2026-09-01"),
    key("flights", whole(plain(1, 10_000)), "Not beyond so many flights", "5"),
    key(
        "hours",
        hours(Limits(1, 3.6e7, False, "1 s", "10000 hours")),
        "Not beyond so many hours",
        "2",
        "duration_s",
    ),
)


def _taught(read: Read) -> Read:
    return {"result": "pass", **read, "taught": True}


def _to_be_joined(read: Read) -> Read:
    """The entry that is cleared is found when all entries are there."""
    return {**read, "target": ""}


CHECK = entry_kind(
    kinds.Check,
    key(
        "check",
        WORDS,
        "Set-up check of the programme, or a list",
        "spin-directions",
        "checks",
    ),
    "Set-up checks were done",
    key("result", RESULT, "How it came out", "pass", required=True),
    *_CHECK_FIELDS,
)
CALIBRATION = entry_kind(
    kinds.Check,
    key(
        "calibration",
        WORDS,
        "Set-up check that teaches, or a list",
        "accelerometer",
        "checks",
    ),
    "Something was taught; records the check of that name",
    key("result", RESULT, "How it came out; pass unless said", "pass"),
    *_CHECK_FIELDS,
    key("surface", TEXT, "Where it was done", "kitchen table"),
    build=_taught,
)
WEIGH = entry_kind(
    kinds.Weigh,
    key("weigh", quantity("mass"), "Mass on the scales", "1342 g", "mass_kg"),
    "Weighed with all that is fitted, sundries and the named pack",
    key("pack", TAG, "The pack that was on", "P-01"),
    key("without", TAGS, "What was off", "[C-02]"),
    key("cg", PLACE3, "Centre of gravity", "[4 mm, 0 mm, 10 mm]", "cg_m"),
    key(
        "scales",
        ByName(
            quantity("mass", between("mass", "0.01 g", "150 kg", zero_ok=True)),
            "stations with masses",
        ),
        "Mass on the scale below each station",
        "{front-left: 331 g}",
        "scales_kg",
    ),
)
INSPECTION = entry_kind(
    kinds.Inspection,
    key(
        "inspection", WORDS, "Task of the programme or notice, or a list", "motor-bearings", "tasks"
    ),
    "Tasks were done, or what a notice asks for",
    key("tags", TAGS, "Only these items; else all it applies to", "[M-01]"),
    key("result", LOOKED, "How it came out; pass unless said; a notice may not apply", "pass"),
    key("findings", TEXT, "What was found", "slight play"),
    BECAUSE,
)
INCIDENT = entry_kind(
    kinds.Incident,
    key("incident", TEXT, "What happened", "clipped a branch", "words"),
    "Something went wrong",
    key("severity", choice("light", "hard", "total"), "How hard", "hard"),
    key(
        "touched",
        Several(TEXT, single=True),
        "Stations or tags; else everything",
        "[front-left]",
    ),
    key("cause", TEXT, "Why", "lost orientation"),
    key("injury", TRUTH, "Whether somebody was hurt; private", "false"),
    key("property", TRUTH, "Whether others' property was damaged; private", "false"),
    key("reportable", choice("yes", "no", "unsure"), "The keeper's own decision", "no"),
)
REPAIR = entry_kind(
    kinds.Repair,
    key("repair", TEXT, "What was done", "new arm front-left", "words"),
    "A repair",
    key("after", TEXT, "Id of the incident", "crash-1"),
    key("touched", Several(TEXT, single=True), "Stations or tags", "[front-left]"),
)
DEFECT = entry_kind(
    kinds.Defect,
    key("defect", TEXT, "What is wrong", "mode switch sticks", "words"),
    "Something is wrong until it is cleared",
    key("item", TAG, "The item", "C-01"),
    key("station", TEXT, "The station", "rear-left"),
    key(
        "severity",
        choice("grounds", "defer", "note"),
        "What it means; grounds unless said",
        "defer",
    ),
    key(
        "deferred_until",
        OldGroup(kinds.Until, UNTIL, "a limit"),
        "How long it may wait",
        "{on: 2026-09-01, flights: 5}",
    ),
)
CLEARED = entry_kind(
    kinds.Cleared,
    key("cleared", TEXT, "Id of the defect", "2026-03-01-2", "defect"),
    "A defect is closed",
    key("how", TEXT, "How", "switch replaced"),
    build=_to_be_joined,
)
TRANSPORT = entry_kind(
    kinds.Transport,
    key("transport", TEXT, "Words", "two hours by train", "words"),
    "A long trip",
)
WATER = entry_kind(
    kinds.Water, key("water", TEXT, "Words", "landed in wet grass", "words"), "It got wet"
)
NOTE = entry_kind(kinds.Note, key("note", TEXT, "Words", "new season", "words"), "Just words")
