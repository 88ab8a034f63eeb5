"""Where physics says which way a value goes, it goes that way over the whole range."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from buildbook.basis import notation
from buildbook.figures.laws.aero import atmosphere, hover, wing
from buildbook.figures.laws.airframe import balance
from buildbook.figures.laws.packs import battery, discharge
from buildbook.figures.laws.propulsion import margins, motor, wire
from buildbook.figures.laws.quantities import INPUTS

quick = settings(max_examples=40, deadline=None, derandomize=True, database=None)


def span(name):
    return st.floats(INPUTS[name].least, INPUTS[name].most)


def apart(low, high):
    """Keep pairs that are a part in a million apart, so that rounding cannot tie them."""
    assume(high > low + 1e-6 * max(1e-3, abs(low)))
    return low, high


@quick
@given(span("pressure_altitude_m"), span("temperature_k"), span("temperature_k"))
def test_colder_is_denser(altitude, first, second):
    """Density falls with temperature, and with it the density altitude rises."""
    cold, warm = apart(*sorted((first, second)))
    dense = atmosphere.air_density_kg_m3(altitude, cold)
    thin = atmosphere.air_density_kg_m3(altitude, warm)

    assert dense > thin
    if thin > 0.37 and dense < 2:
        assert atmosphere.density_altitude_m(dense) < atmosphere.density_altitude_m(thin)


@quick
@given(span("pressure_altitude_m"), span("pressure_altitude_m"), span("temperature_k"))
def test_higher_is_thinner(first, second, temperature):
    """Density falls with height at one temperature."""
    low, high = apart(*sorted((first, second)))

    assert atmosphere.air_density_kg_m3(low, temperature) > atmosphere.air_density_kg_m3(
        high, temperature
    )


@quick
@given(
    st.floats(0.05, 20),
    st.floats(0.05, 20),
    st.floats(0.05, 0.8),
    st.floats(0.9, 1.3),
    st.floats(0.3, 1),
)
def test_more_mass_more_hover_power(first, second, diameter, density, merit):
    """Power rises with mass; it falls with area, density and figure of merit."""
    light, heavy = apart(*sorted((first, second)))
    area = hover.disk_area_m2(diameter)

    def power(mass, area=area, density=density, merit=merit):
        return hover.hover_power_w(hover.hover_thrust_n(mass, 4), area, density, merit)

    assert power(light) < power(heavy)
    assert power(light, area=area * 1.1) < power(light)
    assert power(light, density=density * 1.1) < power(light)
    assert power(light, merit=merit * 0.9) > power(light)
    assert power(light, merit=1.0) == pytest.approx(
        hover.ideal_hover_power_w(hover.hover_thrust_n(light, 4), area, density), rel=1e-12
    )


@quick
@given(st.integers(0, 39), st.floats(0.01, 5), span("wire_temperature_k"), st.floats(0.1, 100))
def test_thicker_wire_loses_less(gauge, length, temperature, current):
    """Drop and loss rise with gauge number, length, temperature and current."""

    def lost(gauge, length=length, temperature=temperature, current=current):
        area = notation.wire(f"{gauge} AWG")
        ohm = wire.run_resistance_ohm(length, area, temperature)
        assume(ohm <= 100)
        return wire.run_drop_v(current, ohm), wire.run_loss_w(current, ohm)

    thick = lost(gauge)
    for more in (
        lost(gauge + 1),
        lost(gauge, length=length * 1.1),
        lost(gauge, current=current * 1.1),
        lost(gauge, temperature=min(480, temperature + 1)) if temperature < 479 else (1e9, 1e9),
    ):
        assert thick[0] < more[0]
        assert thick[1] < more[1]


@quick
@given(st.floats(3, 50), st.floats(0.001, 0.05), st.floats(1, 200))
def test_more_power_more_current_less_voltage(volts, ohm, watts):
    """Current rises with power and resistance; the voltage under load falls."""
    assume(watts * 1.1 < volts**2 / (4 * ohm * 1.1))
    current = battery.load_current_a(volts, ohm, watts)
    more = battery.load_current_a(volts, ohm, watts * 1.1)

    assert current < more
    assert current < battery.load_current_a(volts, ohm * 1.1, watts)
    assert battery.terminal_v(volts, ohm, current) > battery.terminal_v(volts, ohm, more)
    assert watts == pytest.approx(current * battery.terminal_v(volts, ohm, current), rel=1e-9)


@quick
@given(
    st.sampled_from(sorted(battery.CELL_CURVES)),
    st.integers(1, 12),
    st.floats(0.3, 10),
    st.floats(0, 0.003),
    st.floats(0.5, 12),
    st.floats(0, 0.6),
    st.floats(0.5, 0.9),
)
def test_discharge_goes_the_right_way(
    chemistry, cells, capacity, cell_ohm, rate, reserve, cutoff_part
):
    """Less power, more charge, less resistance, less reserve, lower cut-off: never shorter."""
    curve = battery.CELL_CURVES[chemistry]
    power = rate * capacity * curve.nominal_v * cells
    base = {
        "chemistry": chemistry,
        "cells_in_series": cells,
        "capacity_ah": capacity,
        "resistance_ohm": cell_ohm * cells,
        "power_w": power,
        "reserve_share": reserve,
        "cutoff_cell_v": max(0.5, curve.nominal_v * cutoff_part),
    }
    try:
        found = discharge.constant_power_discharge(**base)
    except ValueError:
        assume(False)

    assert found.duration_s > 0
    assert found.charge_used_ah == pytest.approx(capacity * (1 - found.end_state_of_charge))
    assert (found.ended_by == "reserve") == (found.end_state_of_charge == reserve)
    assert found.duration_s == pytest.approx(
        found.charge_used_ah / found.mean_current_a * 3600, rel=1e-9
    )
    if found.ended_by == "cut-off" and found.end_state_of_charge > 0:
        assert found.end_voltage_v / cells == pytest.approx(base["cutoff_cell_v"], abs=1e-9)
    for easier in (
        {"power_w": power * 0.9},
        {"capacity_ah": capacity * 1.1},
        {"resistance_ohm": cell_ohm * cells * 0.5},
        {"reserve_share": reserve * 0.9},
        {"cutoff_cell_v": max(0.5, base["cutoff_cell_v"] * 0.95)},
    ):
        longer = discharge.constant_power_discharge(**(base | easier))

        assert longer.duration_s >= found.duration_s * (1 - 1e-4)


@quick
@given(
    st.floats(6, 30),
    st.floats(300, 4000),
    st.floats(0.01, 0.2),
    st.floats(0, 1.5),
    st.floats(0.03, 0.08),
    st.floats(0.9, 1.3),
    st.floats(0.08, 0.3),
)
def test_motor_and_propeller_are_in_balance(volts, kv, ohm, idle, cp, density, diameter):
    """At the point found, torques agree, no speed exceeds no-load, and no energy is made."""
    found = motor.full_throttle_point(volts, kv, ohm, idle, 0.1, cp, density, diameter)
    torque = 60 / (2 * 3.141592653589793 * kv) * (found.current_a - idle)
    drag = found.shaft_power_w / (2 * 3.141592653589793 * found.rotation_rev_s)

    assert torque == pytest.approx(drag, rel=1e-6, abs=1e-9)
    assert found.rotation_rev_s * 60 <= kv * volts
    assert 0 < found.efficiency < 1
    assert volts == pytest.approx(
        motor.loaded_motor_v(found.rotation_rev_s, found.current_a, kv, ohm), rel=1e-9
    )
    assert found.current_a == pytest.approx(
        motor.loaded_motor_current_a(drag, kv, idle), rel=1e-6, abs=1e-9
    )
    more = motor.full_throttle_point(volts * 1.05, kv, ohm, idle, 0.1, cp, density, diameter)

    assert more.thrust_n > found.thrust_n
    bigger = motor.full_throttle_point(volts, kv, ohm, idle, 0.1, cp, density, diameter * 1.05)

    assert bigger.rotation_rev_s < found.rotation_rev_s


@quick
@given(st.floats(0.1, 20), st.floats(0.05, 2), st.floats(0.6, 2), st.floats(0.9, 1.3))
def test_stall_speed_goes_the_right_way(mass, area, lift, density):
    """Heavier stalls faster; more wing, lift or density slower; any bank faster."""
    level = wing.stall_speed_m_s(mass, area, lift, density)

    assert wing.stall_speed_m_s(mass * 1.1, area, lift, density) > level
    assert wing.stall_speed_m_s(mass, area * 1.1, lift, density) < level
    assert wing.stall_speed_m_s(mass, area, lift * 1.1, density) < level
    assert wing.stall_speed_m_s(mass, area, lift, density * 1.1) < level
    assert wing.banked_stall_speed_m_s(level, 0.3) > level
    assert wing.banked_stall_speed_m_s(level, -0.3) == wing.banked_stall_speed_m_s(level, 0.3)


@quick
@given(st.floats(0.1, 5), st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1))
def test_ballast_brings_the_wanted_balance(mass, arm, wanted, place):
    """Put on, the ballast found moves the balance to the wanted arm."""
    assume(abs(wanted - place) > 0.05)
    ballast = balance.ballast_kg(mass, arm, wanted, place)
    assume(mass + ballast > 0.01)

    assert wanted == pytest.approx((mass * arm + ballast * place) / (mass + ballast), abs=1e-9)


def test_margins():
    """Simple ratios on hand-worked numbers, definitions."""
    assert 2.0 == pytest.approx(margins.thrust_to_weight(2 * 9.80665, 1.0), rel=1e-12)
    assert 10.0 == margins.discharge_rate_c(22.0, 2.2)
    assert 55.0 == pytest.approx(margins.rated_current_a(2.2, 25), rel=1e-12)
    assert 4.4 == margins.charge_current_a(2.2, 2.0)
    assert 0.25 == margins.current_margin(30.0, 40.0)
    assert -0.25 == margins.current_margin(50.0, 40.0)
    assert 0.25 == margins.power_margin(6000.0, 8000.0)


def test_a_motor_cannot_run_on_less_than_it_takes_without_load():
    """Nor on more than it takes held fast: 12 V over 0.1 Ω."""
    for amps in (1.0, 120.0):
        with pytest.raises(ValueError, match="motor_current_a must be above the 1 without load"):
            motor.motor_efficiency(12.0, amps, 0.1, 1.0)
    assert 2e7 == pytest.approx(wire.current_density_a_m2(40.0, 2e-6), rel=1e-12)
    assert 19.536 == pytest.approx(battery.usable_energy_wh(24.42, 0.2), rel=1e-12)
    assert 0.006 == pytest.approx(battery.pack_resistance_ohm(0.004, 3, 2), rel=1e-12)
    assert 0.025 == pytest.approx(battery.series_resistance_ohm([0.008, 0.008, 0.009]), rel=1e-12)
