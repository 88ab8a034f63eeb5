"""What the trend charts are made from: measured points, and lines computed elsewhere."""

from __future__ import annotations

import msgspec

from buildbook.drawings.plans import MonthPlan

Point = tuple[float, float]


class CapacitySeries(msgspec.Struct, frozen=True, kw_only=True):
    """Capacity of a pack over its charges.

    `line` and `band` come from the trend; `band` rows are charge number, low, high in Ah.
    """

    tag: str
    points: tuple[Point, ...]  # charge number, Ah
    line: tuple[Point, ...] = ()
    band: tuple[tuple[float, float, float], ...] = ()
    limit_ah: float | None = None
    rated_ah: float | None = None


class ResistanceSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Resistance of each cell over the charges of a pack; `odd_cell` counts from 1."""

    tag: str
    cells: tuple[tuple[Point, ...], ...]  # per cell: charge number, ohm
    limit_ohm: float | None = None
    odd_cell: int | None = None


class MonthSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Flying by month, oldest first; months without flying may be left out."""

    name: str
    months: tuple[MonthPlan, ...]


class FlownSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Predicted against flown time, one point a flight, in seconds."""

    name: str
    points: tuple[Point, ...]  # predicted, flown


class ConsumptionSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Charge used per minute, flight by flight, with control limits; charge in mAh per minute.

    `signals` are indices into `points`. Limits are lines of (flight number, value).
    """

    name: str
    points: tuple[Point, ...]  # flight number, mAh/min
    centre: float | None = None
    lower: tuple[Point, ...] = ()
    upper: tuple[Point, ...] = ()
    signals: tuple[int, ...] = ()


class CrashSeries(msgspec.Struct, frozen=True, kw_only=True):
    """Hours flown before each crash since the one before it, and since the last one."""

    name: str
    gaps_h: tuple[float, ...]
    since_h: float
