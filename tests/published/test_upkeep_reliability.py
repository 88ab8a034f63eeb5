"""Counts of events: Garwood 1936, Biometrika 28:437-442; NIST e-Handbook 8.4, doi:10.18434/M32189.

R16 to R20 and R22 concern fits of lives that no figure of the program uses: their tests hold the
published figure against scipy and say so.
"""

import math

import pytest

from buildbook.figures.laws.statistics.counts import (
    event_limits,
    event_rate,
    event_upper_bound,
    mean_time_between,
)


@pytest.mark.parametrize(
    ("row", "events", "level", "low", "high"),
    [
        ("R01", 0, 0.95, 0.0, 3.688879),
        ("R03", 1, 0.95, 0.02531781, 5.571643),
        ("R04", 2, 0.95, 0.2422093, 7.224688),
        ("R05", 5, 0.95, 1.623486, 11.668332),
        ("R06", 10, 0.95, 4.795389, 18.390356),
        ("R07", 1, 0.90, 0.05129329, 4.743865),
    ],
)
def test_r01_to_r07_two_sided_limits(row, events, level, low, high):
    """Garwood 1936: R01 and R06 reproduced, R03 and R05 from memory, the others computed."""
    limits = event_limits(events, level=level)

    assert (low, high) == pytest.approx((limits.low, limits.high), rel=1e-6), row
    assert "two-sided" == limits.sides


def test_r02_upper_bound_without_an_event():
    """R02, reproduced: -log(0.05), one-sided."""
    bound = event_upper_bound(0)

    assert 2.995732 == pytest.approx(bound.high, rel=1e-6)
    assert -math.log(0.05) == pytest.approx(bound.high, rel=1e-12)
    assert "one-sided" == bound.sides


def test_r01_to_r07_table_of_exact_limits(rows):
    """Garwood 1936, computed: 95 % limits of every row of the file."""
    for row in rows("monitoring/poisson_exact_limits.csv"):
        events, low, high, upper = (float(value) for value in row.values())
        limits = event_limits(int(events))

        assert (low, high) == pytest.approx((limits.low, limits.high), abs=1e-6)
        assert upper == pytest.approx(event_upper_bound(int(events)).high, abs=1e-6)


def test_r08_rate_per_hour():
    """R08, computed: two events in 40 h."""
    rate = event_rate(2, 40.0)

    assert (0.05, 0.006055232, 0.1806172) == pytest.approx((rate.rate, rate.low, rate.high), 1e-6)


def test_r09_r10_mean_time_between_failures():
    """R09 and R10, NIST 8.4.5.1 (memory), computed: 800 h, two failures, 90 % limits."""
    between = mean_time_between(800.0, 2, level=0.90)

    assert 400 == between.estimate
    assert (127.06897, 2251.2286) == pytest.approx((between.low, between.high), rel=1e-6)


def test_r11_factors_on_the_estimate():
    """R11, NIST 8.4.5.1, computed: r = 2, 90 %."""
    between = mean_time_between(2.0, 2, level=0.90)

    assert (0.3176724, 5.6280715) == pytest.approx((between.low, between.high), rel=1e-6)


def test_r12_lower_limit_without_a_failure():
    """R12, NIST 8.4.5.1, reproduced: 0.3338082 times the observed time, and no upper limit."""
    between = mean_time_between(1.0, 0)

    assert 0.3338082 == pytest.approx(between.low, rel=1e-6)
    assert (None, None, "one-sided") == (between.estimate, between.high, between.sides)


def test_r21_exponential_mean_life():
    """R21, computed: 7771 h in total, ten failures, 95 % limits."""
    between = mean_time_between(7771.0, 10)

    assert (777.1, 422.5584, 1620.5151) == pytest.approx(
        (between.estimate, between.low, between.high), rel=1e-6
    )
