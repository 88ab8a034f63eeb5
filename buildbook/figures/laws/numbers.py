"""What every law refuses before it computes: numbers that are none."""

import math
from collections.abc import Callable, Sequence
from functools import wraps
from typing import Any, ParamSpec, TypeVar

from buildbook.figures.laws.quantities import INPUTS, within

Given = ParamSpec("Given")
Result = TypeVar("Result")


def finite_only(law: Callable[Given, Result]) -> Callable[Given, Result]:
    """The law, refusing NaN and infinity alone or in a series.

    ValueError: 'exposure must be a finite number, got nan', or with the range that the name has.
    """
    names = law.__code__.co_varnames

    @wraps(law)
    def refusing(*args: Given.args, **keywords: Given.kwargs) -> Result:
        for name, value in zip(names, args):  # noqa: B905 - fewer where the rest have defaults
            _refuse(name, value)
        for name, value in keywords.items():
            _refuse(name, value)
        return law(*args, **keywords)

    return refusing


def inside_unit(**shares: float) -> None:
    """Refuse what does not lie between 0 and 1, both left out. ValueError: by its name."""
    for name, share in shares.items():
        if not 0.0 < share < 1.0:
            raise ValueError(f"{name} must be between 0 and 1, got {share:g}")


def _refuse(name: str, value: Any) -> None:
    if isinstance(value, float):
        if not math.isfinite(value):
            if name in INPUTS:
                within(**{name: value})  # which names the range
            raise ValueError(f"{name} must be a finite number, got {value:g}")
    elif isinstance(value, Sequence) and not isinstance(value, str):
        if not _plain(value):
            for part in value:
                _refuse(name, part)
    elif hasattr(value, "tolist"):  # an array of numpy, which not every law may import
        _refuse(name, value.tolist())


def _plain(values: Sequence[Any]) -> bool:
    """Whether all are finite numbers, as in most series; False for what is no number too."""
    try:
        return all(map(math.isfinite, values))
    except (TypeError, OverflowError):
        return False
