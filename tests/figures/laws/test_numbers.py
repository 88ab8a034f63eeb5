"""Every law refuses numbers that are none, before it looks at anything else."""

import inspect
import math

import pytest

from buildbook.figures.laws.registry import LAWS

PARAMETERS = [(key, name) for key, law in LAWS.items() for name in law.parameters]


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize(("key", "name"), PARAMETERS)
def test_no_number_is_refused(key, name, number):
    """Alone and in a series, under the name of the parameter, whatever the others are."""
    function = LAWS[key].function
    others = dict.fromkeys(inspect.signature(function).parameters, 1.0)
    message = f"^{name} must be (a finite number|from .+ to .+), got {number:g}$"

    with pytest.raises(ValueError, match=message):
        function(**{**others, name: number})
    with pytest.raises(ValueError, match=message):
        function(**{**others, name: (1.0, number)})
