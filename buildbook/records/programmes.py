"""Maintenance programmes as written: checks, tasks and life limits.

``written`` of a rule names its fields that stand in the file, so that a change by name of a row
that the programme is based on keeps what it does not name.
"""

from collections.abc import Mapping
from typing import Literal, get_args

import msgspec

from buildbook.basis.counting import Interval
from buildbook.records.record import Record

SIGNAL_TASKS = (
    "aircraft-drift",
    "cell-voltages",
    "odd-cell",
    "pack-drift",
    "pack-end-of-life",
)
"""Tasks that readings and figures open by themselves, whatever the programme says."""


class Trigger(msgspec.Struct, frozen=True):
    """What re-opens a row: an event and, where it has one, its subject (``fit`` ``motor``)."""

    event: str
    subject: str | None = None

    def __str__(self) -> str:
        return self.event if self.subject is None else f"{self.event} {self.subject}"


class Follows(msgspec.Struct, frozen=True, kw_only=True):
    """Once more, so many flights after any of these events."""

    after: tuple[Trigger, ...]
    flights: int


Stage = Literal["unplugged", "plugged", "field", "propellers on", "flight"]

STAGES: tuple[Stage, ...] = get_args(Stage)
"""The stages of setting up, in the order of doing: on the bench without a pack; with one and the
propellers off; at the field, propellers still off; unplugged again, propellers on; in the air."""


class CheckRule(Record, frozen=True, kw_only=True):
    """A set-up check. ``per``: ``motor station``, a kind of item, or None for the aircraft.

    stage: when it is done; None where the row does not say, see ``stage_of``.
    """

    check: str
    what: str
    stage: Stage | None = None
    propellers: Literal["off", "on"] = "off"
    grounds: bool = True
    stale_after: tuple[Trigger, ...] = ()
    per: str | None = None
    readings: Mapping[str, str] = {}
    second_person: bool = False
    basis: str | None = None
    written: tuple[str, ...] = ()


def stage_of(rule: CheckRule) -> Stage:
    """The stage that a check says, else one that fits what it needs of the propellers."""
    if rule.stage is not None:
        return rule.stage
    return "propellers on" if rule.propellers == "on" else "plugged"


class TaskRule(Record, frozen=True, kw_only=True):
    """A recurring task. ``each``: ``aircraft`` or a kind of item (the key ``for`` in the file).

    when: a moment instead of an interval (``before each flight``): a line of the going-flying
    list, never a row that falls due. also_done_by: checks or tasks of which a pass counts as
    doing it. follows: a look once after an event, instead of an interval. month_rule: whether
    months and years run to the day or to the end of the month.
    written: the keys in the file; the rest is from the base.
    """

    task: str
    what: str
    each: str = "aircraft"
    every: Interval = Interval()
    tolerance: Interval = Interval()
    counted_from: Literal["earlier", "done", "planned"] = "earlier"
    also_after: tuple[Trigger, ...] = ()
    follows: Follows | None = None
    month_rule: Literal["exact", "end_of_month"] = "exact"
    when: str | None = None
    also_done_by: tuple[str, ...] = ()
    propellers: Literal["off", "on"] = "off"
    second_person: bool = False
    basis: str | None = None
    written: tuple[str, ...] = ()


class LimitRule(Record, frozen=True, kw_only=True):
    """A life limit. ``capacity`` is a share of rated, ``cell_resistance`` of its own first."""

    limit: str
    each: str
    what: str | None = None
    flights: int | None = None
    duration_s: float | None = None
    cycles: float | None = None
    months: int | None = None
    years: int | None = None
    capacity_share: float | None = None
    cell_resistance_share: float | None = None
    basis: str | None = None
    written: tuple[str, ...] = ()


class Programme(Record, frozen=True, kw_only=True):
    """One file of ``programmes/``, or one that is built in (``built_in``)."""

    name: str
    based_on: str | None = None
    built_in: bool = False
    checks: tuple[CheckRule, ...] = ()
    tasks: tuple[TaskRule, ...] = ()
    life_limits: tuple[LimitRule, ...] = ()
    drop: Mapping[str, str] = {}
    note: str | None = None
