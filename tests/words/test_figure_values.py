"""How figures and inputs are said."""

import pytest

from buildbook.figures.answers.everything import FIGURES
from buildbook.report.figure import Figure, Input
from buildbook.words.measures.figure_values import input_words, value_words

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
    ("expected", "name", "unit", "value"),
    [
        ("151 m", "field elevation", "m", 150.52),
        ("0 m", "field elevation", "m", 0.0),
        ("150 mm", "length from pack to distribution", "m", 0.15),
        ("LiPo", "chemistry of pack", "", "LiPo"),
        ("not recorded", "mass of P-1", "kg", None),
    ],
)
def test_an_input_is_said_likewise(
    expected: str, name: str, unit: str, value: float | str | None
) -> None:
    """Words stay words, and what is missing is no zero."""
    assert expected == input_words(Input(name=name, value=value, unit=unit, basis="spec"))
