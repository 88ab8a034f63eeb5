"""Control charts: is a pack or an aircraft still what it was in its own early days?

Plain floats, no numpy: `due` may compute a signal anew. Two charts after the
NIST/SEMATECH e-Handbook, doi:10.18434/M32189, and one judgement, `drift`, built on the first.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

import msgspec

from buildbook.figures.laws.numbers import checked
from buildbook.figures.laws.statistics.quantiles import t_quantile

# Mean range of two normal values over their standard deviation, and the factor of the
# upper limit of that range: NIST 6.3.2.2.
RANGE_OF_TWO = 1.128
RANGE_UPPER_FACTOR = 3.267


class ChartPoint(msgspec.Struct, frozen=True):
    """One smoothed value with its own limits."""

    value: float
    low: float
    high: float

    @property
    def outside(self) -> bool:
        """Whether the value is beyond its limits."""
        return not self.low <= self.value <= self.high


class EwmaChart(msgspec.Struct, frozen=True):
    """Exponentially weighted moving averages against a target."""

    target: float
    sd: float
    weight: float
    steady_low: float
    steady_high: float
    points: tuple[ChartPoint, ...]
    signals: tuple[int, ...]  # positions, counted from 0, of the points outside


class IndividualsChart(msgspec.Struct, frozen=True):
    """Single values against their own mean and moving range."""

    centre: float
    low: float
    high: float
    mean_range: float
    range_high: float
    outside: tuple[int, ...]  # positions, counted from 0


class Drift(msgspec.Struct, frozen=True):
    """A series judged against its own baseline."""

    baseline_count: int
    baseline_mean: float
    baseline_sd: float
    chart: EwmaChart  # of the values after the baseline
    first_signal: int | None  # position in the whole series, counted from 0
    now_outside: bool  # the last value's average is outside
    change_share: float | None  # last average over the baseline mean, minus 1


@checked
def ewma_chart(
    values: Sequence[float],
    *,
    target: float,
    sd: float,
    weight: float = 0.3,
    width: float = 3.0,
    target_count: int | None = None,
) -> EwmaChart:
    """EWMA with the exact limits of each point; the average starts at the target.

    values: any number, unit of the target; sd > 0, same unit; 0 < weight <= 1; width in
    standard deviations. `target_count`: where the target is itself a mean of so many values,
    1/count is added under the root; None (the published formula) takes the target as known.
    Source: NIST 6.3.2.4. ValueError: 'standard deviation must be above 0, got X',
    'weight must be above 0 and at most 1, got X'.
    """
    if not (sd > 0.0 and math.isfinite(sd)):
        raise ValueError(f"standard deviation must be above 0, got {sd:g}")
    if not 0.0 < weight <= 1.0:
        raise ValueError(f"weight must be above 0 and at most 1, got {weight:g}")
    unsure = 1.0 / target_count if target_count else 0.0
    steady = weight / (2.0 - weight)
    average = target
    points: list[ChartPoint] = []
    signals: list[int] = []
    for value, spread in zip(values, _spreads(weight, unsure, len(values)), strict=True):
        average = weight * value + (1.0 - weight) * average
        half = width * sd * spread
        low, high = target - half, target + half
        if not low <= average <= high:
            signals.append(len(points))
        points.append(ChartPoint(average, low, high))
    half = width * sd * math.sqrt(steady + unsure)
    return EwmaChart(
        target, sd, weight, target - half, target + half, tuple(points), tuple(signals)
    )


@lru_cache(maxsize=64)
def _spreads(weight: float, unsure: float, count: int) -> tuple[float, ...]:
    """The standard deviation of each average, as a share of that of a value: for every series."""
    steady = weight / (2.0 - weight)
    return tuple(
        math.sqrt(steady * (1.0 - (1.0 - weight) ** (2 * seen)) + unsure)
        for seen in range(1, count + 1)
    )


@checked
def individuals_chart(values: Sequence[float]) -> IndividualsChart:
    """Limits of single values from their mean moving range.

    values: n >= 2. Source: NIST 6.3.2.2. ValueError: 'need two values, got N'.
    """
    if len(values) < 2:
        raise ValueError(f"need two values, got {len(values)}")
    centre = math.fsum(values) / len(values)
    mean_range = _mean_range(values)
    half = 3.0 * mean_range / RANGE_OF_TWO
    outside = tuple(i for i, value in enumerate(values) if abs(value - centre) > half)
    return IndividualsChart(
        centre, centre - half, centre + half, mean_range, RANGE_UPPER_FACTOR * mean_range, outside
    )


@checked
def drift(
    values: Sequence[float], *, baseline: int = 15, weight: float = 0.2, width: float = 3.0
) -> Drift:
    """Judge a series against its own first values.

    values: n >= baseline, one unit, in order of time; baseline >= 5; width in standard deviations
    as for a known target. The target is the baseline's mean, its standard deviation comes from
    the moving ranges, so that a slow change within the baseline does not widen the limits. As both
    are estimated from few, the limits are wider than the published ones: 1/baseline is added under
    the root, and Student's t with baseline - 1 d.o.f. replaces the normal. By simulation
    about 4 % of steady series of 40 values alarm, and 9 of 10 shifts by two standard deviations
    are seen within 20 values. Source: NIST 6.3.2.2 and 6.3.2.4, widened as said.
    ValueError: 'need a baseline of N values, got M', 'baseline must be 5 or more, got N',
    'width must be above 0 and below 8, got X', 'baseline does not vary, no limits can be drawn'.
    """
    if baseline < 5:
        raise ValueError(f"baseline must be 5 or more, got {baseline}")
    if len(values) < baseline:
        raise ValueError(f"need a baseline of {baseline} values, got {len(values)}")
    if not 0.0 < width < 8.0:
        raise ValueError(f"width must be above 0 and below 8, got {width:g}")
    share_outside = 0.5 * math.erfc(width / math.sqrt(2.0))
    allowed = -t_quantile(share_outside, baseline - 1)
    first = values[:baseline]
    mean = math.fsum(first) / baseline
    sd = _mean_range(first) / RANGE_OF_TWO
    if not sd > 0.0:
        raise ValueError("baseline does not vary, no limits can be drawn")
    chart = ewma_chart(
        values[baseline:], target=mean, sd=sd, weight=weight, width=allowed, target_count=baseline
    )
    first_signal = baseline + chart.signals[0] if chart.signals else None
    last = chart.points[-1] if chart.points else None
    return Drift(
        baseline_count=baseline,
        baseline_mean=mean,
        baseline_sd=sd,
        chart=chart,
        first_signal=first_signal,
        now_outside=last is not None and last.outside,
        change_share=last.value / mean - 1.0 if last is not None and mean else None,
    )


def _mean_range(values: Sequence[float]) -> float:
    pairs = pairwise(values)
    return math.fsum(abs(after - before) for before, after in pairs) / (len(values) - 1)
