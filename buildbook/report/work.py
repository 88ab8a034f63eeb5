"""What upkeep gives: rows, reasons, and the standing of each aircraft and pack."""

import datetime
from collections.abc import Mapping
from typing import Literal

import msgspec

from buildbook.basis.place import Place
from buildbook.records.programmes import CheckRule, LimitRule, TaskRule

RowKind = Literal["check", "task", "limit", "defect"]
RowState = Literal[
    "never done",
    "ok",
    "stale",
    "failed",
    "due soon",
    "due",
    "in tolerance",
    "overdue",
    "reached",
    "open",
    "deferred",
    "not applicable",
]
Why = Literal[
    "never done",  # no entry of it at all
    "interval",  # the unit in ``unit`` decides
    "trigger",  # ``trigger`` re-opened it
    "failed",  # the last one was a fail
    "reading",  # a pass whose readings contradict the layout
    "second person",  # done, not yet checked
    "limit",  # a life limit, ``unit`` decides
    "unknown history",  # carried life unknown: remaining life cannot be stated
    "defect",
    "item state",  # a quarantined, retired or scrapped item is fitted
    "empty station",  # a motor station without motor, ESC or propeller
    "check flight",  # fly one next; not grounding
    "weighing",  # an alteration or fit without a weighing since
    "signal",  # a figure drifted
    "notice",  # a notice about its spec asks for it, or is said not to apply
    "dropped",  # the keeper's programme dropped the row, with why
    "no programme",
]


class Because(msgspec.Struct, frozen=True, kw_only=True):
    """Why a row or reason is what it is, in parts: an audience is told as much as it may be.

    entry: uid of the entry that did it. detail: short facts by name, such as ``found``/``expected``
    for a reading; never a sentence, never a private word.
    """

    why: Why
    unit: str | None = None
    trigger: str | None = None
    entry: str | None = None
    on: datetime.date | None = None
    place: Place | None = None
    tag: str | None = None
    station: str | None = None
    detail: Mapping[str, str] = {}


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """One line of the work list. Exactly one for an item and task, check and station.

    left: by unit (flights, hours, days, cycles, charges, flying_days, share), negative past
    due; only the units that the row counts. due_on: the calendar side only. expected: early and
    late day by the keeper's own rate. done_*: the last time it was done (a pass), None where never.
    used: the greatest share of an interval or limit that is used up. rank: as in ``ranks``.
    unknown: life before these records is not known, so what is left cannot be stated.
    rule: the row of the programme. usual: the built-in interval where the keeper's is another
    (``looser`` says whether his is the weaker one).
    """

    aircraft: str | None
    kind: RowKind
    name: str
    tag: str | None = None
    station: str | None = None
    state: RowState
    first_by: str | None = None
    left: Mapping[str, float] = {}
    due_on: datetime.date | None = None
    expected: tuple[datetime.date, datetime.date] | None = None
    because: Because | None = None
    place: Place
    what: str
    grounds: bool = False
    counted_from: str | None = None
    done_on: datetime.date | None = None
    done_uid: str | None = None
    done_place: Place | None = None
    by: str | None = None
    checked_by: str | None = None
    readings: Mapping[str, str] = {}
    rule: CheckRule | TaskRule | LimitRule | None = None
    usual: str | None = None
    looser: bool = False
    used: float | None = None
    unknown: bool = False
    rank: int = 99


class Reason(msgspec.Struct, frozen=True, kw_only=True):
    """A reason for the state of an aircraft or pack, worst first in any list of them.

    rank: the position in the order of upkeep.md, 0 is worst; grounding: whether it grounds.
    what: a sentence fragment without private words (``spin-directions of front-left is stale``).
    """

    what: str
    place: Place
    rank: int
    grounding: bool
    because: Because
    row: Row | None = None


AircraftState = Literal[
    "nothing open",
    "due soon",
    "grounded",
    "cannot say",
    "building",
    "stored",
    "retired",
    "sold",
]


class Standing(msgspec.Struct, frozen=True, kw_only=True):
    """How an aircraft stands; ``programme`` names what was applied."""

    slug: str
    name: str
    state: AircraftState
    reasons: tuple[Reason, ...] = ()
    rows: tuple[Row, ...] = ()
    programme: str | None = None


class PackStanding(msgspec.Struct, frozen=True, kw_only=True):
    """How a pack stands: a state of the same words, or that of the item."""

    tag: str
    state: str
    reasons: tuple[Reason, ...] = ()
    rows: tuple[Row, ...] = ()


class WorkList(msgspec.Struct, frozen=True, kw_only=True):
    """All of it, in the order in which it should be done."""

    as_of: datetime.date
    aircraft: tuple[Standing, ...]
    packs: tuple[PackStanding, ...]
    rows: tuple[Row, ...]
