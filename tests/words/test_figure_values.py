"""How figures and inputs are said."""

import datetime
from typing import Literal

import msgspec
import pytest

from buildbook.figures.answers.registry import FIGURES
from buildbook.report.figure import Figure, Input, Name, Wording
from buildbook.words.measures.figure_values import (
    WORDED,
    day_words,
    input_words,
    interval_words,
    value_words,
)

SPECS = {spec.name: spec for spec in FIGURES}


def of(name: str, unit: str) -> Figure:
    """A figure of that name and unit, worded as its declaration says."""
    spec = SPECS[name]
    return Figure(
        name=name,
        value=0.0,
        unit=unit,
        basis="spec",
        formula="",
        source="",
        worded=spec.worded if unit == spec.unit else "",
    )


@pytest.mark.parametrize(
    ("expected", "name", "unit", "value"),
    [
        ("166 m", "density_altitude", "m", 166.39),
        ("0 m", "density_altitude", "m", -0.0002),
        ("1.8 mm", "balance", "m", 0.0018),
        ("27.1 %", "balance", "ratio", 0.2713),
        ("45.7 %", "hover_throttle", "ratio", 0.4567),
        ("-3.6 %", "drift", "ratio", -0.0356),
        ("22.5C", "discharge_rate", "ratio", 22.53),
        ("0.0048", "failure_rate", "count", 0.004849),
        ("17", "failure_rate", "count", 16.88),
        ("2550 mAh", "pack_capacity", "Ah", 2.5504),
        ("-1.7 mAh", "pack_capacity", "Ah", -0.00168),
        ("14.5", "pack_cycles", "count", 14.52),
        ("3.85", "thrust_to_weight", "ratio", 3.851),
        ("1030 g", "all_up_mass", "kg", 1.03),
    ],
)
def test_a_figure_is_said_by_its_unit_and_its_name(
    expected: str, name: str, unit: str, value: float
) -> None:
    """Altitudes are no lengths of parts, margins are per cent, rates few digits."""
    assert expected == value_words(of(name, unit), value)


@pytest.mark.parametrize(
    ("expected", "axis", "value"),
    [
        ("1.8 mm forward of the reference point", "forward", 0.0018),
        ("4 mm aft of the reference point", "forward", -0.004),
        ("2 mm to the right", "right", 0.002),
        ("2 mm to the left", "right", -0.002),
        ("3 mm below the reference point", "down", 0.003),
        ("3 mm above the reference point", "down", -0.003),
        ("0 mm", "forward", 0.0),
        ("0 mm", "right", -0.00002),
    ],
)
def test_a_balance_says_which_way(expected: str, axis: str, value: float) -> None:
    """A sign that nobody defines beside it is no direction."""
    figure = msgspec.structs.replace(of("balance", "m"), of=axis, value=value)
    chord = msgspec.structs.replace(of("balance", "ratio"), of="mean chord", value=0.271)

    assert "27.1 % of the mean chord" == value_words(chord, 0.271)

    assert expected == value_words(figure, value)


@pytest.mark.parametrize(
    ("expected", "worded", "unit", "value"),
    [
        ("151 m", "altitude", "m", 150.52),
        ("0 m", "altitude", "m", 0.0),
        ("150 mm", "", "m", 0.15),
        ("1.8 mm forward", "aft", "m", -0.0018),
        ("84 mm aft", "aft", "m", 0.084),
        ("LiPo", "", "", "LiPo"),
        ("not recorded", "", "kg", None),
    ],
)
def test_an_input_is_said_likewise(
    expected: str,
    worded: Literal["", "altitude", "aft"],
    unit: str,
    value: float | str | None,
) -> None:
    """Words stay words, and what is missing is no zero."""
    given = Input(called=Name("x"), value=value, unit=unit, basis="spec", worded=worded)

    assert expected == input_words(given)


@pytest.mark.parametrize(
    ("expected", "name", "unit", "ends"),
    [
        ("14.1 A, 14.0 to 14.2 A", "flown_current", "A", (14.1, 14.0, 14.2)),
        ("22.0 A, 21.5 to 22.5 A", "flown_current", "A", (22.02, 21.5, 22.5)),
        ("8.60 A, 8.58 to 8.62 A", "flown_current", "A", (8.6, 8.58, 8.62)),
        ("800 mA, 750 mA to 1.2 A", "flown_current", "A", (0.8, 0.75, 1.2)),
        ("-9.5 mAh, -10.0 to -7.5 mAh", "pack_capacity", "Ah", (-0.0095, -0.01, -0.0075)),
        ("-2.2 mAh, -8.0 to 0.5 mAh", "pack_capacity", "Ah", (-0.0022, -0.008, 0.00045)),
        ("-0.60 mAh, -0.62 to -0.57 mAh", "pack_capacity", "Ah", (-0.0006, -0.00062, -0.00057)),
        ("13 min 29 s, 12 min 56 s to 14 min 04 s", "flown_time", "s", (809.0, 776.0, 844.0)),
        ("2.4, 0.06 to 13", "failure_rate", "count", (2.38, 0.06, 13.2)),
        ("0.072, 0.002 to 0.4", "failure_rate", "count", (0.072, 0.0018, 0.4)),
        ("14 h, 2.5 to 550 h", "failure_interval", "h", (13.9, 2.5, 549.0)),
        ("313 charges, 252 to 537 charges", "pack_end_of_life", "count", (313.2, 252.4, 536.6)),
        ("1.8 %, -8.6 to 8.6 %", "drift", "ratio", (0.018, -0.086, 0.086)),
        ("0.02 %, 0.01 to 0.04 %", "drift", "ratio", (0.0002, 0.0001, 0.0004)),
        ("12 s, 11 to 14 s", "flown_time", "s", (12.2, 11.4, 13.8)),
    ],
)
def test_both_ends_have_as_many_decimals_as_the_value(
    expected: str, name: str, unit: str, ends: tuple[float, float, float]
) -> None:
    """Never ``14 A to 14.2 A``, and never two ends alike that are not."""
    value, low, high = ends
    figure = msgspec.structs.replace(of(name, unit), value=value, low=low, high=high)

    assert expected.split(", ")[0] == value_words(figure, value)
    assert expected == f"{value_words(figure, value)}, {interval_words(figure)}"


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        (datetime.date(2027, 2, 1), datetime.date(2027, 9, 1), "6 March 2027"),
        (datetime.date(2026, 2, 11), datetime.date(2031, 7, 22), "March 2027"),
    ],
)
def test_a_day_that_nobody_knows_within_a_year_is_a_month(
    low: datetime.date, high: datetime.date, expected: str
) -> None:
    """The day itself would be read as known."""
    figure = msgspec.structs.replace(
        of("pack_end_of_life_date", "count"), low_day=low, high_day=high
    )

    assert expected == day_words(figure, datetime.date(2027, 3, 6))


@pytest.mark.parametrize(("expected", "ohm"), [("6.0 mΩ", 0.006), ("5.6 mΩ", 0.00561)])
def test_cells_are_read_in_tenths(expected: str, ohm: float) -> None:
    """As a charger shows them."""
    assert expected == value_words(of("pack_resistance", "Ω"), ohm)


def test_a_share_among_the_inputs_is_said_in_per_cent():
    """A reserve of 0.2 is 20 %; a thrust to weight of 2 stays 2."""
    reserve = Input(called=Name("reserve"), value=0.2, unit="ratio", basis="spec", worded="share")
    wanted = Input(called=Name("wanted thrust to weight"), value=2.0, unit="ratio", basis="default")

    assert "20 %" == input_words(reserve)
    assert "2" == input_words(wanted)


@pytest.mark.parametrize(
    ("worded", "value", "said"),
    [
        ("margin", 0.279, "27.9 %"),
        ("margin", 0.0, "0 %"),
        ("margin", -0.05, "5 % over its rating"),
        ("margin", -0.26, "1.3 times its rating"),
        ("usual margin", -1.607, "2.6 times what is usual"),
        ("usual margin", -0.098, "9.8 % over what is usual"),
        ("grams", -0.0578, "58 g too heavy"),
        ("grams", 0.578, "578 g"),
        ("wing loading", 49.03325, "50.0 g/dm²"),
    ],
)
def test_what_is_passed_is_said_as_it_is(worded: Wording, value: float, said: str) -> None:
    """A margin below nought is how many times it is, of little how much over; by arithmetic."""
    assert said == WORDED[worded](value)
