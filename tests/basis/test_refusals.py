"""What a text that cannot be read is answered."""

from collections.abc import Callable

import pytest

from buildbook.basis import notation
from buildbook.basis.notation import NotationError, quantity
from buildbook.basis.units import Dimension
from buildbook.records.keys import values

MASS = "write it with g, kg, oz or lb"
DURATION = "write it as in 7 min 20 s, 7:20, 90 s or 1.5 h"
AGE = "write it with days, months or years, as in 6 months"
CELLS = "write it as in 3S, 3S1P or 2S-4S"
WIRE = "write it as in 16 AWG or 1.5 mm²"
SIZE = "write diameter and pitch as in 10x4.5 (inches) or 254x114 mm"
NUMBER = "write a plain number, as in 12 or 0.5"


def refusal(reader: Callable[..., object], *given: str) -> tuple[str, str | None]:
    """Reason and hint."""
    with pytest.raises(NotationError) as raised:
        reader(*given)
    return raised.value.reason, raised.value.hint


@pytest.mark.parametrize(
    ("reason", "hint", "text", "dimension"),
    [
        ("'54 gram' is not a mass", f"did you mean 54 g? {MASS}", "54 gram", "mass"),
        ("'54 G' is not a mass", f"did you mean 54 g? {MASS}", "54 G", "mass"),
        ("'54 kgs' is not a mass", f"did you mean 54 kg? {MASS}", "54 kgs", "mass"),
        ("'54 stone' is not a mass", MASS, "54 stone", "mass"),
        ("'54 g g' is not a mass", MASS, "54 g g", "mass"),
        ("'heavy' is not a mass", MASS, "heavy", "mass"),
        ("'' is not a mass", MASS, "", "mass"),
        ("'nan g' is not a mass", MASS, "nan g", "mass"),
        ("'٥ g' is not a mass", MASS, "٥ g", "mass"),
        ("'1_000 g' is not a mass", MASS, "1_000 g", "mass"),
        ("'0x10 g' is not a mass", MASS, "0x10 g", "mass"),
        ("'54 mm' is a length, not a mass", MASS, "54 mm", "mass"),
        ("'54' has no unit", f"{MASS}, as in 54 g", "54", "mass"),
        ("'1,5 g' has a comma", "write 1.5, not 1,5", "1,5 g", "mass"),
        ("'1,500 g' has a comma", "write 1500 or 1.500, not 1,500", "1,500 g", "mass"),
        ("'1,900mAh' has a comma", "write 1900, not 1,900", "1,900mAh", "charge"),
        ("'1,900 Ah' has a comma", "write 1900 or 1.900, not 1,900", "1,900 Ah", "charge"),
        ("'012 g' starts with a zero", "write 12 g", "012 g", "mass"),
        ("'1e400 g' is too large for a number", None, "1e400 g", "mass"),
        ("'1e308 kW' is too large for a number", None, "1e308 kW", "power"),
        ("'1e-400 g' is too small for a number", None, "1e-400 g", "mass"),
        (
            "'1480 mah' is not a charge",
            "did you mean 1480 mAh? write it with mAh or Ah",
            "1480 mah",
            "charge",
        ),
        ("'1480' has no unit", "write it with mAh or Ah, as in 1480 mAh", "1480", "charge"),
        (
            "'15 degC' is not a temperature",
            "did you mean 15 °C? write it with °C, C, °F, F or K",
            "15 degC",
            "temperature",
        ),
        (
            "'870 KV' is not a speed constant",
            "did you mean 870 rpm/V? write it with rpm/V",
            "870 KV",
            "speed_constant",
        ),
        ("'20' has no unit", "did you mean 20 %? write it as in 20 % or 0.2", "20", "share"),
        ("'much' is not a share", "write it as in 20 % or 0.2", "much", "share"),
        (f"'{'9' * 57}…' is too long for a value", None, "9" * 101, "mass"),
    ],
)
def test_quantities(reason: str, hint: str | None, text: str, dimension: Dimension) -> None:
    """The value that was found, and what to write instead."""
    assert (reason, hint) == refusal(quantity, text, dimension)


@pytest.mark.parametrize(
    ("reason", "hint", "text"),
    [
        ("'440' has no unit", DURATION, "440"),
        ("'7 m 20 s' is not a duration", f"did you mean 7 min 20 s? {DURATION}", "7 m 20 s"),
        ("'7 mins' is not a duration", f"did you mean 7 min? {DURATION}", "7 mins"),
        ("'1:30:00' is not a duration", "write 1 h 30 min 0 s", "1:30:00"),
        ("'7:75' is not a duration", DURATION, "7:75"),
        ("'7.20' has no unit", f"did you mean 7:20, or 7.20 min? {DURATION}", "7.20"),
        ("'7,20' has a comma", f"did you mean 7:20, or 7.20 min? {DURATION}", "7,20"),
        ("'6,5' has a comma", f"did you mean 6.5 min? {DURATION}", "6,5"),
        ("'1.75' has no unit", f"did you mean 1.75 min? {DURATION}", "1.75"),
        ("'-7:20' is not a duration", DURATION, "-7:20"),
        ("'7 g' is not a duration", DURATION, "7 g"),
        ("'20 s 7 min' is out of order", "write h before min before s", "20 s 7 min"),
        ("'5 min 5 min' is out of order", "write h before min before s", "5 min 5 min"),
        (
            "'1.5 h 20 min' has decimals before its last unit",
            "write it as in 1 h 30 min 20 s",
            "1.5 h 20 min",
        ),
        (
            "'7 min 75 s' has 60 or more after its first unit",
            "write it as in 7 min 20 s",
            "7 min 75 s",
        ),
        (
            "'7 min 60 s' has 60 or more after its first unit",
            "write it as in 7 min 20 s",
            "7 min 60 s",
        ),
        ("'012 min' starts with a zero", "write 12 min", "012 min"),
    ],
)
def test_durations(reason: str, hint: str | None, text: str) -> None:
    """A duration that could be meant in two ways is asked back."""
    assert (reason, hint) == refusal(notation.duration_s, text)


@pytest.mark.parametrize(
    ("reason", "hint", "text"),
    [
        ("'6' has no unit", AGE, "6"),
        ("'6 mo' is not an age", f"did you mean 6 months? {AGE}", "6 mo"),
        ("'1 yr' is not an age", f"did you mean 1 year? {AGE}", "1 yr"),
        ("'6 fortnights' is not an age", AGE, "6 fortnights"),
        ("'6 months 6 months' names months twice", AGE, "6 months 6 months"),
        (
            "'1.55 years' is not a whole number of days or months",
            "write it in whole days, months or years",
            "1.55 years",
        ),
        ("'500 years' is more than 200 years", None, "500 years"),
        ("'-6 months' is not an age", AGE, "-6 months"),
        ("'' is not an age", AGE, ""),
    ],
)
def test_ages(reason: str, hint: str | None, text: str) -> None:
    """Ages are whole days or months."""
    assert (reason, hint) == refusal(notation.age, text)


@pytest.mark.parametrize(
    ("reason", "hint", "reader", "text"),
    [
        ("'3s' is not a count of cells", f"did you mean 3S? {CELLS}", notation.cells, "3s"),
        ("'3' is not a count of cells", f"did you mean 3S? {CELLS}", notation.cells, "3"),
        ("'4S-2S' runs from more cells to fewer", "write 2S-4S", notation.cells, "4S-2S"),
        ("'2S-4S2P' is not a count of cells", CELLS, notation.cells, "2S-4S2P"),
        ("'0S' is not a count of cells", CELLS, notation.cells, "0S"),
        ("'25' has no unit", "write it as in 25C", notation.discharge_rate, "25"),
        (
            "'25c' is not a discharge rate",
            "did you mean 25C? write it as in 25C",
            notation.discharge_rate,
            "25c",
        ),
        ("'16' has no unit", WIRE, notation.wire, "16"),
        ("'AWG 16' is not a wire size", f"did you mean 16 AWG? {WIRE}", notation.wire, "AWG 16"),
        ("'16 awg' is not a wire size", f"did you mean 16 AWG? {WIRE}", notation.wire, "16 awg"),
        ("'41 AWG' is not a gauge", "AWG goes from 0 to 40 here", notation.wire, "41 AWG"),
        ("'1.5 mm' is not a wire size", WIRE, notation.wire, "1.5 mm"),
        ("'1045' is not a propeller size", SIZE, notation.propeller_size, "1045"),
        (
            "'10x4.5x3' is not a propeller size",
            "write 10x4.5, and the blades apart",
            notation.propeller_size,
            "10x4.5x3",
        ),
        ("'10,5x4' has a comma", "write 10.5, not 10,5", notation.propeller_size, "10,5x4"),
        ("'14.50' has no currency", "write it as in 14.50 EUR", notation.money, "14.50"),
        (
            "'14.50 eur' is not a sum of money",
            "did you mean 14.50 EUR? write it as in 14.50 EUR",
            notation.money,
            "14.50 eur",
        ),
        ("'1:30' is not a number", NUMBER, notation.number, "1:30"),
        ("'1_000' is not a number", NUMBER, notation.number, "1_000"),
        ("'0o17' is not a number", NUMBER, notation.number, "0o17"),
        ("'inf' is not a number", NUMBER, notation.number, "inf"),
        ("'1e400' is too large for a number", None, notation.number, "1e400"),
        ("'012' starts with a zero", "write 12", notation.number, "012"),
        ("'012' starts with a zero", "write 12", notation.whole, "012"),
        (
            "'1.5' is not a whole number",
            "write a whole number, as in 12",
            notation.whole,
            "1.5",
        ),
        ("'yes' is neither true nor false", "did you mean true?", values.truth, "yes"),
        ("'True' is neither true nor false", "did you mean true?", values.truth, "True"),
        ("'on' is neither true nor false", "did you mean true?", values.truth, "on"),
    ],
)
def test_the_notation_of_the_trade(
    reason: str, hint: str | None, reader: Callable[[str], object], text: str
) -> None:
    """Cells, rates, wire, propellers, money and plain values."""
    assert (reason, hint) == refusal(reader, text)
