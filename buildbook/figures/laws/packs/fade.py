"""What the measured capacities of a pack say of its capacity at any charge, without numpy.

Single readings far off their neighbours are set aside. Every shape of `fade_shapes` is fitted and
weighed by the readings. Where neighbouring readings are off to the same side, as after rests,
they count as fewer, and the pace of the fade is taken to wander by as much as that tells.
"""

import math
from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise

import msgspec

from buildbook.figures.laws.numbers import checked
from buildbook.figures.laws.packs.fade_shapes import Points, Shape, chances, fit_shapes

MOST_POINTS = 60
"""More readings are taken together in so many groups: they tell the same, and it stays quick."""
FINEST_SCATTER = 0.002
"""A charger shows no less, as a share of capacity. Common practice, no source."""
WANDER_OF_CORRELATION = 0.5
"""Pace of the fade to come, as a share of itself, for each 1 of correlation between neighbours."""
OFF_LEAST, OFF_SCATTERS = 0.02, 3.5
_COUNTED = 0.998  # of all chances; shapes beyond are left out


class ShapeNow(msgspec.Struct, frozen=True):
    """One shape that the readings allow, as shares of the reference capacity."""

    chance: float
    shape: Shape
    start: float
    loss: float  # over the whole record
    start_variance: float
    covariance: float
    loss_variance: float


_Row = tuple[float, Shape, float, float, float, float, float, float]


class Fade(msgspec.Struct, frozen=True, dict=True):
    """A series of capacities read as a start, a loss and a shape, each with its doubt.

    scatter, wave: standard deviations, as shares of the reference capacity, of a reading and of
    what comes and goes with it over some charges. wander: of the pace to come, as a share of it.
    """

    reference_ah: float
    first_number: float
    last_number: float
    scatter: float
    wave: float
    wander: float
    freedom: float
    shapes: tuple[ShapeNow, ...]
    readings: int
    set_aside: int

    @cached_property
    def likeliest(self) -> ShapeNow:
        """The shape with the greatest chance."""
        return max(self.shapes, key=lambda one: one.chance)

    def below(self, number: float, threshold: float, *, steady: bool = False) -> float:
        """The chance that the capacity at a charge number is below a share of the reference.

        steady: as if the pace to come were known. Source: mixture of Student's distributions,
        Box and Tiao 1973 (memory), each to about 0.003 from one degree of freedom by Wallace 1959,
        Ann. Math. Stat. 30:1121-1123 (memory). No number is checked, and each shape is taken where
        it stands: hundreds are asked for, of hundreds of days.
        """
        place = (number - self.first_number) / (self.last_number - self.first_number)
        ahead, freedom = max(place, 0.0), self.freedom
        wander = 0.0 if steady or place <= 1.0 else self.wander
        wave, of_wave = self.wave, self.wave**2
        scale = (8.0 * freedom + 1.0) / (8.0 * freedom + 3.0) * math.sqrt(0.5 * freedom)
        many, sqrt, log1p, erfc = 1.0 / freedom, math.sqrt, math.log1p, math.erfc
        found = []
        for chance, shape, whole, start, loss, start_variance, twice, loss_variance in self._rows:
            power, turn, bend = shape
            if bend == 1.0:
                gone = ahead**power
            else:
                gone = (ahead if ahead <= turn else turn + bend * (ahead - turn)) / whole
            variance = start_variance - gone * (twice - gone * loss_variance) + of_wave
            if wander:
                variance += (wander * loss * (gone - 1.0)) ** 2
            off = (threshold - (start - loss * gone + wave)) / sqrt(variance)
            far = scale * sqrt(log1p(off * off * many))
            found.append(chance * (0.5 * erfc(-far if off > 0.0 else far)))
        return sum(found)

    @cached_property
    def _rows(self) -> tuple[_Row, ...]:
        """What ``below`` reads of each shape, thousands of times."""
        return tuple(
            (
                one.chance,
                one.shape,
                one.shape.whole,
                one.start,
                one.loss,
                one.start_variance,
                2.0 * one.covariance,
                one.loss_variance,
            )
            for one in self.shapes
        )


@checked
def fit_fade(numbers: Sequence[float], capacities_ah: Sequence[float]) -> Fade:
    """Start, loss and shape of a series, from four or more readings at different numbers.

    numbers: ascending charge numbers; capacities_ah: as many, in Ah, above 0. Source: least
    squares and marginal likelihood of each shape; a correlation r between neighbours divides the
    number of readings by (1 + r)/(1 - r) (Bartlett 1935, memory); the rest is ours, held by
    simulation. ValueError: 'need four readings, got N'.
    """
    reference = _median(capacities_ah[:5])
    x, y = _merged(numbers, [value / reference for value in capacities_ah])
    kept = _plausible(x, y)
    aside = len(x) - sum(kept)
    x = [number for number, fine in zip(x, kept, strict=True) if fine]
    y = [value for value, fine in zip(y, kept, strict=True) if fine]
    count = len(x)
    if count < 4:
        raise ValueError(f"need four readings, got {count}")
    span = x[-1] - x[0]
    places = [(number - x[0]) / span for number in x]
    fits = fit_shapes(_grouped(places, y))
    best = min(fits, key=lambda one: one.squares)
    off = [
        value - best.start + best.loss * best.shape.at(place)
        for place, value in zip(places, y, strict=True)
    ]
    floor = count * FINEST_SCATTER**2
    together = sum(one * other for one, other in pairwise(off)) / (best.squares + floor)
    correlation = min(max(together - 1.0 / math.sqrt(count), 0.0), 0.95)
    fewer = (1.0 + correlation) / (1.0 - correlation)
    independent = max(count / fewer, 3.0)
    freedom = independent - 2.0
    counted = sorted(zip(chances(fits, freedom, floor), fits, strict=True), key=lambda one: -one[0])
    shapes, total = [], 0.0
    for chance, fit in counted:
        variance = (fit.squares + floor) / count * independent / freedom * fewer
        shapes.append(
            ShapeNow(
                chance=chance,
                shape=fit.shape,
                start=fit.start,
                loss=fit.loss,
                start_variance=fit.start_variance * variance,
                covariance=fit.covariance * variance,
                loss_variance=fit.loss_variance * variance,
            )
        )
        total += chance
        if total > _COUNTED:
            break
    return Fade(
        reference_ah=reference,
        first_number=x[0],
        last_number=x[-1],
        scatter=math.sqrt((best.squares + floor) / count),
        wave=math.sqrt(correlation * best.squares / count),
        wander=WANDER_OF_CORRELATION * correlation,
        freedom=freedom,
        shapes=tuple(msgspec.structs.replace(one, chance=one.chance / total) for one in shapes),
        readings=len(capacities_ah),
        set_aside=aside,
    )


def _median(values: Sequence[float]) -> float:
    """The middle of one or more values, or the mean of the two in the middle."""
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else 0.5 * (ordered[half - 1] + ordered[half])


def _merged(numbers: Sequence[float], shares: Sequence[float]) -> tuple[list[float], list[float]]:
    """Readings at the same number as one, by their median."""
    at: dict[float, list[float]] = {}
    for number, share in zip(numbers, shares, strict=True):
        at.setdefault(float(number), []).append(share)
    return list(at), [_median(values) for values in at.values()]


def _plausible(x: Sequence[float], y: Sequence[float]) -> list[bool]:
    """False for a reading far off its neighbours: a discharge that ended early, a slip.

    x: ascending; y: as many, as shares of the first. With fewer than six readings none is far
    off. Source: running median (Tukey 1977, memory) of what a Theil-Sen line leaves.
    """
    count = len(x)
    if count < 6:
        return [True] * count
    groups = min(count, 40)
    bounds = [(group * count // groups, (group + 1) * count // groups) for group in range(groups)]
    slope = _pair_slope(
        [_median(x[low:high]) for low, high in bounds],
        [_median(y[low:high]) for low, high in bounds],
    )
    level = [value - slope * number for number, value in zip(x, y, strict=True)]
    half = 3 if count >= 12 else 2
    off = [
        abs(value - _median(level[max(0, at - half) : at + half + 1]))
        for at, value in enumerate(level)
    ]
    # 1.15: a running median follows each reading a little.
    limit = max(OFF_LEAST, OFF_SCATTERS * 1.15 * 1.4826 * _median(off))
    return [each <= limit for each in off]


def _pair_slope(x: Sequence[float], y: Sequence[float]) -> float:
    """The median slope of all pairs (Theil-Sen); x ascending, all different."""
    return _median(
        [
            (y[later] - y[first]) / (x[later] - x[first])
            for first in range(len(x))
            for later in range(first + 1, len(x))
        ]
    )


def _grouped(places: Sequence[float], shares: Sequence[float]) -> Points:
    count = len(places)
    if count <= MOST_POINTS:
        return Points(places, shares, [1] * count, 0.0)
    at, value, counts, within = [], [], [], 0.0
    for group in range(MOST_POINTS):
        low, high = group * count // MOST_POINTS, (group + 1) * count // MOST_POINTS
        mean = sum(shares[low:high]) / (high - low)
        at.append(sum(places[low:high]) / (high - low))
        value.append(mean)
        counts.append(high - low)
        within += sum((share - mean) ** 2 for share in shares[low:high])
    return Points(at, value, counts, within)
