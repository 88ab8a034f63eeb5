"""Control charts and the judgement against an own baseline."""

import re

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from buildbook.figures.laws.statistics.drift import (
    drift,
    ewma_chart,
    individuals_chart,
)

STEADY = [10.0, 10.4, 9.7, 10.2, 9.9, 10.3, 9.8, 10.1, 9.6, 10.0]
STEADY += [10.2, 9.9, 10.1, 9.8, 10.0]  # the fifteen of a baseline


def test_a_steady_series_gives_no_signal():
    """The baseline again is within its own limits."""
    judged = drift(STEADY + STEADY)

    assert judged.first_signal is None
    assert not judged.now_outside
    assert 10.0 == pytest.approx(judged.baseline_mean)
    assert 0.0 == pytest.approx(judged.change_share, abs=0.01)


def test_a_step_gives_a_signal_with_its_place_and_size():
    """A tenth more from flight 20 on: seen within five flights, and still outside at the end."""
    judged = drift(STEADY + STEADY[:5] + [value * 1.1 for value in STEADY])

    assert 20 <= judged.first_signal <= 25
    assert judged.now_outside
    assert 0.1 == pytest.approx(judged.change_share, abs=0.02)


def test_a_return_to_normal_keeps_the_signal_but_not_the_state():
    """Three odd flights are remembered, the present is within limits again."""
    judged = drift(STEADY + [12.0, 12.0, 12.0] + STEADY * 2)

    assert 15 <= judged.first_signal <= 17
    assert not judged.now_outside


def test_a_baseline_alone_is_judged_by_nothing():
    """With no value after the baseline there is no average yet."""
    judged = drift(STEADY)

    assert () == judged.chart.points
    assert (None, None, False) == (judged.first_signal, judged.change_share, judged.now_outside)


def test_limits_widen_for_a_target_that_is_a_mean_of_few():
    """A known target has the published limits; a mean of ten adds a tenth under the root."""
    known = ewma_chart([0.0], target=0.0, sd=1.0, weight=0.2)
    mean = ewma_chart([0.0], target=0.0, sd=1.0, weight=0.2, target_count=10)

    assert 3 * (0.2 / 1.8) ** 0.5 == pytest.approx(known.steady_high)
    assert 3 * (0.2 / 1.8 + 0.1) ** 0.5 == pytest.approx(mean.steady_high)
    assert 3 * 0.2 == pytest.approx(known.points[0].high)


def test_limits_of_a_short_baseline():
    """Five values: t of 4 d.o.f. for the normal, a fifth under the root, spread from the ranges."""
    judged = drift([9.0, 11.0, 10.0, 12.0, 8.0, 10.0], baseline=5, weight=0.2)
    sd = (2 + 1 + 2 + 4) / 4 / 1.128
    half = 6.6201 * sd * (0.2 / 1.8 + 1 / 5) ** 0.5

    assert sd == pytest.approx(judged.baseline_sd)
    assert 10.0 + half == pytest.approx(judged.chart.steady_high, rel=1e-4)
    assert 10.0 - half == pytest.approx(judged.chart.steady_low, rel=1e-4)
    assert 5 == judged.baseline_count


def test_narrow_limits_may_be_asked_for():
    """Half a standard deviation wide, or nearly eight."""
    narrow, wide = drift(STEADY * 2, width=0.5), drift(STEADY * 2, width=7.9)

    assert narrow.chart.steady_high < wide.chart.steady_high


def test_a_weight_of_one_is_the_value_itself():
    """Without memory the average is the last value."""
    chart = ewma_chart([3.0, 5.0], target=4.0, sd=1.0, weight=1.0)

    assert [3.0, 5.0] == [point.value for point in chart.points]


def test_a_point_on_its_limit_is_not_outside():
    """Limits belong to the inside, in both charts."""
    chart = ewma_chart([7.0, 1.0], target=4.0, sd=1.0, weight=1.0)

    assert () == chart.signals
    assert () == individuals_chart([1.0, 1.0]).outside


def test_false_alarms_are_few_and_real_changes_are_seen():
    """Seeded: of steady series of 40 flights 2 to 6 % alarm; of shifts by 2 sd 90 % are seen."""
    rng = np.random.default_rng(8)
    steady = rng.standard_normal((1_000, 55))
    shifted = steady[:, :35].copy()
    shifted[:, 15:] += 2.0

    alarms = np.mean([drift(row).first_signal is not None for row in steady.tolist()])
    seen = np.mean([drift(row).first_signal is not None for row in shifted.tolist()])

    assert 0.02 <= alarms <= 0.06
    assert seen >= 0.90


@given(st.lists(st.floats(1, 100), min_size=16, max_size=30), st.floats(0.1, 10), st.floats(0, 50))
@settings(max_examples=40, deadline=None)
def test_the_judgement_does_not_depend_on_the_unit(values, factor, offset):
    """The same series in another unit gives the same signal, unless a point is on its limit."""
    assume(len(set(values[:15])) > 1)
    judged = drift(values)
    near = [
        min(abs(point.value - point.low), abs(point.value - point.high))
        for point in judged.chart.points
    ]
    other = drift([value * factor + offset for value in values])
    if min(near) > 1e-6 * judged.baseline_sd and judged.baseline_sd > 1e-6:
        assert judged.first_signal == other.first_signal


def test_an_individual_far_off_is_outside():
    """One value far from the others is named by its position."""
    values = [1.0, 1.1, 0.9, 1.0, 1.1, 1.0, 0.9, 1.0, 1.1, 1.0, 0.9, 1.0, 1.1, 2.4]

    assert (13,) == individuals_chart(values).outside


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: drift([1.0] * 9), "need a baseline of 15 values, got 9"),
        (lambda: drift([1.0, 2.0] * 5, baseline=4), "baseline must be 5 or more, got 4"),
        (lambda: drift(STEADY, width=0.0), "width must be above 0 and below 8, got 0"),
        (lambda: drift(STEADY, width=8.0), "width must be above 0 and below 8, got 8"),
        (
            lambda: ewma_chart([1.0], target=1.0, sd=1.0, weight=0.0),
            "weight must be above 0 and at most 1, got 0",
        ),
        (lambda: drift(STEADY, width=9.0), "width must be above 0 and below 8, got 9"),
        (lambda: drift([1.0] * 15), "baseline does not vary, no limits can be drawn"),
        (
            lambda: ewma_chart([1.0], target=1.0, sd=0.0),
            "standard deviation must be above 0, got 0",
        ),
        (
            lambda: ewma_chart([1.0], target=1.0, sd=1.0, weight=1.5),
            "weight must be above 0 and at most 1, got 1.5",
        ),
        (lambda: individuals_chart([1.0]), "need two values, got 1"),
    ],
)
def test_out_of_range_is_refused(call, message):
    """Each refusal names what it found."""
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        call()
