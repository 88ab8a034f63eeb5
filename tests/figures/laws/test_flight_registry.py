"""Every number in, over wide inputs: a finite number or a refusal with the range, never else."""

import inspect
import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import buildbook.figures.laws as room
from buildbook.figures.laws.constants import CONSTANTS
from buildbook.figures.laws.flight_registry import FLIGHT
from buildbook.figures.laws.quantities import INPUTS, SERIES, plain, within

SCALAR = sorted(
    name for name, law in FLIGHT.items() if law.parameters and set(law.parameters) <= set(INPUTS)
)
NO_BREAK = "\N{NO-BREAK SPACE}"
FLIGHT_MODULES = (
    "airframe.allocation",
    "aero.atmosphere",
    "airframe.balance",
    "packs.battery",
    "propulsion.bench",
    "packs.discharge",
    "aero.hover",
    "propulsion.margins",
    "airframe.mass_classes",
    "propulsion.motor",
    "packs.pack_transport",
    "aero.propeller",
    "aero.wing",
    "propulsion.wire",
)


def finite(result):
    """Is every number in a result finite?"""
    if isinstance(result, str | bool):
        return True
    if isinstance(result, int | float):
        return math.isfinite(result)
    if hasattr(result, "__struct_fields__"):
        return all(finite(getattr(result, name)) for name in result.__struct_fields__)
    if isinstance(result, tuple):
        return all(finite(part) for part in result)
    return result is None


def outcome(law, arguments):
    """The result of a law, or its refusal."""
    try:
        return law.function(**arguments)
    except ValueError as error:
        return error


def anywhere(name):
    """Numbers in the range of a parameter, at its edges, and any other float at all."""
    row = INPUTS[name]
    if isinstance(row.least, int):
        return st.integers(-2, int(row.most) + 2)
    return st.one_of(
        st.floats(row.least, row.most),
        st.sampled_from([row.least, row.most, 0.0, -1.0, math.nan, math.inf, -math.inf]),
        st.floats(),
    )


@pytest.mark.parametrize("name", SCALAR)
def test_finite_or_refused(name):
    """Any floats give a finite result or a ValueError that tells a bound."""
    law = FLIGHT[name]

    @settings(max_examples=40, deadline=None, derandomize=True, database=None)
    @given(st.fixed_dictionaries({key: anywhere(key) for key in law.parameters}))
    def check(arguments):
        result = outcome(law, arguments)
        if isinstance(result, ValueError):
            assert re.fullmatch(r"\w[\w ]* must .*\S, got \S.*", str(result))
        else:
            assert finite(result)
            assert all(math.isfinite(value) for value in arguments.values())

    check()


@pytest.mark.parametrize("name", SCALAR)
def test_each_end_of_each_range_holds(name):
    """Just outside a parameter's range the law refuses and tells that range, name and value."""
    law = FLIGHT[name]
    middle = {
        key: (INPUTS[key].least + INPUTS[key].most) / 2
        if INPUTS[key].least < 0
        else max(INPUTS[key].least, 1e-9) * (INPUTS[key].most / max(INPUTS[key].least, 1e-9)) ** 0.5
        for key in law.parameters
    }
    assert law.parameters
    for key in law.parameters:
        row = INPUTS[key]
        for outside in (row.least - 1, row.most * 1.01 + 1, math.nan):
            limits = f"{plain(row.least)} to {plain(row.most)}"
            expected = f"{key} must be from {limits}, got {plain(outside)}"

            assert expected == str(outcome(law, middle | {key: outside}))


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (0.0, "mass_kg must be from 0.0001 to 100~000, got 0"),
        (-2.5, "mass_kg must be from 0.0001 to 100~000, got -2.5"),
        (math.nan, "mass_kg must be from 0.0001 to 100~000, got nan"),
        (math.inf, "mass_kg must be from 0.0001 to 100~000, got inf"),
    ],
)
def test_refusal_reads(value, expected):
    """The message has name, range and value."""
    with pytest.raises(ValueError, match=f"^{expected.replace('~', NO_BREAK)}$"):
        within(mass_kg=value)


def test_ranges_include_their_ends():
    """A range is closed."""
    within(mass_kg=1e-4)
    within(mass_kg=1e5, rotors=1)


def test_every_public_function_of_the_flight_half_is_registered():
    """A law that no reader can look up does not exist: FLIGHT and the modules name the same."""
    found = set()
    for module_name in FLIGHT_MODULES:
        module = __import__(f"{room.__name__}.{module_name}", fromlist=["_"])
        found |= {
            name
            for name, member in inspect.getmembers(module, inspect.isfunction)
            if member.__module__ == module.__name__ and not name.startswith("_")
        }
    registered = {
        name
        for name, law in FLIGHT.items()
        if law.function.__module__.removeprefix(f"{room.__name__}.") in FLIGHT_MODULES
    }

    # Ways into a table, not laws.
    assert {"cell_curve"} == found - registered
    assert set() == registered - found


@pytest.mark.parametrize("name", sorted(FLIGHT))
def test_every_entry_is_whole(name):
    """Key, parameters, range, source and, for a method, its words."""
    law = FLIGHT[name]

    assert name == law.function.__name__
    assert list(law.parameters) == list(inspect.signature(law.function).parameters)
    assert law.source
    assert law.result.symbol
    assert (law.kind == "method") == bool(law.method)
    assert inspect.unwrap(law.function) is not law.function  # what is out of range is refused


@pytest.mark.parametrize("name", SCALAR)
def test_valid_words_tell_each_range(name):
    """The words of the entry hold the range that the code enforces, for every parameter."""
    law = FLIGHT[name]
    assert law.parameters
    for key, quantity in law.parameters.items():
        row = INPUTS[key]
        told = re.search(
            rf"(?:^|; ){re.escape(quantity.symbol)} from (.+?) to (.+?)(;|$)", law.valid
        )
        assert told is not None
        most, _, unit = told[2].replace(NO_BREAK, "").partition(" ")
        in_si = {"mm": 1e-3, "mm²": 1e-6}.get(unit, 1.0)

        assert pytest.approx(row.least) == float(told[1].replace(NO_BREAK, "")) * in_si
        assert pytest.approx(row.most) == float(most) * in_si
        assert row.unit == {"mm": "m", "mm²": "m²"}.get(unit, unit)


@pytest.mark.parametrize(
    ("expected", "value"),
    [
        ("0", 0.0),
        ("0.00001", 1e-5),
        ("0.000000001", 1e-9),
        ("-1000", -1000.0),
        ("9999.5", 9999.5),
        ("10~000", 10_000.0),
        ("-100~000", -1e5),
        ("1~000~000", 1e6),
        ("0.333333", 1 / 3),
        ("1e-11", 1e-11),
        ("1e+10", 1e10),
        ("nan", math.nan),
        ("-inf", -math.inf),
    ],
)
def test_limits_are_plain_numbers(expected, value):
    """No power of ten where people would write the digits; thousands stand apart from 10 000 on."""
    assert expected.replace("~", NO_BREAK) == plain(value)


def test_tables_have_no_row_that_nothing_uses():
    """Each quantity is a parameter of some law or a bound inside one; ranges are in order."""
    used = {key for law in FLIGHT.values() for key in law.parameters}

    assert {"part_kg", "tip_speed_m_s", "advance_ratio"} == set(INPUTS) - used
    assert set() == set(SERIES) - used
    assert all(row.least < row.most for row in INPUTS.values())
    assert len({quantity.symbol for quantity in CONSTANTS.values()}) == len(CONSTANTS)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        (
            "run_resistance_ohm",
            "l from 0 to 100 m; A from 0.001 to 300 mm²; T from 200 to 480 K; both conductors",
        ),
        ("disk_loading_n_m2", "F from 0.0001 to 1~000~000 N; A from 0.00001 to 1000 m²"),
    ],
)
def test_valid_words_in_full(name, expected):
    """Ranges first, then what else there is to say, if anything."""
    assert expected.replace("~", NO_BREAK) == FLIGHT[name].valid
