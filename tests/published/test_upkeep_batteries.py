"""Battery ageing: NASA battery set, B. Saha and K. Goebel 2007 (B0005, B0007).

Values are worked out from the published data with the method named; 'reproduced' where the figure
itself was found in print.
"""

import math
from statistics import median

import pytest

from buildbook.figures.laws.packs.cycles import equivalent_full_cycles
from buildbook.figures.laws.packs.pack_limits import (
    DEFAULT_LIMIT,
    PACK_LIMITS,
    threshold_capacity_ah,
)
from buildbook.figures.laws.statistics.trend import (
    below_for_good,
    first_below,
    least_squares,
    step_ups,
    theil_sen,
)

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
    ("row", "name", "share", "of_rated", "expected"),
    [
        ("B05", "b0005", 0.7, True, 125),
        ("B05", "b0007", 0.7, True, None),
        ("B07", "b0005", 0.8, False, 101),
        ("B08", "b0007", 0.8, False, 124),
        ("B09", "b0005", 0.8, True, 75),
        ("B09", "b0007", 0.8, True, 86),
        ("B12", "b0005", 0.9, False, 64),
        ("B12", "b0007", 0.9, False, 66),
    ],
)
def test_b05_to_b12_first_below(cell, row, name, share, of_rated, expected):
    """B05, B07 and B09 reproduced, the others computed: first discharge below a share."""
    numbers, capacities = cell(name)
    threshold = threshold_capacity_ah(share, RATED_AH if of_rated else capacities[0])

    assert expected == first_below(numbers, capacities, threshold), row


@pytest.mark.parametrize(
    ("row", "name", "of_rated", "expected"),
    [
        ("B10", "b0005", True, 91),
        ("B10", "b0007", True, 94),
        ("B11", "b0005", False, 105),
        ("B11", "b0007", False, 124),
    ],
)
def test_b10_b11_below_for_good(cell, row, name, of_rated, expected):
    """B10 and B11, computed: from where capacity stays below 80 % of rated or of its own first."""
    numbers, capacities = cell(name)
    threshold = threshold_capacity_ah(0.8, RATED_AH if of_rated else capacities[0])

    assert expected == below_for_good(numbers, capacities, threshold), row


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


def test_b16_b17_b18_fade_line_of_b0005(cell):
    """B16, B17, B18, computed: least squares over all discharges of B0005."""
    line = least_squares(*cell("b0005"))

    assert -0.00386661436 == pytest.approx(line.slope, rel=1e-6)
    assert 1.89923099 == pytest.approx(line.intercept, rel=1e-6)
    assert 0.97562819 == pytest.approx(line.r_squared, rel=1e-6)
    assert 0.02981564 == pytest.approx(line.residual_sd, rel=1e-6)


def test_b19_fade_line_of_b0007(cell):
    """B19, computed: least squares over all discharges of B0007."""
    assert -0.00326948104 == pytest.approx(least_squares(*cell("b0007")).slope, rel=1e-6)


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
    ("row", "name", "expected"),
    [("B22", "b0005", (20, 31, 48, 90, 120, 151)), ("B23", "b0007", (20, 31, 48, 90, 151))],
)
def test_b22_b23_step_ups(cell, row, name, expected):
    """B22 and B23, computed: discharges more than 0.025 Ah above the one before."""
    assert expected == step_ups(*cell(name), 0.025), row


def test_b24_hours_between_discharges(rows, cell):
    """B24, computed (method not in the program): every step up follows a rest of 8 h or more."""
    table = rows("batteries/b0005_capacity.csv")
    hours = [float(row["hours_since_previous_discharge_start"]) for row in table[1:]]
    rested = {number for number, gap in enumerate(hours, start=2) if gap >= 8.0}

    assert 4.911 == pytest.approx(median(hours), rel=1e-3)
    assert 14 == len(rested)
    assert set(step_ups(*cell("b0005"), 0.025)) <= rested


@pytest.mark.parametrize(("name", "expected"), [("b0005", 1.06049e-4), ("b0007", 1.79772e-4)])
def test_b29_trend_of_resistance(sweeps, name, expected):
    """B29, computed: least squares of Re on the discharges done before."""
    done, re, _ = sweeps(name)

    assert expected == pytest.approx(least_squares(done, re).slope, rel=1e-4)


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

    assert end == first_below(numbers, capacities, threshold), row
    assert known == end // 2
    assert squares == reached(least_squares(numbers[:known], capacities[:known]))
    assert robust == reached(theil_sen(numbers[known - 30 : known], capacities[known - 30 : known]))


@pytest.mark.parametrize(
    ("row", "position", "share", "reference", "source"),
    [
        ("E01", 0, 0.70, "rated", "NASA battery set"),
        ("E02", 1, 0.80, "own first", "FIST 3-6"),
        ("E03", 2, 0.90, "own first", "FIST 3-6"),
        ("E04", 3, 0.80, "rated", "IEEE 450"),
        ("E05", 4, 0.80, "rated", "USABC"),
        ("E06", 5, 0.60, "rated", "IEC 61960-3"),
        ("E07", 6, 0.80, "rated", "common practice, no source"),
    ],
)
def test_e01_to_e07_end_of_life_limits(row, position, share, reference, source):
    """E01 to E07: found in print (E01 to E03), from memory (E04 to E06), common practice (E07)."""
    limit = PACK_LIMITS[position]

    assert (share, reference) == (limit.share, limit.reference), row
    assert source in limit.source


def test_e01_and_e07_in_use():
    """E01: 30 % fade of 2 Ah is 1.4 Ah. E07, common practice: 80 % of rated is the default."""
    assert 1.4 == pytest.approx(threshold_capacity_ah(PACK_LIMITS[0].share, RATED_AH))
    assert PACK_LIMITS[6] == DEFAULT_LIMIT
