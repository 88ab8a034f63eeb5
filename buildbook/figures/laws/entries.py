"""How a registry entry is made: parameters and range come from the function's own names."""

import inspect
from collections.abc import Callable
from typing import Any

from buildbook.figures.laws.law import Law, Quantity
from buildbook.figures.laws.quantities import INPUTS, SERIES, plain

Function = Callable[..., Any]

# Small things whose range reads better in a small unit, and how many of it make one of SI.
SAID_IN: dict[str, tuple[str, float]] = {
    "wire_area_m2": ("mm²", 1e6),
    "wire_diameter_m": ("mm", 1e3),
}


def parameter_quantities(function: Function) -> dict[str, Quantity]:
    """Symbol and unit of each parameter, in order. KeyError: a name that no table knows."""
    return {
        name: INPUTS[name].quantity if name in INPUTS else SERIES[name]
        for name in inspect.signature(function).parameters
    }


def valid_words(function: Function, further: str = "") -> str:
    """The accepted range of every number that the function takes, then further words."""
    ranges = []
    for name in inspect.signature(function).parameters:
        if name in INPUTS:
            row = INPUTS[name]
            unit, per_unit = SAID_IN.get(name, (row.unit, 1.0))
            least, most = plain(row.least * per_unit), plain(row.most * per_unit)
            ranges.append(f"{row.symbol} from {least} to {most} {unit}".rstrip())
    return "; ".join([*ranges, *([further] if further else [])])


def formula(function: Function, symbol: str, unit: str, source: str, further: str = "") -> Law:
    """Entry of a law whose text is derived from its code."""
    return Law(
        function=function,
        result=Quantity(symbol, unit),
        parameters=parameter_quantities(function),
        valid=valid_words(function, further),
        source=source,
    )


def method(
    function: Function, symbol: str, unit: str, source: str, words: str, further: str = ""
) -> Law:
    """Entry of a law that is no straight formula; `words` say how it comes to its result."""
    return Law(
        function=function,
        result=Quantity(symbol, unit),
        parameters=parameter_quantities(function),
        valid=valid_words(function, further),
        source=source,
        kind="method",
        method=words,
    )
