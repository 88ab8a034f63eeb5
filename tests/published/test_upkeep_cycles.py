"""Cycle counting: ASTM E1049-85 (2017) section 5.4.4, figure 6, and the definition of a full cycle.

Rainflow counting is no figure of the program; the rainflow package stands for it in these tests.
"""

import pytest

from buildbook.figures.laws.packs.cycles import equivalent_full_cycles

STATES = [1.0, 0.3, 1.0, 0.6, 0.8, 0.2, 1.0, 0.5, 1.0]


@pytest.fixture(scope="module")
def loads(rows):
    """The turning points of the standard's example."""
    return [float(row["load_unitless"]) for row in rows("monitoring/astm_rainflow.csv")]


def test_y05_own_packs(rows):
    """Y05, computed from the NASA battery set (Saha and Goebel 2007): B0005, rated 2 Ah."""
    table = rows("batteries/b0005_capacity.csv")
    charge_ah = sum(float(row["capacity_ah"]) for row in table)

    assert 132.090 == pytest.approx(equivalent_full_cycles(charge_ah, 2.0), rel=1e-5)
