"""Hover rows. Source: actuator disk theory; Leishman, Principles of Helicopter Aerodynamics."""

import math

import pytest

from buildbook.figures.laws.aero import hover
from buildbook.figures.laws.propulsion.margins import thrust_to_weight

POUND_N = 4.4482216152605
FOOT_M = 0.3048
SLUG_PER_FOOT3 = 515.378818
HORSEPOWER_W = 745.69987


def test_tilt_rotor_in_hover():
    """Leishman chapter 2 worked example (from memory): 45000 lb on two 38 ft rotors."""
    area = hover.disk_area_m2(38 * FOOT_M)
    lift, density = 45000 * POUND_N / 2, 0.002378 * SLUG_PER_FOOT3
    ideal = hover.ideal_hover_power_w(lift, area, density) / HORSEPOWER_W
    actual = hover.hover_power_w(lift, area, density, 0.75) / HORSEPOWER_W

    assert 1134.1 == pytest.approx(area / FOOT_M**2, rel=1e-3)
    assert (2642, 3523) == pytest.approx((ideal, actual), rel=1e-3)
    assert 7398 == pytest.approx(2 * actual * 1.05, rel=1e-3)


def test_quad_in_hover():
    """Actuator disk: 1.2 kg on four 0.254 m rotors."""
    thrust, area = hover.hover_thrust_n(1.2, 4), hover.disk_area_m2(0.254)
    shaft = hover.hover_power_w(thrust, area, 1.225, 0.65)

    assert 2.94200 == pytest.approx(thrust, rel=1e-4)
    assert 58.061 == pytest.approx(hover.disk_loading_n_m2(thrust, area), rel=1e-4)
    assert 14.322 == pytest.approx(hover.ideal_hover_power_w(thrust, area, 1.225), rel=1e-4)
    assert (22.034, 88.135) == pytest.approx((shaft, 4 * shaft), rel=1e-4)


def test_quad_in_thin_air():
    """Actuator disk: the same at 1.000 kg/m³ takes 97.547 W, the root of 1.225 times as much."""
    thrust, area = hover.hover_thrust_n(1.2, 4), hover.disk_area_m2(0.254)
    found = 4 * hover.hover_power_w(thrust, area, 1.0, 0.65)

    assert 97.547 == pytest.approx(found, rel=1e-4)
    assert 88.135 * math.sqrt(1.225) == pytest.approx(found, rel=1e-4)


def test_hexa_in_hover():
    """Actuator disk: 2.5 kg on six 0.2794 m rotors."""
    thrust, area = hover.hover_thrust_n(2.5, 6), hover.disk_area_m2(0.2794)

    assert 4.08610 == pytest.approx(thrust, rel=1e-4)
    assert 66.645 == pytest.approx(hover.disk_loading_n_m2(thrust, area), rel=1e-4)
    assert 182.668 == pytest.approx(6 * hover.hover_power_w(thrust, area, 1.225, 0.70), rel=1e-4)


@pytest.mark.parametrize("factor", [0.3, 0.7, 1.3, 1.5])
def test_scaling_of_ideal_power(factor):
    """Actuator disk: power goes as thrust^1.5, diameter^-1 and density^-0.5."""
    whole = hover.ideal_hover_power_w(3.0, hover.disk_area_m2(0.25), 1.2)

    assert factor**1.5 == pytest.approx(
        hover.ideal_hover_power_w(3.0 * factor, hover.disk_area_m2(0.25), 1.2) / whole, rel=1e-9
    )
    assert 1 / factor == pytest.approx(
        hover.ideal_hover_power_w(3.0, hover.disk_area_m2(0.25 * factor), 1.2) / whole, rel=1e-9
    )
    assert factor**-0.5 == pytest.approx(
        hover.ideal_hover_power_w(3.0, hover.disk_area_m2(0.25), 1.2 * factor) / whole, rel=1e-9
    )


@pytest.mark.parametrize("interference", [1.41421, 1.2810, 1.16])
def test_coaxial_pair_against_two_rotors_apart(interference):
    """Leishman chapter 2, coaxial rotors (from memory): √2 without contraction of the wake, 1.281
    with the lower rotor half in the contracted wake, about 1.16 measured."""
    apart = 2 * hover.hover_power_w(2.0, 0.05, 1.225, 0.7)
    pair = hover.coaxial_hover_power_w(4.0, 0.05, 1.225, 0.7, interference)

    assert interference == pytest.approx(pair / apart, rel=1e-5)


@pytest.mark.parametrize(("interference", "share"), [(1.41421, 0.79370), (1.2810, 0.84780)])
def test_thrust_of_a_pair_at_the_power_of_rotors_apart(interference, share):
    """Power of both is equal: κ (share·F)^1.5 = F^1.5, so the share is κ^(-2/3)."""
    thrust = hover.coaxial_thrust_n(3.0, interference)

    assert 3.0 * share == pytest.approx(thrust, rel=1e-4)
    assert hover.ideal_hover_power_w(3.0, 0.05, 1.2) == pytest.approx(
        interference * hover.ideal_hover_power_w(thrust, 0.05, 1.2), rel=1e-9
    )


def test_thrust_to_weight_of_the_published_hexa():
    """Du, Quan, Yang and Cai 2015 (parameters from memory): 6 x 6.125 N over 1.535 kg is 2.443.

    The paper takes g as 9.80, hence 2.4413 with the standard value.
    """
    assert 2.443 * 9.80 / 9.80665 == pytest.approx(thrust_to_weight(6 * 6.125, 1.535), rel=2e-4)
