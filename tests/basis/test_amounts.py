"""Plain numbers in words and trade notation."""

import datetime
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.basis import amounts


@pytest.mark.parametrize(
    ("expected", "said"),
    [
        ("54.2 g", amounts.mass(0.0542)),
        ("39.3 g", amounts.mass(0.03925)),
        ("0 g", amounts.mass(0.0)),
        ("1.25 g", amounts.mass(0.00125)),
        ("62 g", amounts.mass(0.062)),
        ("999.6 g", amounts.mass(0.9996)),
        ("1480 g", amounts.mass(1.48)),
        ("12.3 kg", amounts.mass(12.3)),
        ("-28 g", amounts.mass(-0.028)),
        ("140 mm", amounts.length(0.14)),
        ("86.5 mm", amounts.length(0.08645)),
        ("1400 mm", amounts.length(1.4)),
        ("12.5 m", amounts.length(12.5)),
        ("120 m", amounts.altitude(120.4)),
        ("0.32 m²", amounts.area(0.32)),
        ("1.31 mm²", amounts.conductor(1.3087e-6)),
        ("3.82 V", amounts.voltage(3.82)),
        ("11.10 V", amounts.voltage(11.1)),
        ("12.4 A", amounts.current(12.4)),
        ("350 mA", amounts.current(0.35)),
        ("0 A", amounts.current(0.0)),
        ("1480 mAh", amounts.charge(1.48)),
        ("185 W", amounts.power(184.6)),
        ("4.2 W", amounts.power(4.2)),
        ("8.1 mΩ", amounts.resistance(0.0081)),
        ("1.2 Ω", amounts.resistance(1.2)),
        ("870 rpm/V", amounts.speed_constant(870.0)),
        ("8420 rpm", amounts.rotation(8420.3)),
        ("12.3 m/s", amounts.speed(12.34)),
        ("15 °C", amounts.temperature(288.15)),
        ("-3.5 °C", amounts.temperature(269.65)),
        ("0 °C", amounts.temperature(273.1499)),
        ("1013.3 hPa", amounts.pressure(101325.0)),
        ("12.5°", amounts.angle(12.5)),
        ("80 %", amounts.share(0.8)),
        ("79.9 %", amounts.share(1039 / 1300)),
        ("25C", amounts.discharge_rate(25.0)),
        ("3S", amounts.cells(3)),
        ("3S2P", amounts.cells(3, 3, 2)),
        ("2S-4S", amounts.cells(2, 4)),
        ("14.50 EUR", amounts.money(14.5, "EUR")),
        ("12 May 2026", amounts.day(datetime.date(2026, 5, 12))),
        ("May 2026", amounts.month(datetime.date(2026, 5, 12))),
        ("30 days", amounts.age(30)),
        ("1 day", amounts.age(1)),
        ("6 months", amounts.age(0, 6)),
        ("1 year 6 months", amounts.age(0, 18)),
        ("0 days", amounts.age(0)),
        ("1 flight", amounts.count("flight", 1)),
        ("3 flights", amounts.count("flight", 3)),
        ("0 flights", amounts.count("flight", 0)),
        ("-1 flight", amounts.count("flight", -1)),
        ("2 batteries", amounts.count("battery", 2)),
        ("2 flying days", amounts.count("flying day", 2)),
        ("2 switches", amounts.count("switch", 2)),
        ("2.05 cycles", amounts.count("cycle", 2.054)),
        ("", amounts.listed([])),
        ("a", amounts.listed(["a"])),
        ("a, b and c", amounts.listed(["a", "b", "c"])),
        ("a or b", amounts.listed(["a", "b"], "or")),
    ],
)
def test_words(expected: str, said: str) -> None:
    """One line for each kind of thing that pages say."""
    assert expected == said


@pytest.mark.parametrize(
    ("expected", "seconds"),
    [
        ("0 s", 0),
        ("45 s", 45.4),
        ("1 min 00 s", 59.5),
        ("7 min 20 s", 440),
        ("13 min 00 s", 780),
        ("1 h 05 min 00 s", 3900),
        ("-7 min 20 s", -440),
    ],
)
def test_durations(expected: str, seconds: float) -> None:
    """Rounded to whole seconds first, so that no 60 s appear."""
    assert expected == amounts.duration(seconds)


@pytest.mark.parametrize(
    ("expected", "seconds"),
    [("0.22 h", 780), ("0.10 h", 360), ("1.0 h", 3590), ("12.4 h", 44_640), ("55.0 h", 198_000)],
)
def test_hours(expected: str, seconds: float) -> None:
    """Hundredths under one hour, tenths from there on."""
    assert expected == amounts.hours(seconds)


def test_three_flights_add_up_in_whole_seconds() -> None:
    """4:30 + 5:10 + 3:20 (14 CFR 91.417(a)(2)(i) as a logbook rule, R10 of the record rules)."""
    total = amounts.total_seconds([270.0, 310.0, 200.0])

    assert "13 min 00 s (0.22 h), 3 flights" == amounts.flown(total, 3)


@pytest.mark.parametrize(
    ("expected", "value", "unit"),
    [
        ("1480 g", 1.48, "kg"),
        ("14.5 N", 14.52, "N"),
        ("185 W", 185.2, "W"),
        ("12.4 A", 12.4, "A"),
        ("11.10 V", 11.1, "V"),
        ("8.1 mΩ", 0.0081, "Ω"),
        ("7 min 20 s", 440.0, "s"),
        ("3.2 h", 3.2, "h"),
        ("86.4 mm", 0.0864, "m"),
        ("12.3 m/s", 12.3, "m/s"),
        ("1013.3 hPa", 101325.0, "Pa"),
        ("15 °C", 288.15, "K"),
        ("1.225 kg/m³", 1.225, "kg/m³"),
        ("0.0123 kg·m²", 0.01234, "kg·m²"),
        ("8420 rpm", 8420.0, "rpm"),
        ("12.5°", 12.5, "deg"),
        ("1480 mAh", 1.48, "Ah"),
        ("19.24 Wh", 19.24, "Wh"),
        ("2.13", 2.126, "ratio"),
        ("132.09", 132.09, "count"),
    ],
)
def test_figures_by_their_unit(expected: str, value: float, unit: str) -> None:
    """Every unit that a figure can have."""
    assert expected == amounts.figure(value, unit)


def test_every_unit_of_a_figure_is_covered() -> None:
    """The units of the figures, as the site's contract lists them."""
    listed = "kg N W A V Ω s h m m/s Pa K kg/m³ kg·m² rpm deg Ah Wh ratio count"

    assert listed.split() == list(amounts.FIGURES)


@pytest.mark.parametrize(
    ("expected", "watt_hours"),
    [
        ("19.24 Wh", 14.8 * 1.3),
        ("111.0 Wh", 22.2 * 5.0),
        ("177.6 Wh", 22.2 * 8.0),
        ("100.0 Wh", 99.996),
        ("0 Wh", 0.0),
    ],
)
def test_energy_of_packs(expected: str, watt_hours: float) -> None:
    """R53 of the record rules: nominal voltage times charge."""
    assert expected == amounts.energy(watt_hours)


@pytest.mark.parametrize(
    ("expected", "value", "places"),
    [("0.13", 0.125, 2), ("2.68", 2.675, 2), ("3", 2.5, 0), ("-3", -2.5, 0), ("0.00", -0.001, 2)],
)
def test_halves_go_away_from_zero(expected: str, value: float, places: int) -> None:
    """As people expect it, not to the even digit and not as binary fractions have it."""
    assert expected == amounts.fixed(value, places)


@pytest.mark.parametrize(
    ("expected", "value"),
    [
        ("10", 9.996),
        ("9.99", 9.994),
        ("0.001", 0.0009999),
        ("123457", 123456.7),
        ("0", 0.0),
        ("-1.23", -1.234),
    ],
)
def test_three_digits_that_count(expected: str, value: float) -> None:
    """Digits before the point are never cut."""
    assert expected == amounts.significant(value, 3)


def test_limits_compare_in_whole_parts() -> None:
    """In binary fractions 3.85 - 3.82 is above 0.03; in thousandths it is not."""
    assert 3.85 - 3.82 > 0.03
    assert 30 == amounts.whole(3.85, 1000) - amounts.whole(3.82, 1000)
    assert 1039 == amounts.whole_mah(1.039)
    assert 440 == amounts.whole_seconds(439.5)
    assert -440 == amounts.whole_seconds(-439.5)
    assert 1 == amounts.whole_mah(0.0005)


@given(thousandths=st.integers(-(10**9), 10**9), parts=st.sampled_from([1, 1000]))
@settings(max_examples=200, deadline=None)
def test_whole_parts_agree_with_decimal(thousandths: int, parts: int) -> None:
    """Source: decimal arithmetic, ROUND_HALF_UP, on the number as it was written."""
    written = Decimal(thousandths) / 1000
    expected = int((written * parts).to_integral_value("ROUND_HALF_UP"))

    assert expected == amounts.whole(float(written), parts)


@given(value=st.floats(allow_nan=False, allow_infinity=False), digits=st.integers(1, 6))
@settings(max_examples=200, deadline=None)
def test_any_number_can_be_said(value: float, digits: int) -> None:
    """The text is near the value and never minus zero."""
    said = amounts.significant(value, digits)

    assert value == pytest.approx(float(said), rel=10.0 ** (1 - digits))
    assert not said.startswith("-0") or float(said) != 0
