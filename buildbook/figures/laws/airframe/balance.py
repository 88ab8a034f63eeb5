"""Where the mass is: centre of gravity, per cent of chord, ballast, inertia.

Source of the moments: FAA-H-8083-1B, Weight and Balance Handbook, chapter 2.
"""

from collections.abc import Sequence

from buildbook.figures.laws.numbers import checked
from buildbook.figures.laws.quantities import within

Vector = tuple[float, float, float]
Tensor = tuple[Vector, Vector, Vector]


def _total(masses_kg: Sequence[float], arms: int) -> float:
    if len(masses_kg) != arms:
        raise ValueError(f"need one arm for each mass, got {arms} for {len(masses_kg)}")
    for mass in masses_kg:
        within(part_kg=mass)
    total = sum(masses_kg)
    within(mass_kg=total)
    return total


@checked
def balance_arm_m(masses_kg: Sequence[float], arms_m: Sequence[float]) -> float:
    """Arm of the centre of gravity in m: the sum of moments over the sum of masses.

    masses_kg, arms_m: n values each, n >= 1, same order; arms may be negative, a missing arm is
    not arm 0. ValueError: lengths differ, a value out of range, or a total below 0.0001 kg.
    Source: FAA-H-8083-1B, chapter 2.
    """
    total = _total(masses_kg, len(arms_m))
    for arm in arms_m:
        within(arm_m=arm)
    return sum(mass * arm for mass, arm in zip(masses_kg, arms_m, strict=True)) / total


@checked
def centre_of_gravity_m(masses_kg: Sequence[float], positions_m: Sequence[Vector]) -> Vector:
    """Centre of gravity (forward, right, down) in m.

    masses_kg: n values; positions_m: n triples in m, same order. Errors and source:
    `balance_arm_m`, for each axis.
    """
    return (
        balance_arm_m(masses_kg, [place[0] for place in positions_m]),
        balance_arm_m(masses_kg, [place[1] for place in positions_m]),
        balance_arm_m(masses_kg, [place[2] for place in positions_m]),
    )


@checked
def chord_position(arm_m: float, leading_edge_m: float, mean_chord_m: float) -> float:
    """Centre of gravity as a share of the mean chord behind its leading edge; 0.25 is 25 %.

    Source: FAA-H-8083-1B, per cent MAC.
    """
    return (arm_m - leading_edge_m) / mean_chord_m


@checked
def ballast_kg(mass_kg: float, arm_m: float, wanted_arm_m: float, ballast_arm_m: float) -> float:
    """Mass in kg which, fixed at the ballast arm, brings the balance from `arm_m` to the wanted.

    Negative: take that much away there. ValueError: a value out of range, or the ballast sits
    within 1 mm of the wanted arm. Source: FAA-H-8083-1B, solved for the weight added.
    """
    if abs(wanted_arm_m - ballast_arm_m) < 1e-3:
        raise ValueError(
            f"ballast_arm_m must be at least 0.001 from the wanted arm {wanted_arm_m:g}, "
            f"got {ballast_arm_m:g}"
        )
    return mass_kg * (arm_m - wanted_arm_m) / (wanted_arm_m - ballast_arm_m)


@checked
def shifted_item_arm_m(
    mass_kg: float, arm_m: float, wanted_arm_m: float, item_mass_kg: float, item_arm_m: float
) -> float:
    """Arm in m to which an item has to move so that the balance comes to the wanted arm.

    mass_kg: all-up, the item included. ValueError: a value out of range.
    Source: FAA-H-8083-1B, weight shift.
    """
    return item_arm_m + mass_kg * (wanted_arm_m - arm_m) / item_mass_kg


@checked
def inertia_tensor_kg_m2(masses_kg: Sequence[float], positions_m: Sequence[Vector]) -> Tensor:
    """Inertia tensor in kg·m² of point masses about their own centre of gravity.

    masses_kg: n values; positions_m: n triples in m. Off the diagonal stands minus the sum of
    m·x·y. Errors: `balance_arm_m`. Source: I = sum of m (r·r E - r rᵀ), the definition.
    """
    centre = centre_of_gravity_m(masses_kg, positions_m)
    xx = yy = zz = xy = xz = yz = 0.0
    for mass, place in zip(masses_kg, positions_m, strict=True):
        x, y, z = (place[axis] - centre[axis] for axis in range(3))
        xx += mass * (y * y + z * z)
        yy += mass * (x * x + z * z)
        zz += mass * (x * x + y * y)
        xy -= mass * x * y
        xz -= mass * x * z
        yz -= mass * y * z
    return ((xx, xy, xz), (xy, yy, yz), (xz, yz, zz))
