"""Battery, energy and air transport rows."""

import math

import pytest

from buildbook.figures.laws.packs import battery, pack_transport
from buildbook.figures.laws.packs.discharge import constant_power_discharge

CONSTANT_POWER = [  # V, ohm, W: A, V under load, greatest W
    (14.8, 0.020, 200, 13.76974, 14.52461, 2738.000),
    (14.8, 0.020, 1000, 75.21194, 13.29576, 2738.000),
    (11.1, 0.030, 150, 14.04679, 10.67860, 1026.750),
    (22.2, 0.024, 600, 27.86653, 21.53120, 5133.750),
    (11.1, 0.030, 1026.75, 185.0, 5.55, 1026.750),
]


@pytest.mark.parametrize(
    ("volts", "ohm", "watts", "amperes", "under_load", "_limit"), CONSTANT_POWER
)
def test_constant_power(volts, ohm, watts, amperes, under_load, _limit):
    """Circuit algebra: P = I (V - I R)."""
    current = battery.load_current_a(volts, ohm, watts)

    assert amperes == pytest.approx(current, rel=1e-6)
    assert under_load == pytest.approx(battery.terminal_v(volts, ohm, current), rel=1e-6)


def test_all_constant_power_rows(rows):
    """Every row of the table computed from circuit algebra."""
    for row in rows("discharge/constant_power_check_points.csv"):
        volts, ohm, watts, amperes, under_load, _ = map(float, row.values())
        current = battery.load_current_a(volts, ohm, watts)

        assert (amperes, under_load) == pytest.approx(
            (current, battery.terminal_v(volts, ohm, current)), rel=1e-6
        )


def test_more_than_the_pack_can_give_is_refused():
    """11.1 V behind 0.030 ohm cannot give 1100 W: circuit algebra has no solution."""
    with pytest.raises(ValueError) as error:  # noqa: PT011 -- whole text below
        battery.load_current_a(11.1, 0.030, 1100)

    assert "power_w must be at most 1026.75 from this pack, got 1100" == str(error.value)


def test_no_resistance_gives_power_over_voltage():
    """As R goes to 0 the current goes to P/V."""
    assert 20.0 == pytest.approx(battery.load_current_a(10.0, 0.0, 200), rel=1e-12)
    assert 20.0 == pytest.approx(battery.load_current_a(10.0, 1e-12, 200), rel=1e-9)


ENERGIES = [
    (2.2, 11.1, 24.42, "up to 100 Wh"),
    (5.0, 14.8, 74.0, "up to 100 Wh"),
    (4.5, 22.2, 99.9, "up to 100 Wh"),
    (5.0, 20.0, 100.0, "up to 100 Wh"),
    (6.6, 15.2, 100.32, "over 100 to 160 Wh"),
    (5.0, 22.2, 111.0, "over 100 to 160 Wh"),
    (7.2, 22.2, 159.84, "over 100 to 160 Wh"),
    (10.0, 22.2, 222.0, "over 160 Wh"),
]


@pytest.mark.parametrize(("ampere_hours", "volts", "watt_hours", "band"), ENERGIES)
def test_energy_and_passenger_band(ampere_hours, volts, watt_hours, band):
    """Rated Ah times nominal V; bands of the TSA and FAA passenger pages as of 2026-11-25."""
    energy = battery.pack_energy_wh(ampere_hours, volts)

    assert watt_hours == pytest.approx(energy, rel=1e-9)
    assert band == pack_transport.transport_band(energy).label


def test_charged_voltage_would_give_another_band():
    """4.5 Ah at the charged 25.2 V would be 113.4 Wh: the nominal voltage counts."""
    assert 113.4 == pytest.approx(battery.pack_energy_wh(4.5, 25.2), rel=1e-9)
    assert "over 100 to 160 Wh" == pack_transport.transport_band(113.4).label


def test_band_table_agrees_with_the_dated_file(rows):
    """Each band of the dated data file is a band of the package, limits and words alike."""
    for row, band in zip(
        rows("rules/battery_air_transport.csv"), pack_transport.TRANSPORT_BANDS, strict=True
    ):
        upper = row["upper_wh_inclusive"]

        assert float(row["lower_wh_exclusive"]) == band.over_wh
        assert (float(upper) if upper else None) == band.up_to_wh
        assert row["passenger_rule"].removeprefix("not allowed ") in {
            band.rule,
            band.rule.removeprefix("not "),
        }


def test_discharge_of_a_pack_without_resistance_is_energy_over_power():
    """Conservation of energy: without losses the time is the curve's own energy over the power.

    No published discharge of a known pack at constant power was found; this and the integral
    below stand in for it.
    """
    found = constant_power_discharge("LiIon", 3, 3.0, 0.0, 60.0, 0.0, 0.6)
    curve = battery.CELL_CURVES["LiIon"]
    mean_volts = math.fsum(
        (high - low) * (above + below) / 2
        for low, high, below, above in zip(
            curve.states, curve.states[1:], curve.volts, curve.volts[1:], strict=False
        )
    )

    assert 3.0 * 3 * mean_volts / 60.0 * 3600 == pytest.approx(found.duration_s, rel=1e-4)


def test_sag_of_a_pack_with_its_leads():
    """3S at 20 %, 3.70 V a cell at rest, 9 A, 3 · 6 mΩ and 10 mΩ of leads: 11.10 - 9 · 0.028 V."""
    ohm = battery.pack_resistance_ohm(0.006, 3, 1) + 0.010

    assert 10.848 == pytest.approx(battery.terminal_v(11.10, ohm, 9.0), rel=1e-9)
    assert 9.0 == pytest.approx(battery.load_current_a(11.10, ohm, 10.848 * 9.0), rel=1e-9)
