"""Laws that are no straight formula: what they drop, where they end, what they refuse."""

import math
import random
import re
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.figures.laws.aero import propeller
from buildbook.figures.laws.airframe import allocation, balance
from buildbook.figures.laws.airframe.allocation import controllability_index, losses_held
from buildbook.figures.laws.airframe.mass_classes import mass_bands
from buildbook.figures.laws.linear import determinant, matrix_rank, right_angled, solved
from buildbook.figures.laws.numbers import interpolated
from buildbook.figures.laws.packs import battery, discharge
from buildbook.figures.laws.propulsion import bench, motor


def refused(expected):
    """The whole text of a refusal; ~ stands for a space that does not break."""
    words = expected.replace("~", "\N{NO-BREAK SPACE}")
    return pytest.raises(ValueError, match=f"^{re.escape(words)}$")


# ----------------------------------------------------------------------------- interpolation


def test_interpolation_hits_rows_and_halves():
    """Rows give themselves, the middle gives the mean."""
    assert [10, 15, 20, 40] == [
        interpolated("x", x, (1, 2, 4), (10, 20, 40)) for x in (1, 1.5, 2, 4)
    ]


@pytest.mark.parametrize(
    ("xs", "ys", "value", "expected"),
    [
        ((1.0, 2.0), (1.0, 2.0), 2.1, "x must be from 1 to 2, got 2.1"),
        ((1.0, 2.0), (1.0, 2.0), 0.9, "x must be from 1 to 2, got 0.9"),
        ((1.0, 2.0, 5.0), (1.0, 2.0, 3.0), 6.0, "x must be from 1 to 5, got 6"),
        ((1.0, 2.0), (1.0, 2.0), math.nan, "x must be from 1 to 2, got nan"),
        ((1.0, 1.0), (1.0, 2.0), 1.0, "the rows of x must rise"),
        ((1.0,), (1.0,), 1.0, "need two rows or more of x, got 1 with 1 values"),
        ((1.0, 2.0), (1.0,), 1.0, "need two rows or more of x, got 2 with 1 values"),
    ],
)
def test_interpolation_refuses(xs, ys, value, expected):
    """Outside the rows, or with rows that are none, it refuses."""
    with refused(expected):
        interpolated("x", value, xs, ys)


def test_propeller_table_refuses_outside():
    """A thrust that no measured row gives is refused with what the rows give."""
    with refused("thrust_n must be from 0.00049 to 0.00784, got 1"):
        propeller.table_rotation_for_thrust_rev_s(1.0, 1.225, 0.1, (2.0, 8.0), (1.0, 1.0))
    with refused("rotation_rev_s must be from 10 to 20, got 30"):
        propeller.coefficients_at(30.0, (10.0, 20.0), (0.1, 0.1), (0.05, 0.05))
    with refused("figure of merit must be at most 1, got 1.99471 from the coefficients"):
        propeller.figure_of_merit(0.25, 0.05)


# ------------------------------------------------------------------------------------- bench


def row(throttle, thrust_n, voltage_v=12.0, current_a=None, **more):
    current = 2 * thrust_n if current_a is None else current_a
    return bench.BenchRow(throttle, voltage_v, current, thrust_n, **more)


SWEEP = (row(0.25, 1.0), row(0.5, 2.0), row(0.75, 3.0), row(1.0, 4.0))


def test_bench_drops_what_it_cannot_use():
    """Standing rows and those that do not rise go; order does not matter."""
    rows = (row(0.0, -0.01), row(0.6, 1.9), *reversed(SWEEP))
    table = bench.bench_table(rows, 1.2)

    assert (5, 4, 3, 2) == table.rows
    assert (3.0, 6.0, 9.0, 12.0) == table.applied_v
    assert (24.0, 48.0, 72.0, 96.0) == table.power_w


def test_bench_keeps_rows_of_a_sagging_supply():
    """12 V, then 9.6 V at full throttle: as much as 80 % of 12 V, between its neighbours."""
    table = bench.bench_table((*SWEEP[:3], row(1.0, 3.2, voltage_v=9.6, current_a=8.0)), 1.2)

    assert (0, 1, 2, 3) == table.rows
    assert pytest.approx((3.0, 6.0, 9.0, 9.6)) == table.applied_v
    at_12_v = bench.bench_full_throttle(table, 1.2, 12.0)
    assert pytest.approx(3.2 * 1.25**1.65, rel=1e-12) == at_12_v.thrust_n


def test_a_row_that_stands_out_does_not_take_the_others_with_it():
    """The fewest rows go: the one of 9 N, not the two behind it."""
    table = bench.bench_table((*SWEEP[:2], row(0.6, 9.0), *SWEEP[2:]), 1.2)

    assert (0, 1, 3, 4) == table.rows


@pytest.mark.parametrize(
    "twin",
    [
        row(0.25, 1.5, current_a=3.0),
        row(0.3, 1.0, current_a=3.0),
        row(0.3, 1.5, current_a=2.0),
    ],
    ids=["throttle", "thrust", "power"],
)
def test_bench_drops_a_row_that_does_not_rise(twin):
    """Throttle, thrust and power must each rise; a tie in one is enough to go."""
    table = bench.bench_table((SWEEP[0], twin, *SWEEP[1:]), 1.2)

    assert (1.0, 2.0, 3.0, 4.0) == table.thrust_n
    assert (0, 2, 3, 4) == table.rows


def test_bench_needs_two_rows():
    """One row is no table."""
    with refused("need two usable bench rows or more, got 1 of 2"):
        bench.bench_table((row(0.5, 1.0), row(0.6, 0.9)), 1.2)
    with refused("throttle must be from 0 to 1, got 1.5"):
        bench.bench_table((row(0.5, 1.0), row(1.5, 2.0)), 1.2)


def test_bench_point_at_the_bench_conditions():
    """Between rows, on the line; V times A is the power."""
    found = bench.bench_point(bench.bench_table(SWEEP, 1.2), 2.5, 1.2, 12.0)

    assert bench.BenchPoint(throttle=0.625, thrust_n=2.5, power_w=60.0, current_a=5.0) == found


def test_bench_point_at_both_ends():
    """The first and the last row belong to the table."""
    table = bench.bench_table(SWEEP, 1.2)

    assert 0.25 == bench.bench_point(table, 1.0, 1.2, 12.0).throttle
    assert 1.0 == bench.bench_point(table, 4.0, 1.2, 12.0).throttle


def test_bench_point_in_thin_air():
    """At half the density a thrust is read at twice, and the power halved: C_T, C_P of a speed."""
    found = bench.bench_point(bench.bench_table(SWEEP, 1.2), 1.5, 0.6, 12.0)

    assert bench.BenchPoint(throttle=0.75, thrust_n=1.5, power_w=36.0, current_a=3.0) == found


def test_bench_point_at_another_voltage():
    """Throttle times voltage is kept; power too, so the current goes the other way."""
    found = bench.bench_point(bench.bench_table(SWEEP, 1.2), 2.0, 1.2, 10.0)

    assert 0.6 == pytest.approx(found.throttle, rel=1e-12)
    assert (48.0, 4.8) == pytest.approx((found.power_w, found.current_a), rel=1e-12)


def test_bench_point_refuses_what_the_rows_do_not_cover():
    """Thrust, voltage and throttle each with its bound."""
    table = bench.bench_table(SWEEP, 1.2)
    told = "the thrust of a motor must be from {} for this bench table, got {}"
    with refused(told.format("102 g to 408 g", "459 g")):
        bench.bench_point(table, 4.5, 1.2, 12.0)
    with refused(told.format("51 g to 204 g", "408 g")):
        bench.bench_point(table, 4.0, 0.6, 12.0)
    volts = "the voltage must be from 9.00 V to 16.20 V for this bench table, got 16.80 V"
    with refused(volts):
        bench.bench_point(table, 2.0, 1.2, 16.8)
    with refused("the throttle must be at most 100 %, got 120 % at 10.00 V"):
        bench.bench_point(table, 4.0, 1.2, 10.0)


def test_bench_full_throttle():
    """Last row; density to the power 1, voltage 1.65 for thrust and 2.5 for power."""
    table = bench.bench_table(SWEEP, 1.2)
    same = bench.bench_full_throttle(table, 1.2, 12.0)
    other = bench.bench_full_throttle(table, 0.6, 13.2)

    assert bench.BenchPoint(throttle=1.0, thrust_n=4.0, power_w=96.0, current_a=8.0) == same
    assert 2.0 * 1.1**1.65 == pytest.approx(other.thrust_n, rel=1e-12)
    assert 48.0 * 1.1**2.5 == pytest.approx(other.power_w, rel=1e-12)
    assert other.power_w / 13.2 == pytest.approx(other.current_a, rel=1e-12)
    sagging = (*SWEEP[:3], row(1.0, 4.0, voltage_v=11.6), row(0.1, 0.5))
    lower = bench.bench_full_throttle(bench.bench_table(sagging, 1.2), 1.2, 11.6)

    assert 4.0 == lower.thrust_n
    nearly = bench.bench_table((*SWEEP[:3], row(0.99, 4.0)), 1.2)

    assert 4.0 == bench.bench_full_throttle(nearly, 1.2, 12.0).thrust_n
    with refused("the bench rows must reach full throttle, got 75 % at the most"):
        bench.bench_full_throttle(bench.bench_table(SWEEP[:3], 1.2), 1.2, 12.0)


# ---------------------------------------------------------------------------------- batteries


@pytest.mark.parametrize("chemistry", sorted(battery.CELL_CURVES))
def test_curve_rises_and_inverts(chemistry):
    """Every curve rises, is read back to where it came from, and says it has no source."""
    curve = battery.CELL_CURVES[chemistry]

    assert list(curve.volts) == sorted(set(curve.volts))
    assert (0.0, 1.0) == (curve.states[0], curve.states[-1])
    assert curve.volts[2] < curve.nominal_v + 0.1 < curve.volts[-1] + 0.2
    assert "common practice, no source" == curve.source
    for state in (0.0, 0.07, 0.33, 0.5, 0.96, 1.0):
        volts = battery.open_circuit_cell_v(chemistry, state)

        assert state == pytest.approx(battery.state_of_charge(chemistry, volts), abs=1e-9)


@pytest.mark.parametrize(
    ("chemistry", "charged_v"),
    [("LiPo", 4.20), ("LiHV", 4.35), ("LiIon", 4.20), ("LiFe", 3.65), ("NiMH", 1.45)],
)
def test_a_full_cell_rests_below_its_charge_limit(chemistry, charged_v):
    """Common practice, no source: a full cell rests below the charge limit, above nominal."""
    curve = battery.CELL_CURVES[chemistry]

    assert curve.nominal_v < curve.volts[-1] < charged_v


def test_unknown_chemistry_is_refused():
    """The names that are known are told."""
    with refused("chemistry must be one of LiPo, LiHV, LiIon, LiFe, NiMH, got lead"):
        battery.cell_curve("lead")


@pytest.mark.parametrize(
    ("power_w", "reserve", "cutoff_v", "ended_by"),
    [
        (150.0, 0.2, 3.3, "reserve"),
        (150.0, 0.0, 3.6, "cut-off"),
        (900.0, 0.1, 3.3, "cut-off"),
        (1800.0, 0.0, 1.5, "power limit"),
    ],
)
def test_what_ends_a_discharge(power_w, reserve, cutoff_v, ended_by):
    """Reserve, cut-off under load, or the greatest power: whichever comes first."""
    found = discharge.constant_power_discharge("LiPo", 4, 5.0, 0.027, power_w, reserve, cutoff_v)

    assert ended_by == found.ended_by
    assert found.end_state_of_charge >= reserve
    if ended_by == "cut-off":
        assert 4 * cutoff_v == pytest.approx(found.end_voltage_v, abs=1e-9)
    if ended_by == "power limit":
        open_v = 4 * battery.open_circuit_cell_v("LiPo", found.end_state_of_charge)
        assert power_w == pytest.approx(open_v**2 / (4 * 0.027), rel=1e-9)


def test_discharge_is_converged(monkeypatch):
    """Ten times the steps move the time by less than 1 in 10,000, at the hardest of loads too."""
    for power in (60.0, 400.0, 1000.0):
        coarse = discharge.constant_power_discharge("LiPo", 4, 5.0, 0.02, power, 0.1, 3.0)
        with monkeypatch.context() as patch:
            patch.setattr(discharge, "STEPS", 4000)
            fine = discharge.constant_power_discharge("LiPo", 4, 5.0, 0.02, power, 0.1, 3.0)

        assert fine.duration_s == pytest.approx(coarse.duration_s, rel=1e-4)


def test_discharge_from_less_than_full():
    """Two stretches that meet add up to the whole."""
    whole = discharge.constant_power_discharge("LiIon", 6, 4.0, 0.06, 120.0, 0.2, 2.8)
    upper = discharge.constant_power_discharge("LiIon", 6, 4.0, 0.06, 120.0, 0.6, 2.8)
    lower = discharge.constant_power_discharge("LiIon", 6, 4.0, 0.06, 120.0, 0.2, 2.8, 0.6)

    assert whole.duration_s == pytest.approx(upper.duration_s + lower.duration_s, rel=1e-5)


def test_discharge_of_the_tallest_pack_at_the_least_power():
    """The ends of the ranges meet: 48 cells in series at a hundredth of a watt, far from empty."""
    found = discharge.constant_power_discharge("LiHV", 48, 1.0, 0.1, 0.01, 0.9, 3.3)
    mean_v = 48 * (4.19 + 4.33) / 2

    assert 0.1 * mean_v / 0.01 * 3600 == pytest.approx(found.duration_s, rel=1e-4)


def test_discharge_refusals():
    """A load that ends the flight at once, and a reserve that leaves nothing."""
    with refused(
        "power_w must leave a full cell above the cut-off: that takes 4.325 V at rest, "
        "the curve ends at 4.18 V"
    ):
        discharge.constant_power_discharge("LiPo", 4, 1.0, 0.1, 600.0 * 0.77, 0.2, 3.5)
    with refused("reserve_share must be below the start 0.5, got 0.6"):
        discharge.constant_power_discharge("LiPo", 4, 1.0, 0.02, 50.0, 0.6, 3.3, 0.5)


def test_discharge_is_quick():
    """Best of five under 2 ms, so that every pack of a page can have one."""
    best = math.inf
    for _ in range(5):
        start = time.perf_counter()
        discharge.constant_power_discharge("LiPo", 6, 5.0, 0.02, 400.0, 0.2, 3.3)
        best = min(best, time.perf_counter() - start)

    assert best < 0.002


# ------------------------------------------------------------------------------------- motors


def test_motor_that_cannot_turn_is_refused():
    """The no-load current alone must leave some voltage; a little is enough."""
    with refused("no_load_current_a must be below 20, got 20"):
        motor.full_throttle_rotation_rev_s(1.0, 1000, 0.05, 20.0, 0.05, 1.2, 0.25)

    assert motor.full_throttle_rotation_rev_s(0.5, 1000, 0.05, 0.1, 0.05, 1.2, 0.25) > 1


# ---------------------------------------------------------------------------- balance, layouts


def test_balance_refuses_nonsense():
    """No mass, a missing arm, ballast at the balance itself."""
    with refused("mass_kg must be from 0.0001 to 100~000, got 0"):
        balance.balance_arm_m([0.0, 0.0], [1.0, 2.0])
    with refused("mass_kg must be from 0.0001 to 100~000, got 0"):
        balance.balance_arm_m([], [])
    with refused("need one arm for each mass, got 1 for 2"):
        balance.balance_arm_m([1.0, 1.0], [1.0])
    with refused("part_kg must be from 0 to 100~000, got -1"):
        balance.balance_arm_m([2.0, -1.0], [1.0, 1.0])
    with refused("arms_m must be a finite number, got nan"):
        balance.balance_arm_m([1.0], [math.nan])
    with refused("ballast_arm_m must be at least 0.001 from the wanted arm 0.1, got 0.1"):
        balance.ballast_kg(1.0, 0.2, 0.1, 0.1)


def test_layout_refuses_nonsense():
    """Spins that are none, lengths that differ, a layout that cannot be solved."""
    places = ((0.1, 0.1), (-0.1, 0.1), (-0.1, -0.1), (0.1, -0.1))
    with refused("need one spin for each rotor, got 3 for 4"):
        allocation.allocation_rank(places, (1, -1, 1))
    with refused("a spin must be 1 or -1, got 0"):
        allocation.allocation_rank(places, (1, -1, 1, 0))
    with refused("a spin must be 1 or -1, got 2"):
        allocation.spin_sum((1, 2))
    with refused("the layout must have rank 4, got 3"):
        allocation.demanded_thrusts_n(places, (1, 1, 1, 1), 0.02, 10.0)
    with refused("every rotor must push up in a hover, got a share of -0.05 of the weight"):
        allocation.hover_thrust_shares(places, (1, -1, 1, -1), 0.02, (0.12, 0.0))
    with refused("lost must be from 0 to 3, got 4"):
        controllability_index(places, (1, -1, 1, -1), 0.02, 10.0, 5.0, (4,))
    with refused("need one rotor that is left, got none"):
        controllability_index(places, (1, -1, 1, -1), 0.02, 10.0, 5.0, (0, 1, 2, 3))


def test_a_millimetre_off_holds_nothing_that_exact_places_do_not():
    """The alternating hexa holds no loss, also where its arms are built a millimetre off."""
    drawn = random.Random(3)
    lifted = 0
    for _ in range(30):
        places = [
            (
                0.275 * math.cos(i * math.pi / 3) + drawn.uniform(-1e-3, 1e-3),
                0.275 * math.sin(i * math.pi / 3) + drawn.uniform(-1e-3, 1e-3),
            )
            for i in range(6)
        ]
        spins = (1, -1) * 3
        lifted += controllability_index(places, spins, 0.0165, 15.0, 6.125, (0,)) > 1e-6

        assert (False,) * 6 == losses_held(places, spins, 0.0165, 15.0, 6.125)
    assert lifted > 3
    assert (False,) == losses_held([(0.0, 0.0)], [1], 0.02, 1.0, 5.0)


def test_methods_refuse_numbers_out_of_range():
    """Series, places and vectors are held to the range of their quantity, value by value."""
    places = ((0.1, 0.1), (-0.1, 0.1), (-0.1, -0.1), (0.1, -0.1))
    with refused("positions_m must be a finite number, got nan"):
        allocation.allocation_rank(((math.nan, 0.1),), (1,))
    with refused("positions_m must be a finite number, got inf"):
        allocation.allocation_rank(((0.1, math.inf),), (1,))
    with refused("yaw_arm_m must be from 0.00001 to 10, got 0"):
        allocation.allocation_matrix(places, (1, -1, 1, -1), 0.0)
    with refused("rotors must be from 1 to 100, got 0"):
        allocation.allocation_rank((), ())
    with refused("lift_n must be from 0.0001 to 1~000~000, got 0"):
        allocation.demanded_thrusts_n(places, (1, -1, 1, -1), 0.02, 0.0)
    with refused("weight_n must be from 0.0001 to 1~000~000, got -1"):
        controllability_index(places, (1, -1, 1, -1), 0.02, -1.0, 5.0)
    with refused("max_thrust_n must be from 0.0001 to 1~000~000, got 0"):
        controllability_index(places, (1, -1, 1, -1), 0.02, 5.0, 0.0)
    with refused("rotation_rev_s must be from 0.1 to 5000, got 0"):
        propeller.table_rotation_for_thrust_rev_s(1.0, 1.2, 0.2, (0.0, 90.0), (0.1, 0.1))
    with refused("thrust_coefficient must be from 0.0001 to 1, got 0"):
        propeller.table_rotation_for_thrust_rev_s(1.0, 1.2, 0.2, (10.0, 90.0), (0.0, 0.1))
    with refused("diameter_m must be from 0.005 to 30, got 0"):
        propeller.table_rotation_for_thrust_rev_s(1.0, 1.2, 0.0, (10.0, 90.0), (0.1, 0.1))
    with refused("cell_resistance_ohm must be from 0 to 10, got -1"):
        battery.series_resistance_ohm([0.01, -1.0])
    with refused("need the resistance of one cell or more, got none"):
        battery.series_resistance_ohm([])
    with refused("state_of_charge must be from 0 to 1, got 1.1"):
        battery.open_circuit_cell_v("LiPo", 1.1)
    with refused("cell_v must be from 3 to 4.18, got 4.3"):
        battery.state_of_charge("LiPo", 4.3)
    with refused("current_a must be at most 600 from this pack, got 700"):
        battery.terminal_v(12.0, 0.02, 700.0)


@pytest.mark.parametrize(
    ("name", "value", "bounds"),
    [
        ("cells_in_series", 0, "1 to 48"),
        ("capacity_ah", 0.0, "0.001 to 1000"),
        ("resistance_ohm", -0.01, "0 to 100"),
        ("power_w", 0.0, "0.001 to 1~000~000"),
        ("reserve_share", 0.96, "0 to 0.95"),
        ("cutoff_cell_v", 0.4, "0.5 to 5"),
        ("start_share", 1.1, "0.01 to 1"),
    ],
)
def test_discharge_refuses_numbers_out_of_range(name, value, bounds):
    """Each number of a discharge has its range."""
    usual = {
        "chemistry": "LiPo",
        "cells_in_series": 4,
        "capacity_ah": 5.0,
        "resistance_ohm": 0.02,
        "power_w": 200.0,
        "reserve_share": 0.2,
        "cutoff_cell_v": 3.3,
        "start_share": 1.0,
    }
    with refused(f"{name} must be from {bounds}, got {value:g}"):
        discharge.constant_power_discharge(**(usual | {name: value}))


def test_hover_is_even_where_no_balance_is_given():
    """Without a centre of gravity the reference point is taken for it."""
    places = ((0.1, 0.1), (-0.1, 0.1), (-0.1, -0.1), (0.1, -0.1))
    spins = (1, -1, 1, -1)

    assert (0.25,) * 4 == pytest.approx(allocation.hover_thrust_shares(places, spins, 0.02))


def test_rank_does_not_depend_on_size():
    """A palm-sized frame has the rank of a large one."""
    for arm in (0.005, 0.05, 5.0):
        places = ((arm, arm), (-arm, arm), (-arm, -arm), (arm, -arm))

        assert 4 == allocation.allocation_rank(places, (1, -1, 1, -1))
        assert 3 == allocation.allocation_rank(places, (1, -1, -1, 1))
        assert 2 == allocation.allocation_rank(places[:2], (1, -1))
        assert 1 == allocation.allocation_rank(places[:1], (1,))


@settings(max_examples=40, deadline=None, derandomize=True, database=None)
@given(st.floats(-0.05, 0.05), st.floats(-0.05, 0.05), st.integers(2, 4))
def test_hover_shares_hold_the_frame_level(forward, right, pairs):
    """Shares add to 1 and leave no moment about the centre of gravity, wherever it is."""
    count = 2 * pairs
    places = [
        (0.3 * math.cos(2 * math.pi * i / count), 0.3 * math.sin(2 * math.pi * i / count))
        for i in range(count)
    ]
    spins = [1 if i % 2 == 0 else -1 for i in range(count)]
    shares = allocation.hover_thrust_shares(places, spins, 0.02, (forward, right))

    assert 1.0 == pytest.approx(sum(shares), abs=1e-12)
    assert forward == pytest.approx(
        sum(share * x for share, (x, _) in zip(shares, places, strict=True)), abs=1e-12
    )
    assert right == pytest.approx(
        sum(share * y for share, (_, y) in zip(shares, places, strict=True)), abs=1e-12
    )
    assert 0.0 == pytest.approx(
        sum(share * spin for share, spin in zip(shares, spins, strict=True)), abs=1e-12
    )


def test_small_linear_algebra():
    """Hand-worked matrices: determinant, solution, rank, right angle."""
    assert -2.0 == pytest.approx(determinant([[1, 2], [3, 4]]), rel=1e-12)
    assert 0.0 == determinant([[0, 0], [0, 1]])
    assert (1.0, 2.0) == pytest.approx(solved([[1, 2], [3, 4]], (5, 11)), rel=1e-12)
    assert 0 == matrix_rank([[0, 0], [0, 0]])
    assert 1 == matrix_rank([[1, 2], [2, 4], [3, 6]])
    assert (0.0, 0.0, 0.0, -1.0) == right_angled((1, 0, 0, 0), (0, 1, 0, 0), (0, 0, 1, 0))
    assert right_angled((3, 0, 0, 0), (0, 3e-4, 0, 0), (0, 0, 3e-4, 0)) is not None
    assert right_angled((1, 0, 0, 0), (2, 0, 0, 0), (0, 0, 1, 0)) is None
    with refused("the matrix must have an inverse, got determinant 0"):
        solved([[1, 2], [2, 4]], (1, 1))


def test_mass_bands_by_jurisdiction():
    """Only the rows asked for; an unknown place is refused with those that are known."""
    assert {"US"} == {band.threshold.jurisdiction for band in mass_bands(0.3, "US")}
    assert 10 == len(mass_bands(0.3))
    with refused("jurisdiction must be one of EU, US, got Mars"):
        mass_bands(0.3, "Mars")
