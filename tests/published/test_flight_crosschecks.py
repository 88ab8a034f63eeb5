"""Laws for which no published worked example with all its inputs was found.

Each is held against an independent solver (scipy) or against published measurements in a way that
does not use the law's own algebra.
"""

import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from buildbook.figures.laws.aero import hover
from buildbook.figures.laws.aero import propeller as prop
from buildbook.figures.laws.packs import battery, discharge
from buildbook.figures.laws.propulsion import bench, motor

INCH_M = 0.0254


@pytest.mark.parametrize(
    ("volts", "kv", "ohm", "idle", "ct", "cp", "diameter"),
    [
        (11.1, 980, 0.110, 0.6, 0.1299, 0.0531, 10 * INCH_M),
        (14.8, 700, 0.085, 0.5, 0.1259, 0.0493, 11 * INCH_M),
        (16.0, 2300, 0.060, 1.2, 0.15, 0.10, 5 * INCH_M),
    ],
)
def test_full_throttle_point_against_a_root_finder(volts, kv, ohm, idle, ct, cp, diameter):
    """scipy's brentq on the torques, motor constants invented, coefficients of UIUC's last rows."""

    def torque_left(rotation):
        current = (volts - 60 * rotation / kv) / ohm
        drive = 9.549296585513721 / kv * (current - idle)  # 30/π rpm in a rad/s
        return drive - cp * 1.225 * rotation**2 * diameter**5 / (2 * 3.141592653589793)

    rotation = brentq(torque_left, 1e-6, kv * volts / 60, xtol=1e-12)
    found = motor.full_throttle_point(volts, kv, ohm, idle, ct, cp, 1.225, diameter)

    assert rotation == pytest.approx(found.rotation_rev_s, rel=1e-9)
    assert ct * 1.225 * rotation**2 * diameter**4 == pytest.approx(found.thrust_n, rel=1e-9)
    assert (volts - 60 * rotation / kv) / ohm == pytest.approx(found.current_a, rel=1e-6)


@pytest.mark.parametrize("chemistry", sorted(battery.CELL_CURVES))
def test_discharge_against_quadrature(chemistry):
    """scipy's quad of dQ/I, with the current from its root finder, to the cut-off found alike."""
    cells, capacity, ohm, reserve = 4, 3.0, 0.024, 0.1
    curve = battery.CELL_CURVES[chemistry]
    power = 8 * capacity * cells * curve.nominal_v
    cutoff = 0.85 * curve.nominal_v

    def current(state):
        volts = cells * battery.open_circuit_cell_v(chemistry, state)
        return brentq(lambda amperes: amperes * (volts - amperes * ohm) - power, 0, volts / 2 / ohm)

    def above_cutoff(state):
        volts = cells * battery.open_circuit_cell_v(chemistry, state)
        return volts - current(state) * ohm - cells * cutoff

    end = reserve if above_cutoff(reserve) > 0 else brentq(above_cutoff, reserve, 1.0)
    hours, _ = quad(
        lambda state: capacity / current(state), end, 1.0, points=curve.states[1:-1], limit=200
    )
    found = discharge.constant_power_discharge(
        chemistry, cells, capacity, ohm, power, reserve, cutoff
    )

    assert end == pytest.approx(found.end_state_of_charge, abs=1e-9)
    assert hours * 3600 == pytest.approx(found.duration_s, rel=1e-4)
    assert ("reserve" if end == reserve else "cut-off") == found.ended_by


@pytest.mark.parametrize("density", [0.95, 1.10, 1.30])
def test_bench_density_correction_against_a_measured_propeller(rows, density):
    """A bench table made at 1.225 from UIUC's 10x4.7 tells what its coefficients say elsewhere."""
    table = [tuple(map(float, row.values())) for row in rows("propellers/prop_10x4.7_static.csv")]
    speeds, cts, cps = zip(*((rpm / 60, ct, cp) for rpm, ct, cp in table), strict=True)
    diameter = 10 * INCH_M
    sweep = bench.bench_table(
        [
            bench.BenchRow(
                throttle=index / len(table),
                voltage_v=11.1,
                current_a=prop.propeller_power_w(cp, 1.225, speed, diameter) / 11.1,
                thrust_n=prop.propeller_thrust_n(ct, 1.225, speed, diameter),
            )
            for index, (speed, ct, cp) in enumerate(zip(speeds, cts, cps, strict=True), start=1)
        ],
        1.225,
    )
    for thrust in (1.5, 2.94, 4.4):
        speed = prop.table_rotation_for_thrust_rev_s(thrust, density, diameter, speeds, cts)
        _, cp = prop.coefficients_at(speed, speeds, cts, cps)
        power = prop.propeller_power_w(cp, density, speed, diameter)
        found = bench.bench_point(sweep, thrust, density, 11.1)

        assert power == pytest.approx(found.power_w, rel=0.01)


def test_bench_hover_lies_above_the_ideal(rows):
    """No row of Cao and Strawson 2018 with thrust beats actuator disk theory."""
    area = hover.disk_area_m2(5 * INCH_M)
    worst = max(
        hover.ideal_hover_power_w(float(row["thrust_gf"]) * 9.80665e-3, area, 1.225)
        / float(row["electrical_power_w"])
        for row in rows("thrust_stand/multirotor_5in_bench.csv")
        if float(row["thrust_gf"]) > 1
    )

    assert 0.3 < worst < 0.75
