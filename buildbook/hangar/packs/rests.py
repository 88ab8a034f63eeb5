"""Which readings of a pack were taken at rest: 30 minutes after load, or later.

``resting`` of a charge of one pack is, by its name. The readings of a look at the resting voltage
are. ``volts.before`` of a flight is, unless the pack flew on that day since its last charge and
nothing says that 30 minutes lay between. ``volts.after`` and ``volts.lowest`` never are.
"""

from collections.abc import Sequence

import msgspec

from buildbook.basis.days import minute_of_day
from buildbook.hangar.builders import ItemBuilder, LastLoad
from buildbook.hangar.folding import Fold
from buildbook.hangar.packs.aside import set_pack_aside
from buildbook.hangar.packs.doubts import doubt_look
from buildbook.hangar.packs.limits import (
    CHARGED_V,
    FELL_ASIDE_MV,
    FLAT_BELOW_V,
    LYING_DAYS,
    MOST_OF_A_CELL_V,
    SPREAD_ASIDE_MV,
    SPREAD_ROW_MV,
    limits_of,
    millivolts,
)
from buildbook.records.entries import Charge, Inspection
from buildbook.records.readings import voltages_read
from buildbook.records.row_names import (
    CELL_VOLTAGES,
    FALLING_CELL,
    LOW_CELLS,
    PACK_LOOK,
    PACK_RESTING,
)
from buildbook.report.history import FlightDone
from buildbook.report.packs.pack_history import RestReading

REST_MINUTES = 30
"""So long after load a voltage is one at rest. Common practice, no source."""

MOST_READ_MV = 6000
"""What is above it was never read of a cell: a slip of the pen, of which a warning tells."""

_LOOKS = (PACK_RESTING, CELL_VOLTAGES, LOW_CELLS, FALLING_CELL, PACK_LOOK)
"""Looks whose readings in volts are of cells at rest."""


def read_charge(fold: Fold, pack: ItemBuilder, entry: Charge) -> None:
    """The resting voltages of a charge; of several packs together they are of none."""
    pack.last_load = None
    if entry.resting_v and len(entry.packs) == 1:
        _read(fold, pack, entry.resting_v, full=entry.to == "full")


def read_look(fold: Fold, pack: ItemBuilder, entry: Inspection) -> None:
    """The readings in volts of a look at one pack, in the order in which they are written."""
    if len(entry.tags) != 1 or not any(name in _LOOKS for name in entry.tasks):
        return
    of_volts = any(name in _LOOKS and name != PACK_LOOK for name in entry.tasks)
    cells_v = voltages_read(entry.readings, bare=of_volts)
    if cells_v:
        doubt_look(fold, pack, cells_v, entry)
        _read(fold, pack, cells_v)


def read_flight(fold: Fold, pack: ItemBuilder, flight: FlightDone, of_one: bool) -> None:
    """The voltage before a flight, where it was one at rest; and that the pack was loaded.

    of_one: whether the entry tells of one flight on one pack, so that its volts are of that.
    """
    at = fold.at
    start = None if at.time is None else minute_of_day(at.time)
    before_v = None if flight.volts is None or not of_one else flight.volts.before_v
    if before_v is not None and _rested(pack.last_load, fold, start):
        _read(fold, pack, (before_v,))
    end = None if start is None else start + flight.duration_s / 60
    pack.last_load = LastLoad(at.day, start, end, flight.aircraft)


def _rested(load: LastLoad | None, fold: Fold, start: float | None) -> bool:
    if load is None or load.on != fold.at.day:
        return True
    return start is not None and load.until is not None and start - load.until >= REST_MINUTES


def _read(fold: Fold, pack: ItemBuilder, read_v: Sequence[float], *, full: bool = False) -> None:
    """Note a reading, and set the pack aside where it says so."""
    cells = pack.spec.cells
    cells_v = tuple(read_v)
    if cells is not None and len(cells_v) > 1 and pack.spec.chemistry != "NiMH":
        alone = tuple(one for one in cells_v if one <= MOST_OF_A_CELL_V)  # the sum beside them
        cells_v = alone or cells_v
    if cells is not None and len(cells_v) == 1 and _of_pack(cells_v[0], pack):
        cells_v = (cells_v[0] / cells.series,)
    elif cells is not None and 1 < len(cells_v) < cells.series:
        cells_v = (min(cells_v),)  # some were read: the lowest tells of all
    elif cells is not None and len(cells_v) not in (1, cells.series):
        return
    if millivolts(max(cells_v)) > MOST_READ_MV:
        return
    reading = RestReading(**fold.at.stamp(), cells_v=cells_v)
    reading = msgspec.structs.replace(reading, spread_mv=_spread_mv(pack, reading, full))
    fell = _fell(pack, reading)
    if fell is not None:
        reading = msgspec.structs.replace(reading, fell_mv=fell[0], fell_cell=fell[1])
    _judge(fold, pack, reading)
    pack.rests.append(reading)


def _of_pack(read_v: float, pack: ItemBuilder) -> bool:
    """Whether one voltage is that of the whole pack: more than a cell of it can have."""
    limits = limits_of(pack.spec)
    most = 4.5 if limits is None or limits.rest_highest_v is None else limits.rest_highest_v
    return pack.spec.chemistry == "NiMH" or read_v > most + 0.25


def _spread_mv(pack: ItemBuilder, reading: RestReading, full: bool) -> int | None:
    """How far the cells lie apart, where their chemistry and charge let that tell anything."""
    if len(reading.cells_v) < 2:
        return None
    chemistry = pack.spec.chemistry or ""
    flat_v = FLAT_BELOW_V.get(chemistry)
    cells_mv = [millivolts(volts) for volts in reading.cells_v]
    spread_mv = max(cells_mv) - min(cells_mv)
    if chemistry == "LiFe":
        return spread_mv if full else None
    if flat_v is None:
        return None
    charged = max(reading.cells_v) >= CHARGED_V
    return spread_mv if charged or min(reading.cells_v) > flat_v else None


def _fell(pack: ItemBuilder, reading: RestReading) -> tuple[int, int] | None:
    """By how much more than every other cell one fell while the pack lay, and which (from 1)."""
    if len(reading.cells_v) < 2:
        return None
    before = next((one for one in reversed(pack.rests) if len(one.cells_v) > 1), None)
    if before is None or (reading.on - before.on).days < LYING_DAYS:
        return None
    if pack.flights and pack.flights[-1].seq > before.seq:
        return None
    if len(before.cells_v) != len(reading.cells_v):
        return None
    fell = [
        millivolts(then) - millivolts(now)
        for then, now in zip(before.cells_v, reading.cells_v, strict=True)
    ]
    most, second = sorted(fell, reverse=True)[:2]
    return most - second, fell.index(most) + 1


def _judge(fold: Fold, pack: ItemBuilder, reading: RestReading) -> None:
    """Set aside what no cell should read at rest."""
    limits = limits_of(pack.spec)
    lowest, highest = millivolts(min(reading.cells_v)), millivolts(max(reading.cells_v))
    if limits is not None:
        least_v, most_v = limits.rest_aside_v, limits.rest_highest_v
        if least_v is not None and lowest < millivolts(least_v):
            _aside(fold, pack, "low cell", lowest, f"{least_v:.2f} V or more")
        if most_v is not None and millivolts(most_v) < highest:
            _aside(fold, pack, "high cell", highest, f"{most_v:.2f} V or less")
    spread_mv = reading.spread_mv
    if spread_mv is not None:
        again = pack.watched and spread_mv > SPREAD_ROW_MV
        pack.watched = spread_mv > SPREAD_ROW_MV
        if again or spread_mv > SPREAD_ASIDE_MV:
            most = SPREAD_ROW_MV if again else SPREAD_ASIDE_MV
            detail = {"found": f"{spread_mv} mV", "expected": f"{most} mV or less"}
            set_pack_aside(fold, pack, "spread", detail=detail)
    if reading.fell_mv is not None and reading.fell_mv >= FELL_ASIDE_MV:
        detail = {"found": f"{reading.fell_mv} mV", "expected": f"less than {FELL_ASIDE_MV} mV"}
        set_pack_aside(fold, pack, "falling cell", detail=detail)


def _aside(fold: Fold, pack: ItemBuilder, why: str, read_mv: int, expected: str) -> None:
    detail = {"found": f"{read_mv / 1000:.2f} V", "expected": expected}
    if why == "low cell":
        set_pack_aside(fold, pack, "low cell", detail=detail)
    else:
        set_pack_aside(fold, pack, "high cell", detail=detail)
