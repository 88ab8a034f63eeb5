"""Trends of a series: robust and least-squares lines, crossings, steps."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

import msgspec
import numpy as np
from numpy.typing import NDArray

from buildbook.figures.laws.numbers import finite_only
from buildbook.figures.laws.statistics.quantiles import normal_quantile, t_quantile

Floats = NDArray[np.float64]
Intercept = Literal["of-medians", "of-rests"]

# Above this many points the pairs would not fit in modest memory: points are grouped first.
MOST_POINTS = 2_000


class RobustLine(msgspec.Struct, frozen=True):
    """A Theil-Sen line with Sen's limits of its slope."""

    slope: float  # unit of y per unit of x
    intercept: float  # unit of y, at x = 0
    slope_low: float
    slope_high: float
    level: float
    points: int


class FittedLine(msgspec.Struct, frozen=True):
    """A least-squares line with what its limits need."""

    slope: float  # unit of y per unit of x
    intercept: float  # unit of y, at x = 0
    slope_se: float
    intercept_se: float
    residual_sd: float  # unit of y, n - 2 degrees of freedom
    r_squared: float  # dimensionless
    mean_x: float
    spread_x: float  # sum of squared distances from mean_x
    points: int


class LineValue(msgspec.Struct, frozen=True):
    """A value of a line at one x, with limits."""

    value: float
    low: float
    high: float
    level: float


@finite_only
def theil_sen(
    x: Sequence[float],
    y: Sequence[float],
    *,
    level: float = 0.95,
    intercept: Intercept = "of-medians",
) -> RobustLine:
    """Median of the slopes of all pairs, with Sen's limits.

    x, y: n >= 2, finite, at least two different x. `of-medians`: median(y) - slope*median(x);
    `of-rests`: median(y - slope*x). Beyond 2,000 points, neighbours in x are merged into 2,000
    groups by their medians first: an approximation. Source: Sen 1968, J. Am. Stat. Assoc.
    63:1379-1389; ties as in Kendall's variance.
    ValueError: 'need two points, got N', 'x and y differ in length, N and M',
    'points must be finite', 'all points have the same x', 'level must be …'.
    """
    xs, ys = _checked(x, y)
    _check_level(level)
    if len(xs) > MOST_POINTS:
        xs, ys = _grouped(xs, ys, MOST_POINTS)
    slopes = _pair_slopes(xs, ys)
    half = normal_quantile((1.0 + level) / 2.0) * math.sqrt(_kendall_variance(xs, ys))
    count = len(slopes)
    low = min(max(round((count - half) / 2.0) - 1, 0), count - 1)
    high = min(max(round((count + half) / 2.0), 0), count - 1)
    middle = ((count - 1) // 2, count // 2)
    ordered = np.partition(slopes, (low, *middle, high))
    slope = 0.5 * float(ordered[middle[0]] + ordered[middle[1]])
    if intercept == "of-medians":
        at_zero = float(np.median(ys)) - slope * float(np.median(xs))
    else:
        at_zero = float(np.median(ys - slope * xs))
    return RobustLine(slope, at_zero, float(ordered[low]), float(ordered[high]), level, len(x))


@finite_only
def least_squares(x: Sequence[float], y: Sequence[float]) -> FittedLine:
    """Ordinary least-squares line with standard errors.

    x, y: n >= 3, finite, at least two different x. Source: NIST StRD, Norris (certified).
    ValueError: 'need three points, got N' and as `theil_sen`.
    """
    xs, ys = _checked(x, y)
    n = len(xs)
    if n < 3:
        raise ValueError(f"need three points, got {n}")
    mean_x, mean_y = float(xs.mean()), float(ys.mean())
    dx, dy = xs - mean_x, ys - mean_y
    spread = float(dx @ dx)
    slope = float(dx @ dy) / spread
    rests = dy - slope * dx
    squares, total = float(rests @ rests), float(dy @ dy)
    sd = math.sqrt(squares / (n - 2))
    return FittedLine(
        slope=slope,
        intercept=mean_y - slope * mean_x,
        slope_se=sd / math.sqrt(spread),
        intercept_se=sd * math.sqrt(1.0 / n + mean_x * mean_x / spread),
        residual_sd=sd,
        r_squared=1.0 - squares / total if total > 0.0 else 1.0,
        mean_x=mean_x,
        spread_x=spread,
        points=n,
    )


@finite_only
def prediction_limits(line: FittedLine, x: float, *, level: float = 0.95) -> LineValue:
    """Limits of one new value at x: t*s*sqrt(1 + 1/n + (x - mean)^2/Sxx).

    x: unit of the fit. Source: NIST e-Handbook 4.5.2.1 (memory); checks T13 to T15.
    ValueError: 'level must be between 0 and 1, got X'.
    """
    return _limits(line, x, level, 1.0)


@finite_only
def mean_limits(line: FittedLine, x: float, *, level: float = 0.95) -> LineValue:
    """Limits of the line itself at x; as `prediction_limits` without the scatter of one value.

    x: unit of the fit. Source: check T16. ValueError: 'level must be between 0 and 1, got X'.
    """
    return _limits(line, x, level, 0.0)


@finite_only
def first_below(x: Sequence[float], y: Sequence[float], threshold: float) -> float | None:
    """The first x whose y is under the threshold, or None.

    x ascending; y and threshold in one unit. Source: definition, checks B05 to B12.
    ValueError: 'x and y differ in length, N and M'.
    """
    _check_lengths(x, y)
    return next((at for at, value in zip(x, y, strict=True) if value < threshold), None)


@finite_only
def below_for_good(x: Sequence[float], y: Sequence[float], threshold: float) -> float | None:
    """The x of the first reading after the last one at or above the threshold, or None.

    x ascending; y and threshold in one unit. None when the last reading is not below.
    Source: definition, checks B10 and B11. ValueError: as `first_below`.
    """
    _check_lengths(x, y)
    found: float | None = None
    for at, value in zip(reversed(x), reversed(y), strict=True):
        if not value < threshold:
            break
        found = at
    return found


@finite_only
def step_ups(x: Sequence[float], y: Sequence[float], rise: float) -> tuple[float, ...]:
    """Every x at which y is more than `rise` above the reading before: rest gives back capacity.

    x ascending; y and rise in one unit. Source: checks B22 and B23. ValueError: as `first_below`.
    """
    _check_lengths(x, y)
    pairs = pairwise(y)
    return tuple(x[i] for i, (old, new) in enumerate(pairs, start=1) if new - old > rise)


def _limits(line: FittedLine, x: float, level: float, own: float) -> LineValue:
    _check_level(level)
    t = t_quantile((1.0 + level) / 2.0, line.points - 2)
    inner = own + 1.0 / line.points + (x - line.mean_x) ** 2 / line.spread_x
    value = line.intercept + line.slope * x
    half = t * line.residual_sd * math.sqrt(inner)
    return LineValue(value, value - half, value + half, level)


def _pair_slopes(xs: Floats, ys: Floats) -> Floats:
    """Slopes of all pairs with different x, unordered."""
    order = np.argsort(xs, kind="stable")
    xs, ys = xs[order], ys[order]
    parts: list[Floats] = []
    for at in range(1, len(xs)):
        before = np.searchsorted(xs[:at], xs[at])  # those further on have the same x
        parts.append((ys[at] - ys[:before]) / (xs[at] - xs[:before]))
    return np.concatenate(parts)


def _kendall_variance(xs: Floats, ys: Floats) -> float:
    """Variance of Kendall's score under no trend, less what ties take away."""
    n = len(xs)
    total = n * (n - 1) * (2 * n + 5)
    for series in (xs, ys):
        _, ties = np.unique(series, return_counts=True)
        total -= int(np.sum(ties * (ties - 1) * (2 * ties + 5)))
    return max(total, 0) / 18.0


def _grouped(xs: Floats, ys: Floats, groups: int) -> tuple[Floats, Floats]:
    """Neighbours in x merged by their medians into so many groups."""
    order = np.argsort(xs, kind="stable")
    x_parts = np.array_split(xs[order], groups)
    y_parts = np.array_split(ys[order], groups)
    return (
        np.array([np.median(part) for part in x_parts]),
        np.array([np.median(part) for part in y_parts]),
    )


def _check_lengths(x: Sequence[float], y: Sequence[float]) -> None:
    if len(x) != len(y):
        raise ValueError(f"x and y differ in length, {len(x)} and {len(y)}")


def _checked(x: Sequence[float], y: Sequence[float]) -> tuple[Floats, Floats]:
    _check_lengths(x, y)
    if len(x) < 2:
        raise ValueError(f"need two points, got {len(x)}")
    xs = np.asarray(x, dtype=np.float64)
    ys = np.asarray(y, dtype=np.float64)
    if not (np.isfinite(xs).all() and np.isfinite(ys).all()):
        raise ValueError("points must be finite")
    if float(xs.min()) == float(xs.max()):
        raise ValueError("all points have the same x")
    return xs, ys


def _check_level(level: float) -> None:
    if not 0.0 < level < 1.0:
        raise ValueError(f"level must be between 0 and 1, got {level:g}")
