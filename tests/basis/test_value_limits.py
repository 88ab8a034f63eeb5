"""Sensible limits and the words for a value outside them."""

import pytest

from buildbook.basis import units
from buildbook.basis.limits import LIMITS, Limits, between, plain, within

PROPELLER = between("mass", "0.1 g", "2 kg")


@pytest.mark.parametrize(
    ("expected", "value", "said"),
    [
        (None, 0.012, "12 g"),
        (None, 0.0001, "0.1 g"),
        (None, 2.0, "2 kg"),
        ("'40 kg' is too much, the most is 2 kg", 40.0, "40 kg"),
        ("'0 g' is zero, the least is 0.1 g", 0.0, "0 g"),
        ("'-5 g' is negative, the least is 0.1 g", -0.005, "-5 g"),
        ("'0.01 g' is too little, the least is 0.1 g", 0.00001, "0.01 g"),
    ],
)
def test_a_value_outside_names_the_limit(expected: str | None, value: float, said: str) -> None:
    """Both ends are allowed; zero and negative values have words of their own."""
    assert expected == within(value, PROPELLER, said)


def test_zero_can_be_a_value() -> None:
    """A reading may be zero though the least sensible value is above it."""
    reading = between("voltage", "1 mV", "60 V", zero_ok=True)

    assert within(0.0, reading, "0 V") is None
    assert "'-1 V' is negative, the least is 1 mV" == within(-1.0, reading, "-1 V")


def test_limits_below_zero() -> None:
    """A temperature under a negative limit is too little, not negative."""
    assert "'-80 °C' is too little, the least is -60 °C" == within(
        193.15, LIMITS["temperature"], "-80 °C"
    )
    assert "'-500 m' is too little, the least is -430 m" == within(
        -500.0, LIMITS["altitude"], "-500 m"
    )


def test_limits_of_bare_numbers() -> None:
    """A count has no unit, and a limit without words is said as its number."""
    assert "'200' is too much, the most is 48" == within(200, plain(2, 48), "200")
    assert "'200' is too much, the most is 48" == within(200, Limits(2, 48), "200")
    assert "'1' is too little, the least is 2" == within(1, Limits(2, 48), "1")


def test_every_dimension_has_limits() -> None:
    """No quantity is left without one, and each pair of limits leaves room."""
    assert set(units.UNITS) == set(LIMITS)
    assert all(limit.least < limit.most for limit in LIMITS.values())
