"""Control charts: NIST/SEMATECH e-Handbook of Statistical Methods, doi:10.18434/M32189.

Sections 6.3.2.2 (individuals) and 6.3.2.4 (EWMA). The data were recalled, not read again.
"""

import pytest

from buildbook.figures.laws.statistics.drift import ewma_chart, individuals_chart


@pytest.fixture(scope="module")
def ewma(rows):
    """The EWMA chart of the handbook's 20 values."""
    values = [float(row["value_unitless"]) for row in rows("monitoring/nist_ewma.csv")]
    return ewma_chart(values, target=50.0, sd=2.0539, weight=0.3, width=3.0)


@pytest.fixture(scope="module")
def individuals(rows):
    """The individuals chart of the handbook's 10 batches."""
    table = rows("monitoring/nist_individuals.csv")
    return individuals_chart([float(row["flowrate_unit_not_given"]) for row in table])


def test_c01_averages(ewma):
    """C01, NIST 6.3.2.4, reproduced (the sixth from memory)."""
    seen = [ewma.points[number - 1].value for number in (1, 2, 6, 19, 20)]

    assert [50.60, 49.52, 49.21, 51.94, 51.99] == pytest.approx(seen, abs=0.005)


def test_c02_steady_limits(ewma):
    """C02, NIST 6.3.2.4, reproduced: the print cuts the lower limit, 47.4115."""
    assert (47.41157, 52.58843) == pytest.approx((ewma.steady_low, ewma.steady_high), abs=1e-5)


def test_c03_early_limits_are_narrower(ewma):
    """C03, computed: exact limits at the first sample."""
    first = ewma.points[0]

    assert (48.15149, 51.84851) == pytest.approx((first.low, first.high), abs=1e-5)


def test_c03_exact_limits_of_every_point(ewma, rows):
    """C03, computed: the exact limits of all twenty samples."""
    table = rows("monitoring/nist_ewma.csv")
    low = [float(row["exact_lcl_3s"]) for row in table]
    high = [float(row["exact_ucl_3s"]) for row in table]

    assert low == pytest.approx([point.low for point in ewma.points], abs=1e-4)
    assert high == pytest.approx([point.high for point in ewma.points], abs=1e-4)


def test_c04_no_signal(ewma):
    """C04, NIST 6.3.2.4, reproduced: no point is outside, by the steady limits either."""
    assert () == ewma.signals
    assert all(ewma.steady_low <= point.value <= ewma.steady_high for point in ewma.points)


def test_c05_to_c09_individuals(individuals):
    """C05 to C09, NIST 6.3.2.2, reproduced (C08 computed)."""
    assert 50.81 == pytest.approx(individuals.centre, rel=1e-9)
    assert 1.877778 == pytest.approx(individuals.mean_range, rel=1e-6)
    assert (45.81591, 55.80409) == pytest.approx((individuals.low, individuals.high), abs=1e-5)
    assert 6.1347 == pytest.approx(individuals.range_high, rel=1e-6)
    assert () == individuals.outside
