"""Atmosphere rows. Source where none is named: US Standard Atmosphere 1976 / ICAO Doc 7488."""

import ambiance
import fluids
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.figures.laws.aero import atmosphere as air

FOOT_M = 0.3048
INCH_MERCURY_PA = 3386.389

GEOMETRIC = {  # z m: T K, p Pa, rho kg/m³, a m/s
    0: (288.150, 101325.0, 1.22500, 340.294),
    1000: (281.651, 89876.3, 1.11166, 336.435),
    2000: (275.154, 79501.4, 1.00655, 332.532),
    3000: (268.659, 70121.1, 0.90925, 328.584),
    5000: (255.676, 54048.3, 0.73643, 320.545),
}


def geopotential_m(height_m):
    """Geopotential altitude of a height above mean sea level: the Earth's radius is 6356766 m."""
    return 6356766.0 * height_m / (6356766.0 + height_m)


@pytest.mark.parametrize("height_m", GEOMETRIC)
def test_standard_day_by_geometric_height(height_m):
    """Temperature, pressure, density and speed of sound agree with the table of the standard."""
    expected = GEOMETRIC[height_m]
    altitude = geopotential_m(height_m)
    temperature = air.isa_temperature_k(altitude)

    assert expected == pytest.approx(
        (
            temperature,
            air.isa_pressure_pa(altitude),
            air.air_density_kg_m3(altitude, temperature),
            air.speed_of_sound_m_s(temperature),
        ),
        rel=1e-5,
    )


def test_all_geometric_rows_of_the_table(rows):
    """Every row of the geometric table agrees to its printed digits."""
    for row in rows("atmosphere/isa_geometric_rows.csv"):
        altitude = geopotential_m(float(row["geometric_altitude_m"]))
        temperature = air.isa_temperature_k(altitude)

        assert float(row["geopotential_altitude_m"]) == pytest.approx(altitude, abs=0.006)
        assert float(row["temperature_k"]) == pytest.approx(temperature, abs=6e-4)
        assert float(row["pressure_pa"]) == pytest.approx(air.isa_pressure_pa(altitude), rel=1e-5)
        assert float(row["density_kg_per_m3"]) == pytest.approx(
            air.air_density_kg_m3(altitude, temperature), rel=1e-5
        )


def test_all_pressure_altitude_rows_of_the_table(rows):
    """Every row of the table by pressure altitude in feet agrees; 5000 ft has ratio 0.86167."""
    for row in rows("atmosphere/isa_pressure_altitude_ft_rows.csv"):
        altitude = float(row["pressure_altitude_ft"]) * FOOT_M
        temperature = air.isa_temperature_k(altitude)
        density = air.air_density_kg_m3(altitude, temperature)

        assert float(row["isa_temperature_degc"]) == pytest.approx(temperature - 273.15, abs=6e-4)
        assert float(row["pressure_hpa"]) == pytest.approx(
            air.isa_pressure_pa(altitude) / 100, abs=0.006
        )
        assert float(row["density_ratio_dimensionless"]) == pytest.approx(density / 1.225, abs=6e-6)


def test_pressure_and_density_at_1000_m_geopotential():
    """The geopotential table gives 89874.6 Pa and 1.11164 kg/m³."""
    assert 89874.6 == pytest.approx(air.isa_pressure_pa(1000), rel=1e-5)
    assert 1.11164 == pytest.approx(
        air.air_density_kg_m3(1000, air.isa_temperature_k(1000)), rel=1e-5
    )


def test_tropopause():
    """At 11000 m: 216.650 K, 22632.1 Pa, 0.36392 kg/m³."""
    temperature = air.isa_temperature_k(11000)

    assert 216.650 == pytest.approx(temperature, rel=1e-5)
    assert 22632.1 == pytest.approx(air.isa_pressure_pa(11000), rel=1e-5)
    assert 0.36392 == pytest.approx(air.air_density_kg_m3(11000, temperature), rel=1e-5)


def test_density_ratio_at_5000_ft():
    """Density ratio at a pressure altitude of 5000 ft is 0.86167."""
    altitude = 5000 * FOOT_M
    density = air.air_density_kg_m3(altitude, air.isa_temperature_k(altitude))

    assert 0.86167 == pytest.approx(density / 1.225, rel=1e-4)


def test_pressure_altitude_of_the_faa_sample():
    """Elevation 5883 ft, altimeter 30.10 inHg: 5718 ft (FAA-H-8083-25, performance chapter)."""
    found = air.pressure_altitude_m(5883 * FOOT_M, 30.10 * INCH_MERCURY_PA)

    assert 5718 == pytest.approx(found / FOOT_M, abs=1)
    assert -165 == pytest.approx(found / FOOT_M - 5883, abs=1)


DENSITY_ALTITUDES = [  # pressure altitude ft, K, density altitude ft, rho, tolerance ft
    pytest.param(5718, 294.26, 7709, 0.97156, 5, id="FAA-H-8083-25 sample, chart 7700"),
    pytest.param(0, 308.15, 2275, 1.14549, 2, id="ISA equations, sea level 35 degC"),
    pytest.param(4000, 298.15, 6046, 1.02250, 2, id="ISA equations, 4000 ft 25 degC"),
    pytest.param(1000, 293.15, 1816, 1.16123, 2, id="ISA equations, 1000 ft 20 degC"),
]


@pytest.mark.parametrize(
    ("pressure_altitude_ft", "temperature_k", "expected_ft", "density", "tolerance_ft"),
    DENSITY_ALTITUDES,
)
def test_exact_density_altitude(
    pressure_altitude_ft, temperature_k, expected_ft, density, tolerance_ft
):
    """Density and exact density altitude on warm days."""
    found = air.air_density_kg_m3(pressure_altitude_ft * FOOT_M, temperature_k)

    assert density == pytest.approx(found, rel=1e-4)
    assert expected_ft == pytest.approx(air.density_altitude_m(found) / FOOT_M, abs=tolerance_ft)


def test_density_altitude_of_a_warm_day():
    """6000 ft, 13 degC: 7147 ft."""
    altitude = 6000 * FOOT_M

    assert 7147 == pytest.approx(
        air.density_altitude_m(air.air_density_kg_m3(altitude, 286.15)) / FOOT_M, abs=2
    )


@settings(max_examples=25, deadline=None)
@given(st.floats(-900, 10900))
def test_two_open_libraries_agree(height_m):
    """Cross-check with ambiance and fluids, which take geometric height."""
    altitude = geopotential_m(height_m)
    temperature = air.isa_temperature_k(altitude)
    found = (
        temperature,
        air.isa_pressure_pa(altitude),
        air.air_density_kg_m3(altitude, temperature),
        air.speed_of_sound_m_s(temperature),
    )
    first = ambiance.Atmosphere(height_m)
    second = fluids.ATMOSPHERE_1976(height_m)

    assert found == pytest.approx(
        (first.temperature[0], first.pressure[0], first.density[0], first.speed_of_sound[0]),
        rel=5e-6,
    )
    assert found == pytest.approx((second.T, second.P, second.rho, second.v_sonic), rel=5e-6)
