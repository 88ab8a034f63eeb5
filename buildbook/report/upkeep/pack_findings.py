"""What was found of a pack: its cells, its capacity, what it was used for."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from typing import Annotated, Literal

import msgspec

from buildbook.records.declare import OfDays, Public, of
from buildbook.records.entries import Inspection


class CellLow(msgspec.Struct, frozen=True, kw_only=True, tag="cell low"):
    """The lowest cell under its limit; right after a flight it says nothing yet, and has none."""

    when: Public[Literal["at rest", "in flight", "right after a flight"]]
    cell_v: Public[float]
    least_v: Public[float | None] = None


class AtCutOff(msgspec.Struct, frozen=True, kw_only=True, tag="at cut-off"):
    """The lowest volts a cell of a flight that came down to the cut-off, or below it."""

    cell_v: Public[float]
    cut_off_v: Public[float]
    on: OfDays[datetime.date | None] = None


class CellFell(msgspec.Struct, frozen=True, kw_only=True, tag="cell fell"):
    """A cell that fell more than the others while the pack lay. cell: from 1."""

    cell: Public[int]
    fell_v: Public[float]
    most_v: Public[float]


class NotFull(msgspec.Struct, frozen=True, kw_only=True, tag="not full"):
    """Volts a cell before a flight, too few for a pack charged to full on that day."""

    cell_v: Public[float]


class UsedShare(msgspec.Struct, frozen=True, kw_only=True, tag="used share"):
    """What a flight used of the capacity. most_share: more than that asks for something."""

    share: Public[float]
    most_share: Public[float | None] = None


class IntoReserve(msgspec.Struct, frozen=True, kw_only=True, tag="into reserve"):
    """A flight that went on into the reserve. usable_ah: what may be out of the pack at most.

    together: with the flights before it on that charge. flown_s: how long it flew, where nobody
    wrote what it used and out_ah is its usual draw. before: how often that had happened. habit:
    how many of its last six flights, where that is all that keeps it open; else 0.
    """

    out_ah: Public[float]
    usable_ah: Public[float]
    together: Public[bool] = False
    flown_s: Public[float | None] = None
    before: Public[int] = 0
    habit: Public[int] = 0


class OnShelf(msgspec.Struct, frozen=True, kw_only=True, tag="on shelf"):
    """A new pack that lay for so long without a reading."""

    months: Public[int]


class OldPack(msgspec.Struct, frozen=True, kw_only=True, tag="old pack"):
    """A lithium pack so many years old, and not looked at for that within a year."""

    years: Public[int]


class NotJudged(msgspec.Struct, frozen=True, kw_only=True, tag="not judged"):
    """Voltages that nothing can be said of, for the spec lacks this."""

    lacks: Public[Literal["chemistry"]] = "chemistry"


class CellsApart(msgspec.Struct, frozen=True, kw_only=True, tag="cells apart"):
    """Cells at rest that lie further apart than they may. twice: at two readings running."""

    spread_v: Public[float]
    most_v: Public[float]
    twice: Public[bool] = False


class OddCell(msgspec.Struct, frozen=True, kw_only=True, tag="odd cell"):
    """A cell whose resistance stands out. cell: from 1. share: 0.5 is half as much again."""

    cell: Public[int]
    share: Public[float]


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


class SetAside(msgspec.Struct, frozen=True, kw_only=True, tag="set aside"):
    """What set a pack aside. facts: short facts by name; findings: of the look that failed."""

    why: Public[str]
    facts: Public[tuple[tuple[str, str], ...]] = ()
    findings: Annotated[str | None, of(Inspection, "findings")] = None


class ToldSwollen(msgspec.Struct, frozen=True, kw_only=True, tag="told swollen"):
    """Words that tell of a swollen pack, which set nothing aside."""

    words: Annotated[str | None, of(Inspection, "findings")] = None


class UsedAside(msgspec.Struct, frozen=True, kw_only=True, tag="used aside"):
    """How often a pack was charged and flown since it was set aside, and when last."""

    charged: Public[int]
    flown: Public[int]
    last_on: OfDays[datetime.date | None] = None


class ChargedWrongly(msgspec.Struct, frozen=True, kw_only=True, tag="charged wrongly"):
    """What a charge did that none should; what it did right is None.

    took_ah beside rated_ah: more than the pack holds. at_k: colder or warmer than a pack may be.
    at_a beside most_a: faster than its spec says. unequal: as one with a pack of other cells.
    apart_v: on one lead with a pack that was so much fuller or emptier, a cell.
    """

    took_ah: Public[float | None] = None
    rated_ah: Public[float | None] = None
    at_k: Public[float | None] = None
    at_a: Public[float | None] = None
    most_a: Public[float | None] = None
    unequal: Public[bool] = False
    apart_v: Public[float | None] = None


class CellsOutside(msgspec.Struct, frozen=True, kw_only=True, tag="cells outside"):
    """Packs whose cells in series a part does not take. of: its tag, where the row is another's."""

    of: Public[str | None] = None
    packs: Public[tuple[str, ...]]
    series: Public[tuple[int, ...]]
    least: Public[int]
    most: Public[int]


PackFinding = (
    CellLow
    | AtCutOff
    | CellFell
    | NotFull
    | UsedShare
    | IntoReserve
    | OnShelf
    | OldPack
    | NotJudged
    | CellsApart
    | OddCell
    | CapacityLow
    | ReadAtLimit
    | CannotCompare
    | SetAside
    | ToldSwollen
    | UsedAside
    | ChargedWrongly
    | CellsOutside
)
