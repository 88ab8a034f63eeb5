"""Trend estimation: Sen 1968, J. Am. Stat. Assoc. 63:1379-1389; NIST StRD, Norris (certified)."""

import pytest
from scipy import stats

from buildbook.figures.laws.statistics.trend import (
    theil_sen,
)


@pytest.fixture(scope="module")
def sen(rows):
    """The seven pairs of Sen's example (from memory)."""
    table = [tuple(map(float, row.values())) for row in rows("monitoring/sen_1968.csv")]
    return tuple(zip(*table, strict=True))


@pytest.fixture(scope="module")
def norris(rows):
    """The 36 pairs of Norris: ozone, reference and customer."""
    table = [tuple(map(float, row.values())) for row in rows("monitoring/nist_norris.csv")]
    return tuple(zip(*table, strict=True))


def test_t01_theil_sen_slope(sen):
    """T01, Sen 1968 (memory), computed: the slope is 4."""
    assert 4.0 == pytest.approx(theil_sen(*sen).slope, rel=1e-9)


@pytest.mark.parametrize(
    ("row", "level", "low", "high"),
    [("T02", 0.93, 3.7142857, 4.375), ("T03", 0.90, 3.75, 4.1818182)],
)
def test_t02_t03_limits_after_sen(sen, row, level, low, high):
    """T02, Sen 1968 (3.71 and 4.38, memory), and T03, computed: limits of the slope."""
    line = theil_sen(*sen, level=level)

    assert (low, high) == pytest.approx((line.slope_low, line.slope_high), rel=1e-6), row


def test_t05_both_habits_of_the_intercept(sen):
    """T05, computed (6.0 is Sen's, memory): the two usual intercepts differ."""
    assert 4.0 == pytest.approx(theil_sen(*sen, intercept="of-medians").intercept, rel=1e-9)
    assert 6.0 == pytest.approx(theil_sen(*sen, intercept="of-rests").intercept, rel=1e-9)


def test_t06_theil_sen_on_norris(norris):
    """T06, computed: robust slope and intercept."""
    line = theil_sen(*norris)

    assert 1.00219684 == pytest.approx(line.slope, rel=1e-6)
    assert -0.06401582 == pytest.approx(line.intercept, rel=1e-6)


@pytest.mark.parametrize("name", ["sen", "norris"])
def test_theil_sen_agrees_with_scipy(request, name):
    """Cross-check: slope and limits as scipy.stats.theilslopes gives them."""
    x, y = request.getfixturevalue(name)
    theirs = stats.theilslopes(y, x, 0.95, method="separate")
    ours = theil_sen(x, y, level=0.95)

    assert (theirs.slope, theirs.low_slope, theirs.high_slope) == pytest.approx(
        (ours.slope, ours.slope_low, ours.slope_high), rel=1e-12
    )
