"""What was looked at, what went wrong, and what was done about it."""

import datetime
from collections.abc import Mapping
from typing import Annotated, Any, Literal

import msgspec

from buildbook.basis.limits import between
from buildbook.records.declare import PRIVATE, PUBLIC, key
from buildbook.records.entries.entry import Because, Entry
from buildbook.records.keys.fields import Group
from buildbook.records.keys.quantities import (
    BalancePoint,
    DeferredFlights,
    DeferredTime_s,
    Mass_kg,
    Pack,
    Packs,
    Tag,
    Tags,
    Texts,
)
from buildbook.records.keys.shapes import FREE_TEXT, ByName, Several
from buildbook.records.keys.values import choice, quantity

Looked = Literal["pass", "fail", "not applicable"]
"""How a look came out; of inspections only a notice may be not applicable, of checks those that
ground nothing."""

Milder = Literal["defer", "note"]
"""A failed look that does not ground: put off, or only noted."""

_Milder = Annotated[
    Milder | None,
    key("Keeps a failed one from grounding", "note", shown="public"),
]
Rewired = Annotated[
    Texts,
    key("Stations whose motor leads or wiring were changed", "[front-left]", shown="public"),
]


class Check(Entry, frozen=True, kw_only=True, tag="check"):
    """Set-up checks were done. ``taught``: where it was written as ``calibration``.

    because: why a check is not applicable.

    readings: flat, by name (nested names joined by a dot), as written.
    """

    checks: Annotated[
        Texts,
        key(
            "Set-up check of the programme, or a list",
            "spin-directions",
            shown="public",
            written="check",
            kinds=("check",),
            value_of_kind=True,
        ),
        key(
            "Set-up check that calibrates, or a list",
            "accelerometer",
            written="calibration",
            kinds=("calibration",),
            value_of_kind=True,
        ),
    ]
    result: Annotated[
        Looked,
        key(
            "Result; a check that grounds nothing may not apply",
            "pass",
            shown="public",
            kinds=("check",),
        ),
        key("Result; pass by default", "pass", kinds=("calibration",), required=False),
    ]
    readings: Annotated[
        Mapping[str, str],
        FREE_TEXT,
        key("What was read, by name", "{roll: 0, pitch: 1}", shown="public"),
    ] = {}
    stations: Annotated[
        Texts, key("Only these stations; else all", "[front-left]", shown="public")
    ] = ()
    surface: Annotated[
        str | None,
        key("Where it was done", "kitchen table", shown="public", kinds=("calibration",)),
    ] = None
    severity: _Milder = None
    because: Because = None
    taught: Annotated[bool, PUBLIC] = False


def taught(read: dict[str, Any]) -> dict[str, Any]:
    """A calibration is a check that was passed, unless it says otherwise."""
    return {"result": "pass", **read, "taught": True}


class Weigh(Entry, frozen=True, kw_only=True, tag="weigh"):
    """Weighed with all that is fitted, sundries and the named pack. Without the tags named."""

    mass_kg: Annotated[
        Mass_kg,
        key("Mass on the scales", "1342 g", shown="public", written="weigh", value_of_kind=True),
    ]
    pack: Annotated[Pack | None, key("The pack that was on", "P-01", shown="public")] = None
    without: Annotated[Tags, key("What was off", "[C-02]", shown="public")] = ()
    cg_m: Annotated[
        BalancePoint | None,
        key("Centre of gravity; down only if it was found", "[4 mm, 0 mm]", shown="public"),
    ] = None
    scales_kg: Annotated[
        Mapping[str, float],
        ByName(
            quantity("mass", between("mass", "0.01 g", "150 kg", zero_ok=True)),
            "stations with masses",
        ),
        key("Mass on the scale below each station", "{front-left: 331 g}", shown="public"),
    ] = {}


class Incident(Entry, frozen=True, kw_only=True, tag="incident"):
    """Something went wrong. Nothing named as touched means everything."""

    words: Annotated[
        str,
        key(
            "What happened",
            "clipped a branch",
            shown="incidents",
            written="incident",
            value_of_kind=True,
        ),
    ]
    severity: Annotated[
        Literal["light", "hard", "total"],
        key(
            "How severe; a light one counts as a hard landing, others as a crash",
            "hard",
            shown="public",
        ),
    ] = "hard"
    touched: Annotated[
        Texts, key("Stations or tags; else everything", "[front-left]", shown="public")
    ] = ()
    packs: Annotated[
        Packs, key("Packs involved; by default those on board", "[P-01]", shown="public")
    ] = ()
    cause: Annotated[str | None, key("Why", "lost orientation", shown="incidents")] = None
    injury: Annotated[bool | None, key("Whether somebody was hurt; private", "false")] = None
    property: Annotated[
        bool | None, key("Whether others' property was damaged; private", "false")
    ] = None
    reportable: Annotated[
        Literal["yes", "no", "unsure"] | None, key("The keeper's own decision", "no")
    ] = None


class Repair(Entry, frozen=True, kw_only=True, tag="repair"):
    """A repair. ``after`` is the id of the incident as written."""

    in_stores = True

    words: Annotated[
        str,
        key(
            "What was done",
            "new arm front-left",
            shown="public",
            written="repair",
            value_of_kind=True,
        ),
    ]
    after: Annotated[str | None, key("Id of the incident", "crash-1")] = None
    touched: Annotated[Texts, key("Stations or tags", "[front-left]", shown="public")] = ()
    rewired: Rewired = ()


STEPS = ("strip", "clean", "inspect", "repair", "reassemble", "test")
"""What an overhaul consists of (14 CFR 43.2); without the last one it is a service."""


class Overhaul(Entry, frozen=True, kw_only=True, tag="overhaul"):
    """Parts were overhauled: begins their time since overhaul, closes no task by itself."""

    in_stores = True
    of_items = True

    tags: Annotated[
        Tags, key("Tags", "[M-03]", shown="public", written="overhaul", value_of_kind=True)
    ]
    steps: Annotated[
        tuple[str, ...],
        Several(choice(*STEPS), single=True),
        key(
            "What was done, of a closed list; without a test it is a service",
            "[strip, clean, inspect, reassemble, test]",
            shown="public",
        ),
    ] = ()
    because: Because = None


class Inspection(Entry, frozen=True, kw_only=True, tag="inspection"):
    """Tasks were done, or what a notice asks for. No tags means all that they apply to.

    because: why a notice is not applicable. assumed: its result was not written.
    """

    in_stores = True

    tasks: Annotated[
        Texts,
        key(
            "Task of the programme or notice, or a list",
            "motor-bearings",
            shown="public",
            written="inspection",
            value_of_kind=True,
        ),
    ]
    tags: Annotated[
        Tags, key("Only these items; else all it applies to", "[M-01]", shown="public")
    ] = ()
    result: Annotated[
        Looked,
        key("Result; pass by default; a notice may not apply", "pass", shown="public"),
    ] = "pass"
    findings: Annotated[str | None, key("What was found", "slight play")] = None
    readings: Annotated[
        Mapping[str, str],
        FREE_TEXT,
        key("What was read, by name", "{cell 1: 3.84 V, cell 2: 3.83 V}", shown="public"),
    ] = {}
    severity: _Milder = None
    because: Because = None
    addressed: Annotated[
        Texts,
        key("Ids of deferred defects that were looked at with it", "[gps-out]", shown="public"),
    ] = ()
    assumed: Annotated[bool, PRIVATE] = False


def assumed(read: dict[str, Any]) -> dict[str, Any]:
    """An inspection that does not say how it came out is taken for passed."""
    return read if "result" in read else {**read, "assumed": True}


class Until(msgspec.Struct, frozen=True, kw_only=True):
    """How long a defect may wait: a day, or so many flights or seconds of flying from its entry."""

    on: Annotated[
        datetime.date | None, key("Until this day at the latest", "2026-09-01", shown="public")
    ] = None
    flights: Annotated[
        DeferredFlights | None, key("For at most this many flights", "5", shown="public")
    ] = None
    duration_s: Annotated[
        DeferredTime_s | None,
        key("For at most this many hours", "2", shown="public", written="hours"),
    ] = None


Inoperative = Literal["removed", "deactivated"]
"""What was done with something that does not work and may wait (14 CFR 91.213(d))."""


class Defect(Entry, frozen=True, kw_only=True, tag="defect"):
    """Something is wrong until it is cleared."""

    in_stores = True

    words: Annotated[
        str,
        key(
            "What is wrong",
            "mode switch sticks",
            shown="incidents",
            written="defect",
            value_of_kind=True,
        ),
    ]
    item: Annotated[Tag | None, key("The item", "C-01", shown="public")] = None
    station: Annotated[str | None, key("The station", "rear-left", shown="public")] = None
    severity: Annotated[
        Literal["grounds", "defer", "note"],
        key("Its effect; grounds by default", "defer"),
    ] = "grounds"
    deferred_until: Annotated[
        Until | None,
        Group(Until, "a limit"),
        key("How long it may wait", "{on: 2026-09-01, flights: 5}"),
    ] = None
    inoperative: Annotated[
        Inoperative | None,
        key(
            "Of a deferred one: what does not work was taken out, or put out of use", "deactivated"
        ),
    ] = None
    required: Annotated[
        bool,
        key("Whether it must work in flight; then its defect grounds", "true"),
    ] = False
    placard: Annotated[
        str | None,
        key("What is written at it, for whoever flies", "no position hold"),
    ] = None


class Cleared(Entry, frozen=True, kw_only=True, tag="cleared"):
    """A defect is closed. ``defect`` as written, ``target`` the uid of its entry."""

    in_stores = True

    defect: Annotated[
        str, key("Id of the defect", "2026-03-01-2", written="cleared", value_of_kind=True)
    ]
    target: Annotated[str, PUBLIC]
    how: Annotated[str | None, key("How", "switch replaced")] = None


def to_be_joined(read: dict[str, Any]) -> dict[str, Any]:
    """The entry that is cleared is found when all entries are there."""
    return {**read, "target": ""}


class Transport(Entry, frozen=True, kw_only=True, tag="transport"):
    """A long trip."""

    words: Annotated[
        str, key("What trip it was", "two hours by train", written="transport", value_of_kind=True)
    ]


class Water(Entry, frozen=True, kw_only=True, tag="water"):
    """It got wet."""

    words: Annotated[
        str, key("How it got wet", "landed in wet grass", written="water", value_of_kind=True)
    ]
    packs: Annotated[
        Packs, key("Packs that got wet; else those flown that day", "[P-01]", shown="public")
    ] = ()


class Note(Entry, frozen=True, kw_only=True, tag="note"):
    """A remark."""

    in_stores = True

    words: Annotated[str, key("The remark", "new season", written="note", value_of_kind=True)]
    item: Annotated[Tag | None, key("The item", "C-01", shown="public")] = None
    rewired: Rewired = ()
