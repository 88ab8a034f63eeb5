"""The table of units."""

from typing import get_args

import pint
import pytest

from buildbook.basis.notation import quantity
from buildbook.basis.units import OTHERWISE, UNITS, Dimension, accepted, known_as

# The spellings of the table in the words of pint's registry, where they differ.
IN_PINT = {
    "m²": "m**2",
    "m2": "m**2",
    "dm²": "dm**2",
    "dm2": "dm**2",
    "cm²": "cm**2",
    "cm2": "cm**2",
    "mm²": "mm**2",
    "mm2": "mm**2",
    "in²": "inch**2",
    "in2": "inch**2",
    "in": "inch",
    "mAh": "mA*h",
    "Ah": "A*h",
    "Wh": "W*h",
    "mΩ": "milliohm",
    "mohm": "milliohm",
    "Ω": "ohm",
    "mph": "mile/hour",
    "kn": "knot",
    "°C": "degC",
    "C": "degC",
    "°F": "degF",
    "F": "degF",
    "°": "degree",
    "deg": "degree",
    "%": "percent",
    "": "dimensionless",
    "ratio": "dimensionless",
    "rpm/V": "rpm/volt",
    "N·m": "N*m",
    "Nm": "N*m",
    "N·cm": "N*cm",
    "Ncm": "N*cm",
    "kg·cm": "kgf*cm",
    "kgcm": "kgf*cm",
    "oz·in": "force_ounce*inch",
    "oz-in": "force_ounce*inch",
}

ROWS = [(dimension, spelling) for dimension, kind in UNITS.items() for spelling in kind.units]


@pytest.fixture(scope="module")
def pints() -> pint.UnitRegistry:
    """A unit registry that knows nothing of our table."""
    return pint.UnitRegistry()


@pytest.mark.parametrize(("dimension", "spelling"), ROWS)
@pytest.mark.parametrize("amount", [0.0, 1.0, 7.3])
def test_every_row_agrees_with_pint(
    pints: pint.UnitRegistry, dimension: Dimension, spelling: str, amount: float
) -> None:
    """Source: pint, a general library of units (NIST and CODATA factors)."""
    kept_in = UNITS[dimension].kept_in
    said = pints.Quantity(amount, IN_PINT.get(spelling, spelling))
    expected = said.to(IN_PINT.get(kept_in, kept_in)).magnitude

    # pint has 3386.38864 Pa, the conventional inch of mercury is 3386.389 Pa.
    tolerance = 2e-7 if spelling == "inHg" else 1e-12
    assert expected == pytest.approx(
        quantity(f"{amount} {spelling}", dimension), rel=tolerance, abs=1e-15
    )


def test_each_dimension_has_its_row() -> None:
    """The type and the table name the same dimensions."""
    assert set(get_args(Dimension)) == set(UNITS)


def test_the_contract_is_accepted() -> None:
    """Every unit that the contract of the files lists stands in the table."""
    contract: dict[Dimension, str] = {
        "mass": "g kg oz lb",
        "length": "mm cm m in",
        "area": "m² m2 dm² in²",
        "voltage": "V mV",
        "current": "A mA",
        "charge": "mAh Ah",
        "energy": "Wh J",
        "power": "W kW",
        "resistance": "mΩ mohm Ω ohm",
        "speed_constant": "rpm/V",
        "rotation": "rpm",
        "duration": "s min h",
        "speed": "m/s km/h mph kn",
        "temperature": "°C C °F F K",
        "pressure": "hPa Pa mbar inHg",
        "altitude": "m ft",
        "angle": "° deg",
        "share": "%",
    }

    assert contract
    for dimension, spellings in contract.items():
        assert set(spellings.split()) <= set(UNITS[dimension].units)


@pytest.mark.parametrize(
    ("expected", "dimension"),
    [
        ("g, kg, oz or lb", "mass"),
        ("V or mV", "voltage"),
        ("rpm/V", "speed_constant"),
        ("% or a bare number", "share"),
    ],
)
def test_accepted_units_read_as_a_list(expected: str, dimension: Dimension) -> None:
    """A message can name what is accepted."""
    assert expected == accepted(dimension)


def test_other_spellings_lead_to_the_table() -> None:
    """No suggestion is a unit that would be refused in turn."""
    everything = {spelling for kind in UNITS.values() for spelling in kind.units}

    assert set(OTHERWISE.values()) <= everything
    assert all(other == other.casefold() for other in OTHERWISE)


def test_a_spelling_is_known_in_its_dimensions() -> None:
    """A metre is a length and an altitude; the empty unit belongs to none."""
    assert ("length", "altitude") == known_as("m")
    assert () == known_as("")
    assert () == known_as("furlong")
