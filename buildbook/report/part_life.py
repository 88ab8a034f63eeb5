"""What is told of a part beside what it is: others of its kind, and what was done to it."""

from typing import Annotated

import msgspec

from buildbook.records.declare import PRIVATE, Public
from buildbook.records.parts import Spec
from buildbook.report.history import Completion
from buildbook.report.state import Condition, Counters
from buildbook.report.upkeep.flown import Remarked


class Sibling(msgspec.Struct, frozen=True, kw_only=True):
    """An item of the same spec."""

    tag: Public[str]
    state: Public[Condition]
    aircraft: Public[str | None]
    counters: Public[Counters]


class Siblings(msgspec.Struct, frozen=True, kw_only=True):
    """Items of a spec, of a large family the nearest ones.

    among: how many there are. ended: how many of them came to their end, and after what time of
    flying half of them had, in seconds; None where none has. ended_at_least: of one of these the
    time before the log is not known. ended_at_most: of one it is not known how long its motor ran.
    """

    items: Public[tuple[Sibling, ...]]
    among: Public[int]
    ended: Public[int]
    ended_median_s: Public[float | None]
    ended_at_least: Public[bool] = False
    ended_at_most: Public[bool] = False


class Inspected(msgspec.Struct, frozen=True, kw_only=True):
    """Tasks done at once with one result; ``done`` is the first of them."""

    tasks: Public[tuple[str, ...]]
    done: Public[Completion]


class Fits(msgspec.Struct, frozen=True, kw_only=True):
    """An aircraft on which items of the same spec sit, and at which stations."""

    slug: Public[str]
    stations: Public[tuple[str, ...]]


class Look(msgspec.Struct, frozen=True, kw_only=True):
    """A task or check of a part alone: its name, and what to do."""

    name: Public[str]
    what: Public[str]


class Spare(msgspec.Struct, frozen=True, kw_only=True):
    """A part in the drawer. fits: where its kind sits now. looks: what to look at first.

    reopens: set-up checks that fitting it opens again.
    """

    fits: Public[tuple[Fits, ...]]
    looks: Public[tuple[Look, ...]]
    reopens: Public[tuple[str, ...]]


class PartLife(msgspec.Struct, frozen=True, kw_only=True):
    """siblings: None where it is the only one of its spec. The others: oldest first.

    spare: None where it is fitted, a pack, or out of use. unanswered: the last remark about a pack
    that nobody looked at since.
    """

    siblings: Public[Siblings | None]
    inspected: Public[tuple[Inspected, ...]]
    remarks: Annotated[tuple[Remarked, ...], PRIVATE] = ()
    unanswered: Annotated[Remarked | None, PRIVATE] = None
    spare: Public[Spare | None] = None


class PartsLine(msgspec.Struct, frozen=True, kw_only=True):
    """Fitted items of one spec, or packs of one spec that are flown and are still at hand.

    stations: where they sit; none for packs. mass_kg: of all together, of one pack; None where it
    is not known. also: other specs by title that sat in the same places, or were flown, before.
    """

    kind: Public[str]
    title: Public[str]
    tags: Public[tuple[str, ...]]
    stations: Public[tuple[str, ...]]
    mass_kg: Public[float | None]
    spec: Public[Spec]
    also: Public[tuple[str, ...]] = ()
