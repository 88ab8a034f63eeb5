"""What is known of a law besides its code: symbols, units, valid range and source."""

from collections.abc import Callable
from typing import Any, Literal

import msgspec

Kind = Literal["formula", "method"]

CUSTOM = "common practice, no source"
DEFINITION = "the definition"
FAA_BALANCE = "FAA-H-8083-1B, Weight and Balance Handbook"
GARWOOD = "Garwood 1936, Biometrika 28:437-442"
SEN = "Sen 1968, J. Am. Stat. Assoc. 63:1379-1389"
"""Sources that several laws and answers have."""


def own_table(looked_over: str) -> str:
    """Said of a table that the program brings itself, with the day of its last look."""
    return f"the program's own table, last looked over on {looked_over}"


class Quantity(msgspec.Struct, frozen=True):
    """A symbol as printed in a formula, and the unit of the number behind it.

    symbol: an underscore starts a subscript: `C_Lmax`. unit: SI, or "" for a pure number.
    """

    symbol: str
    unit: str


class Law(msgspec.Struct, frozen=True):
    """One public function of the laws with what a reader needs to argue with it.

    function: the law itself. result: symbol and unit of what it returns.
    parameters: one entry for each parameter of the function, in its order.
    valid: the range in words. source: where the law is published, or
    "common practice, no source". kind: "formula" when text and MathML are derived from the code,
    "method" when the words in `method` stand for it.
    """

    function: Callable[..., Any]
    result: Quantity
    parameters: dict[str, Quantity]
    valid: str
    source: str
    kind: Kind = "formula"
    method: str = ""
