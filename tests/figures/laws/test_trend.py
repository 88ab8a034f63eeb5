"""Robust and least-squares lines, crossings, steps, the odd one out."""

import math
import re
import tracemalloc

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from buildbook.figures.laws.statistics.odd_one import OddOne, odd_one_out
from buildbook.figures.laws.statistics.trend import (
    theil_sen,
)

POINTS = st.lists(
    st.tuples(st.integers(0, 200), st.floats(-100, 100)), min_size=3, max_size=40
).filter(lambda points: len({x for x, _ in points}) > 1)


def line_with_scatter(rng, count):
    """x, y of a line with slope -0.5 and normal scatter."""
    x = np.arange(count, dtype=float)
    return x.tolist(), (3.0 - 0.5 * x + rng.standard_normal(count)).tolist()


def test_limits_of_the_robust_slope_cover():
    """Seeded: 95 % limits of the Theil-Sen slope cover 93 to 97 % of 1,500 lines of 20 points."""
    rng = np.random.default_rng(1)
    lines = [theil_sen(*line_with_scatter(rng, 20)) for _ in range(1_500)]
    covered = np.mean([line.slope_low <= -0.5 <= line.slope_high for line in lines])

    assert 0.93 <= covered <= 0.97


def test_a_tenth_of_outliers_hardly_moves_the_robust_slope():
    """One point in ten at twice the range: the slope moves by less than a twentieth."""
    x = list(range(40))
    y = [2.0 * at for at in x]
    y[::10] = [200.0] * 4

    assert 2.0 == pytest.approx(theil_sen(x, y).slope, rel=0.05)


@given(POINTS, st.floats(-5, 5), st.floats(-50, 50))
@settings(max_examples=40, deadline=None)
def test_adding_a_line_adds_its_slope(points, slope, offset):
    """The fit moves by the slope of a line that is added to the data."""
    x, y = zip(*points, strict=True)
    tilted = [value + slope * at + offset for at, value in points]

    assert theil_sen(x, y).slope + slope == pytest.approx(theil_sen(x, tilted).slope, abs=1e-6)


@given(POINTS)
@settings(max_examples=40, deadline=None)
def test_limits_surround_the_slope(points):
    """Sen's limits hold the median slope, and everything is finite."""
    line = theil_sen(*zip(*points, strict=True))

    assert line.slope_low <= line.slope <= line.slope_high
    assert math.isfinite(line.intercept)


def test_many_points_are_grouped_within_modest_memory():
    """20,000 points take less than 200 MB and give the slope of the line."""
    rng = np.random.default_rng(3)
    x, y = line_with_scatter(rng, 20_000)
    tracemalloc.start()
    line = theil_sen(x, y)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()

    assert -0.5 == pytest.approx(line.slope, rel=1e-4)
    assert line.slope_low <= -0.5 <= line.slope_high
    assert 20_000 == line.points
    assert peak < 200e6


def test_one_cell_with_half_more_resistance_stands_out():
    """The third of four cells."""
    odd = odd_one_out([0.008, 0.0082, 0.0125, 0.0081])

    assert OddOne(2, 0.0125, 0.0081, pytest.approx(0.0125 / 0.0081 - 1)) == odd


def test_a_low_cell_stands_out_too():
    """Off by more than a quarter on either side."""
    assert 0 == odd_one_out([0.005, 0.0082, 0.0080, 0.0081]).position


def test_cells_that_scatter_alike_name_none():
    """Within a quarter, or no further off than the others scatter."""
    assert odd_one_out([0.0080, 0.0082, 0.0095, 0.0081]) is None
    assert odd_one_out([0.008, 0.014, 0.020, 0.011]) is None


@given(st.lists(st.floats(0.001, 0.1), min_size=3, max_size=12), st.floats(0.1, 10))
@settings(max_examples=40, deadline=None)
def test_the_odd_one_does_not_depend_on_the_unit(values, factor):
    """Milliohm or ohm, the same cell, unless it is on the very edge."""
    odd = odd_one_out(values, share=0.25)
    other = odd_one_out([value * factor for value in values], share=0.25)
    assume(odd is None or abs(abs(odd.share) - 0.25) > 1e-9)
    if odd is not None and other is not None:
        assert odd.position == other.position


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: theil_sen([1.0], [1.0]), "need two points, got 1"),
        (lambda: theil_sen([1.0, 2.0], [1.0]), "x and y differ in length, 2 and 1"),
        (lambda: theil_sen([1.0, math.nan], [1.0, 2.0]), "x must be a finite number, got nan"),
        (lambda: theil_sen([1.0, 1.0], [1.0, 2.0]), "all points have the same x"),
        (
            lambda: theil_sen([1.0, 2.0], [1.0, 2.0], level=1.0),
            "level must be between 0 and 1, got 1",
        ),
        (lambda: odd_one_out([1.0, 2.0]), "need three values, got 2"),
        (lambda: odd_one_out([1.0, 0.0, 2.0]), "values must be above 0, got 0"),
    ],
)
def test_out_of_range_is_refused(call, message):
    """Each refusal names what it found."""
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        call()
