"""Maintenance programmes as written: checks, tasks and life limits.

``written`` of a rule names its fields that stand in the file, so that a change by name of a row
that the programme is based on keeps what it does not name.
"""

import datetime
from collections.abc import Mapping
from functools import cache
from typing import Annotated, Any, ClassVar, Literal, get_args

import msgspec

from buildbook.basis.counting import UNITS, shown_parts
from buildbook.basis.counting import Interval as Interval
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, quoted
from buildbook.records.declare import PUBLIC, WrittenOnly, key
from buildbook.records.keys.fields import Fields, Group, field_of, fields_of
from buildbook.records.keys.quantities import (
    CapacityShare,
    Count,
    CountInParts,
    FlyingTime_s,
    Name,
    Names,
    ResistanceShare,
)
from buildbook.records.keys.shapes import FREE_TEXT, ByName
from buildbook.records.keys.values import TEXT, Scalar
from buildbook.records.parts import KINDS
from buildbook.records.record import Record
from buildbook.records.triggers import Trigger as Trigger
from buildbook.records.triggers import Triggers

BUILT_IN = "built-in "
"""How the name of a programme begins that comes with the program."""


_PLACES = ("motor station", "surface")


def _per(text: str) -> str:
    if text not in _PLACES and text not in KINDS:
        raise NotationError(
            f"{quoted(text)} is neither 'motor station' nor 'surface' nor a kind of item",
            did_you_mean(text, (*_PLACES, *KINDS)),
        )
    return text


def _each(text: str) -> str:
    if text != "aircraft" and text not in KINDS:
        raise NotationError(
            f"{quoted(text)} is neither 'aircraft' nor a kind of item",
            did_you_mean(text, ("aircraft", *KINDS)),
        )
    return text


_PER = Scalar("'motor station', 'surface' or a kind of item", _per, {"enum": [*_PLACES, *KINDS]})
_EACH = Scalar("'aircraft' or a kind of item", _each, {"enum": ["aircraft", *KINDS]})


@cache
def interval_keys() -> Fields:
    """The keys of an interval: one for each unit of counting; how it is read follows its size."""
    read: dict[str, Any] = {
        name: FlyingTime_s
        if unit.stored_ticks is not None
        else CountInParts
        if unit.divisible
        else Count
        for name, unit in UNITS.items()
    }
    return {
        name: field_of(name, unit.field, read[name], key(unit.doc, unit.example))
        for name, unit in UNITS.items()
    }


IntervalWritten = Annotated[Interval, Group(Interval, "an interval", fields=interval_keys)]


class Follows(msgspec.Struct, frozen=True, kw_only=True):
    """Once more, so many flights after any of these events."""

    after: Annotated[Triggers, key("The event that asks for it", "[fit motor]", shown="public")]
    flights: Annotated[Count, key("How many flights later", "3", shown="public")]


# Keys that a row of any list has.
What = Annotated[str, key("What to do", "Run each motor alone and compare.", shown="public")]
Propellers = Annotated[
    Literal["off", "on", "none"],
    key("Whether propellers are on during it; none: it has none", "off", shown="public"),
]
SecondPerson = Annotated[bool, key("Whether a second person must check", "false", shown="public")]
Covers = Annotated[
    Names,
    key(
        "Recurring tasks that a pass of this one also closes",
        "[failsafe-again]",
        shown="public",
    ),
]
Since = Annotated[
    datetime.date | None,
    key(
        "The day from which the row applies; earlier days are judged by what applied then",
        "2026-06-01",
        shown="public",
    ),
]
Source = Annotated[
    str | None, key("Where the row comes from", "common practice, no source", shown="public")
]


Stage = Literal["unplugged", "plugged", "field", "propellers on", "flight"]

STAGES: tuple[Stage, ...] = get_args(Stage)
"""The stages of setting up, in the order of doing: on the bench without a pack; with one and the
propellers off; at the field, propellers still off; unplugged again, propellers on; in the air."""


class CheckRule(Record, frozen=True, kw_only=True, tag="check"):
    """A set-up check. ``per``: ``motor station``, ``surface``, a kind of item; None: the aircraft.

    stage: when it is done; None where the row does not say, see ``stage_of``.
    """

    check: Annotated[Name, key("Its name", "spin-directions", shown="public")]
    what: What
    propellers: Propellers = "off"
    stage: Annotated[
        Stage | None,
        key("When it is done, in the order of the set-up sheet", "plugged", shown="public"),
    ] = None
    grounds: Annotated[
        bool,
        key("Whether it grounds when never done, stale or failed", "true", shown="public"),
    ] = True
    stale_after: Annotated[
        Triggers, key("What re-opens it", "[fit motor, crash]", shown="public")
    ] = ()
    per: Annotated[
        str | None,
        _PER,
        key(
            "A row for each motor station, surface, or item of a kind",
            "motor station",
            shown="public",
        ),
    ] = None
    readings: Annotated[
        Mapping[str, str],
        FREE_TEXT,
        key("Readings to take, by name", "{each: cw or ccw}", shown="public"),
    ] = {}
    covers: Covers = ()
    second_person: SecondPerson = False
    since: Since = None
    basis: Source = None
    written: Annotated[tuple[str, ...], PUBLIC] = ()

    @property
    def off_first(self) -> bool:
        """Whether its words leave out why no motor can hurt, so that it must be said first."""
        return self.propellers == "off" and not (self.unplugged or _OFF in self.what)

    @property
    def unplugged(self) -> bool:
        """Whether its words say that no pack is plugged in."""
        return _UNPLUGGED in self.what


_OFF, _UNPLUGGED = "Propellers off", "Unplug the pack"


def stage_of(rule: CheckRule) -> Stage:
    """The stage that a check says, else one that fits what it needs of the propellers."""
    if rule.stage is not None:
        return rule.stage
    return "propellers on" if rule.propellers == "on" else "plugged"


class TaskRule(Record, frozen=True, kw_only=True, tag="task"):
    """A recurring task. ``each``: ``aircraft`` or a kind of item (the key ``for`` in the file).

    when: a moment instead of an interval (``before each flight``): a line of the going-flying
    list, never a row that falls due. covers: recurring tasks that a pass of this one
    closes as well. follows: a look once after an event, instead of an interval. month_rule: whether
    months and years run to the day or to the end of the month.
    written: the keys in the file; the rest is from the base.
    """

    task: Annotated[Name, key("Its name", "motor-bearings", shown="public")]
    what: What
    each: Annotated[
        str,
        _EACH,
        key("The aircraft, or a kind of item", "motor", shown="public", written="for"),
    ] = "aircraft"
    every: Annotated[
        IntervalWritten,
        key(
            "The interval; whichever unit comes first",
            "{flights: 50, hours: 10, months: 6}",
            shown="public",
        ),
    ] = Interval()
    tolerance: Annotated[
        IntervalWritten,
        key("By how much the interval may be exceeded", "{flights: 5}", shown="public"),
    ] = Interval()
    counted_from: Annotated[
        Literal["earlier", "done", "planned"],
        key("Where the next interval begins", "earlier", shown="public"),
    ] = "earlier"
    month_rule: Annotated[
        Literal["exact", "end_of_month"],
        key(
            "Whether months run to the day, or to the end of the month",
            "end_of_month",
            shown="public",
        ),
    ] = "exact"
    follows: Annotated[
        Follows | None,
        Group(Follows, "a look after an event"),
        key(
            "Instead of an interval: once, a number of flights after an event",
            "{after: [fit motor], flights: 3}",
            shown="public",
        ),
    ] = None
    also_after: Annotated[
        Triggers, key("What re-opens it", "[crash, hard landing]", shown="public")
    ] = ()
    when: Annotated[
        str | None,
        key(
            "An occasion instead of an interval, shown on the going-flying list",
            "before each flight",
            shown="public",
        ),
    ] = None
    grounds: Annotated[
        bool,
        key("Whether it grounds when overdue or stale; a failed one does", "true", shown="public"),
    ] = False
    covers: Covers = ()
    propellers: Propellers = "off"
    second_person: SecondPerson = False
    since: Since = None
    basis: Source = None
    written: Annotated[tuple[str, ...], PUBLIC] = ()

    @property
    def unplugged(self) -> bool:
        """Whether its words say that no pack is plugged in."""
        return _UNPLUGGED in self.what


class LimitRule(Record, frozen=True, kw_only=True, tag="limit"):
    """A life limit. ``capacity`` is a share of rated, ``cell_resistance`` of its own first."""

    limit: Annotated[Name, key("Its name", "pack-retire", shown="public")]
    each: Annotated[
        str,
        _EACH,
        key("A kind of item, or the aircraft", "battery", shown="public", written="for"),
    ]
    what: Annotated[
        str | None, key("What to do then", "Take it to a collection point.", shown="public")
    ] = None
    at: ClassVar[
        Annotated[
            WrittenOnly,
            Group(dict, "a life limit", fields=lambda: fields_of(LimitRule, under="at")),
            key(
                "Where the life ends, whichever comes first",
                "{cycles: 300, years: 4}",
                required=True,
            ),
        ]
    ]
    flights: Annotated[Count | None, key("Flights", "200", shown="public", under="at")] = None
    duration_s: Annotated[
        FlyingTime_s | None,
        key("Hours flown", "50", shown="public", written="hours", under="at"),
    ] = None
    cycles: Annotated[
        CountInParts | None, key("Full charge cycles", "300", shown="public", under="at")
    ] = None
    months: Annotated[Count | None, key("Calendar months", "48", shown="public", under="at")] = None
    years: Annotated[Count | None, key("Years", "4", shown="public", under="at")] = None
    capacity_share: Annotated[
        CapacityShare | None,
        key("Share of rated capacity", "80 %", shown="public", under="at"),
    ] = None
    cell_resistance_share: Annotated[
        ResistanceShare | None,
        key("Share of its own first resistance", "200 %", shown="public", under="at"),
    ] = None
    since: Since = None
    basis: Source = None
    written: Annotated[tuple[str, ...], PUBLIC] = ()


def limit_parts(rule: LimitRule) -> dict[str, float]:
    """What ends the life, by unit; shares as ratios."""
    found = shown_parts(rule)
    if rule.capacity_share is not None:
        found["capacity"] = rule.capacity_share
    if rule.cell_resistance_share is not None:
        found["cell_resistance"] = rule.cell_resistance_share
    return found


class Programme(Record, frozen=True, kw_only=True):
    """One file of ``programmes/``, or one that is built in (``built_in``)."""

    name: Annotated[Name, key("Its name", "small-multirotor", shown="public", written="programme")]
    based_on: Annotated[
        str | None,
        key("The programme that this one changes", "built-in small-multirotor", shown="public"),
    ] = None
    built_in: Annotated[bool, PUBLIC] = False
    checks: Annotated[tuple[CheckRule, ...], PUBLIC] = ()
    tasks: Annotated[tuple[TaskRule, ...], PUBLIC] = ()
    life_limits: Annotated[tuple[LimitRule, ...], PUBLIC] = ()
    drop: Annotated[
        Mapping[str, str],
        ByName(TEXT, "rows with the reason"),
        key(
            "Rows of the base that don't apply, and why",
            "{compass: none on board}",
            shown="public",
        ),
    ] = {}
    note: Annotated[str | None, key("Remarks", "for the club's trainers")] = None
