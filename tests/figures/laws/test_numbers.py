"""Every law refuses numbers that are none, and those out of the range that it prints."""

import inspect
import math
import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.figures.laws.numbers import median
from buildbook.figures.laws.quantities import INPUTS
from buildbook.figures.laws.registry import LAWS

PARAMETERS = [(key, name) for key, law in LAWS.items() for name in law.parameters]


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize(("key", "name"), PARAMETERS)
def test_no_number_is_refused(key, name, number):
    """Alone and in a series, under the name of the parameter, the others being in their range."""
    function = LAWS[key].function
    others = _in_range(function)
    message = f"^{name} must be (a finite number|from .+ to .+), got {number:g}$"

    with pytest.raises(ValueError, match=message):
        function(**{**others, name: number})
    with pytest.raises(ValueError, match=message):
        function(**{**others, name: (others[name], number)})


@pytest.mark.parametrize(
    ("key", "name"), [(key, name) for key, name in PARAMETERS if name in INPUTS]
)
def test_what_is_out_of_range_is_refused(key, name):
    """Just outside either end of the range that the registry prints of it."""
    function, row = LAWS[key].function, INPUTS[name]
    others = _in_range(function)

    for outside in (row.least - 1e-9 - abs(row.least) * 1e-6, row.most * (1 + 1e-6)):
        with pytest.raises(ValueError, match=f"^{name} must be from .+ to .+, got "):
            function(**{**others, name: outside})


def _in_range(function):
    names = inspect.signature(function).parameters
    return {name: INPUTS[name].least if name in INPUTS else 1.0 for name in names}


@given(st.lists(st.floats(-1e9, 1e9) | st.integers(-9, 9), min_size=1))
def test_the_middle_is_that_of_the_standard_library(values):
    """Source: ``statistics.median`` of Python, to the last bit, of odd and even many."""
    assert statistics.median(values) == median(values)
