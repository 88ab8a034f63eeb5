"""Lengths as words and as round scale bars."""

from __future__ import annotations

import math

from buildbook.records.layouts import LAYOUTS


def length_words(metres: float) -> str:
    """`410 mm`, `2450 mm`, as one says it at the bench; in metres from ten of them on."""
    if abs(metres) < 10:
        return f"{metres * 1000:.0f} mm"
    return f"{metres:.2f}".rstrip("0").rstrip(".") + " m"


def apart_m(layout: str, diagonal_m: float) -> float | None:
    """From a motor to the next where no motor of the layout has another opposite; else None."""
    known = LAYOUTS.get(layout)
    arms = known.spacing_arms if known else None
    return None if arms is None else arms * diagonal_m / 2


def side_m(layout: str, diagonal_m: float) -> float | None:
    """Of four motors on a square, from a shaft to the next along its side; else None."""
    known = LAYOUTS.get(layout)
    places = {(one.forward, one.right) for one in known.stations} if known else set()
    square = len(places) == 4 and apart_m(layout, diagonal_m) is None
    return diagonal_m / math.sqrt(2) if square else None


def across_words(layout: str, diagonal_m: float) -> str:
    """``diagonal 430 mm, side 304 mm``; of a Y, whose shafts have none opposite, ``arm 260 mm``."""
    if apart_m(layout, diagonal_m) is not None:
        return f"arm {length_words(diagonal_m / 2)}"
    side = side_m(layout, diagonal_m)
    beside = "" if side is None else f", side {length_words(side)}"
    return f"diagonal {length_words(diagonal_m)}{beside}"


def name_of(layout: str, diagonal_m: float, shafts_m: float) -> str:
    """Which length two shafts that far apart are: ``diagonal``, ``side``, else ``across``."""
    beside = side_m(layout, diagonal_m) or apart_m(layout, diagonal_m)
    for name, metres in (("diagonal", diagonal_m), ("side", beside)):
        if metres is not None and math.isclose(shafts_m, metres, rel_tol=0.002):
            return name
    return "across"


def named_length(name: str, metres: float) -> str:
    """``side 304 mm``: a length on a drawing says which one it is."""
    return f"{name} {length_words(metres)}"


def size_words(layout: str, diagonal_m: float) -> str:
    """``diagonal 430 mm, side 304 mm``; of a Y ``motors 450 mm apart``."""
    apart = apart_m(layout, diagonal_m)
    if apart is None:
        return across_words(layout, diagonal_m)
    return f"motors {length_words(apart)} apart"


def round_length(longest_m: float) -> float:
    """The longest of 1, 2, 5 times a power of ten that is no longer than `longest_m` (> 0)."""
    power = 10.0 ** math.floor(math.log10(longest_m))
    for step in (5.0, 2.0):
        if step * power <= longest_m:
            return step * power
    return power


def place_words(forward_m: float, right_m: float, to_scale: bool = True) -> str:
    """`145 mm forward, 145 mm left`; in arm lengths where there is no scale."""

    def words(value: float, plus: str, minus: str) -> str:
        size = length_words(abs(value)) if to_scale else f"{abs(value):.2f} arm"
        return f"{size} {plus if value > 0 else minus}"

    tiny = 0.0005
    parts = []
    if abs(forward_m) >= tiny:
        parts.append(words(forward_m, "forward", "aft"))
    if abs(right_m) >= tiny:
        parts.append(words(right_m, "right", "left"))
    return ", ".join(parts) or "at the reference point"
