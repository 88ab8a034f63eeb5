"""Start, loss and shape of a capacity series, and single readings set aside."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import linregress

from buildbook.figures.laws.packs.fade import Fade, ShapeNow, fit_fade
from buildbook.figures.laws.packs.fade_shapes import Points, Shape, chances, fit_shapes
from buildbook.figures.laws.statistics.quantiles import t_quantile


def fading(count, *, loss=0.002, scatter=0.002, seed=1):
    """Numbers and capacities of a pack of 1.5 Ah."""
    numbers = np.arange(count, dtype=float)
    noise = scatter * np.random.default_rng(seed).standard_normal(count)
    return numbers.tolist(), (1.5 * (1.0 - loss * numbers + noise)).tolist()


def straight_line(numbers, capacities):
    """The ordinary line of another library, and the standard deviation about it."""
    line = linregress(numbers, capacities)
    rests = np.array(capacities) - line.intercept - line.slope * np.array(numbers)
    return line, math.sqrt(float(rests @ rests) / (len(numbers) - 2))


def test_the_straight_shape_is_least_squares():
    """Start, loss and their variances of the first power are those of the ordinary line."""
    numbers, capacities = fading(30, scatter=0.01)
    line, residual_sd = straight_line(numbers, capacities)
    points = Points([number / 29 for number in numbers], capacities, [1] * 30, 0.0)
    fit = next(one for one in fit_shapes(points) if one.shape == Shape(1.0))

    assert line.intercept == pytest.approx(fit.start, rel=1e-9)
    assert -29 * line.slope == pytest.approx(fit.loss, rel=1e-9)
    assert residual_sd**2 * 28 == pytest.approx(fit.squares, rel=1e-9)
    assert line.stderr * 29 == pytest.approx(residual_sd * math.sqrt(fit.loss_variance), rel=1e-9)


@pytest.mark.parametrize(
    ("shape", "places"),
    [
        (Shape(0.5), {0.25: 0.5, 1.0: 1.0, 4.0: 2.0}),
        (Shape(1.0), {0.25: 0.25, 2.0: 2.0}),
        (Shape(1.0, 0.5, 3.0), {0.5: 0.25, 1.0: 1.0, 2.0: 2.5}),
        (Shape(1.0, 0.5, 1 / 3), {0.5: 0.75, 1.0: 1.0, 2.0: 1.5}),
    ],
)
def test_shapes_go_on_beyond_the_record(shape, places):
    """A root, a line, a line that bends half-way to three times and to a third of its pace."""
    assert places
    for place, gone in places.items():
        assert gone == pytest.approx(shape.at(place), rel=1e-12)


def test_the_family_is_one_whole_before_any_reading():
    """The weights of all shapes sum to one; so do the chances after readings."""
    numbers, capacities = fading(40)
    fits = fit_shapes(Points([n / 39 for n in numbers], capacities, [1] * 40, 0.0))

    assert 1.0 == pytest.approx(sum(fit.weight for fit in fits))
    assert 1.0 == pytest.approx(sum(chances(fits, 38.0, 1e-6)))


@pytest.mark.parametrize(
    ("true", "near"),
    [
        (lambda u: math.sqrt(u), lambda shape: shape.power < 0.65),
        (lambda u: u if u < 0.5 else 0.5 + 4 * (u - 0.5), lambda shape: shape.bend > 2.5),
        (lambda u: u if u < 0.3 else 0.3 + (u - 0.3) / 4, lambda shape: shape.bend < 0.4),
    ],
    ids=["root", "knee", "two phases"],
)
def test_readings_tell_the_shape(true, near):
    """Over 200 readings with 0.5 % scatter most of the chance is with shapes like the true one."""
    rng = np.random.default_rng(3)
    seen = [2.0 * (1 - 0.15 * true(n / 199) + 0.005 * rng.standard_normal()) for n in range(200)]
    fade = fit_fade(list(range(200)), seen)

    assert sum(one.chance for one in fade.shapes if near(one.shape)) > 0.8


def test_many_readings_tell_the_same_taken_together():
    """600 readings in 60 groups: the line, its doubt and the scatter are those of all of them."""
    numbers, capacities = fading(600, loss=0.0003, scatter=0.01)
    fade = fit_fade(numbers, capacities)
    line, residual_sd = straight_line(numbers, capacities)

    assert residual_sd / 1.5 == pytest.approx(fade.scatter, rel=0.04)
    assert -line.slope * 599 / fade.reference_ah == pytest.approx(fade.likeliest.loss, rel=0.1)


def test_single_readings_far_off_are_set_aside():
    """Two of twenty are a tenth too low and too high."""
    numbers, capacities = fading(20)
    capacities[7] *= 0.9
    capacities[13] *= 1.1

    plain, odd = fit_fade(*fading(20)), fit_fade(numbers, capacities)

    assert (0, 2) == (plain.set_aside, odd.set_aside)
    assert plain.likeliest.loss == pytest.approx(odd.likeliest.loss, rel=0.05)


def test_of_five_readings_none_is_far_off():
    """With so few nobody knows which one is wrong."""
    assert 0 == fit_fade([0, 1, 2, 3, 4], [1.0, 1.0, 0.5, 1.0, 1.0]).set_aside


def test_what_hangs_together_counts_for_less():
    """Readings that roll for some charges say less of the line than ones that scatter alone."""
    rng = np.random.default_rng(8)
    rolling = np.zeros(120)
    for at in range(1, 120):
        rolling[at] = 0.85 * rolling[at - 1] + 0.004 * rng.standard_normal()
    numbers, straight = fading(120, scatter=0.0)
    alone = fit_fade(*fading(120, scatter=0.0076))
    rolled = fit_fade(numbers, (np.array(straight) + 1.5 * rolling).tolist())

    assert alone.freedom > 90
    assert rolled.freedom < 40
    assert alone.wander < 0.05
    assert 0.2 < rolled.wander < 0.5
    assert rolled.wave > 0.003


def test_no_scatter_is_the_finest_that_a_charger_shows():
    """Readings on a line prove no more than two parts in a thousand."""
    assert 0.002 == pytest.approx(fit_fade(*fading(20, scatter=0.0)).scatter, rel=1e-6)


@given(st.floats(1.0, 200.0), st.sampled_from([0.025, 0.1, 0.3, 0.5, 0.9, 0.975]))
def test_student_is_near_the_exact_one(freedom, share):
    """Held against the exact quantiles: a capacity that does not fade, known to a variance of 1."""
    level = ShapeNow(1.0, Shape(1.0), 0.0, 0.0, 1.0, 0.0, 0.0)
    fade = Fade(1.5, 0.0, 1.0, 0.0, 0.0, 0.0, freedom, (level,), readings=4, set_aside=0)

    assert share == pytest.approx(fade.below(1.0, t_quantile(share, freedom)), abs=0.012)


def test_three_readings_are_no_series():
    """It says how many there are."""
    with pytest.raises(ValueError, match=r"^need four readings, got 3$"):
        fit_fade([0, 1, 2], [1.0, 0.9, 0.8])
