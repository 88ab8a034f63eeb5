"""Wing and tip-speed rows."""

import math

import pytest

from buildbook.figures.laws.aero import propeller, wing

FOOT_M = 0.3048
OUNCE_KG = 0.028349523125


def test_stall_speed():
    """Lift equation: 1.5 kg, 0.30 m², 1.2, sea level: 8.1677 m/s."""
    assert 8.1677 == pytest.approx(wing.stall_speed_m_s(1.5, 0.30, 1.2, 1.225), rel=1e-4)


def test_stall_speed_in_a_bank():
    """Load factor 1/cos φ: at 60 degrees 11.5509 m/s, 1.41421 times the level one."""
    level = wing.stall_speed_m_s(1.5, 0.30, 1.2, 1.225)
    found = wing.banked_stall_speed_m_s(level, math.radians(60))

    assert 11.5509 == pytest.approx(found, rel=1e-4)
    assert 1.41421 == pytest.approx(found / level, rel=1e-5)


def test_stall_speed_at_5000_ft():
    """Lift equation at 1.05555 kg/m³: 8.7990 m/s."""
    assert 8.7990 == pytest.approx(wing.stall_speed_m_s(1.5, 0.30, 1.2, 1.05555), rel=1e-4)


def test_wing_loading():
    """Units: 5.000 kg/m² is 50.0 g/dm² and 16.385 oz/ft²."""
    found = wing.wing_loading_kg_m2(1.5, 0.30)

    assert 5.000 == pytest.approx(found, rel=1e-4)
    assert 50.0 == pytest.approx(found * 10, rel=1e-4)
    assert 16.385 == pytest.approx(found / OUNCE_KG * FOOT_M**2, rel=1e-4)


def test_stall_speed_of_a_jet():
    """Anderson, Introduction to Flight, landing example (from memory): 114.3 ft/s."""
    found = wing.stall_speed_m_s(12353 * 0.45359237, 318 * FOOT_M**2, 2.5, 0.002377 * 515.378818)

    assert 114.3 == pytest.approx(found / FOOT_M, rel=1e-3)


@pytest.mark.parametrize(
    ("inches", "rpm", "speed", "mach"),
    [(10, 10000, 132.994, 0.3908), (5, 30000, 199.491, 0.5862)],
)
def test_tip_speed(inches, rpm, speed, mach):
    """Definition: tip speed in m/s and Mach number at 15 degC."""
    found = propeller.tip_speed_m_s(inches * 0.0254, rpm / 60)

    assert speed == pytest.approx(found, rel=1e-4)
    assert mach == pytest.approx(propeller.mach_number(found, 288.15), rel=1e-4)


def test_mach_number():
    """Definition: 134.490 m/s at 15 degC is Mach 0.3952."""
    assert 0.3952 == pytest.approx(propeller.mach_number(134.490, 288.15), rel=1e-4)


def test_tip_mach_in_the_cold():
    """Definition: standing still at -10 degC Mach 0.4090."""
    found = propeller.tip_speed_m_s(0.254, 10000 / 60)

    assert 0.4090 == pytest.approx(propeller.mach_number(found, 263.15), rel=1e-3)


@pytest.mark.parametrize(("useful", "level"), [(180, 0), (300, 120)])
def test_rate_of_climb_is_the_power_over_what_is_needed(useful, level):
    """180 W over need, 1.6 kg: 180/(1.6 · 9.80665) m/s, by the definition of power."""
    assert 11.47 == pytest.approx(wing.climb_rate_m_s(useful, level, 1.6), rel=5e-4)


def test_power_of_level_flight_is_weight_times_sink():
    """1 kg at 12 m/s and a glide ratio of 10 sinks 1.2 m/s: 11.768 W."""
    assert 11.76798 == pytest.approx(wing.glide_power_w(1.0, 12.0, 10.0), rel=1e-6)


@pytest.mark.parametrize(
    ("rpm", "pitch_in", "speed"), [(6000, 5, 12.7), (8400, 5.5, 19.558)], ids=["10x5", "11x5.5"]
)
def test_pitch_speed_is_turns_times_pitch(rpm, pitch_in, speed):
    """V = n·p, by arithmetic."""
    assert speed == pytest.approx(propeller.pitch_speed_m_s(rpm / 60, pitch_in * 0.0254), rel=1e-6)


@pytest.mark.parametrize(("degrees", "ounce_inches"), [(10, 3.2), (20, 6.4)])
def test_hinge_moment_of_a_measured_surface(degrees, ounce_inches):
    """18 x 1.8 in at 40 mph: 3.2 oz·in at 10°, 6.4 at 20°, so 0.0121 a degree.

    Source: NACA Report 278, quoted second-hand.
    """
    found = wing.hinge_moment_nm(17.8816, 1.225, 0.04572, 0.4572, 0.0121 * degrees)

    assert ounce_inches * 0.0070616 == pytest.approx(found, rel=5e-3)


@pytest.mark.parametrize(
    ("servo", "horn", "degrees", "share"),
    [(0.012, 0.012, 20, 1.0), (0.012, 0.014, 0, 0.857143), (0.012, 0.014, 20, 0.83636)],
    ids=["equal arms", "small angles", "a full throw"],
)
def test_torque_of_a_servo_over_the_moment_of_the_hinge(servo, horn, degrees, share):
    """Equal arms: T = H; else r_s cos σ/(r_h cos δ) with r_s sin σ = r_h sin δ, by statics."""
    found = wing.servo_torque_nm(1.0, servo, horn, math.radians(degrees))

    assert share == pytest.approx(found, rel=1e-4)


@pytest.mark.parametrize(("airspeed", "power"), [(0, 0), (5, 37.5), (10, 50), (20, 0), (25, -62.5)])
def test_thrust_falls_to_nothing_at_the_pitch_speed(airspeed, power):
    """10 N standing still, 20 m/s: 7.5 N at 5 m/s; by hand, common practice, no source."""
    assert power == pytest.approx(wing.power_by_thrust_w(10, airspeed, 20))
