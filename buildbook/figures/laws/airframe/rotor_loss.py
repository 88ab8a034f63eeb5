"""Whether roll, pitch, yaw and height can in principle still be held when a rotor is lost.

Geometry and greatest thrust only; what the controller on board does about it is another matter,
and giving up yaw is another question. Thrust is bounded: from zero to the greatest.
Source: Du, Quan, Yang and Cai 2015, J. Guidance, Control, and Dynamics,
doi 10.2514/1.G000731, arXiv 1403.5986.
"""

from collections.abc import Sequence
from itertools import combinations

from buildbook.figures.laws.airframe.allocation import Place, allocation_matrix
from buildbook.figures.laws.linear import matrix_rank, right_angled
from buildbook.figures.laws.numbers import finite_only
from buildbook.figures.laws.quantities import within

CONTROLLABLE_ABOVE = 1e-6  # a computed zero has the size of a rounding
# Measured places are off by a millimetre, which lifts the zero of an alternating hexa to 0.007 of
# the whole layout's index. A loss counts as held only with more than this share of it.
LEAST_SHARE_OF_WHOLE = 0.02


@finite_only
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
    within(weight_n=weight_n, max_thrust_n=max_thrust_n)
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


@finite_only
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
