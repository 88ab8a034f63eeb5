"""The flown current: a fit that few odd flights cannot move, with limits that cover."""

import math
import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.figures.laws.statistics.robust import fit_rate, forecast_time

CURRENT_A = 12.0
SCATTER = 20.0  # A·√s: 1 A on a flight of 400 s


def flown(rng, count):
    """Durations in s and used charges in Ah of so many flights at 12 A."""
    seconds = rng.uniform(120, 600, count)
    return seconds, charges(rng, seconds)


def charges(rng, seconds):
    """Used charges in Ah of flights of given durations."""
    scatter = SCATTER * rng.standard_normal(len(seconds)) / np.sqrt(seconds)
    return (CURRENT_A + scatter) * seconds / 3600


@pytest.mark.parametrize(("count", "fits"), [(6, 1_000), (20, 1_000), (80, 600)])
def test_limits_cover_what_they_state(count, fits):
    """Seeded: 95 % limits of the current and of the next flight cover 93 to 97 %."""
    rng = np.random.default_rng(count)
    current = following = 0
    for _ in range(fits):
        seconds, used = flown(rng, count)
        rate = fit_rate(seconds.tolist(), used.tolist())
        current += rate.low_a <= CURRENT_A <= rate.high_a
        next_s, next_ah = flown(rng, 1)
        ahead = forecast_time(rate, float(next_ah[0]))
        following += ahead.low <= next_s[0] <= ahead.high

    assert 0.93 <= current / fits <= 0.97
    assert 0.93 <= following / fits <= 0.97


@pytest.mark.parametrize(("count", "most"), [(20, 0.5), (100, 0.2)])
@pytest.mark.parametrize("factor", [0.1, 0.6, 1.6, 10.0])
def test_one_outlier_in_twenty_moves_the_fit_by_less_than_stated(count, most, factor):
    """Seeded, 100 logs each: moved by less than so much of the scatter of one flight."""
    rng = np.random.default_rng(5)
    one_flight = SCATTER / math.sqrt(360.0)
    for _ in range(100):
        seconds, used = flown(rng, count)
        clean = fit_rate(seconds.tolist(), used.tolist())
        used[::20] *= factor
        moved = fit_rate(seconds.tolist(), used.tolist())
        assert abs(moved.current_a - clean.current_a) < most * one_flight


def test_a_gross_outlier_is_set_aside_and_counted():
    """One flight logged with ten times its charge."""
    seconds = [300.0, 310.0, 290.0, 305.0, 295.0, 300.0]
    used = [1.00, 1.04, 0.96, 1.02, 0.98, 10.0]
    rate = fit_rate(seconds, used)

    assert (6, 1) == (rate.flights, rate.set_aside)
    assert 12.0 == pytest.approx(rate.current_a, rel=0.01)


def test_flights_alike_give_their_current_and_no_scatter():
    """All flights at exactly 12 A."""
    rate = fit_rate([100.0, 200.0, 300.0, 400.0], [100 / 300, 200 / 300, 1.0, 400 / 300])

    assert 12.0 == pytest.approx(rate.current_a)
    assert 0.0 == pytest.approx(rate.high_a - rate.low_a, abs=1e-6)


def test_most_flights_alike_leave_a_voice_to_the_others():
    """Four of six at exactly 12 A, two a tenth above: in between, with limits that say so."""
    currents = [12.0, 12.0, 12.0, 12.0, 13.2, 13.2]
    rate = fit_rate([300.0] * 6, [current / 12 for current in currents])

    assert 12.0 < rate.current_a < 12.4
    assert rate.low_a < 12.0
    assert rate.high_a > 12.4
    assert 0 == rate.set_aside


def test_long_flights_weigh_more():
    """A flight of ten minutes counts ten times one of a minute."""
    seconds, currents = [600.0, 60.0, 600.0, 60.0], [10.0, 11.0, 10.0, 11.0]
    rate = fit_rate(seconds, [s * a / 3600 for s, a in zip(seconds, currents, strict=True)])

    assert rate.current_a < 10.2


def test_a_current_that_may_be_nothing_bounds_no_time():
    """Where the lower limit of the current is 0 the longest time is infinite."""
    rate = fit_rate([60.0, 60.0, 60.0, 60.0], [0.01, 0.2, 0.1, 0.4])

    assert math.inf == forecast_time(rate, 1.0, level=0.999).high


FLIGHTS = st.lists(st.tuples(st.floats(30, 3000), st.floats(0.01, 20)), min_size=4, max_size=30)


@given(FLIGHTS, st.floats(0.1, 10))
@settings(max_examples=60, deadline=None)
def test_any_flights_give_finite_ordered_limits(flights, factor):
    """Finite, ordered, within the currents seen, and in proportion to the charges."""
    seconds, used = zip(*flights, strict=True)
    rate = fit_rate(seconds, used)
    currents = [ah * 3600 / s for s, ah in flights]
    scaled = fit_rate(seconds, [ah * factor for ah in used])

    assert 0.0 <= rate.low_a <= rate.current_a <= rate.high_a < math.inf
    assert min(currents) * (1 - 1e-9) <= rate.current_a <= max(currents) * (1 + 1e-9)
    assert rate.current_a * factor == pytest.approx(scaled.current_a, rel=1e-6)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: fit_rate([60.0] * 3, [1.0] * 3), "need 4 flights, got 3"),
        (
            lambda: fit_rate([60.0] * 4, [1.0] * 3),
            "durations and charges differ in length, 4 and 3",
        ),
        (
            lambda: fit_rate([60.0, 60.0, 60.0, 0.0], [1.0] * 4),
            "durations and charges must be above 0",
        ),
        (
            lambda: fit_rate([60.0] * 4, [1.0, 1.0, 1.0, math.nan]),
            "charge_ah must be a finite number, got nan",
        ),
        (
            lambda: fit_rate([60.0] * 4, [1.0] * 4, level=0.0),
            "level must be between 0 and 1, got 0",
        ),
        (
            lambda: forecast_time(fit_rate([60.0] * 4, [1.0] * 4), 0.0),
            "charge must be above 0 Ah, got 0",
        ),
        (
            lambda: forecast_time(fit_rate([60.0] * 4, [1.0] * 4), -1.0),
            "charge must be above 0 Ah, got -1",
        ),
    ],
)
def test_out_of_range_is_refused(call, message):
    """Each refusal names what it found."""
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        call()
