"""What the trend charts are made from: measured points, and lines computed elsewhere."""

import msgspec

from buildbook.records.declare import Public
from buildbook.report.drawn.plans import MonthPlan

Point = tuple[float, float]


class CapacitySeries(msgspec.Struct, frozen=True, kw_only=True):
    """Capacity of a pack over its charges.

    `line` and `band` come from the trend; `band` rows are charge number, low, high in Ah.
    `apart` are indices into `points`: read under other conditions, so compared with none.
    `change_ah`: what it changes a charge, by its capacity trend. `without_storage`: charges to
    storage are not among those that it counts.
    """

    tag: Public[str]
    points: Public[tuple[Point, ...]]  # charge number, Ah
    line: Public[tuple[Point, ...]] = ()
    band: Public[tuple[tuple[float, float, float], ...]] = ()
    limit_ah: Public[float | None] = None
    rated_ah: Public[float | None] = None
    apart: Public[tuple[int, ...]] = ()
    change_ah: Public[float | None] = None
    without_storage: Public[bool] = False


class ResistanceSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Resistance of each cell over the charges of a pack; `odd_cell` counts from 1.

    `apart` are charge numbers: read under other conditions, so compared with none.
    `without_storage`: it counts no charges to storage, and there are some.
    """

    tag: Public[str]
    cells: Public[tuple[tuple[Point, ...], ...]]  # per cell: charge number, ohm
    limit_ohm: Public[float | None] = None
    odd_cell: Public[int | None] = None
    apart: Public[tuple[float, ...]] = ()
    without_storage: Public[bool] = False


class MonthSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Flying by month, oldest first; months without flying may be left out.

    earlier: flights from before the first month, those before the records among them.
    """

    name: Public[str]
    months: Public[tuple[MonthPlan, ...]]
    earlier: Public[int] = 0


class FlownSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Predicted against flown time, one point a flight, in seconds."""

    name: Public[str]
    points: Public[tuple[Point, ...]]  # predicted, flown


class ConsumptionSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Charge used per minute, flight by flight, with control limits; charge in mAh per minute.

    `signals` are indices into `points`. Limits are lines of (flight number, value).
    """

    name: Public[str]
    points: Public[tuple[Point, ...]]  # flight number, mAh/min
    centre: Public[float | None] = None
    lower: Public[tuple[Point, ...]] = ()
    upper: Public[tuple[Point, ...]] = ()
    signals: Public[tuple[int, ...]] = ()


class CrashSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Hours flown before each crash since the one before it, and since the last one."""

    name: Public[str]
    gaps_h: Public[tuple[float, ...]]
    since_h: Public[float]
