"""Trends of a series: robust and least-squares lines, crossings, steps."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import msgspec
import numpy as np
from numpy.typing import NDArray

from buildbook.figures.laws.numbers import checked, inside_unit
from buildbook.figures.laws.statistics.quantiles import normal_quantile

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


@checked
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
    inside_unit(level=level)
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
