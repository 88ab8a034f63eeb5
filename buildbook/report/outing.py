"""A day at the field: what could be taken, what stays at home, and what falls due on the way."""

import msgspec

from buildbook.records.declare import Public
from buildbook.report.upkeep.jobs import Job
from buildbook.report.upkeep.work import Row


class Outing(msgspec.Struct, frozen=True, kw_only=True):
    """A usual day out with one aircraft, by its own log."""

    flights: Public[int]
    duration_s: Public[float]


class Candidate(msgspec.Struct, frozen=True, kw_only=True):
    """An aircraft that could be taken.

    goes: whether nothing keeps it at home. outing: None where it was never flown. coming: what
    falls due on such a day. packs: serviceable ones that it was flown with; others: of its cells,
    never flown with it. none_charged: whether it has packs, and none is charged. grounds: why it
    stays at home, worst first, what is alike as one; open: what is open, due or past due and keeps
    it nowhere, and defects that wait or are only noted: they are to be looked at first.
    """

    slug: Public[str]
    state: Public[str]
    goes: Public[bool]
    outing: Public[Outing | None]
    coming: Public[tuple[Job, ...]]
    check_flight: Public[bool]
    packs: Public[tuple[str, ...]]
    others: Public[tuple[str, ...]] = ()
    none_charged: Public[bool] = False
    grounds: Public[tuple[Job, ...]] = ()
    open: Public[tuple[Job, ...]] = ()


class Spare(msgspec.Struct, frozen=True, kw_only=True):
    """A part that flying aircraft carry, and the serviceable ones in the drawer."""

    kind: Public[str]
    title: Public[str]
    size: Public[str]
    hand: Public[str]
    fitted: Public[int]
    aircraft: Public[tuple[str, ...]]
    spares: Public[tuple[str, ...]]


class FieldTask(msgspec.Struct, frozen=True, kw_only=True):
    """A task that belongs to a moment of a flying day, such as ``before each flight``."""

    when: Public[str]
    task: Public[str]
    what: Public[str]
    programmes: Public[tuple[str, ...]]


class GoingFlying(msgspec.Struct, frozen=True, kw_only=True):
    """All of it. candidates: what can go stands first, with a charged pack before the rest.
    resting: packs that rest too full, or soon will. wings: whether one has control surfaces."""

    candidates: Public[tuple[Candidate, ...]]
    resting: Public[tuple[Row, ...]]
    spares: Public[tuple[Spare, ...]]
    tasks: Public[tuple[FieldTask, ...]]
    wings: Public[bool]
