"""What upkeep gives: rows, reasons, and the standing of each aircraft and pack."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from collections.abc import Iterable, Mapping
from typing import Annotated, Literal

import msgspec

from buildbook.basis.place import Place
from buildbook.records.declare import PRIVATE, PUBLIC, of
from buildbook.records.entries import Check
from buildbook.records.programmes import CheckRule, LimitRule, TaskRule
from buildbook.records.triggers import Trigger
from buildbook.report.history import Completion, Recorded
from buildbook.report.upkeep.findings import Finding, OverRated
from buildbook.report.upkeep.pack_findings import CellsOutside

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
NOTHING_TO_DO: tuple[RowState, ...] = ("ok", "not applicable")
OPEN_ANYHOW: tuple[RowState, ...] = ("stale", "failed", "never done", "open")
"""Open whatever is left of an interval."""

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
    "used aside",  # a pack that was charged or flown since it was set aside
    "set aside",  # a pack, by what the records say of it; ``trigger`` is why
    "item state",  # a quarantined, retired or scrapped item is fitted
    "empty station",  # a motor station without the motor, ESC or propeller that it had
    "missing part",  # an aircraft without what it cannot be controlled without
    "hand",  # the hand of a propeller contradicts the spin of its station
    "plan",  # the spins planned leave no yaw
    "link lost",  # what the motor does when the link is lost, by record or reading
    "memory",  # another flying aircraft is on the same memory of the transmitter
    "alarm",  # it sounds below what a cell may have in flight
    "range",  # it fell to less than half since the time before
    "unlike",  # one motor or propeller is unlike all the others
    "nut",  # the nut of a propeller does not tighten the way its motor turns
    "bounds",  # heavier, or balanced otherwise, than the keeper's own bounds
    "rating",  # more than a recorded rating: cells, current, voltage
    "moved",  # a remote ID module came from another aircraft, or went there
    "noticed",  # something was noticed in flight and nobody looked since
    "wet",  # it got wet and nobody opened it since
    "check flight",  # fly one next; not grounding
    "weighing",  # an alteration or fit without a weighing since
    "signal",  # a figure drifted
    "notice",  # a notice about its spec asks for it, or is said not to apply
    "covered",  # a larger look that is open as well closes it
    "dropped",  # the keeper's programme dropped the row, with why
    "not here",  # the keeper wrote why a check that grounds nothing does not apply
    "no programme",
]


class Because(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """Why a row or reason is what it is, in parts: an audience is told as much as it may be.

    entry: uid of the entry that did it. trigger: the one of the programme that it pulled.
    """

    why: Annotated[Why, PUBLIC]
    unit: Annotated[str | None, PUBLIC] = None
    trigger: Annotated[Trigger | None, PUBLIC] = None
    entry: Annotated[str | None, PUBLIC] = None
    on: Annotated[datetime.date | None, PUBLIC] = None
    place: Annotated[Place | None, PRIVATE] = None
    tag: Annotated[str | None, PUBLIC] = None
    station: Annotated[str | None, PUBLIC] = None
    found: Annotated[Finding | None, PUBLIC] = None

    def by(self, what: Recorded) -> Because:
        """The same, done by what is recorded."""
        return msgspec.structs.replace(self, entry=what.uid, on=what.on, place=what.place)


class Row(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One line of the work list. Exactly one for an item and task, check and station.

    left: by unit of counting, days or share, negative past due; only those that the row counts.
    due_on: the calendar side only. grounds_from: the first day on which that grounds, where it does
    not ground yet. expected: early and late day by the keeper's own rate.
    done_*: the last time it was done (a pass), None where never.
    again_*: of a check, the last pass of a recurring task that it covers, where that came later.
    used: the greatest share of an interval or limit that is used up. rank: as in ``ranks``.
    unknown: life before these records is not known, so what is left cannot be stated.
    rule: the row of the programme. usual: the built-in row where the keeper's is another
    (``looser`` says whether his is the weaker one).
    """

    aircraft: Annotated[str | None, PUBLIC]
    kind: Annotated[RowKind, PUBLIC]
    name: Annotated[str, PUBLIC]
    tag: Annotated[str | None, PUBLIC] = None
    station: Annotated[str | None, PUBLIC] = None
    state: Annotated[RowState, PUBLIC]
    first_by: Annotated[str | None, PUBLIC] = None
    left: Annotated[Mapping[str, int | float], PUBLIC] = {}
    due_on: Annotated[datetime.date | None, PUBLIC] = None
    grounds_from: Annotated[datetime.date | None, PUBLIC] = None
    expected: Annotated[tuple[datetime.date, datetime.date] | None, PUBLIC] = None
    because: Annotated[Because | None, PUBLIC] = None
    place: Annotated[Place, PRIVATE]
    grounds: Annotated[bool, PUBLIC] = False
    counted_from: Annotated[str | None, PUBLIC] = None
    done_on: Annotated[datetime.date | None, PUBLIC] = None
    done_uid: Annotated[str | None, PUBLIC] = None
    again_on: Annotated[datetime.date | None, PUBLIC] = None
    again_uid: Annotated[str | None, PUBLIC] = None
    done_place: Annotated[Place | None, PRIVATE] = None
    by: Annotated[str | None, of(Check, "by")] = None
    checked_by: Annotated[str | None, of(Check, "checked_by")] = None
    readings: Annotated[Mapping[str, str], of(Check, "readings")] = {}
    rule: Annotated[CheckRule | TaskRule | LimitRule | None, PUBLIC] = None
    usual: Annotated[CheckRule | TaskRule | LimitRule | None, PUBLIC] = None
    looser: Annotated[bool, PUBLIC] = False
    used: Annotated[int | float | None, PRIVATE] = None
    unknown: Annotated[bool, PUBLIC] = False
    rank: Annotated[int, PUBLIC] = 99

    @property
    def key(self) -> RowKey:
        """What it is about, the same on every day."""
        return (self.aircraft, self.kind, self.name, self.tag, self.station)

    def last_done(self, done: Completion | None) -> Row:
        """The same, with when and by whom it was last done."""
        if done is None:
            return self
        return msgspec.structs.replace(
            self,
            done_on=done.on,
            done_uid=done.uid,
            done_place=done.place,
            by=done.by,
            checked_by=done.checked_by,
        )


RowKey = tuple[str | None, RowKind, str, str | None, str | None]


class Reason(msgspec.Struct, frozen=True, kw_only=True):
    """A reason for the state of an aircraft or pack, worst first in any list of them.

    rank: the position in the order of upkeep.md, 0 is worst; grounding: whether it grounds.
    row: the row that it is about; none for one that no row stands for, such as an empty station.
    """

    place: Annotated[Place, PRIVATE]
    rank: Annotated[int, PUBLIC]
    grounding: Annotated[bool, PUBLIC]
    because: Annotated[Because, PUBLIC]
    row: Annotated[Row | None, PUBLIC] = None


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

    slug: Annotated[str, PUBLIC]
    name: Annotated[str, PUBLIC]
    state: Annotated[AircraftState, PUBLIC]
    reasons: Annotated[tuple[Reason, ...], PUBLIC] = ()
    rows: Annotated[tuple[Row, ...], PUBLIC] = ()
    programme: Annotated[str | None, PUBLIC] = None

    @property
    def lapse(self) -> Row | None:
        """The row whose day alone grounds it first, where it can be flown as yet."""
        return first_to_ground(self.rows) if self.state in _CAN_GO else None

    @property
    def packs_outside(self) -> frozenset[str]:
        """The packs flown or weighed on it whose cells a part of it does not take."""
        found = [row.because.found for row in self.rows if row.because is not None]
        passed = [one for each in found if isinstance(each, OverRated) for one in each.passed]
        outside = [one for one in (*found, *passed) if isinstance(one, CellsOutside)]
        return frozenset(tag for one in outside for tag in one.packs)


def first_to_ground(rows: Iterable[Row]) -> Row | None:
    """The one of these that does so first by its day alone."""
    dated = [(row.grounds_from, row) for row in rows if row.grounds_from is not None]
    return min(dated, key=lambda each: each[0])[1] if dated else None


_CAN_GO = ("nothing open", "due soon", "cannot say")


class PackStanding(msgspec.Struct, frozen=True, kw_only=True):
    """How a pack stands: a state of the same words, or that of the item.

    notes: marks of its page that ask for nothing.
    """

    tag: Annotated[str, PUBLIC]
    state: Annotated[str, PUBLIC]
    reasons: Annotated[tuple[Reason, ...], PUBLIC] = ()
    rows: Annotated[tuple[Row, ...], PUBLIC] = ()
    notes: Annotated[tuple[Reason, ...], PUBLIC] = ()

    @property
    def lapse(self) -> Row | None:
        """The row whose day alone grounds it first, where it can be flown as yet."""
        return first_to_ground(self.rows) if self.state in _CAN_GO else None

    @property
    def said(self) -> str:
        """Its state in the word of the row that comes first: "due soon" says less than overdue."""
        row = self.reasons[0].row if self.reasons else None
        return self.state if self.state != "due soon" or row is None else row.state

    @property
    def by_keeper(self) -> bool:
        """Whether its keeper took it out of service himself, so knows, and left it alone since."""
        whys = {reason.because.why for reason in self.reasons}
        return "item state" in whys and "used aside" not in whys


class WorkList(msgspec.Struct, frozen=True, kw_only=True):
    """All of it, in the order in which it should be done."""

    as_of: Annotated[datetime.date, PUBLIC]
    aircraft: Annotated[tuple[Standing, ...], PUBLIC]
    packs: Annotated[tuple[PackStanding, ...], PUBLIC]
    rows: Annotated[tuple[Row, ...], PUBLIC]
