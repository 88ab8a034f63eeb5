"""Rotor layouts and the loss of a rotor.

Source of the losses: Du, Quan, Yang and Cai 2015, doi 10.2514/1.G000731, arXiv 1403.5986; their
parameters from memory. Layouts not in the paper are own cases at the same thrust-to-weight.
"""

import math

import numpy as np
import pytest
from scipy.optimize import linprog

from buildbook.figures.laws.airframe import allocation
from buildbook.figures.laws.airframe.allocation import (
    CONTROLLABLE_ABOVE,
    controllability_index,
    losses_held,
)

SIDE_M = 0.25 / math.sqrt(2)
# front right, rear right, rear left, front left
QUAD_X = ((SIDE_M, SIDE_M), (-SIDE_M, SIDE_M), (-SIDE_M, -SIDE_M), (SIDE_M, -SIDE_M))
USUAL = (1, -1, 1, -1)
SPIN = {"CCW": 1, "CW": -1}
ARM_M, YAW_ARM_M, WEIGHT_N = 0.275, 0.1, 1.535 * 9.80


def test_signs_of_a_quad():
    """Newton's third law: FR ccw, RR cw, RL ccw, FL cw; rank 4."""
    _, roll, pitch, yaw = allocation.allocation_matrix(QUAD_X, USUAL, 0.0165)

    assert "--++" == "".join("+" if value > 0 else "-" for value in roll)
    assert "+--+" == "".join("+" if value > 0 else "-" for value in pitch)
    assert "+-+-" == "".join("+" if value > 0 else "-" for value in yaw)
    assert 4 == allocation.allocation_rank(QUAD_X, USUAL)


def test_all_sixteen_spin_sets_of_a_quad(rows):
    """Rank, spin sum and usability of every set (own table); exactly two are usable."""
    usable = 0
    for row in rows("layouts/quad_x_spin_cases.csv"):
        spins = [
            SPIN[row[f"{place}_spin"]]
            for place in ("front_right", "rear_right", "rear_left", "front_left")
        ]
        verdict = allocation.spin_verdict(QUAD_X, spins)
        usable += verdict == "usable"

        assert int(row["allocation_rank"]) == allocation.allocation_rank(QUAD_X, spins)
        assert int(row["net_yaw_sign_sum"]) == allocation.spin_sum(spins)
        assert (row["usable_flag"] == "1") == (verdict == "usable")

    assert 2 == usable


@pytest.mark.parametrize(
    ("spins", "rank", "total", "verdict"),
    [
        pytest.param((1, -1, -1, 1), 3, 0, "rank below 4", id="pairs alike front and rear"),
        pytest.param((1, 1, -1, -1), 3, 0, "rank below 4", id="pairs alike left and right"),
        pytest.param((1, 1, 1, 1), 3, 4, "rank below 4", id="all alike"),
        pytest.param((1, 1, 1, -1), 4, 2, "spins do not cancel", id="three and one"),
        pytest.param((1, -1, -1, -1), 4, -2, "spins do not cancel", id="one and three"),
    ],
)
def test_wrong_spins(spins, rank, total, verdict):
    """Rank of the allocation matrix, against numpy, and the sum of the spins."""
    matrix = np.array(allocation.allocation_matrix(QUAD_X, spins, 0.0165))

    assert rank == np.linalg.matrix_rank(matrix) == allocation.allocation_rank(QUAD_X, spins)
    assert total == allocation.spin_sum(spins)
    assert verdict == allocation.spin_verdict(QUAD_X, spins)


def test_inverse_allocation():
    """20 N, roll 0.5, yaw 0.05 N m: 5.05047, 3.53532, 6.46468, 4.94953 N; against numpy too."""
    found = allocation.demanded_thrusts_n(QUAD_X, USUAL, 0.0165, 20, roll_nm=0.5, yaw_nm=0.05)
    matrix = np.array(allocation.allocation_matrix(QUAD_X, USUAL, 0.0165))

    assert (5.05047, 3.53532, 6.46468, 4.94953) == pytest.approx(found, rel=1e-5)
    assert tuple(np.linalg.pinv(matrix) @ (20, 0.5, 0, 0.05)) == pytest.approx(found, rel=1e-9)


def test_pure_yaw():
    """20 N and yaw 0.05 N m: 5.75758 N on the ccw rotors, 4.24242 on the cw."""
    found = allocation.demanded_thrusts_n(QUAD_X, USUAL, 0.0165, 20, yaw_nm=0.05)

    assert (5.75758, 4.24242, 5.75758, 4.24242) == pytest.approx(found, rel=1e-5)


# ------------------------------------------------------------------------------- rotor loss


def layouts(rows):
    """Places over the arm and spins of every layout of the table."""
    found = {}
    for row in rows("layouts/rotor_layouts.csv"):
        places, spins = found.setdefault(row["layout"], ([], []))
        places.append(
            (
                float(row["x_forward_over_arm_dimensionless"]) * ARM_M,
                float(row["y_right_over_arm_dimensionless"]) * ARM_M,
            )
        )
        spins.append(SPIN[row["spin_seen_from_above"]])
    return found


@pytest.mark.parametrize(
    ("spins", "expected"),
    [
        ("PNPNPN", (1.4861, 0, 0, 0, 0, 0, 0)),
        ("PPNNPN", (1.1295, 0.7221, 0.4510, 0.4510, 0.7221, -0.2133, -0.2133)),
    ],
)
def test_hexa_indices_of_the_paper(spins, expected):
    """Du, Quan, Yang and Cai 2015: none lost, then rotor 1 to 6."""
    ring = [
        (ARM_M * math.cos(i * math.pi / 3), ARM_M * math.sin(i * math.pi / 3)) for i in range(6)
    ]
    signs = [1 if letter == "P" else -1 for letter in spins]
    found = [
        controllability_index(ring, signs, YAW_ARM_M, WEIGHT_N, 6.125, lost)
        for lost in [(), *((number,) for number in range(6))]
    ]

    assert expected == pytest.approx(tuple(found), abs=5e-5)
    assert tuple(index > 0.01 for index in expected[1:]) == losses_held(
        ring, signs, YAW_ARM_M, WEIGHT_N, 6.125
    )


def test_every_loss_of_the_table(rows):
    """Index and verdict of each row; a quad has none (empty in the table, 0 here)."""
    known = layouts(rows)
    for row in rows("layouts/single_rotor_loss.csv"):
        places, spins = known[row["layout"]]
        lost = int(row["lost_rotor_index_0_is_none"])
        found = controllability_index(
            places,
            spins,
            YAW_ARM_M,
            WEIGHT_N,
            float(row["max_thrust_per_rotor_n"]),
            (lost - 1,) if lost else (),
        )
        expected = float(row["available_control_authority_index_mixed_units"] or 0)

        assert expected == pytest.approx(found, abs=1e-4)
        assert (row["fully_controllable_flag"] == "1") == (found > CONTROLLABLE_ABOVE)


def reachable_margin(places, spins, lost, max_thrust_n):
    """Greatest e such that the hover plus and minus e on each axis can be given (scipy linprog)."""
    left = [number for number in range(len(places)) if number != lost]
    matrix = np.array(
        allocation.allocation_matrix(
            [places[number] for number in left], [spins[number] for number in left], YAW_ARM_M
        )
    )
    margin = math.inf
    for axis in range(4):
        for sign in (1, -1):
            push = np.zeros((4, 1))
            push[axis] = -sign
            answer = linprog(
                [0.0] * len(left) + [-1.0],
                A_eq=np.hstack([matrix, push]),
                b_eq=[WEIGHT_N, 0, 0, 0],
                bounds=[(0, max_thrust_n)] * len(left) + [(0, None)],
            )
            margin = min(margin, -answer.fun if answer.status == 0 else -1.0)
    return margin


@pytest.mark.parametrize("layout", ["hexa_ring_PNPNPN", "hexa_ring_PPNNPN", "y6_coaxial"])
def test_losses_agree_with_linear_programming(rows, layout):
    """The sign of the index is that of the margin by linear programming (scipy)."""
    places, spins = layouts(rows)[layout]
    for lost in range(6):
        margin = reachable_margin(places, spins, lost, 6.125)
        index = controllability_index(places, spins, YAW_ARM_M, WEIGHT_N, 6.125, (lost,))

        assert (margin > 1e-6) == (index > CONTROLLABLE_ABOVE)


def test_less_thrust_can_turn_a_yes_into_a_no():
    """At a thrust-to-weight of 1.5 the PPNNPN hexa holds no loss (own case, linear programming)."""
    ring = [
        (ARM_M * math.cos(i * math.pi / 3), ARM_M * math.sin(i * math.pi / 3)) for i in range(6)
    ]
    spins = [1, 1, -1, -1, 1, -1]
    weak = 1.5 * WEIGHT_N / 6
    margins = [reachable_margin(ring, spins, lost, weak) > 1e-6 for lost in range(6)]

    assert tuple(margins) == losses_held(ring, spins, YAW_ARM_M, WEIGHT_N, weak)
    assert not all(margins[:4])
