"""Cycle counting: ASTM E1049-85 (2017) section 5.4.4, figure 6, and the definition of a full cycle.

Rainflow counting is no figure of the program; the rainflow package stands for it in these tests.
"""

import pytest
import rainflow

from buildbook.figures.laws.packs.cycles import cycles_from_states, equivalent_full_cycles

STATES = [1.0, 0.3, 1.0, 0.6, 0.8, 0.2, 1.0, 0.5, 1.0]


@pytest.fixture(scope="module")
def loads(rows):
    """The turning points of the standard's example."""
    return [float(row["load_unitless"]) for row in rows("monitoring/astm_rainflow.csv")]


def test_y02_half_of_the_path(loads):
    """Y02, computed: ranges times counts are half of the path, as our counter has it."""
    least, most = min(loads), max(loads)
    states = [(load - least) / (most - least) for load in loads]
    counted = sum(size * count for size, count in rainflow.count_cycles(loads))

    assert 23 == counted
    assert counted / (most - least) == pytest.approx(cycles_from_states(states), rel=1e-12)


def test_y04_equivalent_full_cycles():
    """Y04, computed: 2.2 full cycles, by the path and by the depths of Y03."""
    by_depth = sum(size * count for size, count in rainflow.count_cycles(STATES))

    assert 2.2 == pytest.approx(cycles_from_states(STATES), rel=1e-9)
    assert by_depth == pytest.approx(cycles_from_states(STATES), rel=1e-9)


def test_y05_own_packs(rows):
    """Y05, computed from the NASA battery set (Saha and Goebel 2007): B0005, rated 2 Ah."""
    table = rows("batteries/b0005_capacity.csv")
    charge_ah = sum(float(row["capacity_ah"]) for row in table)

    assert 132.090 == pytest.approx(equivalent_full_cycles(charge_ah, 2.0), rel=1e-5)
