"""Straight lines between the rows of a table; outside the rows it refuses."""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise


def interpolated(name: str, value: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """y at `value` on the straight line between the two rows about it.

    name: what `value` is, for the error. xs: n >= 2 rising values; ys: n values.
    ValueError: xs not rising, or 'thrust_n must be from 0.1 to 5, got 6' outside the rows.
    Source: linear interpolation.
    """
    if len(xs) < 2 or len(xs) != len(ys):
        raise ValueError(f"need two rows or more of {name}, got {len(xs)} with {len(ys)} values")
    if not all(low < high for low, high in pairwise(xs)):
        raise ValueError(f"the rows of {name} must rise")
    if not xs[0] <= value <= xs[-1]:
        raise ValueError(f"{name} must be from {xs[0]:g} to {xs[-1]:g}, got {value:g}")
    right = min(bisect_right(xs, value), len(xs) - 1)
    left = right - 1
    share = (value - xs[left]) / (xs[right] - xs[left])
    return ys[left] + share * (ys[right] - ys[left])
