"""Trend estimation: Sen 1968, J. Am. Stat. Assoc. 63:1379-1389; NIST StRD, Norris (certified)."""

import pytest
import statsmodels.api
from scipy import stats

from buildbook.figures.laws.statistics.trend import (
    least_squares,
    mean_limits,
    prediction_limits,
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


def test_t07_to_t11_least_squares_on_norris(norris):
    """T07 to T11, NIST StRD Norris, certified; reproduced."""
    line = least_squares(*norris)

    assert 1.00211681802045 == pytest.approx(line.slope, rel=1e-10)
    assert -0.262323073774029 == pytest.approx(line.intercept, rel=1e-10)
    assert 0.000429796848199937 == pytest.approx(line.slope_se, rel=1e-9)
    assert 0.232818234301152 == pytest.approx(line.intercept_se, rel=1e-9)
    assert 0.884796396144373 == pytest.approx(line.residual_sd, rel=1e-10)
    assert 0.999993745883712 == pytest.approx(line.r_squared, rel=1e-12)


@pytest.mark.parametrize(
    ("row", "x", "value", "low", "high"),
    [
        ("T13", 500.0, 500.796086, 498.971794, 502.620378),
        ("T14", 1000.0, 1001.854495, 999.962292, 1003.746698),
        ("T15", 1200.0, 1202.277859, 1200.331530, 1204.224187),
    ],
)
def test_t13_to_t15_prediction_limits(norris, row, x, value, low, high):
    """T13, T14, T15, computed two ways: fitted value and 95 % limits of one new value."""
    at = prediction_limits(least_squares(*norris), x)

    assert (value, low, high) == pytest.approx((at.value, at.low, at.high), rel=1e-8), row


def test_t16_limits_of_the_line(norris):
    """T16, computed: 95 % limits of the line itself at 500."""
    at = mean_limits(least_squares(*norris), 500.0)

    assert (500.488196, 501.103975) == pytest.approx((at.low, at.high), rel=1e-8)


@pytest.mark.parametrize("name", ["sen", "norris"])
def test_theil_sen_agrees_with_scipy(request, name):
    """Cross-check: slope and limits as scipy.stats.theilslopes gives them."""
    x, y = request.getfixturevalue(name)
    theirs = stats.theilslopes(y, x, 0.95, method="separate")
    ours = theil_sen(x, y, level=0.95)

    assert (theirs.slope, theirs.low_slope, theirs.high_slope) == pytest.approx(
        (ours.slope, ours.slope_low, ours.slope_high), rel=1e-12
    )


def test_least_squares_agrees_with_statsmodels(norris):
    """Cross-check: prediction limits as statsmodels gives them."""
    x, y = norris
    model = statsmodels.api.OLS(y, statsmodels.api.add_constant(x)).fit()
    frame = model.get_prediction([[1.0, 700.0]]).summary_frame(alpha=0.05)
    at = prediction_limits(least_squares(x, y), 700.0)

    assert frame["obs_ci_lower"].iloc[0] == pytest.approx(at.low, rel=1e-9)
    assert frame["obs_ci_upper"].iloc[0] == pytest.approx(at.high, rel=1e-9)
