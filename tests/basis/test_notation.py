"""Text as said at the bench, read into plain numbers."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildbook.basis import amounts, notation
from buildbook.basis.notation import quantity
from buildbook.basis.units import UNITS, Dimension
from buildbook.records.keys import values


@pytest.mark.parametrize(
    ("expected", "text", "dimension"),
    [
        (0.062, "62 g", "mass"),
        (0.062, "62g", "mass"),
        (0.0542, "  54.2 g ", "mass"),
        (0.45359237, "1 lb", "mass"),
        (0.028349523125, "1 oz", "mass"),
        (0.0012, "1.2e-3 kg", "mass"),
        (-0.005, "-5 mm", "length"),
        (-0.005, "−5 mm", "length"),
        (0.25, "+25 cm", "length"),
        (0.0005, ".5 mm", "length"),
        (0.254, "10 in", "length"),
        (0.32, "0.32 m²", "area"),
        (0.32, "32 dm2", "area"),
        (2.2, "2200 mAh", "charge"),
        (2.2, "2200\u00a0mAh", "charge"),
        (2.2, "2200\u202fmAh", "charge"),
        (1.0, "3600 J", "energy"),
        (0.0081, "8.1 mΩ", "resistance"),
        (0.0081, "8.1 m\u2126", "resistance"),
        (0.0081, "8.1 mohm", "resistance"),
        (870.0, "870 rpm/V", "speed_constant"),
        (10.0, "36 km/h", "speed"),
        (0.44704, "1 mph", "speed"),
        (463.0, "900 kn", "speed"),
        (288.15, "15 °C", "temperature"),
        (288.15, "15 \u00baC", "temperature"),
        (288.15, "15 C", "temperature"),
        (273.15, "32 °F", "temperature"),
        (233.15, "-40 F", "temperature"),
        (101325.0, "1013.25 hPa", "pressure"),
        (101325.0, "1013.25 mbar", "pressure"),
        (0.0, "0 m", "altitude"),
        (304.8, "1000 ft", "altitude"),
        (12.5, "12.5°", "angle"),
        (0.2, "20 %", "share"),
        (0.2, "0.2", "share"),
        (440.0, "7 min 20 s", "duration"),
    ],
)
def test_quantities_become_plain_numbers(expected: float, text: str, dimension: Dimension) -> None:
    """A number, an optional space and a unit; decimals come out exact, not nearly so."""
    assert expected == pytest.approx(quantity(text, dimension), rel=1e-15, abs=0)


@pytest.mark.parametrize(
    ("expected", "text"),
    [
        (440.0, "7 min 20 s"),
        (440.0, "7min20s"),
        (440.0, "7:20"),
        (5.0, "0:05"),
        (425.0, "7 min 05 s"),
        (7200.0, "120:00"),
        (90.0, "90 s"),
        (5400.0, "1.5 h"),
        (3920.0, "1 h 5 min 20 s"),
        (3620.0, "1 h 20 s"),
        (4500.0, "75 min"),
        (440.5, "7 min 20.5 s"),
        (0.0, "0 s"),
    ],
)
def test_durations(expected: float, text: str) -> None:
    """A colon parts minutes and seconds, never hours and minutes."""
    assert expected == notation.duration_s(text)


@pytest.mark.parametrize(
    ("expected", "text"),
    [
        ((30, 0), "30 days"),
        ((1, 0), "1 day"),
        ((14, 0), "2 weeks"),
        ((0, 6), "6 months"),
        ((0, 48), "4 years"),
        ((0, 18), "1 year 6 months"),
        ((0, 18), "1.5 years"),
        ((0, 0), "0 days"),
        ((10, 1), "1 month 10 days"),
    ],
)
def test_ages_keep_days_and_months_apart(expected: tuple[int, int], text: str) -> None:
    """A month has no fixed length, so it is never turned into days."""
    assert expected == notation.age(text)


def test_sizes_of_the_trade() -> None:
    """Cells, rates, propellers and money in the notation on their labels."""
    assert (3, 3, 1) == notation.cells("3S")
    assert (3, 3, 2) == notation.cells("3S2P")
    assert (2, 4, 1) == notation.cells("2S-4S")
    assert (2, 4, 1) == notation.cells("2–4S")
    assert 25.0 == notation.discharge_rate("25C")
    assert 0.5 == notation.discharge_rate("0.5 C")
    assert (0.254, 0.1143) == notation.propeller_size("10x4.5")
    assert (0.254, 0.1143) == notation.propeller_size("10 × 4.5 in")
    assert (0.254, 0.114) == notation.propeller_size("254x114 mm")
    assert (14.5, "EUR") == notation.money("14.50 EUR")
    assert 1.5e-6 == notation.wire("1.5 mm²")
    assert 1.5e-6 == notation.wire("1.5 mm2")


def test_plain_values() -> None:
    """Numbers, whole numbers and truth values without a unit."""
    assert 12.0 == notation.number("12")
    assert -0.5 == notation.number("-0.5")
    assert 0.0012 == notation.number("1.2e-3")
    assert 1.0 == math.copysign(1.0, notation.number("-0"))
    assert -3 == notation.whole("-3")
    assert values.truth("true") is True
    assert values.truth("false") is False


def test_a_quoted_text_stays_on_one_line_and_ends() -> None:
    """A message can quote whatever was found."""
    assert "'a b'" == notation.quoted("a\n\t b")
    assert "'�[31m'" == notation.quoted("\x1b[31m")
    assert f"'{'x' * 57}…'" == notation.quoted("x" * 1000)


READERS = [
    notation.number,
    notation.whole,
    values.truth,
    notation.duration_s,
    notation.age,
    notation.share,
    notation.discharge_rate,
    notation.cells,
    notation.wire,
    notation.propeller_size,
    notation.money,
]


def refused(reader: Callable[..., object], *given: str) -> notation.NotationError | None:
    """The refusal, if it is one; any other error goes on up."""
    try:
        reader(*given)
    except notation.NotationError as refusal:
        return refusal
    return None


NEARLY = st.text(alphabet="0123456789.,+-:eE ΩSCPx×²%°'mkghinsAVWJrpuzlb/\u00a0\n", max_size=14)


@pytest.mark.parametrize("reader", READERS)
@given(text=st.one_of(st.text(max_size=30), NEARLY))
@settings(max_examples=120, deadline=None)
def test_only_a_notation_error_is_raised(reader, text: str) -> None:  # type: ignore[no-untyped-def]
    """Whatever the text: a value or a refusal with words, never another error."""
    refusal = refused(reader, text)

    if refusal is not None:
        assert refusal.reason
        assert not refusal.reason.endswith(".")
        assert "\n" not in refusal.reason + (refusal.hint or "")


@given(text=st.one_of(st.text(max_size=30), NEARLY), dimension=st.sampled_from(sorted(UNITS)))
@settings(max_examples=300, deadline=None)
def test_any_quantity_is_finite_or_refused(text: str, dimension: Dimension) -> None:
    """No text becomes an infinity or not-a-number."""
    if refused(quantity, text, dimension) is None:
        assert math.isfinite(quantity(text, dimension))


@given(
    amount=st.decimals(min_value=0, max_value=10**6, places=3),
    dimension=st.sampled_from([name for name in UNITS if name not in ("temperature", "share")]),
    data=st.data(),
)
@settings(max_examples=200, deadline=None)
def test_spelling_a_number_out_changes_nothing(amount, dimension, data) -> None:  # type: ignore[no-untyped-def]
    """With or without a space or zeros at the end the value is the same, and it grows with it."""
    unit = data.draw(st.sampled_from(list(UNITS[dimension].units)))
    plain = quantity(f"{amount:f} {unit}", dimension)

    assert plain == quantity(f"{amount:f}{unit}", dimension)
    assert plain == quantity(f"{amount:f}000 {unit}", dimension)
    assert plain < quantity(f"{amount + 1:f} {unit}", dimension)


@given(seconds=st.integers(0, 10**6))
@settings(max_examples=200, deadline=None)
def test_a_duration_said_reads_back(seconds: int) -> None:
    """Whole seconds survive the round trip through words."""
    assert seconds == notation.duration_s(amounts.duration(seconds))


@given(days=st.integers(0, 30), months=st.integers(0, 2400))
@settings(max_examples=100, deadline=None)
def test_an_age_said_reads_back(days: int, months: int) -> None:
    """Days and months survive the round trip through words."""
    assert (days, months) == notation.age(amounts.age(days, months))


@given(series=st.integers(1, 14), more=st.integers(0, 4), parallel=st.integers(1, 4))
@settings(max_examples=60, deadline=None)
def test_cells_said_read_back(series: int, more: int, parallel: int) -> None:
    """A range has one string only; all others survive the round trip."""
    strings = 1 if more else parallel

    assert (series, series + more, strings) == notation.cells(
        amounts.cells(series, series + more, strings)
    )


SAID = {
    "mass": (amounts.mass, st.integers(1, 9_999).map(lambda n: n / 1000)),
    "length": (amounts.length, st.integers(-1999, 1999).map(lambda n: n / 1000)),
    "voltage": (amounts.voltage, st.integers(0, 6000).map(lambda n: n / 100)),
    "current": (amounts.current, st.integers(1, 999).map(lambda n: n / 1000)),
    "charge": (amounts.charge, st.integers(0, 30_000).map(lambda n: n / 1000)),
    "power": (amounts.power, st.integers(10, 5000).map(float)),
    "resistance": (amounts.resistance, st.integers(1, 9999).map(lambda n: n / 100_000)),
    "speed_constant": (amounts.speed_constant, st.integers(50, 9000).map(float)),
    "rotation": (amounts.rotation, st.integers(0, 60_000).map(float)),
    "speed": (amounts.speed, st.integers(0, 900).map(lambda n: n / 10)),
    "temperature": (amounts.temperature, st.integers(-400, 600).map(lambda n: n / 10 + 273.15)),
    "pressure": (amounts.pressure, st.integers(5000, 11_000).map(lambda n: n * 10.0)),
    "altitude": (amounts.altitude, st.integers(-400, 5000).map(float)),
    "angle": (amounts.angle, st.integers(-3600, 3600).map(lambda n: n / 10)),
    "share": (amounts.share, st.integers(1, 2000).map(lambda n: n / 1000)),
    "energy": (amounts.energy, st.integers(100, 9999).map(lambda n: n / 10)),
    "area": (amounts.area, st.integers(100, 999).map(lambda n: n / 1000)),
}


@pytest.mark.parametrize("dimension", sorted(SAID))
@given(data=st.data())
@settings(max_examples=60, deadline=None)
def test_what_is_said_reads_back(dimension: Dimension, data) -> None:  # type: ignore[no-untyped-def]
    """Values with no more digits than a bench would give survive the round trip."""
    say, values = SAID[dimension]
    value = data.draw(values)

    assert value == pytest.approx(quantity(say(value), dimension), rel=1e-9, abs=1e-9)
