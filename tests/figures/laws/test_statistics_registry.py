"""Every public function of the statistics is registered and explained."""

import inspect

import pytest

from buildbook.figures.laws.packs import cycles, fade, forecast, forecast_days
from buildbook.figures.laws.registry import PARAMETERS, STATISTICS
from buildbook.figures.laws.statistics import counts, drift, odd_one, quantiles, robust, trend

MODULES = (
    counts,
    cycles,
    drift,
    fade,
    forecast,
    forecast_days,
    odd_one,
    quantiles,
    robust,
    trend,
)


def test_every_public_function_is_registered_under_its_own_name():
    """No law is missing from the registry and none is under another name."""
    public = {
        name
        for module in MODULES
        for name, function in inspect.getmembers(module, callable)
        if inspect.isfunction(inspect.unwrap(function))
        and function.__module__ == module.__name__
        and not name.startswith("_")
    }

    assert public == set(STATISTICS)
    assert all(name == law.function.__name__ for name, law in STATISTICS.items())


@pytest.mark.parametrize("name", list(STATISTICS))
def test_every_entry_is_filled_in(name):
    """Parameters in the order of the function, words for range, source and method."""
    law = STATISTICS[name]

    assert list(inspect.signature(law.function).parameters) == list(law.parameters)
    assert law.valid
    assert law.source
    assert law.method
    assert "method" == law.kind
    assert "Source:" in law.function.__doc__ or "no source" in law.function.__doc__


def test_no_parameter_is_named_in_vain():
    """Every row of the parameter table belongs to a law."""
    used = {name for law in STATISTICS.values() for name in law.parameters}

    assert used == set(PARAMETERS)
