"""The odd one out of a few readings. Plain floats, no numpy: the work list asks for it too."""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec

from buildbook.figures.laws.numbers import checked


class OddOne(msgspec.Struct, frozen=True):
    """The one value that stands apart from the rest."""

    position: int  # counted from 0
    value: float
    rest: float  # median of the others
    share: float  # value / rest - 1


@checked
def odd_one_out(values: Sequence[float], *, share: float = 0.25) -> OddOne | None:
    """The value furthest from the median of the others, if it is off by more than `share`.

    values: n >= 3, above 0, one unit, for example the resistance of each cell of one reading.
    It must also be off by more than three times the largest distance of the others from their
    median, so that a pack that scatters as a whole names no cell. Common practice, no source.
    ValueError: 'need three values, got N', 'values must be above 0, got X'.
    """
    if len(values) < 3:
        raise ValueError(f"need three values, got {len(values)}")
    for value in values:
        if not (value > 0.0 and math.isfinite(value)):
            raise ValueError(f"values must be above 0, got {value:g}")
    found: OddOne | None = None
    for i, value in enumerate(values):
        others = [*values[:i], *values[i + 1 :]]
        rest = _median(others)
        off = value / rest - 1.0
        spread = max(abs(other - rest) for other in others)
        apart = abs(off) > share and abs(value - rest) > 3.0 * spread
        if apart and (found is None or abs(off) > abs(found.share)):
            found = OddOne(i, value, rest, off)
    return found


def _median(values: Sequence[float]) -> float:
    """The middle one, or the mean of the middle two; the module ``statistics`` loads slowly."""
    ordered, half = sorted(values), len(values) // 2
    return ordered[half] if len(values) % 2 else (ordered[half - 1] + ordered[half]) / 2
