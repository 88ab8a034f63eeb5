"""Weight, balance and inertia rows. FAA books: FAA-H-8083-1B and FAA-H-8083-25."""

import pytest

from buildbook.figures.laws.airframe import balance

POUND_KG = 0.45359237
INCH_M = 0.0254


def in_pounds_and_inches(weights_lb, arms_in):
    """Total in lb, moment in lb in, centre of gravity in in."""
    masses = [weight * POUND_KG for weight in weights_lb]
    arm = balance.balance_arm_m(masses, [arm * INCH_M for arm in arms_in]) / INCH_M
    total = sum(weights_lb)
    return total, total * arm, arm


def test_three_weights():
    """FAA-H-8083-1B chapter 2 (example from memory): CG 110.0 in."""
    found = in_pounds_and_inches((100, 100, 200), (50, 90, 150))

    assert (400, 44000, 110.0) == pytest.approx(found, rel=1e-9)


def test_single_engine_aeroplane(rows):
    """FAA-H-8083-25 chapter 10: 3320 lb, 281430 lb in, CG 84.8 in."""
    table = rows("weight_balance/faa_single.csv")
    found = in_pounds_and_inches(
        [float(row["weight_lb"]) for row in table], [float(row["arm_in"]) for row in table]
    )

    assert (3320, 281430) == pytest.approx(found[:2], rel=1e-9)
    assert 84.8 == pytest.approx(found[2], abs=0.05)


def test_light_twin_with_a_negative_arm(rows):
    """FAA-H-8083-1B figures 6-1 to 6-4 (second-hand): 5064 lb, 215093 lb in, CG 42.47 in."""
    table = rows("weight_balance/faa_light_twin.csv")
    found = in_pounds_and_inches(
        [float(row["weight_lb"]) for row in table], [float(row["arm_in"]) for row in table]
    )

    assert 5064 == pytest.approx(found[0], rel=1e-9)
    assert 215093 == pytest.approx(found[1], abs=0.5)
    assert 42.47 == pytest.approx(found[2], abs=0.005)


def test_centre_of_gravity_from_totals():
    """FAA-H-8083-1B figure 3-5 (second-hand): 2006 lb and 65756 lb in give 32.8 in."""
    found = in_pounds_and_inches((2006,), (65756 / 2006,))

    assert 32.8 == pytest.approx(found[2], abs=0.05)


def test_per_cent_of_mean_chord():
    """FAA-H-8083-1B figure 3-19 (second-hand): chord 144 to 206 in, CG 161 in: 27.4 %."""
    found = balance.chord_position(161 * INCH_M, 144 * INCH_M, (206 - 144) * INCH_M)

    assert 27.4 == pytest.approx(100 * found, abs=0.05)


def model(rows):
    """Masses in kg, arms in m and their CG of the own example of an aeroplane."""
    table = rows("weight_balance/model_fixed_wing.csv")
    masses = [float(row["mass_g"]) / 1000 for row in table]
    arms = [float(row["arm_mm_aft_of_datum"]) / 1000 for row in table]
    return masses, arms, balance.balance_arm_m(masses, arms)


def test_model_aeroplane(rows):
    """Own example: 886 g, 69170 g mm, CG 78.07 mm, 17.30 % of the chord."""
    masses, _, arm = model(rows)

    assert 0.886 == pytest.approx(sum(masses), rel=1e-9)
    assert 69170 == pytest.approx(sum(masses) * arm * 1e6, abs=0.5)
    assert 78.07 == pytest.approx(arm * 1000, abs=0.01)
    assert 17.30 == pytest.approx(100 * balance.chord_position(arm, 0.040, 0.220), abs=0.01)


def test_model_battery_moves_for_a_wanted_balance(rows):
    """Own example: the battery goes from 35 mm to 0.95 mm for a CG at 70.0 mm."""
    masses, arms, arm = model(rows)
    found = balance.shifted_item_arm_m(sum(masses), arm, 0.070, 0.210, 0.035)

    assert 0.95 == pytest.approx(found * 1000, abs=0.01)

    arms[2] = found
    assert 0.070 == pytest.approx(balance.balance_arm_m(masses, arms), abs=1e-12)


def test_model_nose_ballast(rows):
    """Own example: 55.0 g at -60 mm bring the CG to 70.0 mm."""
    masses, arms, arm = model(rows)
    found = balance.ballast_kg(sum(masses), arm, 0.070, -0.060)

    assert 55.0 == pytest.approx(found * 1000, abs=0.01)
    assert 0.070 == pytest.approx(
        balance.balance_arm_m([*masses, found], [*arms, -0.060]), abs=1e-12
    )


def test_inertia_of_four_point_masses():
    """I = sum m r²: four 60 g masses at ±0.16 m."""
    places = [(x, y, 0.0) for x in (-0.16, 0.16) for y in (-0.16, 0.16)]
    found = balance.inertia_tensor_kg_m2([0.060] * 4, places)

    assert (6.144e-3, 6.144e-3, 1.2288e-2) == pytest.approx(
        tuple(found[axis][axis] for axis in range(3)), rel=1e-9
    )


def test_full_inertia_tensor():
    """I = sum m (r·r E - r rᵀ) about the own CG; off the diagonal minus the sum of m x y."""
    masses = [0.100, 0.050, 0.300]
    places = [(0.10, 0.05, 0.0), (-0.10, 0.10, 0.02), (0.0, 0.0, -0.01)]
    found = balance.inertia_tensor_kg_m2(masses, places)
    centre = balance.centre_of_gravity_m(masses, places)

    assert (11.111, 22.222, -4.444) == pytest.approx(tuple(1000 * x for x in centre), abs=6e-4)
    assert (5.6889e-4, 1.1111e-4, 7.778e-5) == pytest.approx(found[0], rel=1e-4)
    assert (1.1111e-4, 1.48556e-3, -1.44444e-4) == pytest.approx(found[1], rel=1e-4)
    assert (7.778e-5, -1.44444e-4, 1.97222e-3) == pytest.approx(found[2], rel=1e-4)


def test_moving_the_battery_four_millimetres_of_balance():
    """1.030 kg, pack 0.213 kg, 4 mm aft of wanted: 19.34 mm forward (FAA weight shift)."""
    there = balance.shifted_item_arm_m(1.030, 0.104, 0.100, 0.213, 0.050)

    assert -0.01934 == pytest.approx(there - 0.050, abs=5e-6)


def test_ballast_at_a_nose_a_quarter_of_a_metre_ahead():
    """1.200 kg, 8 mm aft, nose 250 mm ahead of wanted: 38.4 g (FAA, solved for the weight)."""
    assert 0.0384 == pytest.approx(balance.ballast_kg(1.200, 0.108, 0.100, -0.150), abs=1e-6)
