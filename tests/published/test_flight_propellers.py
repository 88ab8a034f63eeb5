"""Measured propellers and bench tables.

Propellers: UIUC Propeller Data Site, Brandt and Selig, AIAA 2011-1255; Deters, Ananda and Selig,
AIAA 2014-2151. Bench: Cao and Strawson 2018 (MIT licence).
"""

import math
from statistics import median

import pytest

from buildbook.figures.laws.aero import hover
from buildbook.figures.laws.aero import propeller as prop
from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.numbers import interpolated
from buildbook.figures.laws.propulsion import bench

INCH_M = 0.0254
GRAM_FORCE_N = STANDARD_GRAVITY_M_S2 / 1000
RHO = 1.225
STATIC_FILES = (
    "prop_10x4.7_static",
    "prop_11x4.7_static",
    "prop_11x6_static",
    "prop_9x6.75_2blade_static",
    "prop_9x6.75_3blade_static",
)


def columns(rows, file):
    """Columns of a propeller file; the first in rev/s where it is a speed."""
    table = [tuple(map(float, row.values())) for row in rows(f"propellers/{file}.csv")]
    first, *rest = zip(*table, strict=True)
    if "static" in file:
        first = tuple(rpm / 60 for rpm in first)
    return (first, *rest)


def diameter_m(file):
    return float(file.split("_")[1].split("x")[0]) * INCH_M


@pytest.mark.parametrize(
    ("file", "rpm", "expected", "tolerance"),
    [
        (
            "prop_10x4.7_static",
            4590,
            (0.1200, 0.0484, 3.5808, 365.14, 28.063, 0.6853, 13.011),
            1e-4,
        ),
        (
            "prop_10x4.7_static",
            5000,
            (0.122929, 0.049670, 4.3527, 443.86, 37.226, 0.6924, 11.923),
            1e-3,
        ),
        (
            "prop_11x4.7_static",
            4000,
            (0.112847, 0.043220, 3.7441, 381.79, 26.710, 0.6998, 14.294),
            1e-3,
        ),
        (
            "prop_11x6_static",
            5042,
            (0.1111, 0.0477, 5.8568, 597.23, 59.039, 0.6194, 10.116),
            1e-4,
        ),
        (
            "prop_9x6.75_3blade_static",
            4108.889,
            (0.203092, 0.112902, 3.1863, 324.91, 27.729, 0.6468, 11.717),
            1e-4,
        ),
        (
            "prop_9x6.75_2blade_static",
            4450,
            (0.150186, 0.076846, 2.7637, 281.82, 23.975, 0.6043, 11.754),
            1e-4,
        ),
    ],
)
def test_static_rows(rows, file, rpm, expected, tolerance):
    """Coefficients, thrust, power and figure of merit at and between measured rows (UIUC)."""
    ct, cp = prop.coefficients_at(rpm / 60, *columns(rows, file))
    thrust = prop.propeller_thrust_n(ct, RHO, rpm / 60, diameter_m(file))
    power = prop.propeller_power_w(cp, RHO, rpm / 60, diameter_m(file))
    grams = thrust / GRAM_FORCE_N
    found = (ct, cp, thrust, grams, power, prop.figure_of_merit(ct, cp), grams / power)

    assert expected == pytest.approx(found, rel=tolerance)


@pytest.mark.parametrize(
    ("file", "mass_kg", "rpm", "power_w", "merit"),
    [
        ("prop_10x4.7_static", 1.2, 4213.4, 21.127, 0.6779),
        ("prop_11x4.7_static", 1.5, 3967.5, 26.017, 0.6994),
    ],
)
def test_hover_speed_of_a_quad(rows, file, mass_kg, rpm, power_w, merit):
    """Speed at which the thrust is a quarter of the weight (UIUC rows, solved)."""
    speeds, cts, cps = columns(rows, file)
    thrust = hover.hover_thrust_n(mass_kg, 4)
    found = prop.table_rotation_for_thrust_rev_s(thrust, RHO, diameter_m(file), speeds, cts)
    ct, cp = prop.coefficients_at(found, speeds, cts, cps)

    assert rpm == pytest.approx(found * 60, rel=1e-3)
    assert power_w == pytest.approx(
        prop.propeller_power_w(cp, RHO, found, diameter_m(file)), rel=1e-3
    )
    assert merit == pytest.approx(prop.figure_of_merit(ct, cp), rel=1e-3)
    assert found == pytest.approx(
        prop.rotation_for_thrust_rev_s(thrust, ct, RHO, diameter_m(file)), rel=1e-9
    )


@pytest.mark.parametrize(
    ("file", "rpm", "airspeed", "expected"),
    [
        (
            "prop_10x4.7_forward_6512rpm",
            6512,
            5,
            (0.18137, 0.104966, 0.049836, 6.3044, 82.517, 0.3820),
        ),
        (
            "prop_10x4.7_forward_6512rpm",
            6512,
            10,
            (0.36275, 0.073233, 0.043126, 4.3985, 71.406, 0.6160),
        ),
        (
            "prop_11x4.7_forward_6006rpm",
            6006,
            8,
            (0.28604, 0.080471, 0.041737, 6.0193, 87.317, 0.5515),
        ),
    ],
)
def test_forward_flight(rows, file, rpm, airspeed, expected):
    """Advance ratio, coefficients, thrust, power, efficiency between measured rows (UIUC)."""
    ratios, cts, cps, _ = columns(rows, file)
    ratio = prop.advance_ratio(airspeed, rpm / 60, diameter_m(file))
    ct, cp = (interpolated("advance_ratio", ratio, ratios, each) for each in (cts, cps))
    thrust = prop.propeller_thrust_n(ct, RHO, rpm / 60, diameter_m(file))
    power = prop.propeller_power_w(cp, RHO, rpm / 60, diameter_m(file))

    assert expected == pytest.approx(
        (ratio, ct, cp, thrust, power, thrust * airspeed / power), rel=1e-3
    )


@pytest.mark.parametrize(
    ("file", "airspeed", "watts", "efficiency"),
    [
        ("prop_10x4.7_forward_6512rpm", 5, 82.517, 0.3820),
        ("prop_10x4.7_forward_6512rpm", 10, 71.406, 0.6160),
        ("prop_11x4.7_forward_6006rpm", 8, 87.317, 0.5515),
    ],
)
def test_efficiency_at_a_power(rows, file, airspeed, watts, efficiency):
    """The same points found from shaft power and airspeed alone (UIUC)."""
    ratios, cts, cps, _ = columns(rows, file)
    span = diameter_m(file)

    assert efficiency == pytest.approx(
        prop.efficiency_at_power(watts, airspeed, RHO, span, ratios, cts, cps), rel=1e-3
    )
    with pytest.raises(ValueError, match=r"^shaft_power_w must be from .* at this airspeed"):
        prop.efficiency_at_power(1e5, airspeed, RHO, span, ratios, cts, cps)


@pytest.mark.parametrize("file", STATIC_FILES)
def test_every_static_figure_of_merit_is_plausible(rows, file):
    """Figure of merit between 0.43 and 0.73 on every measured row (UIUC)."""
    merits = [prop.figure_of_merit(ct, cp) for _, ct, cp in zip(*columns(rows, file), strict=True)]

    assert 0.43 <= min(merits)
    assert max(merits) <= 0.73


def test_yaw_arm_of_a_measured_propeller(rows):
    """Torque over thrust of the 10x4.7 at 6528 rpm is 0.016525 m (UIUC)."""
    ct, cp = prop.coefficients_at(6528 / 60, *columns(rows, "prop_10x4.7_static"))
    thrust = prop.propeller_thrust_n(ct, RHO, 6528 / 60, 0.254)
    power = prop.propeller_power_w(cp, RHO, 6528 / 60, 0.254)
    found = prop.yaw_arm_m(ct, cp, 0.254)

    assert 0.016525 == pytest.approx(found, abs=5e-7)
    assert prop.shaft_torque_nm(power, 6528 / 60) / thrust == pytest.approx(found, rel=1e-12)


# ------------------------------------------------------------------------------------ bench


def sweep(rows, test_id):
    """Rows of one sweep of Cao and Strawson 2018; throttle from the pulse, 1000 to 2000 us."""
    return [
        bench.BenchRow(
            throttle=(float(row["esc_signal_us"]) - 1000) / 1000,
            voltage_v=float(row["voltage_v"]),
            current_a=float(row["current_a"]),
            thrust_n=float(row["thrust_gf"]) * GRAM_FORCE_N,
            rotation_rev_s=float(row["motor_speed_rpm"] or 0) / 60 or None,
            power_w=float(row["electrical_power_w"]),
        )
        for row in rows("thrust_stand/multirotor_5in_bench.csv")
        if row["test_id"] == test_id
    ]


def sagged(rows, test_id):
    """Whether the file marks the supply as sagging at full pulse of a sweep."""
    return any(
        row["test_id"] == test_id
        and row["esc_signal_us"] == "2000"
        and row["supply_sag_flag"] == "1"
        for row in rows("thrust_stand/multirotor_5in_bench.csv")
    )


@pytest.mark.parametrize(
    ("test_id", "pulse_us", "expected"),
    [
        (
            "2205-2400kv_5x4.5x3_3s",
            1525,
            (186.51, 1.82904, 38.171, 4.886, 0.15885, 14.041, 0.3678),
        ),
        (
            "2206-2000kv_5x4x2_3s",
            1715,
            (185.00, 1.81423, 33.290, 5.557, 0.12366, 13.871, 0.4167),
        ),
    ],
)
def test_bench_rows(rows, test_id, pulse_us, expected):
    """Thrust, power, coefficient and efficiency of two rows (Cao and Strawson 2018)."""
    row = next(r for r in sweep(rows, test_id) if round(r.throttle * 1000) + 1000 == pulse_us)
    area = hover.disk_area_m2(0.127)
    grams = row.thrust_n / GRAM_FORCE_N
    found = (
        grams,
        row.thrust_n,
        row.power_w,
        grams / row.power_w,
        row.thrust_n / prop.propeller_thrust_n(1.0, RHO, row.rotation_rev_s, 0.127),
        hover.ideal_hover_power_w(row.thrust_n, area, RHO),
        hover.ideal_hover_power_w(row.thrust_n, area, RHO) / row.power_w,
    )

    assert expected == pytest.approx(found, rel=1e-3)


def test_hover_of_a_650_g_quad_from_the_bench(rows):
    """162.5 gf per motor: 32.345 W each, 129.38 W in all, pulse 1468.4 us (Cao and Strawson)."""
    table = bench.bench_table(sweep(rows, "2205-2400kv_5x4.5x3_3s"), RHO)
    thrust = 162.5 * GRAM_FORCE_N
    voltage = interpolated("thrust_n", thrust, table.thrust_n, table.voltage_v)
    found = bench.bench_point(table, thrust, RHO, voltage)

    assert 32.345 == pytest.approx(found.power_w, rel=1e-3)
    assert 129.38 == pytest.approx(4 * found.power_w, rel=1e-3)
    assert 1468.4 == pytest.approx(1000 + 1000 * found.throttle, rel=1e-3)


def test_voltage_exponents_are_those_of_the_paired_sweeps(rows):
    """Median exponents of thrust and power at full pulse, 7.4 against 11.1 V (Cao, Strawson)."""
    ids = sorted({row["test_id"] for row in rows("thrust_stand/multirotor_5in_bench.csv")})
    thrusts, powers = [], []
    for low_id in (name for name in ids if name.endswith("_2s")):
        low = next(r for r in sweep(rows, low_id) if r.throttle == 1.0)
        high = next(r for r in sweep(rows, low_id[:-2] + "3s") if r.throttle == 1.0)
        if sagged(rows, low_id) or sagged(rows, low_id[:-2] + "3s"):
            continue
        ratio = math.log(high.voltage_v / low.voltage_v)
        thrusts.append(math.log(high.thrust_n / low.thrust_n) / ratio)
        powers.append(math.log(high.power_w / low.power_w) / ratio)

    assert 11 == len(thrusts)
    assert bench.THRUST_VOLTAGE_EXPONENT == pytest.approx(median(thrusts), abs=0.05)
    assert bench.POWER_VOLTAGE_EXPONENT == pytest.approx(median(powers), abs=0.05)


def test_throttle_times_voltage_is_kept_at_equal_thrust(rows):
    """Between 7.4 and 11.1 V the median of the ratio is within 5 % of 1 (Cao, Strawson)."""
    ids = sorted({row["test_id"] for row in rows("thrust_stand/multirotor_5in_bench.csv")})
    ratios = []
    for low_id in (name for name in ids if name.endswith("_2s")):
        low = bench.bench_table(sweep(rows, low_id), RHO)
        high = bench.bench_table(sweep(rows, low_id[:-2] + "3s"), RHO)
        for thrust, applied in zip(low.thrust_n, low.applied_v, strict=True):
            if max(0.6, high.thrust_n[0]) <= thrust <= high.thrust_n[-1]:
                other = interpolated("thrust_n", thrust, high.thrust_n, high.applied_v)
                ratios.append(applied / other)

    assert len(ratios) > 100
    assert 1.0 == pytest.approx(median(ratios), abs=0.05)


def test_rows_of_a_sagging_supply_tell_what_a_steady_one_gives(rows):
    """The 11.1 V supply sags to 7.2 to 9.4 V at full pulse: from that row what 7.4 V give there.

    The sweep on 7.4 V of the same motor and propeller is the truth (Cao, Strawson): thrust within
    2 % wherever the voltages are near enough to each other.
    """
    ids = sorted({row["test_id"] for row in rows("thrust_stand/multirotor_5in_bench.csv")})
    ratios = []
    for low_id in (name for name in ids if name.endswith("_2s")):
        high_id = low_id[:-2] + "3s"
        if not sagged(rows, high_id):
            continue
        table = bench.bench_table(sweep(rows, high_id), RHO)
        low = next(r for r in sweep(rows, low_id) if r.throttle == 1.0)
        if table.full is None or not 0.75 <= low.voltage_v / table.full.voltage_v <= 1.35:
            continue
        found = bench.bench_full_throttle(table, RHO, low.voltage_v)
        ratios.append(found.thrust_n / low.thrust_n)

    assert 5 <= len(ratios)
    assert [1.0] * len(ratios) == pytest.approx(ratios, abs=0.02)
