"""Shapes that the fade of a pack may have, each fitted as a line: capacity = start - loss · shape.

Nobody knows beforehand how a pack will fade. So each shape of a declared family is fitted to the
readings, and what the readings say decides how much each counts: a power of the charges from a
half, as by the growth of a film, to 1.3, or a straight line that bends once in the record, as of
two phases or past a knee. Nothing is assumed about how fast a pack fades or how long it lives.
"""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

LEAST_POWER, MOST_POWER = 0.5, 1.3
MOST_BEND = 5.0
"""By so many times the loss a charge may rise or fall at a bend."""
POWERS = 0.66
SLOWING = 0.15
"""Shares of the family before any reading: powers, lines that slow down; the rest bend down."""
_POWER_STEP = 0.05
_STRAIGHT_WEIGHT, _ROOT_WEIGHT = 16.0, 6.0  # against 1 for each power between
_TURNS = (*(0.04 * step for step in range(1, 25)), 0.98)  # of the record
_BENDS = 12


class Points(NamedTuple):
    """Readings, neighbours taken together: place in the record from 0 to 1, value, how many."""

    at: Sequence[float]
    value: Sequence[float]
    weight: Sequence[int]
    within: float  # sum of squares that taking together lost


class Shape(NamedTuple):
    """A power of the place in the record, or a line with a bend at ``turn``; 1 at its end."""

    power: float
    turn: float = 1.0
    bend: float = 1.0  # loss a charge after the turn over that before

    def at(self, place: float) -> float:
        """The share of the loss of the whole record that has gone by there; beyond 1 it goes on."""
        power, turn, bend = self
        if bend == 1.0:
            return float(place**power)
        return (place if place <= turn else turn + bend * (place - turn)) / self.whole

    @property
    def whole(self) -> float:
        """The loss of the whole record, for each 1 of that before the turn."""
        return self.turn + self.bend * (1.0 - self.turn)


class ShapeFit(NamedTuple):
    """A least-squares fit of one shape; variances are for a scatter of 1 a reading."""

    weight: float  # before any reading
    shape: Shape
    start: float
    loss: float
    start_variance: float
    covariance: float
    loss_variance: float
    squares: float  # what is left
    determinant: float


def fit_shapes(points: Points) -> list[ShapeFit]:
    """Every shape of the family with its least-squares fit.

    points: four or more. Source: ordinary least squares; the family is a default, no source.
    """
    total = sum(points.weight)
    mean = sum(n * y for n, y in zip(points.weight, points.value, strict=True)) / total
    off = [y - mean for y in points.value]
    squares = points.within + sum(n * y * y for n, y in zip(points.weight, off, strict=True))
    found = []
    for weight, shape, sums in (*_powers(points, off), *_bent(points, off)):
        of_shape, of_squares, of_both = sums
        determinant = total * of_squares - of_shape * of_shape
        if determinant <= 1e-9 * total * total:
            continue
        slope = total * of_both / determinant
        found.append(
            ShapeFit(
                weight=weight,
                shape=shape,
                start=mean - slope * of_shape / total,
                loss=-slope,
                start_variance=of_squares / determinant,
                covariance=of_shape / determinant,
                loss_variance=total / determinant,
                squares=max(squares - slope * of_both, 0.0),
                determinant=determinant,
            )
        )
    return found


Sums = tuple[float, float, float]


def _powers(points: Points, off: Sequence[float]) -> Iterator[tuple[float, Shape, Sums]]:
    steps = round((MOST_POWER - LEAST_POWER) / _POWER_STEP)
    powers = [round(LEAST_POWER + _POWER_STEP * step, 9) for step in range(steps + 1)]
    weights = [
        {1.0: _STRAIGHT_WEIGHT, LEAST_POWER: _ROOT_WEIGHT}.get(power, 1.0) for power in powers
    ]
    for power, weight in zip(powers, weights, strict=True):
        shape = [place**power for place in points.at]
        one = sum(n * f for n, f in zip(points.weight, shape, strict=True))
        two = sum(n * f * f for n, f in zip(points.weight, shape, strict=True))
        both = sum(n * f * y for n, f, y in zip(points.weight, shape, off, strict=True))
        yield POWERS * weight / sum(weights), Shape(power), (one, two, both)


def _bent(points: Points, off: Sequence[float]) -> Iterator[tuple[float, Shape, Sums]]:
    """Bent lines, by the sums of the place and of what lies beyond the turn."""
    rows = list(zip(points.weight, points.at, off, strict=True))
    line = sum(n * u for n, u, _ in rows)
    line_two = sum(n * u * u for n, u, _ in rows)
    line_both = sum(n * u * y for n, u, y in rows)
    slower, faster = SLOWING / _BENDS, (1.0 - POWERS - SLOWING) / _BENDS
    for turn in _TURNS:
        later = [(n, u, u - turn, y) for n, u, y in rows if u > turn]
        past = sum(n * h for n, _, h, _ in later)
        past_two = sum(n * h * h for n, _, h, _ in later)
        cross = sum(n * u * h for n, u, h, _ in later)
        past_both = sum(n * h * y for n, _, h, y in later)
        for step in range(_BENDS):
            times = MOST_BEND ** ((step + 0.5) / _BENDS)
            for weight, bend in ((faster, times), (slower, 1.0 / times)):
                more = bend - 1.0
                scale = 1.0 / (1.0 + more * (1.0 - turn))
                yield (
                    weight / len(_TURNS),
                    Shape(1.0, turn, bend),
                    (
                        scale * (line + more * past),
                        scale**2 * (line_two + 2.0 * more * cross + more**2 * past_two),
                        scale * (line_both + more * past_both),
                    ),
                )


def chances(fits: Sequence[ShapeFit], freedom: float, floor: float) -> list[float]:
    """How much each shape counts once the readings are seen; they sum to 1.

    freedom: readings that count as independent, less two; floor: sum of squares that is left at
    least. Source: marginal likelihood with flat start and loss and unknown scatter (Jeffreys).
    """
    logs = [
        math.log(fit.weight)
        - 0.5 * math.log(fit.determinant)
        - 0.5 * freedom * math.log(fit.squares + floor)
        for fit in fits
    ]
    most = max(logs)
    odds = [math.exp(log - most) for log in logs]
    total = sum(odds)
    return [each / total for each in odds]
