"""Control surfaces in words: which way each must go, and how far."""

from collections.abc import Mapping

from buildbook.basis import amounts
from buildbook.records.surfaces import Surface, Throws, senses_of
from buildbook.words.names import MISSING


def surface_sense(name: str) -> str:
    """Which way a surface of that name must go: ``elevator stick back: up``; empty: not known."""
    return "; ".join(f"{moved}: {way}" for moved, way in senses_of(name))


def throw_words(throws: Throws) -> str:
    """``up 12 mm, down 10 mm``, and of each rate; empty where nothing is recorded."""
    ways = (
        ("up", throws.up),
        ("down", throws.down),
        ("left", throws.left),
        ("right", throws.right),
    )
    said = ", ".join(f"{way} {far}" for way, far in ways if far is not None)
    rates = [
        f"{name}: {words}"
        for name, rate in (throws.rates.items() if isinstance(throws, Surface) else ())
        if (words := throw_words(rate))
    ]
    return "; ".join(words for words in (said, *rates) if words)


def surface_words(surface: Surface) -> str:
    """``servo S-3, up 12 mm, down 10 mm``."""
    driven = f"servo {' and '.join(surface.servos)}" if surface.servos else ""
    return ", ".join(words for words in (driven, throw_words(surface)) if words) or "as recorded"


THROWS = (
    "Throws are measured at the trailing edge, as far behind the hinge as the table says; up, "
    "down, left and right as seen from behind. A servo arm goes from its middle to the link, a "
    "horn from the hinge to the link."
)
"""How the table of surfaces is meant."""
_LENGTHS = (
    ("hinge to trailing edge", "chord_m"),
    ("along the hinge", "length_m"),
    ("servo arm", "servo_arm_m"),
    ("horn", "horn_m"),
)


def surface_rows(
    surfaces: Mapping[str, Surface],
) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]] | None:
    """Columns and a row a surface, for a table; None where none is recorded.

    A column in which no surface has anything is left out; a cell without a value says so.
    """
    if not surfaces:
        return None
    kept = [
        (head, name)
        for head, name in _LENGTHS
        if any(getattr(surface, name) is not None for surface in surfaces.values())
    ]
    rows = tuple(
        (
            name,
            throw_words(surface) or MISSING,
            *(_length(getattr(surface, field)) for _, field in kept),
        )
        for name, surface in surfaces.items()
    )
    return ("surface", "throw", *(head for head, _ in kept)), rows


def _length(length_m: float | None) -> str:
    return MISSING if length_m is None else amounts.length(length_m)
