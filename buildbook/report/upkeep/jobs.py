"""The work list as jobs: the same thing to do on several items or stations is one job.

At a glance an aircraft shows the first of them and how many more there are.
"""

import datetime
from collections.abc import Mapping, Sequence
from typing import Literal

import msgspec

from buildbook.records.declare import Public
from buildbook.records.entries import Defect
from buildbook.report.upkeep.work import Because, Reason, Row, Why, first_to_ground

Group = Literal["first", "now", "soon", "later"]
GROUPS: tuple[Group, ...] = ("first", "now", "soon", "later")
"""In the order in which to act."""

Days = tuple[datetime.date, datetime.date]


class Range(msgspec.Struct, frozen=True, kw_only=True):
    """From the least to the most of what is left. least_of: the item or station with the least."""

    low: Public[float]
    high: Public[float]
    least_of: Public[str | None] = None


class Job(msgspec.Struct, frozen=True, kw_only=True):
    """Something to do, on one or several items or stations of an aircraft, or on packs.

    rows: alike in why they are open; none for a reason that no row stands for, such as an empty
    station. left, due_on, expected: over all rows, by unit; first_by: the unit that comes first
    on the worst of them. instruction: of the programme. defect: where it is one.
    """

    group: Public[Group]
    state: Public[str]
    aircraft: Public[str | None] = None
    rows: Public[tuple[Row, ...]] = ()
    reason: Public[Reason | None] = None
    left: Public[Mapping[str, Range]] = {}
    first_by: Public[str | None] = None
    due_on: Public[Days | None] = None
    expected: Public[Days | None] = None
    instruction: Public[str] = ""
    defect: Public[Defect | None] = None
    propellers_off: Public[bool] = False

    @property
    def row(self) -> Row | None:
        """The worst of the rows; what it says of why holds for all of them."""
        return self.rows[0] if self.rows else None

    @property
    def because(self) -> Because | None:
        """Why it is open."""
        row = self.row
        return row.because if row else None

    @property
    def lapse(self) -> Row | None:
        """The one of its rows that grounds first by its day alone."""
        return first_to_ground(self.rows)

    @property
    def danger(self) -> bool:
        """Something broken, missing, failed or noticed, not merely something to do."""
        if self.defect is not None:
            return self.defect.severity != "note"
        told = self.reason.because if self.reason is not None else self.because
        return self.state == "failed" or (told is not None and told.why in _DANGERS)

    @property
    def what(self) -> str:
        """What to do, or the words of the defect."""
        return self.defect.words if self.defect else self.instruction

    @property
    def tags(self) -> tuple[str, ...]:
        """The items that it is about, each once."""
        return tuple(dict.fromkeys(row.tag for row in self.rows if row.tag))

    @property
    def stations(self) -> tuple[str, ...]:
        """The stations that it is about; where items are named, they say enough."""
        if self.tags:
            return ()
        return tuple(dict.fromkeys(row.station for row in self.rows if row.station))


_DANGERS: tuple[Why, ...] = (
    "empty station",
    "missing part",
    "item state",
    "set aside",
    "used aside",
    "noticed",
    "wet",
)


def in_sight(jobs: Sequence[Job], most: int) -> tuple[tuple[Job, ...], int]:
    """The first few of a list with every danger of it, and how many others are left out."""
    shown = tuple(job for at, job in enumerate(jobs) if at < most or job.danger)
    return shown, len(jobs) - len(shown)


class Glance(msgspec.Struct, frozen=True, kw_only=True):
    """What to do first, or what comes round first, and how much else is open.

    also: dangers besides. more: other jobs that are open or due soon. open_checks: set-up checks
    that do not hold while it is being built, each counted once, at however many stations.
    """

    first: Public[Job | None]
    also: Public[tuple[Job, ...]]
    more: Public[int]
    open_checks: Public[int]
