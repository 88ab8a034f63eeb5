"""What every law refuses before it computes, straight lines between the rows of a table, and the
middle of values."""

import math
from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from functools import wraps
from itertools import pairwise
from typing import Any, ParamSpec, TypeVar

from buildbook.figures.laws.quantities import INPUTS, within

Given = ParamSpec("Given")
Result = TypeVar("Result")


def checked(law: Callable[Given, Result]) -> Callable[Given, Result]:
    """The law, refusing what is outside the range of its name in INPUTS, and NaN and infinity.

    ValueError: 'mass_kg must be from 0.0001 to 100 000, got 0'; of a name without a range, alone
    or in a series: 'exposure must be a finite number, got nan'.
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


def median(values: Iterable[float]) -> float:
    """The middle one of at least one, or half way between the middle two.

    As ``statistics`` has it, which takes long to load.
    """
    ordered = sorted(values)
    half, odd = divmod(len(ordered), 2)
    return ordered[half] if odd else (ordered[half - 1] + ordered[half]) / 2


def inside_unit(**shares: float) -> None:
    """Refuse what does not lie between 0 and 1, both left out. ValueError: by its name."""
    for name, share in shares.items():
        if not 0.0 < share < 1.0:
            raise ValueError(f"{name} must be between 0 and 1, got {share:g}")


def _refuse(name: str, value: Any) -> None:
    if isinstance(value, float | int):
        if name in INPUTS:
            within(**{name: value})
        elif not math.isfinite(value):
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


def interpolated(name: str, value: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """y at `value` on the straight line between the two rows about it.

    name: what `value` is, for the error. xs: n >= 2 rising values; ys: n values.
    ValueError: xs not rising, or 'thrust_n must be from 0.1 to 5, got 6' outside the rows.
    Source: linear interpolation.
    """
    return all_interpolated(name, (value,), xs, ys)[0]


def all_interpolated(
    name: str, values: Sequence[float], xs: Sequence[float], ys: Sequence[float]
) -> list[float]:
    """The same at each of some values, the rows looked at once."""
    if len(xs) < 2 or len(xs) != len(ys):
        raise ValueError(f"need two rows or more of {name}, got {len(xs)} with {len(ys)} values")
    if not all(low < high for low, high in pairwise(xs)):
        raise ValueError(f"the rows of {name} must rise")
    found = []
    for value in values:
        if not xs[0] <= value <= xs[-1]:
            raise ValueError(f"{name} must be from {xs[0]:g} to {xs[-1]:g}, got {value:g}")
        right = min(bisect_right(xs, value), len(xs) - 1)
        left = right - 1
        share = (value - xs[left]) / (xs[right] - xs[left])
        found.append(ys[left] + share * (ys[right] - ys[left]))
    return found
