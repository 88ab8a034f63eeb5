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
    below_for_good,
    first_below,
    least_squares,
    prediction_limits,
    step_ups,
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


def test_prediction_limits_cover():
    """Seeded: 95 % limits of a new value five steps on cover 93 to 97 % of 1,500 lines."""
    rng = np.random.default_rng(2)
    inside = 0
    for _ in range(1_500):
        x, y = line_with_scatter(rng, 12)
        at = prediction_limits(least_squares(x, y), 16.0)
        inside += at.low <= 3.0 - 0.5 * 16.0 + rng.standard_normal() <= at.high

    assert 0.93 <= inside / 1_500 <= 0.97


def test_a_tenth_of_outliers_hardly_moves_the_robust_slope():
    """One point in ten at twice the range: the slope moves by less than a twentieth."""
    x = list(range(40))
    y = [2.0 * at for at in x]
    y[::10] = [200.0] * 4

    assert 2.0 == pytest.approx(theil_sen(x, y).slope, rel=0.05)


@given(POINTS, st.floats(-5, 5), st.floats(-50, 50))
@settings(max_examples=40, deadline=None)
def test_adding_a_line_adds_its_slope(points, slope, offset):
    """Both fits move by the slope of a line that is added to the data."""
    x, y = zip(*points, strict=True)
    tilted = [value + slope * at + offset for at, value in points]

    assert theil_sen(x, y).slope + slope == pytest.approx(theil_sen(x, tilted).slope, abs=1e-6)
    assert least_squares(x, y).slope + slope == pytest.approx(
        least_squares(x, tilted).slope, abs=1e-6
    )


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


def test_a_perfect_line_has_no_scatter():
    """No residual, all of the spread explained."""
    line = least_squares([0.0, 1.0, 2.0], [1.0, 3.0, 5.0])

    assert (2.0, 1.0, 1.0) == pytest.approx((line.slope, line.intercept, line.r_squared))
    assert 0.0 == pytest.approx(line.residual_sd, abs=1e-12)


def test_a_level_line_is_fully_explained():
    """All readings alike: slope 0, R squared 1 by convention."""
    line = least_squares([0.0, 1.0, 2.0], [4.0, 4.0, 4.0])

    assert (0.0, 1.0) == (line.slope, line.r_squared)


def test_a_single_low_reading_is_below_but_not_for_good():
    """First below and below for good are two answers."""
    x, y = [1, 2, 3, 4, 5], [9.0, 7.0, 9.0, 7.5, 7.0]

    assert 2 == first_below(x, y, 8.0)
    assert 4 == below_for_good(x, y, 8.0)


def test_at_the_threshold_is_not_below():
    """A reading exactly at the threshold still holds."""
    assert first_below([1, 2], [9.0, 8.0], 8.0) is None
    assert below_for_good([1, 2], [9.0, 8.0], 8.0) is None


def test_a_pack_that_never_held_is_below_from_the_first_reading():
    """All readings under the threshold."""
    assert 3 == below_for_good([3, 4], [5.0, 6.0], 8.0)


def test_no_readings_are_never_below():
    """An empty series crosses nothing."""
    assert first_below([], [], 8.0) is None
    assert below_for_good([], [], 8.0) is None


@given(POINTS, st.floats(-100, 100))
@settings(max_examples=40, deadline=None)
def test_below_for_good_is_never_before_first_below(points, threshold):
    """For good comes later, or at once."""
    points = sorted(dict(points).items())
    x, y = zip(*points, strict=True)
    first, good = first_below(x, y, threshold), below_for_good(x, y, threshold)

    assert good is None or (first is not None and first <= good)


def test_a_step_up_is_one_above_the_rise():
    """Exactly the rise is not above it."""
    assert (2, 4) == step_ups([1, 2, 3, 4], [1.0, 1.5, 1.75, 2.5], 0.25)


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
        (lambda: least_squares([1.0, 2.0], [1.0, 2.0]), "need three points, got 2"),
        (lambda: first_below([1], [], 1.0), "x and y differ in length, 1 and 0"),
        (lambda: odd_one_out([1.0, 2.0]), "need three values, got 2"),
        (lambda: odd_one_out([1.0, 0.0, 2.0]), "values must be above 0, got 0"),
    ],
)
def test_out_of_range_is_refused(call, message):
    """Each refusal names what it found."""
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        call()
