"""Charge counted once, stretch by stretch."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.figures.laws.packs.cycles import (
    ChargeCount,
    PackEvent,
    count_charge,
    cycles_from_states,
    equivalent_full_cycles,
)


def flight(charge_ah=None):
    """A flight that used so much, or did not say."""
    return PackEvent(is_charge=False, charge_ah=charge_ah)


def charge(charge_ah=None):
    """A charge that put in so much, or did not say."""
    return PackEvent(is_charge=True, charge_ah=charge_ah)


def test_the_greater_of_used_and_put_in_counts():
    """Two flights of 1 Ah and a charge of 2.1 Ah are 2.1 Ah, not 4.1."""
    count = count_charge([flight(1.0), flight(1.0), charge(2.1), flight(1.2), charge(1.1)])

    assert 2.1 + 1.2 == pytest.approx(count.charge_ah)
    assert (2, 3, 2, 0, False) == (
        count.charges,
        count.flights,
        count.stretches,
        count.unknown_flights,
        count.at_least,
    )


def test_an_open_stretch_counts_what_was_used():
    """Flights after the last charge count by themselves."""
    assert ChargeCount(0.8, 0, 1, 1, 0, False) == count_charge([flight(0.8)])


def test_a_charge_accounts_for_a_flight_without_a_figure():
    """What was put in covers a flight that did not say."""
    count = count_charge([flight(0.5), flight(), charge(1.3)])

    assert ChargeCount(1.3, 1, 2, 1, 0, False) == count


def test_a_flight_that_nothing_accounts_for_makes_a_lower_bound():
    """Without a figure at the flight and at the charge the sum is at least."""
    assert ChargeCount(0.5, 1, 2, 1, 1, True) == count_charge([flight(0.5), flight(), charge()])
    assert ChargeCount(0.0, 0, 1, 1, 1, True) == count_charge([flight()])


def test_a_charge_without_a_figure_is_covered_by_known_flights():
    """Flights that all say what they used need no figure at the charge."""
    assert ChargeCount(1.5, 1, 1, 1, 0, False) == count_charge([flight(1.5), charge()])


def test_a_charge_with_nothing_before_and_no_figure_makes_a_lower_bound():
    """A first charge of unknown size."""
    assert ChargeCount(0.0, 1, 0, 1, 0, True) == count_charge([charge()])


def test_a_stretch_forgets_the_one_before():
    """An unknown flight that its own charge accounts for does not spoil the next stretch."""
    log = [flight(), charge(1.0), flight(0.5), charge()]

    assert ChargeCount(1.5, 2, 2, 2, 0, False) == count_charge(log)


def test_nothing_logged_is_nothing_counted():
    """An empty log."""
    assert ChargeCount(0.0, 0, 0, 0, 0, False) == count_charge([])


EVENTS = st.lists(
    st.builds(PackEvent, is_charge=st.booleans(), charge_ah=st.none() | st.floats(0, 50)),
    max_size=30,
)


@given(EVENTS)
@settings(max_examples=60, deadline=None)
def test_the_count_lies_between_either_side_and_both(log):
    """Never less than what went out or in, never more than their sum."""
    used = sum(event.charge_ah or 0.0 for event in log if not event.is_charge)
    put_in = sum(event.charge_ah or 0.0 for event in log if event.is_charge)
    count = count_charge(log)

    assert max(used, put_in) - 1e-9 <= count.charge_ah <= used + put_in + 1e-9


@given(EVENTS, st.floats(0, 5))
@settings(max_examples=40, deadline=None)
def test_the_count_never_falls_as_the_log_grows(log, charge_ah):
    """One more flight or charge adds or leaves."""
    before = count_charge(log).charge_ah

    assert before <= count_charge([*log, flight(charge_ah)]).charge_ah + 1e-9
    assert before <= count_charge([*log, charge(charge_ah)]).charge_ah + 1e-9


@given(st.lists(st.floats(0, 1), max_size=20))
@settings(max_examples=40, deadline=None)
def test_a_path_back_and_forth_counts_both_ways(states):
    """Going back over the same states doubles the cycles."""
    there_and_back = [*states, *reversed(states)]

    assert 2 * cycles_from_states(states) == pytest.approx(cycles_from_states(there_and_back))


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: count_charge([flight(-0.1)]), "charge must be 0 Ah or more, got -0.1"),
        (lambda: count_charge([charge(float("inf"))]), "charge must be 0 Ah or more, got inf"),
        (lambda: equivalent_full_cycles(1.0, 0.0), "rated capacity must be above 0 Ah, got 0"),
        (lambda: equivalent_full_cycles(-1.0, 2.0), "charge must be 0 Ah or more, got -1"),
        (
            lambda: cycles_from_states([0.5, 1.2]),
            "state of charge must be between 0 and 1, got 1.2",
        ),
    ],
)
def test_out_of_range_is_refused(call, message):
    """Each refusal names what it found."""
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        call()
