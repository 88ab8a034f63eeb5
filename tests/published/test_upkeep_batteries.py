"""Battery ageing: NASA battery set, B. Saha and K. Goebel 2007 (B0005, B0007).

Values are worked out from the published data with the method named; 'reproduced' where the figure
itself was found in print.
"""

import math
from statistics import linear_regression

import pytest

from buildbook.figures.laws.packs.cycles import equivalent_full_cycles
from buildbook.figures.laws.statistics.trend import (
    theil_sen,
)
from buildbook.report.packs.like_conditions import at_temperature, warmth_ratio

RATED_AH = 2.0


@pytest.fixture(scope="module")
def cell(rows):
    """Discharge numbers and capacities in Ah of a cell by name."""

    def read(name):
        table = rows(f"batteries/{name}_capacity.csv")
        return (
            [int(row["discharge_number"]) for row in table],
            [float(row["capacity_ah"]) for row in table],
        )

    return read


@pytest.fixture(scope="module")
def sweeps(rows):
    """Discharges before each sweep, Re and Rct in ohm, of a cell by name."""

    def read(name):
        table = rows(f"batteries/{name}_resistance.csv")
        return tuple(
            [float(row[key]) for row in table] for key in ("discharges_before", "re_ohm", "rct_ohm")
        )

    return read


@pytest.mark.parametrize(
    ("name", "charge_ah", "of_rated", "of_first"),
    [("b0005", 264.180349, 132.090, 142.301), ("b0007", 276.262796, 138.131, 146.090)],
)
def test_b13_to_b15_equivalent_full_cycles(cell, name, charge_ah, of_rated, of_first):
    """B13, B14, B15, computed: charge taken out, and cycles of rated and of own first capacity."""
    capacities = cell(name)[1]
    total = math.fsum(capacities)

    assert charge_ah == pytest.approx(total, rel=1e-7)
    assert of_rated == pytest.approx(equivalent_full_cycles(total, RATED_AH), rel=1e-5)
    assert of_first == pytest.approx(equivalent_full_cycles(total, capacities[0]), rel=1e-5)


@pytest.mark.parametrize(
    ("row", "name", "slope", "low", "high"),
    [
        ("B20", "b0005", -0.00383568, -0.00395675, -0.00373524),
        ("B21", "b0007", -0.00322789, -0.00331335, -0.00314065),
    ],
)
def test_b20_b21_theil_sen(cell, row, name, slope, low, high):
    """B20 and B21, computed: Theil-Sen slope with 95 % limits."""
    line = theil_sen(*cell(name))

    assert (slope, low, high) == pytest.approx(
        (line.slope, line.slope_low, line.slope_high), rel=1e-5
    ), row


@pytest.mark.parametrize(
    ("row", "name", "own", "end", "known", "squares", "robust"),
    [
        ("B31", "b0005", False, 125, 62, 205, 130),
        ("B32", "b0005", True, 101, 50, 229, 130),
        ("B33", "b0007", True, 124, 62, 162, 114),
    ],
)
def test_b31_to_b33_straight_lines_at_half_life(cell, row, name, own, end, known, squares, robust):
    """B31, B32, B33, computed: what straight lines forecast; the baselines of the forecast."""
    numbers, capacities = cell(name)
    threshold = 0.8 * capacities[0] if own else 1.4

    def reached(line):
        return math.floor((threshold - line.intercept) / line.slope) + 1

    below = (at for at, read in zip(numbers, capacities, strict=True) if read < threshold)
    assert end == next(below), row
    assert known == end // 2
    assert squares == reached(linear_regression(numbers[:known], capacities[:known]))
    assert robust == reached(theil_sen(numbers[known - 30 : known], capacities[known - 30 : known]))


@pytest.mark.parametrize(("celsius", "ratio"), [(5, 2.065), (15, 1.419)])
def test_resistance_and_temperature(celsius, ratio):
    """R(T)/R(25 °C) at E_a 25 kJ/mol: exp(3006.8·(1/T - 1/298.15)); Arrhenius, E_a from memory."""
    assert ratio == pytest.approx(warmth_ratio(celsius + 273.15, 298.15, 25_000), abs=0.001)
    assert 10.0 == pytest.approx(at_temperature(10.0 * ratio, celsius + 273.15, 298.15), rel=0.001)
