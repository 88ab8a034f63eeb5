"""A thrust-stand table of a motor with its propeller: what it says of a thrust, and of full power.

The voltage corrections were worked out here on sweeps of the same motor and propeller on two
supplies (7.4 and 11.1 V), of Cao and Strawson 2018: at full command thrust goes with the supply
voltage to the power 1.65 and electrical power to the power 2.5 (medians of the 11 pairs that reach
it without sagging); for an equal thrust throttle times voltage stays the same within 5 % (median of
24 pairs). So a row is ordered by throttle times its own voltage, and a supply that sags under load,
as a battery does, is no reason to leave a row out.
"""

from collections.abc import Sequence

import msgspec

from buildbook.basis import amounts
from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.numbers import checked, interpolated
from buildbook.figures.laws.quantities import within

THRUST_VOLTAGE_EXPONENT = 1.65
POWER_VOLTAGE_EXPONENT = 2.5
VOLTAGE_RATIOS = (0.75, 1.35)  # within what the pairs of sweeps cover
FULL_THROTTLE = 0.99
NEAR_THE_LINE = 0.1  # common practice, no source


class BenchRow(msgspec.Struct, frozen=True):
    """One reading of a sweep. power_w: as measured, or None for voltage times current."""

    throttle: float  # share of 1
    voltage_v: float
    current_a: float
    thrust_n: float
    rotation_rev_s: float | None = None
    power_w: float | None = None

    @property
    def applied_v(self) -> float:
        """Throttle times voltage: what the motor gets on average."""
        return self.throttle * self.voltage_v

    @property
    def drawn_w(self) -> float:
        """Electrical power in W."""
        return self.voltage_v * self.current_a if self.power_w is None else self.power_w


class BenchTable(msgspec.Struct, frozen=True):
    """A sweep made ready: columns of equal length n >= 2 that all rise.

    rows: the places of those rows in what was given. full: the row at full throttle, if one is;
    on a supply that sags there it may lie beside the chain of the others, but near it.
    """

    rows: tuple[int, ...]
    applied_v: tuple[float, ...]
    thrust_n: tuple[float, ...]
    power_w: tuple[float, ...]
    voltage_v: tuple[float, ...]
    density_kg_m3: float
    full: BenchRow | None
    most_throttle: float


class BenchPoint(msgspec.Struct, frozen=True):
    """What the table says of one motor at a thrust."""

    throttle: float
    thrust_n: float
    power_w: float
    current_a: float


@checked
def bench_table(rows: Sequence[BenchRow], density_kg_m3: float) -> BenchTable:
    """The rows of a sweep in order of throttle times voltage.

    density_kg_m3: of the air on the bench. Left out: rows without throttle, thrust or power, and
    the fewest rows without which thrust and power rise with throttle times voltage.
    ValueError: a value out of range, or fewer than two rows left.
    Source: throttle times voltage, this module's note; the longest rising chain of rows.
    """
    for row in rows:
        if not 0 <= row.throttle <= 1:
            raise ValueError(f"throttle must be from 0 to 1, got {row.throttle:g}")
    turning = [
        number
        for number, row in enumerate(rows)
        if row.applied_v > 0 and row.thrust_n > 0 and row.drawn_w > 0
    ]
    kept = _longest_rising(rows, sorted(turning, key=lambda number: rows[number].applied_v))
    if len(kept) < 2:
        raise ValueError(f"need two usable bench rows or more, got {len(kept)} of {len(rows)}")
    for number in kept:
        row = rows[number]
        within(supply_v=row.voltage_v, thrust_n=row.thrust_n, power_w=row.drawn_w)
    table = BenchTable(
        rows=tuple(kept),
        applied_v=tuple(rows[number].applied_v for number in kept),
        thrust_n=tuple(rows[number].thrust_n for number in kept),
        power_w=tuple(rows[number].drawn_w for number in kept),
        voltage_v=tuple(rows[number].voltage_v for number in kept),
        density_kg_m3=density_kg_m3,
        full=None,
        most_throttle=max(rows[number].throttle for number in kept),
    )
    at_full = [rows[number] for number in turning if rows[number].throttle >= FULL_THROTTLE]
    of_chain = [row for row in at_full if row in [rows[number] for number in kept]]
    near = of_chain or [row for row in at_full if _on_the_line(table, row)]
    full = max(near, key=lambda row: (row.throttle, row.voltage_v), default=None)
    return msgspec.structs.replace(table, full=full)


def _on_the_line(table: BenchTable, row: BenchRow) -> bool:
    """Whether a row differs from the line through the others by no more than its noise."""
    if not table.applied_v[0] <= row.applied_v <= table.applied_v[-1]:
        return False
    return all(
        abs(value / interpolated("applied_v", row.applied_v, table.applied_v, column) - 1)
        <= NEAR_THE_LINE
        for value, column in ((row.thrust_n, table.thrust_n), (row.drawn_w, table.power_w))
    )


def _longest_rising(rows: Sequence[BenchRow], order: Sequence[int]) -> list[int]:
    """The longest chain in which all three rise; of equally long ones the earliest rows."""
    points = [(rows[one].applied_v, rows[one].thrust_n, rows[one].drawn_w) for one in order]
    lengths: list[int] = []
    before: list[int | None] = []
    for point in points:
        length, last = 0, None
        for place, (volts, thrust, watts) in enumerate(points[: len(lengths)]):
            rises = volts < point[0] and thrust < point[1] and watts < point[2]
            if rises and lengths[place] > length:
                length, last = lengths[place], place
        lengths.append(length + 1)
        before.append(last)
    chain: list[int] = []
    at = lengths.index(max(lengths)) if lengths else None
    while at is not None:
        chain.append(order[at])
        at = before[at]
    return chain[::-1]


def _voltage_ratio(supply_v: float, bench_v: float) -> float:
    within(supply_v=supply_v)
    ratio = supply_v / bench_v
    if not VOLTAGE_RATIOS[0] <= ratio <= VOLTAGE_RATIOS[1]:
        least, most = (amounts.voltage(bench_v * edge) for edge in VOLTAGE_RATIOS)
        raise ValueError(
            f"the voltage must be from {least} to {most} for this bench table, got "
            f"{amounts.voltage(supply_v)}"
        )
    return ratio


def _pull(thrust_n: float) -> str:
    """A thrust as a thrust stand shows it: ``418 g``."""
    return f"{amounts.significant(1000 * thrust_n / STANDARD_GRAVITY_M_S2, 3)} g"


@checked
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
    thinner = density_kg_m3 / table.density_kg_m3
    least, most = table.thrust_n[0] * thinner, table.thrust_n[-1] * thinner
    if not least <= thrust_n <= most:
        raise ValueError(
            f"the thrust of a motor must be from {_pull(least)} to {_pull(most)} for this bench "
            f"table, got {_pull(thrust_n)}"
        )
    bench_thrust = min(max(thrust_n / thinner, table.thrust_n[0]), table.thrust_n[-1])
    power, applied, voltage = (
        interpolated("thrust_n", bench_thrust, table.thrust_n, column)
        for column in (table.power_w, table.applied_v, table.voltage_v)
    )
    _voltage_ratio(supply_v, voltage)
    throttle = applied / supply_v
    if throttle > 1:
        raise ValueError(
            f"the throttle must be at most 100 %, got {amounts.share(throttle)} at "
            f"{amounts.voltage(supply_v)}"
        )
    return BenchPoint(
        throttle=throttle,
        thrust_n=thrust_n,
        power_w=power * thinner,
        current_a=power * thinner / supply_v,
    )


@checked
def bench_full_throttle(table: BenchTable, density_kg_m3: float, supply_v: float) -> BenchPoint:
    """Thrust in N, power in W and current in A of one motor at full throttle.

    From the row at full throttle, 99 % or more. Thrust and power go with density; with the
    supply voltage thrust to the power 1.65, power 2.5 (this module's note), from that row's own.
    ValueError: the rows do not reach full throttle, or supply_v is outside 0.75 to 1.35 of the
    bench's. Source: Cao and Strawson 2018, exponents worked out here.
    """
    if table.full is None:
        raise ValueError(
            "the bench rows must reach full throttle, got "
            f"{amounts.share(table.most_throttle)} at the most"
        )
    ratio = _voltage_ratio(supply_v, table.full.voltage_v)
    thinner = density_kg_m3 / table.density_kg_m3
    power = table.full.drawn_w * thinner * ratio**POWER_VOLTAGE_EXPONENT
    thrust = table.full.thrust_n * thinner * ratio**THRUST_VOLTAGE_EXPONENT
    return BenchPoint(throttle=1.0, thrust_n=thrust, power_w=power, current_a=power / supply_v)
