"""A layout of rotors as a matrix: what their thrusts do to the frame, and the way back.

Axes: x forward, y right, z down. A rotor at (x, y) that pushes up with thrust F adds
[F, -y F, +x F, s k F] to [thrust, roll, pitch, yaw]: roll + is right side down, pitch + nose up,
yaw + nose right; s is +1 for a rotor turning counter-clockwise seen from above, -1 for clockwise;
k is its torque over thrust. Source: rigid-body statics; the spin rule is Newton's third law.
"""

from collections.abc import Sequence
from itertools import combinations
from typing import Literal

from buildbook.figures.laws.linear import Matrix, Row, matrix_rank, right_angled, solved
from buildbook.figures.laws.numbers import checked
from buildbook.figures.laws.quantities import within

Place = tuple[float, float]
Verdict = Literal["usable", "rank below 4", "spins do not cancel"]


@checked
def allocation_matrix(
    positions_m: Sequence[Place], spins: Sequence[int], yaw_arm_m: float
) -> Matrix:
    """Four rows (thrust, roll, pitch, yaw) with a column for each rotor.

    positions_m: n >= 1 pairs (forward, right) in m from the centre of gravity; spins: n values,
    +1 counter-clockwise or -1 clockwise seen from above; yaw_arm_m: torque over thrust in m.
    ValueError: lengths differ, a spin is neither, a value is out of range.
    Source: this module's note.
    """
    within(yaw_arm_m=yaw_arm_m, rotors=len(positions_m))
    if len(spins) != len(positions_m):
        raise ValueError(f"need one spin for each rotor, got {len(spins)} for {len(positions_m)}")
    for spin in spins:
        if spin not in (1, -1):
            raise ValueError(f"a spin must be 1 or -1, got {spin:g}")
    for forward, right in positions_m:
        within(arm_m=forward)
        within(arm_m=right)
    return (
        tuple(1.0 for _ in positions_m),
        tuple(-right for _, right in positions_m),
        tuple(forward for forward, _ in positions_m),
        tuple(spin * yaw_arm_m for spin in spins),
    )


@checked
def allocation_rank(positions_m: Sequence[Place], spins: Sequence[int]) -> int:
    """How many of thrust, roll, pitch and yaw the layout can set apart from each other, 0 to 4.

    Shapes and errors: `allocation_matrix`. Source: rank of that matrix.
    """
    return matrix_rank(allocation_matrix(positions_m, spins, 1.0))


@checked
def spin_sum(spins: Sequence[int]) -> int:
    """Sum of the spins: 0 where equal thrusts leave no net yaw.

    spins: n values of +1 or -1. ValueError: a spin is neither. Source: Newton's third law.
    """
    for spin in spins:
        if spin not in (1, -1):
            raise ValueError(f"a spin must be 1 or -1, got {spin:g}")
    return sum(spins)


@checked
def spin_verdict(positions_m: Sequence[Place], spins: Sequence[int]) -> Verdict:
    """What is wrong with the spins of a layout, if anything.

    A zero sum is not enough: pairs alike front and rear cancel, yet yaw cannot be told from
    pitch. Shapes and errors: `allocation_matrix`. Source: rank of that matrix, then the sum.
    """
    if allocation_rank(positions_m, spins) < 4:
        return "rank below 4"
    return "usable" if spin_sum(spins) == 0 else "spins do not cancel"


@checked
def demanded_thrusts_n(
    positions_m: Sequence[Place],
    spins: Sequence[int],
    yaw_arm_m: float,
    lift_n: float,
    roll_nm: float = 0.0,
    pitch_nm: float = 0.0,
    yaw_nm: float = 0.0,
) -> Row:
    """Thrust of each rotor in N that gives the lift and the three moments, of least squares.

    Shapes: `allocation_matrix`; the result may hold negative thrusts, which no rotor gives.
    ValueError: as there, or the layout has less than rank 4. Source: F = Bᵀ (B Bᵀ)⁻¹ demand.
    """
    matrix = allocation_matrix(positions_m, spins, yaw_arm_m)
    rank = matrix_rank(matrix)
    if rank < 4:
        raise ValueError(f"the layout must have rank 4, got {rank}")
    products = [
        [sum(a * b for a, b in zip(row, other, strict=True)) for other in matrix] for row in matrix
    ]
    weights = solved(products, (lift_n, roll_nm, pitch_nm, yaw_nm))
    return tuple(
        sum(matrix[axis][rotor] * weights[axis] for axis in range(4))
        for rotor in range(len(positions_m))
    )


@checked
def hover_thrust_shares(
    positions_m: Sequence[Place],
    spins: Sequence[int],
    yaw_arm_m: float,
    centre_of_gravity_m: Place = (0.0, 0.0),
) -> Row:
    """Share of the weight that each rotor carries in a hover, with the balance as it is; sum 1.

    positions_m and centre_of_gravity_m: (forward, right) in m from one reference point.
    ValueError: as `demanded_thrusts_n`, or a rotor would have to pull down.
    Source: no net moment about the centre of gravity.
    """
    forward, right = centre_of_gravity_m
    places = [(x - forward, y - right) for x, y in positions_m]
    shares = demanded_thrusts_n(places, spins, yaw_arm_m, 1.0)
    if min(shares) < 0:
        raise ValueError(
            f"every rotor must push up in a hover, got a share of {min(shares):.3g} of the weight"
        )
    return shares


CONTROLLABLE_ABOVE = 1e-6  # a computed zero has the size of a rounding
# Measured places are off by a millimetre, which lifts the zero of an alternating hexa to 0.007 of
# the whole layout's index. A loss counts as held only with more than this share of it.
LEAST_SHARE_OF_WHOLE = 0.02


@checked
def controllability_index(
    positions_m: Sequence[Place],
    spins: Sequence[int],
    yaw_arm_m: float,
    weight_n: float,
    max_thrust_n: float,
    lost: Sequence[int] = (),
) -> float:
    """Distance from the hover to the edge of what the rotors left can give; only its sign counts.

    positions_m: n pairs (forward, right) in m from the centre of gravity; spins: n of +1 or -1;
    weight_n: of the aircraft in N; max_thrust_n: of one rotor in N; lost: numbers of the lost
    rotors from 0. Above zero: thrust, roll, pitch and yaw can be held together. The size mixes N
    and N·m. Exactly 0.0 where the rotors left have less than rank 4: the reachable set is flat.
    ValueError: a value out of range, a lost rotor that is not there, or none left.
    Source: the available control authority index of Du, Quan, Yang and Cai 2015.
    """
    for number in lost:
        if not 0 <= number < len(positions_m):
            raise ValueError(f"lost must be from 0 to {len(positions_m) - 1}, got {number}")
    left = [number for number in range(len(positions_m)) if number not in lost]
    if not left:
        raise ValueError("need one rotor that is left, got none")
    matrix = allocation_matrix(
        [positions_m[number] for number in left], [spins[number] for number in left], yaw_arm_m
    )
    if matrix_rank(matrix) < 4:
        return 0.0
    columns = [tuple(row[rotor] for row in matrix) for rotor in range(len(left))]
    # From the middle of the set (all rotors at half thrust) to the hover.
    offset = [max_thrust_n / 2 * sum(row) for row in matrix]
    offset[0] -= weight_n
    distances = []
    for first, second, third in combinations(columns, 3):
        normal = right_angled(first, second, third)
        if normal is None:
            continue
        reach = sum(abs(_dot(normal, column)) for column in columns) * max_thrust_n / 2
        distances.append(reach - abs(_dot(normal, offset)))
    return min(distances)


def _dot(left: Sequence[float], right: Sequence[float]) -> float:
    return sum(a * b for a, b in zip(left, right, strict=True))


@checked
def losses_held(
    positions_m: Sequence[Place],
    spins: Sequence[int],
    yaw_arm_m: float,
    weight_n: float,
    max_thrust_n: float,
) -> tuple[bool, ...]:
    """For each rotor: could its loss in principle be held, all four axes together?

    A fiftieth of the whole layout's index, or less, counts as zero.
    Shapes, errors and source: `controllability_index`.
    """
    whole = controllability_index(positions_m, spins, yaw_arm_m, weight_n, max_thrust_n)
    least = max(CONTROLLABLE_ABOVE, LEAST_SHARE_OF_WHOLE * whole)
    return tuple(
        len(positions_m) > 1
        and controllability_index(positions_m, spins, yaw_arm_m, weight_n, max_thrust_n, (number,))
        > least
        for number in range(len(positions_m))
    )
