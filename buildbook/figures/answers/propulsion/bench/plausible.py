"""Which rows of a thrust-stand table can be: held against the propeller's disk and the motor.

No rotor holds a thrust with less than the ideal power of its disk (actuator disk theory). How far
a bench may go past a motor's limits, and from which share of wrong rows on a whole column is in
doubt, is common practice, no source. The sweeps of Cao and Strawson 2018 that the tests hold put
0.16 to 0.38 of their electrical power into the ideal one, in the median of a sweep.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

import msgspec

from buildbook.figures.laws.aero.hover import ideal_hover_power_w
from buildbook.figures.laws.constants import SEA_LEVEL_DENSITY_KG_M3, STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.numbers import median
from buildbook.figures.laws.propulsion.bench import BenchRow as Usable
from buildbook.figures.laws.propulsion.bench import BenchTable as Ready
from buildbook.figures.laws.propulsion.bench import bench_table
from buildbook.records.ledger import BenchRow, BenchTable

TIMES_LIMIT = 3.0  # a bench goes past a motor's limit, but not so far
POOR = 0.1  # ideal over electrical power, in the median: no sweep is as bad
FEW = 1 / 3  # of the rows: where more cannot be, none is believed
USUAL = 0.35
BELIEVABLE = (0.15, 0.6)
ONE_CELL_V, MOST_V = 2.5, 70.0
NEAR = 0.25  # how near a mended value comes to its neighbours

Column = Literal["throttle_share", "voltage_v", "current_a", "thrust_n"]
FIELDS: Mapping[Column, str] = {"voltage_v": "volts", "current_a": "amps", "thrust_n": "thrust_n"}
NEEDED: tuple[Column, ...] = ("throttle_share", "voltage_v", "current_a", "thrust_n")

Why = Literal["blank", "still", "ideal", "current", "power", "not rising"]
Whole = Literal["throttle a share", "ideal", "current", "power", "poor", "few", "missing"]


class Limits(msgspec.Struct, frozen=True):
    """What rows are held against; None: not recorded."""

    diameter_m: float | None = None
    max_current_a: float | None = None
    max_power_w: float | None = None


class Meant(msgspec.Struct, frozen=True):
    """What was probably meant: a column times a factor, and one value of it, as read and so."""

    column: Column
    factor: float
    read: float
    line: int


class LeftOut(msgspec.Struct, frozen=True):
    """A row that is not used. blank: its empty columns. least_w: the ideal power, where told."""

    row: BenchRow
    why: Why
    blank: tuple[Column, ...] = ()
    least_w: float = 0.0
    meant: Meant | None = None


class Held(msgspec.Struct, frozen=True):
    """A table held against its limits.

    ready: the table made ready, of the rows kept; None where it does not serve, and whole says
    why. first: the first row that speaks against the whole; missing: columns that it lacks.
    """

    file: str
    rows: int
    ready: Ready | None = None
    kept: tuple[BenchRow, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    whole: Whole | None = None
    missing: tuple[Column, ...] = ()
    first: LeftOut | None = None
    meant: Meant | None = None


class _Checked(msgspec.Struct, frozen=True):
    """A row with nothing blank. ideal_share: ideal over electrical power; None: not known."""

    row: BenchRow
    throttle: float
    volts: float
    amps: float
    thrust_n: float
    ideal_w: float | None

    @property
    def watts(self) -> float:
        return self.volts * self.amps

    @property
    def ideal_share(self) -> float | None:
        return None if self.ideal_w is None else self.ideal_w / self.watts


def held(table: BenchTable, limits: Limits) -> Held:
    """The table, its rows held against the limits. It never raises."""
    missing = tuple(
        column for column in NEEDED if all(getattr(row, column) is None for row in table.rows)
    )
    if missing:
        return Held(table.file, len(table.rows), whole="missing", missing=missing)
    blank = [LeftOut(row, "blank", _blank(row)) for row in table.rows if _blank(row)]
    full = [_checked(row, limits) for row in table.rows if not _blank(row)]
    still = [LeftOut(one.row, "still") for one in full if not _turns(one)]
    turning = [one for one in full if _turns(one)]
    wrong = [found for one in turning if (found := _impossible(one, limits)) is not None]
    told = Held(table.file, len(table.rows), left_out=(*blank, *still, *wrong))
    whole = _whole(turning, wrong)
    if whole is not None:
        first = next((one for one in wrong if one.why == whole), None)
        meant = _column_meant(turning, limits)
        return msgspec.structs.replace(told, whole=whole, first=first, meant=meant)
    lines = {one.row.line for one in wrong}
    return _made_ready(told, [one for one in turning if one.row.line not in lines], turning)


def _blank(row: BenchRow) -> tuple[Column, ...]:
    return tuple(column for column in NEEDED if getattr(row, column) is None)


def _checked(row: BenchRow, limits: Limits) -> _Checked:
    thrust = row.thrust_n or 0.0
    ideal = None
    if limits.diameter_m is not None and thrust > 0:
        area = math.pi * limits.diameter_m**2 / 4
        ideal = ideal_hover_power_w(thrust, area, SEA_LEVEL_DENSITY_KG_M3)
    return _Checked(
        row=row,
        throttle=row.throttle_share or 0.0,
        volts=row.voltage_v or 0.0,
        amps=row.current_a or 0.0,
        thrust_n=thrust,
        ideal_w=ideal,
    )


def _turns(one: _Checked) -> bool:
    return min(one.throttle, one.watts, one.thrust_n) > 0


def _impossible(one: _Checked, limits: Limits) -> LeftOut | None:
    if one.ideal_w is not None and one.watts < one.ideal_w:
        return LeftOut(one.row, "ideal", least_w=one.ideal_w)
    if limits.max_current_a is not None and one.amps > TIMES_LIMIT * limits.max_current_a:
        return LeftOut(one.row, "current")
    if limits.max_power_w is not None and one.watts > TIMES_LIMIT * limits.max_power_w:
        return LeftOut(one.row, "power")
    return None


def _whole(turning: Sequence[_Checked], wrong: Sequence[LeftOut]) -> Whole | None:
    """Why no row is believed."""
    if turning and max(one.throttle for one in turning) <= 0.01:
        return "throttle a share"
    if len(wrong) > max(1.0, FEW * len(turning)):
        whys = [one.why for one in wrong]
        causes: tuple[Literal["ideal", "current", "power"], ...] = ("ideal", "current", "power")
        return max(causes, key=lambda cause: whys.count(cause))
    shares = [one.ideal_share for one in turning if one.ideal_share is not None]
    return "poor" if len(shares) > 1 and median(shares) < POOR else None


def _made_ready(told: Held, believed: Sequence[_Checked], turning: Sequence[_Checked]) -> Held:
    rows = [
        Usable(
            throttle=one.throttle,
            voltage_v=one.volts,
            current_a=one.amps,
            thrust_n=one.thrust_n,
            rotation_rev_s=None if one.row.rotation_rpm is None else one.row.rotation_rpm / 60,
        )
        for one in believed
    ]
    try:
        ready = bench_table(rows, SEA_LEVEL_DENSITY_KG_M3)
    except ValueError:
        return msgspec.structs.replace(told, whole="few")
    kept = {believed[number].row.line for number in ready.rows}
    kept |= {one.row.line for one, row in zip(believed, rows, strict=True) if row is ready.full}
    good = [one for one in believed if one.row.line in kept]
    falling = [LeftOut(one.row, "not rising") for one in believed if one.row.line not in kept]
    by_line = {one.row.line: one for one in turning}
    left_out = [
        msgspec.structs.replace(one, meant=_row_meant(by_line.get(one.row.line), good))
        for one in (*told.left_out, *falling)
    ]
    left_out.sort(key=lambda one: one.row.line)
    rows_kept = tuple(one.row for one in good)
    return msgspec.structs.replace(told, ready=ready, kept=rows_kept, left_out=tuple(left_out))


def _row_meant(one: _Checked | None, good: Sequence[_Checked]) -> Meant | None:
    """A slip of the point in one cell, where mending it puts the row among its neighbours."""
    if one is None:
        return None
    found = []
    for column, field in FIELDS.items():
        read: float = getattr(one, field)
        for factor in (10.0, 0.1):
            if _fits(msgspec.structs.replace(one, **{field: read * factor}), good):
                found.append(Meant(column, factor, read, one.row.line))
    return found[0] if len(found) == 1 else None


def _fits(one: _Checked, good: Sequence[_Checked]) -> bool:
    """Whether power and thrust lie on the line between the rows about it."""
    applied = one.throttle * one.volts
    below = [row for row in good if row.throttle * row.volts <= applied]
    above = [row for row in good if row.throttle * row.volts >= applied]
    if not below or not above:
        return False
    low = max(below, key=lambda row: row.throttle * row.volts)
    high = min(above, key=lambda row: row.throttle * row.volts)
    width = high.throttle * high.volts - low.throttle * low.volts
    share = 0.0 if width <= 0 else (applied - low.throttle * low.volts) / width
    expected = (
        (one.watts, low.watts + share * (high.watts - low.watts)),
        (one.thrust_n, low.thrust_n + share * (high.thrust_n - low.thrust_n)),
    )
    return all(abs(value - line) <= NEAR * line for value, line in expected)


def _column_meant(turning: Sequence[_Checked], limits: Limits) -> Meant | None:
    """The one factor on one column that makes the sweep believable; None: nobody can tell."""
    top = max(turning, key=lambda one: (one.throttle, one.row.line), default=None)
    if top is None:
        return None
    if top.throttle <= 0.01:
        return Meant("throttle_share", 100.0, top.throttle, top.row.line)
    shares = [one.ideal_share for one in turning if one.ideal_share is not None]
    found: list[tuple[float, Meant]] = []
    for column, factor in _slips(turning, limits):
        by = factor**1.5 if column == "thrust_n" else 1 / factor
        new = median(shares) * by if shares else USUAL
        if BELIEVABLE[0] <= new <= BELIEVABLE[1]:
            meant = Meant(column, factor, getattr(top, FIELDS[column]), top.row.line)
            found.append((abs(math.log(new / USUAL)), meant))
    return min(found, key=lambda one: one[0])[1] if found else None


def _slips(turning: Sequence[_Checked], limits: Limits) -> Iterator[tuple[Column, float]]:
    """Slips of unit or point that the other records do not speak against."""
    volts = median(one.volts for one in turning)
    if not ONE_CELL_V <= volts <= MOST_V:
        yield from (("voltage_v", factor) for factor in (10.0, 0.1, 0.001))
        return
    most, limit = max(one.amps for one in turning), limits.max_current_a
    for factor in (10.0, 0.1):
        mended = most * factor
        if limit is None or 0.1 * limit <= mended <= TIMES_LIMIT * limit:
            yield "current_a", factor
    if limit is None or most <= TIMES_LIMIT * limit:
        grams_n, ounces = 1000 / STANDARD_GRAVITY_M_S2, 28.349523125
        yield from (("thrust_n", factor) for factor in (0.1, 10.0, grams_n, 1 / grams_n, ounces))
