"""Rates of rare events: limits that cover, words for none yet, refusals."""

import re
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from buildbook.figures.laws.statistics.counts import (
    event_limits,
    event_rate,
    event_upper_bound,
    mean_time_between,
)


@pytest.mark.parametrize("mean", [0.5, 2.0, 7.3, 40.0])
def test_limits_cover_at_least_what_they_state(mean):
    """Exact limits: over every possible count the coverage is 95 % or more, never less."""
    counts = np.arange(0, 200)
    shares = stats.poisson.pmf(counts, mean)
    inside = [event_limits(int(k)).low <= mean <= event_limits(int(k)).high for k in counts]

    assert float(shares[inside].sum()) >= 0.95
    assert float(shares[inside].sum()) <= 0.995


def test_simulated_rates_are_covered():
    """Seeded: 1,000 keepers with 6 incidents expected in 400 flights; 93 to 97 % are covered."""
    rng = np.random.default_rng(4)
    seen = rng.poisson(6.0, 1_000).tolist()
    rates = {k: event_rate(k, 400.0, per=100.0, level=0.95) for k in set(seen)}
    covered = np.mean([rates[k].low <= 1.5 <= rates[k].high for k in seen])

    assert 0.93 <= covered <= 0.97


def test_switching_to_one_side_costs_some_coverage():
    """The worst mean for a one-sided limit at no event: 92.5 % as stated, no less."""
    counts = np.arange(0, 60)
    for mean in np.linspace(2.9, 3.8, 10):
        shares = stats.poisson.pmf(counts, mean)
        limits = [event_rate(int(k), 1.0) for k in counts]
        assert shares[[each.low <= mean <= each.high for each in limits]].sum() >= 0.925


def test_a_rate_per_hundred_flights():
    """Two incidents in 80 flights are 2.5 per 100."""
    rate = event_rate(2, 80.0, per=100.0)

    assert 2.5 == pytest.approx(rate.rate)
    assert (2.5 * 0.2422093 / 2, 2.5 * 7.224688 / 2) == pytest.approx((rate.low, rate.high), 1e-6)
    assert ("two-sided", 0.95) == (rate.sides, rate.level)


def test_no_event_gives_no_rate_but_an_upper_bound():
    """None yet in 150 flights: at most 2 per 100, one-sided."""
    rate = event_rate(0, 150.0, per=100.0)

    assert rate.rate is None
    assert (0.0, 1.997155) == pytest.approx((rate.low, rate.high), rel=1e-6)
    assert "one-sided" == rate.sides


def test_one_sided_is_below_the_two_sided_upper_limit():
    """The two upper limits of one count differ, so each says which it is."""
    assert event_upper_bound(3).high < event_limits(3).high


@given(st.integers(0, 300), st.floats(0.5, 0.999))
@settings(max_examples=30, deadline=None)
def test_the_count_is_within_its_limits(events, level):
    """Limits surround the count and widen with the level."""
    limits = event_limits(events, level=level)

    assert limits.low <= events <= limits.high
    assert limits.high <= event_limits(events, level=(level + 1) / 2).high


def test_no_failure_counts_none():
    """The count that was given comes back."""
    assert 0 == mean_time_between(10.0, 0).failures
    assert (0, 10.0) == (event_rate(0, 10.0).events, event_rate(0, 10.0).exposure)


def test_mean_time_is_the_inverse_of_the_rate():
    """The same limits, turned over."""
    between, rate = mean_time_between(120.0, 4), event_rate(4, 120.0)

    assert (1 / rate.high, 1 / rate.rate, 1 / rate.low) == pytest.approx(
        (between.low, between.estimate, between.high)
    )


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: event_limits(-1), "events must be 0 or more, got -1"),
        (lambda: event_upper_bound(1, level=1.0), "level must be between 0 and 1, got 1"),
        (lambda: event_rate(1, 0.0), "exposure must be above 0, got 0"),
        (lambda: event_rate(1, float("nan")), "exposure must be a finite number, got nan"),
        (lambda: event_rate(1, 5.0, per=0.0), "per must be above 0, got 0"),
        (lambda: mean_time_between(0.0, 1), "observed time must be above 0, got 0"),
        (lambda: mean_time_between(-2.0, 1), "observed time must be above 0, got -2"),
        (lambda: mean_time_between(2.0, -1), "events must be 0 or more, got -1"),
    ],
)
def test_out_of_range_is_refused(call, message):
    """Each refusal names what it found."""
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        call()


def test_signals_need_no_numpy():
    """Counts, drift, cycles and quantiles do not import numpy, as `due` may need them."""
    modules = ("statistics.counts", "statistics.drift", "packs.cycles")
    code = ";".join(f"import buildbook.figures.laws.{name}" for name in modules)
    code += ";import sys;print('numpy' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "False\n" == done.stdout
