"""A thrust-stand table of a motor with its propeller: what it says of a thrust, and of full power.

The voltage corrections were worked out here on sweeps of the same motor and propeller on two
supplies (7.4 and 11.1 V), of Cao and Strawson 2018: at full command thrust goes with the supply
voltage to the power 1.65 and electrical power to the power 2.5 (medians of the 11 pairs that reach
it without sagging); for an equal thrust throttle times voltage stays the same within 5 % (median of
24 pairs).
"""

from collections.abc import Sequence

import msgspec

from buildbook.basis.amounts import count
from buildbook.figures.laws.interpolation import interpolated
from buildbook.figures.laws.numbers import finite_only
from buildbook.figures.laws.quantities import within

SAG_SHARE = 0.95  # a row whose voltage is below this share of the sweep's first has sagged
THRUST_VOLTAGE_EXPONENT = 1.65
POWER_VOLTAGE_EXPONENT = 2.5
VOLTAGE_RATIOS = (0.75, 1.35)  # within what the pairs of sweeps cover
FULL_THROTTLE = 0.99


class BenchRow(msgspec.Struct, frozen=True):
    """One reading of a sweep. power_w: as measured, or None for voltage times current."""

    throttle: float  # share of 1
    voltage_v: float
    current_a: float
    thrust_n: float
    rotation_rev_s: float | None = None
    power_w: float | None = None
    sagged: bool = False


class BenchTable(msgspec.Struct, frozen=True):
    """A sweep made ready: columns of equal length n >= 2 that all rise, and what was left out."""

    throttle: tuple[float, ...]
    thrust_n: tuple[float, ...]
    power_w: tuple[float, ...]
    voltage_v: tuple[float, ...]
    density_kg_m3: float
    dropped: int


class BenchPoint(msgspec.Struct, frozen=True):
    """What the table says of one motor at a thrust."""

    throttle: float
    thrust_n: float
    power_w: float
    current_a: float


@finite_only
def bench_table(rows: Sequence[BenchRow], density_kg_m3: float) -> BenchTable:
    """The usable rows of a sweep, in order of throttle.

    density_kg_m3: of the air on the bench. Left out and counted: rows that are flagged or whose
    voltage is below 95 % of the first reading (the supply sagged, common practice, no source),
    rows without thrust or power, and rows in which thrust or power do not rise with the throttle.
    ValueError: a value out of range, or fewer than two rows left.
    Source: the file's own note on its sagging rows, Cao and Strawson 2018.
    """
    within(density_kg_m3=density_kg_m3)
    ordered = sorted(rows, key=lambda row: row.throttle)
    kept: list[BenchRow] = []
    powers: list[float] = []
    for row in ordered:
        power = row.voltage_v * row.current_a if row.power_w is None else row.power_w
        if row.sagged or row.voltage_v < SAG_SHARE * ordered[0].voltage_v:
            continue
        last = (kept[-1].throttle, kept[-1].thrust_n, powers[-1]) if kept else (-1.0, 0.0, 0.0)
        if row.throttle > last[0] and row.thrust_n > last[1] and power > last[2]:
            within(supply_v=row.voltage_v, thrust_n=row.thrust_n, power_w=power)
            if not 0 <= row.throttle <= 1:
                raise ValueError(f"throttle must be from 0 to 1, got {row.throttle:g}")
            kept.append(row)
            powers.append(power)
    if len(kept) < 2:
        raise ValueError(f"need two usable bench rows or more, got {len(kept)} of {len(rows)}")
    return BenchTable(
        throttle=tuple(row.throttle for row in kept),
        thrust_n=tuple(row.thrust_n for row in kept),
        power_w=tuple(powers),
        voltage_v=tuple(row.voltage_v for row in kept),
        density_kg_m3=density_kg_m3,
        dropped=len(rows) - len(kept),
    )


def _voltage_ratio(supply_v: float, bench_v: float) -> float:
    within(supply_v=supply_v)
    ratio = supply_v / bench_v
    if not VOLTAGE_RATIOS[0] <= ratio <= VOLTAGE_RATIOS[1]:
        least, most = (bench_v * edge for edge in VOLTAGE_RATIOS)
        raise ValueError(f"supply_v must be from {least:g} to {most:g}, got {supply_v:g}")
    return ratio


@finite_only
def bench_point(
    table: BenchTable, thrust_n: float, density_kg_m3: float, supply_v: float
) -> BenchPoint:
    """Throttle, electrical power in W and current in A of one motor at a thrust in N.

    Density: at one speed of turning, thrust and power go with density; so the row is read at
    F ρ_bench/ρ, and its power is taken times ρ/ρ_bench. Voltage: throttle times supply voltage
    stays the same, power too; the current is power over supply_v.
    ValueError: thrust outside the rows, supply_v outside 0.75 to 1.35 of the bench's, or more
    than full throttle needed. Source: linear interpolation in thrust; C_T and C_P of a given speed.
    """
    within(thrust_n=thrust_n, density_kg_m3=density_kg_m3)
    thinner = density_kg_m3 / table.density_kg_m3
    least, most = table.thrust_n[0] * thinner, table.thrust_n[-1] * thinner
    if not least <= thrust_n <= most:
        raise ValueError(f"thrust_n must be from {least:g} to {most:g}, got {thrust_n:g}")
    bench_thrust = min(max(thrust_n / thinner, table.thrust_n[0]), table.thrust_n[-1])
    power, throttle, voltage = (
        interpolated("thrust_n", bench_thrust, table.thrust_n, column)
        for column in (table.power_w, table.throttle, table.voltage_v)
    )
    throttle /= _voltage_ratio(supply_v, voltage)
    if throttle > 1:
        raise ValueError(f"throttle must be from 0 to 1, got {throttle:g} at {supply_v:g} V")
    return BenchPoint(
        throttle=throttle,
        thrust_n=thrust_n,
        power_w=power * thinner,
        current_a=power * thinner / supply_v,
    )


@finite_only
def bench_full_throttle(table: BenchTable, density_kg_m3: float, supply_v: float) -> BenchPoint:
    """Thrust in N, power in W and current in A of one motor at full throttle.

    From the last row, which must be at 99 % or more. Thrust and power go with density; with the
    supply voltage thrust to the power 1.65, power 2.5 (this module's note).
    ValueError: the sweep does not reach full throttle without sagging, or supply_v is outside
    0.75 to 1.35 of the bench's. Source: Cao and Strawson 2018, exponents worked out here.
    """
    within(density_kg_m3=density_kg_m3)
    if table.throttle[-1] < FULL_THROTTLE:
        left_out = f" ({count('row', table.dropped)} left out)" if table.dropped else ""
        raise ValueError(
            f"the bench rows must reach 0.99 of full throttle, got {table.throttle[-1]:g}{left_out}"
        )
    ratio = _voltage_ratio(supply_v, table.voltage_v[-1])
    thinner = density_kg_m3 / table.density_kg_m3
    power = table.power_w[-1] * thinner * ratio**POWER_VOLTAGE_EXPONENT
    thrust = table.thrust_n[-1] * thinner * ratio**THRUST_VOLTAGE_EXPONENT
    return BenchPoint(throttle=1.0, thrust_n=thrust, power_w=power, current_a=power / supply_v)
