"""What was read of a pack at rest, and what the records set it aside for."""

from __future__ import annotations  # marks are looked at for the public only

from collections.abc import Mapping
from typing import Annotated, Literal

from buildbook.records.declare import PRIVATE, PUBLIC, of
from buildbook.records.entries import Inspection
from buildbook.report.history import Recorded


class RestReading(Recorded, frozen=True, kw_only=True):
    """Voltages of a pack at rest: one of each cell, or one alone, the mean of the pack.

    spread_mv: how far the cells lie apart, where that tells anything (``hangar.packs.rests``).
    fell_mv: how much more than every other cell the cell number ``fell_cell`` (from 1) fell while
    the pack lay; None: it did not lie long enough, or its cells were not read before.
    """

    cells_v: Annotated[tuple[float, ...], PRIVATE]
    spread_mv: Annotated[int | None, PRIVATE] = None
    fell_mv: Annotated[int | None, PRIVATE] = None
    fell_cell: Annotated[int | None, PRIVATE] = None


class Told(Recorded, frozen=True, kw_only=True):
    """Words of an entry that tell of a swollen pack: that part of them."""

    words: Annotated[str | None, of(Inspection, "findings")] = None


AsideWhy = Literal[
    "keeper",  # an entry ``state``
    "crash",
    "incident",  # of any severity, that names the pack
    "water",
    "defect",
    "failed look",
    "low cell",  # read at rest below the limit
    "high cell",
    "spread",  # cells at rest too far apart
    "hot",  # read of it, however it got so
    "falling cell",  # one fell more than the others while the pack lay
]
Release = Literal["look", "word"]
"""What returns it: a passed ``pack-look`` of a later day, or only ``state`` with why."""


class Aside(Recorded, frozen=True, kw_only=True):
    """A reason why a pack is set aside; it is until each of them is released.

    defect: the uid of it, which must be closed as well. looked: whether a look released it
    already. detail: short facts, such as ``found`` and ``expected`` of a reading. findings: of the
    look that failed, or why the keeper set it aside.
    """

    why: Annotated[AsideWhy, PUBLIC]
    release: Annotated[Release, PUBLIC] = "look"
    defect: Annotated[str | None, PRIVATE] = None
    looked: Annotated[bool, PRIVATE] = False
    detail: Annotated[Mapping[str, str], PUBLIC] = {}
    findings: Annotated[str | None, of(Inspection, "findings")] = None
