"""What was found, in numbers and names: the facts that a row or a reason rests on."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from typing import Annotated, Literal

import msgspec

from buildbook.records.declare import PRIVATE, OfDays, Public, of
from buildbook.records.entries import Check, Inoperative, Inspection, StateChange
from buildbook.report.figure import Judged
from buildbook.report.upkeep.pack_findings import CellsOutside, PackFinding

Against = Literal["plan", "meter", "neutral", "others", "asked", "sense", "level"]
"""What a reading is held against."""


class AlarmLow(msgspec.Struct, frozen=True, kw_only=True, tag="alarm low"):
    """An alarm too late for packs: for their cut-off, the lowest of a cell in flight, what a cell
    has near empty, or the reserve that the keeper leaves in them."""

    alarm_v: Public[float]
    least_v: Public[float]
    of: Public[Literal["lowest", "cut-off", "near empty", "reserve"]] = "lowest"
    packs: Public[tuple[str, ...]]


class ReadOtherwise(msgspec.Struct, frozen=True, kw_only=True, tag="reading"):
    """A reading that contradicts the layout. of: ``spin``, ``output``, ``order``, ``input 2``.

    at: the station, where it is not that of the row. expected: of the plan, or by meter; of a
    channel about neutral, of a motor that starts as the others do, of a range as its check asks.
    alarm: what is wrong with the alarm of the same check.
    """

    of: Public[str]
    at: Public[str | None] = None
    found: Public[str]
    expected: Public[str]
    against: Public[Against] = "plan"
    alarm: Public[AlarmLow | None] = None


class NotReadAgain(msgspec.Struct, frozen=True, kw_only=True, tag="not read again"):
    """A pass without the reading that failed before. of: its name; found: what it was then.

    again: it was read, and is the same.
    others: what was read beside it, where none of them is known to be why it failed.
    """

    of: Public[str]
    found: Public[str]
    others: Public[tuple[tuple[str, str], ...]] = ()
    again: Public[bool] = False
    failed_on: OfDays[datetime.date | None] = None


class Unread(msgspec.Struct, frozen=True, kw_only=True, tag="unread"):
    """A reading, or a plan, in words that no rule knows. of: its name; wanted: what to write."""

    of: Public[str]
    found: Public[str]
    wanted: Public[str]


class MassComputed(msgspec.Struct, frozen=True, kw_only=True, tag="mass computed"):
    """Parts and alterations moved the mass since the scales last read it."""

    change_kg: Public[float]
    weighed_on: Public[datetime.date]


Measure = Literal["time on an ampere-hour", "charge a minute"]
"""What is watched for drift: of an aircraft, of a pack."""


class Drifted(msgspec.Struct, frozen=True, kw_only=True, tag="drift"):
    """A figure that left its own limits. share: by how much it moved, 0.12 is 12 % more."""

    of: Public[Measure]
    share: Public[float]


class InState(msgspec.Struct, frozen=True, kw_only=True, tag="item state"):
    """An item that is not serviceable. whys: of a pack, in the words of its keeper."""

    state: Public[str]
    whys: Annotated[tuple[str, ...], of(StateChange, "because")] = ()


class NotFitted(msgspec.Struct, frozen=True, kw_only=True, tag="not fitted"):
    """Kinds of part that a station or an aircraft lacks. recorded: it had them once."""

    kinds: Public[tuple[str, ...]]
    recorded: Public[bool] = True


class WrongHand(msgspec.Struct, frozen=True, kw_only=True, tag="wrong hand"):
    """A propeller whose hand contradicts the spin of its station."""

    tag: Public[str]
    hand: Public[str]
    wanted: Public[str]


class NoYaw(msgspec.Struct, frozen=True, kw_only=True, tag="no yaw"):
    """Planned spins by which yaw cannot be told from roll or pitch. rank: of the allocation."""

    rank: Public[int]


class WithoutLink(msgspec.Struct, frozen=True, kw_only=True, tag="without link"):
    """What the throttle does when the link is lost; None where that is not recorded.

    planned: what it was set to. read: what was seen at the last failsafe check that says so; both
    after the name of what does it.
    """

    throttle: Public[str | None]
    planned: Public[str | None] = None
    read: Public[str | None] = None
    read_on: OfDays[datetime.date | None] = None


class Revised(msgspec.Struct, frozen=True, kw_only=True, tag="notice"):
    """The revision of a notice."""

    revision: Public[str]


class DefectFound(msgspec.Struct, frozen=True, kw_only=True, tag="defect"):
    """How a defect stands. limited: whether a deferral has a limit; True where none is asked."""

    severity: Public[str]
    days_open: OfDays[int | None] = None
    limited: Public[bool] = True
    inoperative: Public[Inoperative | None] = None


class Noticed(msgspec.Struct, frozen=True, kw_only=True, tag="noticed"):
    """What was noticed in flight, and nobody looked at since."""

    what: Public[str]


class TooHeavy(msgspec.Struct, frozen=True, kw_only=True, tag="too heavy"):
    """Over the keeper's own mass. pack: with which, the lightest of them; heavier: others too.

    payload_kg: of the last flight, without which it is not over.
    """

    mass_kg: Public[float]
    limit_kg: Public[float]
    pack: Public[str | None] = None
    heavier: Public[bool] = False
    payload_kg: Public[float | None] = None
    weighed: Public[bool] = True


class Unbalanced(msgspec.Struct, frozen=True, kw_only=True, tag="unbalanced"):
    """Balanced outside the keeper's own limits. by: as it is now, by scales or worked out; or as
    it was last weighed, where what changed since has no place or mass. packs: with these alone."""

    judged: Public[Judged]
    packs: Public[tuple[str, ...]] = ()
    by: Public[Literal["scales", "computed", "last weighing"]]


class RangeFell(msgspec.Struct, frozen=True, kw_only=True, tag="range fell"):
    """A range that passed, and the one that passed before it."""

    read_m: Public[float]
    before_m: Public[float]


class UnlikePart(msgspec.Struct, frozen=True, kw_only=True, tag="unlike part"):
    """A motor or propeller unlike all the others: what it is, and what they are."""

    tag: Public[str]
    kind: Public[str]
    station: Public[str]
    found: Public[str]
    others: Public[str]


class Carries(msgspec.Struct, frozen=True, kw_only=True, tag="carries"):
    """More at full throttle than its rating, in ``unit``. packs: with which, where not itself one.

    plug_from: the run whose plug it is.
    """

    asked: Public[float]
    rating: Public[float]
    unit: Public[str]
    packs: Public[tuple[str, ...]] = ()
    plug_from: Public[str | None] = None


class ServosDraw(msgspec.Struct, frozen=True, kw_only=True, tag="servos draw"):
    """Servos that ask their regulator for more than it gives."""

    drawn_a: Public[float]
    most_a: Public[float]


class ServosFed(msgspec.Struct, frozen=True, kw_only=True, tag="servos fed"):
    """A regulator whose voltage is none for these servos: theirs, with their tags."""

    gives_v: Public[float]
    servos: Public[tuple[tuple[float, tuple[str, ...]], ...]]


PassedRating = CellsOutside | Carries | ServosDraw | ServosFed


class OverRated(msgspec.Struct, frozen=True, kw_only=True, tag="over rated"):
    """Recorded ratings that are passed: of an item of a kind at a station, or of a plug."""

    tag: Public[str | None] = None
    kind: Public[str | None] = None
    station: Public[str | None] = None
    passed: Public[tuple[PassedRating, ...]]


class SameMemory(msgspec.Struct, frozen=True, kw_only=True, tag="same memory"):
    """Other aircraft on the same memory of the transmitter: their names, for the owner."""

    memory: Public[str]
    others: Annotated[tuple[str, ...], PRIVATE] = ()


class NutAgainst(msgspec.Struct, frozen=True, kw_only=True, tag="nut"):
    """A propeller nut that its motor may unscrew. spin: as seen from the nut."""

    tag: Public[str]
    station: Public[str]
    thread: Public[str]
    spin: Public[str]


class FailedAs(msgspec.Struct, frozen=True, kw_only=True, tag="failed as"):
    """What a look or check that failed found, and what it read, by name."""

    findings: Annotated[str | None, of(Inspection, "findings")] = None
    readings: Annotated[tuple[tuple[str, str], ...], of(Check, "readings")] = ()


class Moved(msgspec.Struct, frozen=True, kw_only=True, tag="moved"):
    """An item went from one aircraft to another: their names, for the owner."""

    tag: Public[str]
    came_from: Annotated[str, PRIVATE] = ""
    went_to: Annotated[str, PRIVATE] = ""


class PartAgain(msgspec.Struct, frozen=True, kw_only=True, tag="part again"):
    """A part that is fitted though nobody looked at it since it was at fault, crashed or got wet.

    defect: the id of the cleared one. crashed, wet: the name of the aircraft with which.
    """

    tag: Public[str]
    defect: Annotated[str, PRIVATE] = ""
    crashed: Annotated[str, PRIVATE] = ""
    wet: Annotated[str, PRIVATE] = ""


class CoveredBy(msgspec.Struct, frozen=True, kw_only=True, tag="covered"):
    """A larger look that takes in this one."""

    task: Public[str]


class AtLeast(msgspec.Struct, frozen=True, kw_only=True, tag="at least"):
    """What is known of a life whose beginning is not: at least so much, in the unit of it."""

    unit: Public[str]
    value: Public[float]


Finding = (
    ReadOtherwise
    | NotReadAgain
    | Unread
    | MassComputed
    | Drifted
    | InState
    | NotFitted
    | WrongHand
    | NoYaw
    | WithoutLink
    | Revised
    | DefectFound
    | Noticed
    | TooHeavy
    | Unbalanced
    | AlarmLow
    | RangeFell
    | UnlikePart
    | OverRated
    | SameMemory
    | NutAgainst
    | PackFinding
    | FailedAs
    | Moved
    | PartAgain
    | CoveredBy
    | AtLeast
)
