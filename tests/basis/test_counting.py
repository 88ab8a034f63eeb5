"""The units of counting: each whole, or it does not import."""

from typing import Annotated

import msgspec
import pytest

from buildbook.basis.counting import UNITS, Interval, Unit, shown_parts, units_of


class Bare(msgspec.Struct):
    flights: Annotated[int | None, Unit("flight", "Flights", "5", "flying", "flights")] = None
    landings: int | None = None


class Uncounted(msgspec.Struct):
    landings: Annotated[int | None, Unit("landing", "Landings", "5", "event")] = None


@pytest.mark.parametrize(
    ("declared", "expected"),
    [
        (Bare, "Bare.landings is not a unit of counting: annotate it with Unit(…)"),
        (Uncounted, "Uncounted.landings names no counter, so it would never be due"),
    ],
)
def test_half_a_unit_does_not_import(declared: type[msgspec.Struct], expected: str) -> None:
    """A field without a unit, or a unit without a counter, is refused where units are gathered."""
    with pytest.raises(TypeError) as raised:
        units_of(declared)

    assert expected == str(raised.value)


def test_the_units_of_an_interval() -> None:
    """Keys as in a programme, in the order in which an interval is told."""
    expected = [
        "flights",
        "hours",
        "months",
        "days",
        "years",
        "cycles",
        "charges",
        "flying_days",
        "crashes",
        "hard_landings",
    ]

    assert expected == list(UNITS)


@pytest.mark.parametrize(
    ("key", "value", "expected"),
    [
        ("flights", 25, "25 flights"),
        ("hours", 10.0, "10 h"),
        ("months", 1, "1 month"),
        ("cycles", 2.5, "2.5 cycles"),
        ("flying_days", 3, "3 flying days"),
        ("crashes", 1, "1 crash"),
        ("crashes", 2, "2 crashes"),
        ("hard_landings", 3, "3 hard landings"),
    ],
)
def test_an_amount_in_words(key: str, value: float, expected: str) -> None:
    """One of it or several, or its symbol."""
    assert expected == UNITS[key].said(value)


def test_hours_are_stored_in_seconds_and_shown_in_hours() -> None:
    """And compared in whole seconds."""
    assert {"hours": 1.5, "crashes": 1} == shown_parts(Interval(duration_s=5400.0, crashes=1))
    assert 5400 == UNITS["hours"].in_ticks(5400.0)
    assert 1.5 == UNITS["hours"].shown(5400)
    assert 2050 == UNITS["cycles"].in_ticks(2.05)
    assert 2.05 == UNITS["cycles"].shown(2050)
