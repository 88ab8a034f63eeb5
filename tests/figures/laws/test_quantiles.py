"""Quantiles against scipy, and what they refuse."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from buildbook.figures.laws.statistics.quantiles import (
    chi_square_quantile,
    normal_quantile,
    t_quantile,
)

SHARES = (1e-6, 0.001, 0.025, 0.05, 0.3, 0.5, 0.8, 0.95, 0.975, 0.999, 1 - 1e-6)


@pytest.mark.parametrize("share", SHARES)
def test_normal_quantile_agrees_with_scipy(share):
    """The z of a share."""
    assert stats.norm.ppf(share) == pytest.approx(normal_quantile(share), rel=1e-10, abs=1e-12)


@pytest.mark.parametrize("freedom", [0.85, 1, 2, 3.4, 5, 34, 200, 5000])
@pytest.mark.parametrize("share", SHARES)
def test_t_quantile_agrees_with_scipy(share, freedom):
    """The t of a share, whole and broken degrees of freedom."""
    expected = stats.t.ppf(share, freedom)

    assert expected == pytest.approx(t_quantile(share, freedom), rel=1e-8, abs=1e-9)


@pytest.mark.parametrize("freedom", [1, 2, 3, 10, 22, 63.5, 400, 4000])
@pytest.mark.parametrize("share", SHARES)
def test_chi_square_quantile_agrees_with_scipy(share, freedom):
    """The chi-square of a share."""
    expected = stats.chi2.ppf(share, freedom)

    assert expected == pytest.approx(chi_square_quantile(share, freedom), rel=1e-9)


@given(st.floats(0.001, 0.999), st.floats(0.001, 0.999), st.floats(0.5, 300))
@settings(max_examples=30, deadline=None)
def test_quantiles_rise_with_the_share(one, other, freedom):
    """More share, larger quantile."""
    low, high = sorted((one, other))

    assert normal_quantile(low) <= normal_quantile(high)
    assert t_quantile(low, freedom) <= t_quantile(high, freedom)
    assert chi_square_quantile(low, freedom) <= chi_square_quantile(high, freedom)


@pytest.mark.parametrize("share", [0.0, 1.0, -0.1, 1.5])
def test_a_share_out_of_range_is_refused(share):
    """No quantile of 0, of 1 or beyond."""
    with pytest.raises(
        ValueError, match=re.escape(f"share must be between 0 and 1, got {share:g}")
    ):
        normal_quantile(share)


@pytest.mark.parametrize("freedom", [0.0, -3.0])
@pytest.mark.parametrize("quantile", [t_quantile, chi_square_quantile])
def test_freedom_out_of_range_is_refused(quantile, freedom):
    """Degrees of freedom are above 0 and finite."""
    with pytest.raises(
        ValueError, match=re.escape(f"degrees of freedom must be above 0, got {freedom:g}")
    ):
        quantile(0.5, freedom)
