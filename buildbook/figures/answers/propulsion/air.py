"""Air at the field, and on the day of the last flight that says how warm it was."""

from collections.abc import Iterator

import msgspec

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import (
    declared,
    default,
    measured,
    number,
    worked_out,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt, by_law, finite, worked
from buildbook.figures.laws.aero.atmosphere import (
    air_density_kg_m3,
    density_altitude_m,
    isa_temperature_k,
)
from buildbook.report.figure import Figure, Input

WITH_WARMTH = "last flight with a temperature"


def elevation(craft: Craft) -> Input:
    """Elevation of the field in m; sea level where none is written."""
    keeper, key = craft.keeper, "field_elevation"
    if keeper.field_elevation_m is None:
        given = default("field elevation", 0.0, "m", "sea level", keeper.place())
    else:
        given = declared("field elevation", keeper.field_elevation_m, "m", keeper.place(key))
    return msgspec.structs.replace(given, worded="altitude")


def temperature(craft: Craft) -> Input:
    """Air temperature at the field in K; that of the standard atmosphere where none is written."""
    keeper, key = craft.keeper, "field_temperature"
    if keeper.field_temperature_k is None:
        kelvin = isa_temperature_k(number(elevation(craft)))
        return default(
            "field temperature", kelvin, "K", "the standard atmosphere there", keeper.place()
        )
    return declared("field temperature", keeper.field_temperature_k, "K", keeper.place(key))


def density(craft: Craft) -> Input:
    """Density of the air at the field in kg/m³, as an input. Raises ValueError out of range."""
    return craft.once("density", _density_input, craft)


def _density_input(craft: Craft) -> Input:
    """Without the figure, whose formula takes longer to tell than all else of the work list."""
    given = elevation(craft), temperature(craft)
    value = finite(air_density_kg_m3(*map(number, given)))
    return worked_out("air density", value, "kg/m³", given)


def air_density(craft: Craft) -> Iterator[Answer]:
    """Density of the air at the field, and of the last flight with a temperature, if any has."""
    yield attempt("air_density", None, _at_field, craft)
    for flight in reversed(craft.now.flights):
        if flight.temperature_k is not None:
            warm = measured("temperature of the flight", flight.temperature_k, "K", flight.place)
            yield attempt("air_density", WITH_WARMTH, _density, craft, warm, WITH_WARMTH)
            break


def density_altitude(craft: Craft) -> Figure:
    """The height in the standard atmosphere with air as thin as at the field."""
    return worked(
        "density_altitude",
        density_altitude_m,
        {"density_kg_m3": density(craft)},
        unit="m",
        way=by_law("density_altitude_m"),
    )


def _at_field(craft: Craft) -> Figure:
    return _density(craft, temperature(craft), None)


def _density(craft: Craft, warm: Input, of: str | None) -> Figure:
    return worked(
        "air_density",
        air_density_kg_m3,
        {"pressure_altitude_m": elevation(craft), "temperature_k": warm},
        unit="kg/m³",
        way=by_law("air_density_kg_m3"),
        of=of,
        notes=("dry air; the elevation is taken as the pressure altitude",),
    )


FIGURES = (
    FigureSpec(
        name="air_density",
        title="Air density",
        line="On the field, and on the day of the last flight.",
        about="Density of the air at the field, or on the day of a flight.",
        topic="Thrust and hover",
        unit="kg/m³",
        shown="public",
        of_aircraft=air_density,
        laws=("air_density_kg_m3",),
        held_by=(
            "tests/published/test_flight_atmosphere.py",
            "tests/figures/answers/test_small_quad.py",
        ),
    ),
    FigureSpec(
        name="density_altitude",
        title="Density altitude",
        line="The height in the standard atmosphere with air as thin.",
        about="The height in the standard atmosphere with air as thin.",
        topic="Thrust and hover",
        unit="m",
        worded="height",
        shown="public",
        of_aircraft=density_altitude,
        laws=("density_altitude_m",),
        held_by=(
            "tests/published/test_flight_atmosphere.py",
            "tests/figures/answers/test_lives_and_air.py",
        ),
    ),
)
