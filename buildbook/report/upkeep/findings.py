"""What was found, in numbers and names: the facts that a row or a reason rests on."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from typing import Annotated, Literal

import msgspec

from buildbook.records.declare import PRIVATE, of
from buildbook.records.entries import Check, Inoperative, Inspection
from buildbook.report.marks import OfDays, Public

Against = Literal["plan", "meter"]
"""What a reading is held against."""


class ReadOtherwise(msgspec.Struct, frozen=True, kw_only=True, tag="reading"):
    """A reading that contradicts the layout. of: ``spin``, ``output``, ``order``, ``input 2``.

    at: the station, where it is not that of the row. expected: of the plan, or by meter.
    """

    of: Public[str]
    at: Public[str | None] = None
    found: Public[str]
    expected: Public[str]
    against: Public[Against] = "plan"


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


class OddCell(msgspec.Struct, frozen=True, kw_only=True, tag="odd cell"):
    """A cell whose resistance stands out. cell: from 1. share: 0.5 is half as much again."""

    cell: Public[int]
    share: Public[float]


class CellsApart(msgspec.Struct, frozen=True, kw_only=True, tag="cells apart"):
    """Cells at rest that lie further apart than they may."""

    spread_v: Public[float]
    most_v: Public[float]


class CapacityLow(msgspec.Struct, frozen=True, kw_only=True, tag="capacity low"):
    """A measured capacity below the share of the rated one that ends the life of a pack."""

    share: Public[float]
    least_share: Public[float]


class ReadAtLimit(msgspec.Struct, frozen=True, kw_only=True, tag="read at limit"):
    """A reading at the end of a pack's life. share, limit_share: of rated, or of its own first.

    since_share: the newest reading after it, where there is one.
    """

    of: Public[Literal["capacity", "cell_resistance"]]
    share: Public[float]
    limit_share: Public[float]
    since_share: Public[float | None] = None


class CannotCompare(msgspec.Struct, frozen=True, kw_only=True, tag="cannot compare"):
    """A reading under other conditions than those before; none named: they are not recorded.

    of: ``capacity`` or ``resistance``. differs: ``temperature``, ``current``, ``cut-off``.
    """

    of: Public[str]
    differs: Public[tuple[str, ...]] = ()
    on: OfDays[datetime.date | None] = None


class InState(msgspec.Struct, frozen=True, kw_only=True, tag="item state"):
    """An item that is not serviceable."""

    state: Public[str]


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
    """What the throttle does when the link is lost; None where that is not recorded."""

    throttle: Public[str | None]


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


class Remark(msgspec.Struct, frozen=True, kw_only=True, tag="remark"):
    """What was read or reckoned. said: a fragment, made where it was found.

    facts: short facts by name.
    """

    said: Public[str]
    facts: Public[tuple[tuple[str, str], ...]] = ()


class FailedAs(msgspec.Struct, frozen=True, kw_only=True, tag="failed as"):
    """What a look or check that failed found, and what it read, by name."""

    findings: Annotated[str | None, of(Inspection, "findings")] = None
    readings: Annotated[tuple[tuple[str, str], ...], of(Check, "readings")] = ()


class SetAside(msgspec.Struct, frozen=True, kw_only=True, tag="set aside"):
    """What set a pack aside. facts: short facts by name; findings: of the look that failed."""

    why: Public[str]
    facts: Public[tuple[tuple[str, str], ...]] = ()
    findings: Annotated[str | None, of(Inspection, "findings")] = None


class CellsOutside(msgspec.Struct, frozen=True, kw_only=True, tag="cells outside"):
    """Packs whose cells in series a part does not take. of: its tag, where the row is another's."""

    of: Public[str | None] = None
    packs: Public[tuple[str, ...]]
    series: Public[tuple[int, ...]]
    least: Public[int]
    most: Public[int]


class Moved(msgspec.Struct, frozen=True, kw_only=True, tag="moved"):
    """An item went from one aircraft to another: their names, for the owner."""

    tag: Public[str]
    came_from: Annotated[str, PRIVATE] = ""
    went_to: Annotated[str, PRIVATE] = ""


class CoveredBy(msgspec.Struct, frozen=True, kw_only=True, tag="covered"):
    """A larger look that takes in this one."""

    task: Public[str]


class AtLeast(msgspec.Struct, frozen=True, kw_only=True, tag="at least"):
    """What is known of a life whose beginning is not: at least so much, in the unit of it."""

    unit: Public[str]
    value: Public[float]


Finding = (
    ReadOtherwise
    | MassComputed
    | Drifted
    | OddCell
    | CellsApart
    | CapacityLow
    | ReadAtLimit
    | CannotCompare
    | InState
    | NotFitted
    | WrongHand
    | NoYaw
    | WithoutLink
    | Revised
    | DefectFound
    | Noticed
    | Remark
    | FailedAs
    | SetAside
    | CellsOutside
    | Moved
    | CoveredBy
    | AtLeast
)
