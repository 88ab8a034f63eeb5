"""The closed table of units: what may stand after a number, and what it becomes.

SI inside, with five exceptions that keep the figures of the trade: charge is kept in Ah, energy in
Wh, rotation in rpm, the speed constant in rpm/V, angles in degrees. The name of a field says which.
"""

import math
from typing import Literal, NamedTuple

from buildbook.basis.nearest import nearest

Dimension = Literal[
    "mass",
    "length",
    "area",
    "voltage",
    "current",
    "charge",
    "energy",
    "power",
    "resistance",
    "speed_constant",
    "rotation",
    "duration",
    "speed",
    "temperature",
    "pressure",
    "altitude",
    "angle",
    "torque",
    "share",
]


STANDARD_GRAVITY_M_S2 = 9.80665
"""Exact by definition, CGPM 1901."""

FREEZING_K = 273.15


class Unit(NamedTuple):
    """``kept = (said + plus) * times / over``: whole factors, so that decimals stay exact."""

    times: float = 1.0
    over: float = 1.0
    plus: float = 0.0


class Quantity(NamedTuple):
    """A dimension: its words in a message, the unit it is kept in, and the accepted spellings."""

    words: str
    kept_in: str
    units: dict[str, Unit]


UNITS: dict[Dimension, Quantity] = {
    "mass": Quantity(
        "a mass",
        "kg",
        {
            "g": Unit(over=1000),
            "kg": Unit(),
            "oz": Unit(28_349_523_125, 1e12),  # international avoirdupois, exact
            "lb": Unit(45_359_237, 1e8),  # exact
        },
    ),
    "length": Quantity(
        "a length",
        "m",
        {"mm": Unit(over=1000), "cm": Unit(over=100), "m": Unit(), "in": Unit(254, 1e4)},
    ),
    "area": Quantity(
        "an area",
        "m²",
        {
            "m²": Unit(),
            "m2": Unit(),
            "dm²": Unit(over=100),
            "dm2": Unit(over=100),
            "cm²": Unit(over=1e4),
            "cm2": Unit(over=1e4),
            "mm²": Unit(over=1e6),
            "mm2": Unit(over=1e6),
            "in²": Unit(64_516, 1e8),
            "in2": Unit(64_516, 1e8),
        },
    ),
    "voltage": Quantity("a voltage", "V", {"V": Unit(), "mV": Unit(over=1000)}),
    "current": Quantity("a current", "A", {"A": Unit(), "mA": Unit(over=1000)}),
    "charge": Quantity("a charge", "Ah", {"mAh": Unit(over=1000), "Ah": Unit()}),
    "energy": Quantity("an energy", "Wh", {"Wh": Unit(), "J": Unit(over=3600)}),
    "power": Quantity("a power", "W", {"W": Unit(), "kW": Unit(1000)}),
    "resistance": Quantity(
        "a resistance",
        "Ω",
        {"mΩ": Unit(over=1000), "mohm": Unit(over=1000), "Ω": Unit(), "ohm": Unit()},
    ),
    "speed_constant": Quantity("a speed constant", "rpm/V", {"rpm/V": Unit()}),
    "rotation": Quantity("a speed of rotation", "rpm", {"rpm": Unit()}),
    "duration": Quantity("a duration", "s", {"s": Unit(), "min": Unit(60), "h": Unit(3600)}),
    "speed": Quantity(
        "a speed",
        "m/s",
        {
            "m/s": Unit(),
            "km/h": Unit(5, 18),
            "mph": Unit(44_704, 1e5),
            "kn": Unit(1852, 3600),
        },
    ),
    "temperature": Quantity(
        "a temperature",
        "K",
        {
            "°C": Unit(plus=FREEZING_K),
            "C": Unit(plus=FREEZING_K),
            "°F": Unit(5, 9, 459.67),
            "F": Unit(5, 9, 459.67),
            "K": Unit(),
        },
    ),
    "pressure": Quantity(
        "a pressure",
        "Pa",
        {
            "hPa": Unit(100),
            "Pa": Unit(),
            "mbar": Unit(100),
            "inHg": Unit(3_386_389, 1000),  # conventional, NIST SP 811
        },
    ),
    "altitude": Quantity("an altitude", "m", {"m": Unit(), "ft": Unit(3048, 1e4)}),
    "angle": Quantity("an angle", "deg", {"°": Unit(), "deg": Unit()}),
    "torque": Quantity(
        "a torque",
        "N·m",
        {
            "N·m": Unit(),
            "Nm": Unit(),
            "N·cm": Unit(over=100),
            "Ncm": Unit(over=100),
            "kg·cm": Unit(980_665, 1e7),  # of a kilogram's weight, standard gravity
            "kgcm": Unit(980_665, 1e7),
            "oz·in": Unit(28_349_523_125 * 980_665 * 254, 1e12 * 1e5 * 1e4),
            "oz-in": Unit(28_349_523_125 * 980_665 * 254, 1e12 * 1e5 * 1e4),
        },
    ),
    "share": Quantity("a share", "ratio", {"%": Unit(over=100), "": Unit()}),
}

# How a unit is often written otherwise, in lower case, and the spelling of the table.
OTHERWISE: dict[str, str] = {
    "gr": "g",
    "gram": "g",
    "grams": "g",
    "kilo": "kg",
    "kilogram": "kg",
    "kilograms": "kg",
    "ounce": "oz",
    "ounces": "oz",
    "lbs": "lb",
    "pound": "lb",
    "pounds": "lb",
    "millimetres": "mm",
    "millimeters": "mm",
    "metres": "m",
    "meters": "m",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "feet": "ft",
    "foot": "ft",
    "volt": "V",
    "volts": "V",
    "amp": "A",
    "amps": "A",
    "ampere": "A",
    "milliamps": "mA",
    "watt": "W",
    "watts": "W",
    "joule": "J",
    "joules": "J",
    "ohms": "ohm",
    "milliohm": "mohm",
    "milliohms": "mohm",
    "kv": "rpm/V",
    "rpm/volt": "rpm/V",
    "sec": "s",
    "secs": "s",
    "second": "s",
    "seconds": "s",
    "m": "min",
    "mins": "min",
    "minute": "min",
    "minutes": "min",
    "hr": "h",
    "hrs": "h",
    "hour": "h",
    "hours": "h",
    "mps": "m/s",
    "kmh": "km/h",
    "kph": "km/h",
    "knot": "kn",
    "knots": "kn",
    "kt": "kn",
    "celsius": "°C",
    "degc": "°C",
    "fahrenheit": "°F",
    "degf": "°F",
    "kelvin": "K",
    "millibar": "mbar",
    "mb": "mbar",
    "degree": "deg",
    "degrees": "deg",
    "percent": "%",
    "per cent": "%",
    "pct": "%",
}


def accepted(dimension: Dimension) -> str:
    """The spellings for a message: ``g, kg, oz or lb``."""
    spellings = [unit or "a bare number" for unit in UNITS[dimension].units]
    if len(spellings) == 1:
        return spellings[0]
    return f"{', '.join(spellings[:-1])} or {spellings[-1]}"


def known_as(unit: str) -> tuple[Dimension, ...]:
    """The dimensions in which ``unit`` is a spelling."""
    return tuple(name for name, quantity in UNITS.items() if unit and unit in quantity.units)


def meant_unit(unit: str, dimension: Dimension) -> str | None:
    """The accepted unit that the written one stands for, or is most like."""
    units = UNITS[dimension].units
    meant = OTHERWISE.get(unit.casefold())
    if meant in units:
        return meant
    return None if known_as(unit) else nearest(unit, [spelling for spelling in units if spelling])


def area_of_gauge_m2(gauge: int) -> float:
    """Area of the conductor in m² of an AWG number.

    Source: ASTM B258, diameter = 0.127 mm × 92^((36 − n)/39).
    """
    diameter_m: float = 0.127e-3 * 92.0 ** ((36 - gauge) / 39)
    return math.pi / 4 * diameter_m**2
