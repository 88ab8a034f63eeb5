"""Control surfaces: the servo that drives each, and how far it moves."""

import re
from collections.abc import Iterable, Mapping
from typing import Annotated, Any

import msgspec
from msgspec import UNSET

from buildbook.basis import notation
from buildbook.basis.limits import Limits, between, within
from buildbook.basis.notation import NotationError
from buildbook.basis.units import Dimension
from buildbook.records.declare import key
from buildbook.records.keys.fields import Group
from buildbook.records.keys.nodes import Node, is_group
from buildbook.records.keys.quantities import TAGS, RunLength_m, Tags
from buildbook.records.keys.scope import Scope
from buildbook.records.keys.shapes import ByName
from buildbook.records.keys.values import Scalar, Schema

_FAR = between("length", "0.1 mm", "500 mm", zero_ok=True)
_WIDE = Limits(0.1, 90, True, "0.1°", "90°")


def throw_read(text: str) -> tuple[float, Dimension]:
    """A length in m at the trailing edge, or an angle in degrees."""
    try:
        return notation.quantity(text, "length"), "length"
    except NotationError as error:
        try:
            return notation.quantity(text, "angle"), "angle"
        except NotationError:
            raise NotationError(error.reason, "write it as in 12 mm or 20°") from None


def _throw(text: str) -> str:
    """As written, for a page tells a throw in the unit of who set it."""
    value, dimension = throw_read(text)
    fault = within(value, _FAR if dimension == "length" else _WIDE, text)
    if fault:
        raise NotationError(fault)
    return " ".join(text.split())


_THROW = Scalar("a length or an angle", _throw, {"type": "string", "description": "12 mm or 20°"})
Throw = Annotated[str, _THROW]
"""How far a surface moves: at its trailing edge, or as an angle; as the keeper wrote it."""


class Throws(msgspec.Struct, frozen=True, kw_only=True):
    """How far a surface moves each way, seen from behind."""

    up: Annotated[Throw | None, key("Trailing edge up", "12 mm", shown="public")] = None
    down: Annotated[Throw | None, key("Trailing edge down", "10 mm", shown="public")] = None
    left: Annotated[Throw | None, key("Of a rudder: to the left", "20°", shown="public")] = None
    right: Annotated[Throw | None, key("Of a rudder: to the right", "20°", shown="public")] = None


class Surface(Throws, frozen=True, kw_only=True):
    """A control surface. ``servos``: those that drive it; none: nobody wrote which."""

    servos: Annotated[
        Tags, key("The servo that drives it, or a list", "S-1", shown="public", written="servo")
    ] = ()
    chord_m: Annotated[
        RunLength_m | None, key("From its hinge to its trailing edge", "45 mm", shown="public")
    ] = None
    length_m: Annotated[RunLength_m | None, key("Along its hinge", "420 mm", shown="public")] = None
    servo_arm_m: Annotated[
        RunLength_m | None, key("Servo arm, middle to link", "12 mm", shown="public")
    ] = None
    horn_m: Annotated[RunLength_m | None, key("Horn, hinge to link", "14 mm", shown="public")] = (
        None
    )
    rates: Annotated[
        Mapping[str, Throws],
        ByName(Group(Throws, "the throws of a rate"), "rates with their throws"),
        key("Other throws, by the name of the rate", "{low: {up: 6 mm}}", shown="public"),
    ] = {}


class _OneSurface:
    """A surface with its keys; or the tag of its servo alone, or several."""

    words = "the servo of a surface, or its keys"
    _group = Group(Surface, "a surface")

    @property
    def fields(self) -> Any:
        """The keys of a surface."""
        return self._group.fields

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A surface, or UNSET."""
        if is_group(node):
            return self._group.read(node, scope, path)
        servos = TAGS.read(node, scope, path)
        return UNSET if servos is UNSET else Surface(servos=servos)

    def schema(self) -> Schema:
        """A tag, a list of tags, or an object."""
        return {"anyOf": [TAGS.schema(), self._group.schema()]}


SURFACES = ByName(_OneSurface(), "surfaces with their servos")


_SENSES: Mapping[str, tuple[tuple[str, str], ...]] = {
    "aileron left": (("aileron stick right", "down"),),
    "aileron right": (("aileron stick right", "up"),),
    "aileron": (("aileron stick right", "the right one up, the left one down"),),
    "elevator": (("elevator stick back", "up"),),
    "stabilator": (("elevator stick back", "trailing edge up"),),
    "rudder": (("rudder stick right", "to the right"),),
    "flap": (("flap switch on", "down, both alike"),),
    "spoiler": (("spoiler switch on", "up, both alike"),),
    "elevon left": (("elevator stick back", "up"), ("aileron stick right", "down")),
    "elevon right": (("elevator stick back", "up"), ("aileron stick right", "up")),
    "elevon": (
        ("elevator stick back", "both up"),
        ("aileron stick right", "the right one up"),
    ),
    "v tail left": (("elevator stick back", "up"), ("rudder stick right", "up")),
    "v tail right": (("elevator stick back", "up"), ("rudder stick right", "down")),
    "v tail": (("elevator stick back", "both up"), ("rudder stick right", "both to the right")),
}
"""Which way each must go, by what is moved. Seen from behind, a trailing edge goes up or down, or
a rudder's to a side. Mechanics of flight, no source: a roll to the right wants the right aileron
up; the nose goes up with the elevator; of a V-tail both trailing edges go to the side of the stick.
"""
_ALSO: Mapping[str, str] = {
    "flaperon": "aileron",
    "ruddervator": "v tail",
    "vtail": "v tail",
    "stab": "stabilator",
    "tailplane": "stabilator",
    "airbrake": "spoiler",
}
"""Other names of the trade for the same."""
_KINDS = tuple(name for name in _SENSES if not name.endswith((" left", " right")))


def senses_of(name: str) -> tuple[tuple[str, str], ...]:
    """What is moved, and which way a surface of that name must go then; none: not known.

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
    return _SENSES.get(f"{of} {side}".strip(), _SENSES.get(of, ()))


def surfaces_named(name: str, surfaces: Iterable[str]) -> list[str]:
    """Those that the name of a reading speaks of: ``aileron up`` of both ailerons, ``left aileron``
    of ``aileron-left`` alone."""
    said = _words(name)
    return [
        one
        for one in surfaces
        if (words := _words(one)) - _SIDES & said - _SIDES
        and not (said & _SIDES and words & _SIDES and said.isdisjoint(words & _SIDES))
    ]


_SIDES = frozenset(("left", "right"))


def _words(name: str) -> frozenset[str]:
    return frozenset(word.removesuffix("s") for word in re.findall(r"[^\W_]+", name.casefold()))


_WAYS = ("up", "down", "left", "right")
_WAY = re.compile(r"(?:trailing edge )?(?:goes |went |moves |moved )?(?:to the )?(\w+)")


def way_wanted(name: str) -> str | None:
    """The one way that a surface goes in its check: ``down`` of a flap; None: several, or unknown.

    A roll of ``right one up, left one down`` has no one way.
    """
    senses = senses_of(name)
    named = re.findall(r"\b(?:up|down|left|right)\b", senses[0][1]) if len(senses) == 1 else []
    return named[0] if len(named) == 1 else None


def way_read(said: str) -> str | None:
    """``up``, ``down``, ``left`` or ``right`` of a reading that says nothing else, else None."""
    found = _WAY.fullmatch(said.strip().casefold())
    return found[1] if found is not None and found[1] in _WAYS else None
