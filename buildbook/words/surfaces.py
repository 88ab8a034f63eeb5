"""Control surfaces in words: which way each must go, and how far.

Seen from behind, a trailing edge goes up or down, or a rudder's to a side. Mechanics of flight, no
source: a roll to the right wants the right aileron up; the nose goes up with the elevator; of a
V-tail both trailing edges go to the side of the stick.
"""

from collections.abc import Mapping

from buildbook.basis import amounts
from buildbook.records.aircraft import Surface
from buildbook.records.surfaces import Throws
from buildbook.words.names import MISSING

_SENSES: Mapping[str, str] = {
    "aileron left": "aileron stick right: down",
    "aileron right": "aileron stick right: up",
    "aileron": "aileron stick right: the right one up, the left one down",
    "elevator": "elevator stick back: up",
    "stabilator": "elevator stick back: trailing edge up",
    "rudder": "rudder stick right: to the right",
    "flap": "flap switch on: down, both alike",
    "spoiler": "spoiler switch on: up, both alike",
    "elevon left": "elevator stick back: up; aileron stick right: down",
    "elevon right": "elevator stick back: up; aileron stick right: up",
    "elevon": "elevator stick back: both up; aileron stick right: the right one up",
    "v tail left": "elevator stick back: up; rudder stick right: up",
    "v tail right": "elevator stick back: up; rudder stick right: down",
    "v tail": "elevator stick back: both up; rudder stick right: both to the right",
}
_ALSO: Mapping[str, str] = {
    "flaperon": "aileron",
    "ruddervator": "v tail",
    "vtail": "v tail",
    "stab": "stabilator",
    "tailplane": "stabilator",
    "airbrake": "spoiler",
}
"""Other names of the trade for the same."""


def surface_sense(name: str) -> str:
    """Which way a surface of that name must go: ``elevator stick back: up``; empty: not known.

    ``aileron-left``, ``left aileron`` and ``aileron_left`` are one name; further words, as in
    ``elevator-left`` or ``flap-inner-right``, change nothing where the side does not matter.
    """
    words = name.casefold().replace("_", " ").replace("-", " ").split()
    text = " ".join(words)
    for other, known in _ALSO.items():
        if other in words or f"{other}s" in words:
            text = text.replace(other, known)
    side = next((word for word in words if word in ("left", "right")), "")
    singular = " ".join(word.removesuffix("s") for word in text.split())
    of = next((known for known in _KINDS if f" {known} " in f" {singular} "), "")
    return _SENSES.get(f"{of} {side}".strip(), _SENSES.get(of, ""))


_KINDS = tuple(name for name in _SENSES if not name.endswith((" left", " right")))


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
