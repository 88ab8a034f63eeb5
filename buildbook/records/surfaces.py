"""Control surfaces: the servo that drives each, and how far it moves."""

from collections.abc import Mapping
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
