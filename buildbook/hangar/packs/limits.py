"""Limits of one cell by its chemistry: common practice, no source, unless a line says another.

What the spec of a pack says under ``volts:`` goes before them. Without a recorded chemistry there
are none: nothing is judged by a guess. How many cells a part takes stands below.
"""

from collections.abc import Mapping

import msgspec

from buildbook.basis import amounts
from buildbook.records.parts import Spec


class CellLimits(msgspec.Struct, frozen=True, kw_only=True):
    """All in volts a cell; None: nothing is judged by it.

    rest_row_v, rest_aside_v: read at rest below it, a row, and set aside. rest_highest_v: above
    it set aside. lowest_v: in flight. full_v: charged to full, least before a flight.
    """

    rest_row_v: float | None = None
    rest_aside_v: float | None = None
    rest_highest_v: float | None = None
    lowest_v: float | None = None
    full_v: float | None = None


LIMITS: Mapping[str, CellLimits] = {
    "LiPo": CellLimits(
        rest_row_v=3.3, rest_aside_v=3.0, rest_highest_v=4.25, lowest_v=3.0, full_v=4.05
    ),
    "LiHV": CellLimits(
        rest_row_v=3.3, rest_aside_v=3.0, rest_highest_v=4.40, lowest_v=3.0, full_v=4.05
    ),
    "LiIon": CellLimits(
        rest_row_v=3.0, rest_aside_v=2.5, rest_highest_v=4.25, lowest_v=2.5, full_v=4.05
    ),
    "LiFe": CellLimits(
        rest_row_v=2.8, rest_aside_v=2.0, rest_highest_v=3.75, lowest_v=2.3, full_v=3.30
    ),
    "NiMH": CellLimits(rest_row_v=1.0, lowest_v=0.9),
}
"""Common practice, no source."""

MOST_OF_A_CELL_V = 5.0
"""A voltage above it is one of the whole pack, of whatever chemistry."""

LITHIUM = ("LiPo", "LiHV", "LiIon", "LiFe")
BEARS_V: Mapping[str, float] = {"LiPo": 2.5, "LiHV": 2.5, "LiIon": 2.0, "LiFe": 2.0}
"""Emptied further than that such a cell is harmed at once. Common practice, no source."""
FLAT_BELOW_V: Mapping[str, float] = {"LiPo": 3.6, "LiHV": 3.6, "LiIon": 3.6}
"""At and below it a small difference of charge is a large one of voltage."""

CHARGED_V = 3.75
"""Where the best cell of such a pack rests at or above it, the pack is not near empty, and a cell
that lies far below it is weak however low it reads. Common practice, no source."""

SPREAD_MARK_MV = 30
"""Cells at rest that lie further apart are marked (record rule D15, common practice)."""
SPREAD_ROW_MV = 100
SPREAD_ASIDE_MV = 300
LYING_DAYS = 14
FELL_ROW_MV = 50
FELL_ASIDE_MV = 100
TOGETHER_MV = 100
"""On one lead no cells at rest may lie further apart."""
IMPOSSIBLE_CELL_V = 4.5
"""No cell of a chemistry that these records know rests above it."""


def millivolts(volts: float) -> int:
    """Voltages are compared in whole millivolts: 3.85 - 3.82 is above 0.03 in binary."""
    return round(volts * 1000)


def limits_of(spec: Spec) -> CellLimits | None:
    """The limits of a pack's cells; None: neither chemistry nor limits are recorded.

    A lowest voltage at rest of the keeper's own sets aside; the row stands as much above it as
    is usual for the chemistry.
    """
    usual = LIMITS.get(spec.chemistry or "")
    own = spec.volts
    if own is None:
        return usual
    base = usual or CellLimits()
    rest_aside_v, rest_row_v = base.rest_aside_v, base.rest_row_v
    if own.rest_lowest_v is not None:
        above_v = 0.0
        if base.rest_row_v is not None and base.rest_aside_v is not None:
            above_v = base.rest_row_v - base.rest_aside_v
        rest_aside_v, rest_row_v = own.rest_lowest_v, own.rest_lowest_v + above_v
    return CellLimits(
        rest_row_v=rest_row_v,
        rest_aside_v=rest_aside_v,
        rest_highest_v=base.rest_highest_v if own.highest_v is None else own.highest_v,
        lowest_v=base.lowest_v if own.lowest_v is None else own.lowest_v,
        full_v=base.full_v,
    )


MOST_AH_KG: Mapping[str, float] = {"LiPo": 95, "LiHV": 95, "LiIon": 110, "LiFe": 75, "NiMH": 160}
"""So many Ah a kilogram of cells none holds: about 350 Wh, 400 of LiIon, twice what they do."""


def holds_impossibly(spec: Spec, mass_kg: float | None) -> bool:
    """Whether a rated capacity is more than cells of its mass can hold: a slip of the unit."""
    if spec.sure or spec.cells is None or not spec.capacity_ah or not mass_kg:
        return False
    most = MOST_AH_KG.get(spec.chemistry or "", max(MOST_AH_KG.values()))
    return spec.capacity_ah * spec.cells.series > most * mass_kg


def too_much_held(spec: Spec, mass_kg: float | None) -> str:
    """What is said of it."""
    held, mass = amounts.charge(spec.capacity_ah or 0.0), amounts.mass(mass_kg or 0.0)
    return f"{held}, more than {mass} of cells can hold"


NIMH_FOR_ONE = 3


def takes(part: Spec, pack: Spec) -> bool:
    """Whether a part takes a pack; True where either does not say its cells.

    Parts count lithium cells: three of NiMH stand for one. Common practice, no source.
    """
    has, range_ = pack.cells, part.cells
    if has is None or range_ is None:
        return True
    cells = round(has.series / NIMH_FOR_ONE) if pack.chemistry == "NiMH" else has.series
    return range_.series <= max(1, cells) <= range_.series_most
