"""Flight totals: R. Craciun 2025, nano quadrotor flights, doi:10.1007/978-3-031-87537-3_10.

Plain sums over the published file (CC BY-SA 4.0). They hold the file that other tests build a
hangar from; the totals of that hangar are checked where hangars are folded.
"""

from statistics import median

import pytest


@pytest.fixture(scope="module")
def flights(rows):
    """The 155 flights, numbers as floats."""
    table = rows("batteries/lipo_nano_flights.csv")
    return [{key: float(value) for key, value in row.items()} for row in table]


def test_f01_totals(flights):
    """F01, computed: flights, seconds, hours."""
    total = sum(flight["duration_s"] for flight in flights)

    assert 155 == len(flights)
    assert 12915.11 == pytest.approx(total, rel=1e-6)
    assert 3.587531 == pytest.approx(total / 3600, rel=1e-6)


def test_f02_median_and_longest(flights):
    """F02, computed: median flight, and the longest, file 47."""
    longest = max(flights, key=lambda flight: flight["duration_s"])

    assert 83.89 == pytest.approx(median(flight["duration_s"] for flight in flights), rel=1e-6)
    assert (133.93, 47) == pytest.approx((longest["duration_s"], longest["flight_file"]), rel=1e-6)


def test_f03_flights_under_three_volts(flights):
    """F03, computed: flights whose lowest voltage is under 3.0 V."""
    assert 22 == sum(flight["min_v"] < 3.0 for flight in flights)


def test_f04_lowest_voltage(flights):
    """F04, computed: the lowest voltage, in file 122."""
    lowest = min(flights, key=lambda flight: flight["min_v"])

    assert (2.6921, 122) == pytest.approx((lowest["min_v"], lowest["flight_file"]), rel=1e-6)


def test_f05_median_drop(flights):
    """F05, computed: start minus lowest."""
    drops = [flight["start_v"] - flight["min_v"] for flight in flights]

    assert 0.8393 == pytest.approx(median(drops), rel=1e-4)


def test_f06_median_rise(flights):
    """F06, computed: end minus lowest; the voltage under load is not the resting one."""
    rises = [flight["end_v"] - flight["min_v"] for flight in flights]

    assert 0.0739 == pytest.approx(median(rises), rel=1e-4, abs=5e-5)


def test_f07_flights_not_fully_charged(flights):
    """F07, computed: flights that start under 3.9 V."""
    assert 22 == sum(flight["start_v"] < 3.9 for flight in flights)
