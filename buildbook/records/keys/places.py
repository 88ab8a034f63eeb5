"""Types of places on an aircraft: forward, right and down, or along the chord."""

from typing import Annotated, Any

from msgspec import UNSET

from buildbook.basis import notation
from buildbook.basis.limits import Limits, between, within
from buildbook.basis.notation import NotationError
from buildbook.records.keys.nodes import Node, is_list
from buildbook.records.keys.scope import Scope
from buildbook.records.keys.values import Scalar, Schema, quantity

ALONG = between("length", "-20 m", "20 m", zero_ok=True)


class _Place3:
    words = "a place [forward, right, down]"
    each = quantity("length", ALONG)

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """Three metres, or UNSET."""
        if not is_list(node):
            scope.expected(self.words, node, path)
            return UNSET
        if len(node.value) != 3:
            count = len(node.value)
            scope.refuse(
                node,
                f"expected {self.words}, got a list of {count}",
                "as in [10 mm, 0 mm, 25 mm]",
            )
            return UNSET
        read = tuple(self.each.read(member, scope, path) for member in node.value)
        return UNSET if UNSET in read else read

    def schema(self) -> Schema:
        """Three strings."""
        return {"type": "array", "items": self.each.schema(), "minItems": 3, "maxItems": 3}


PLACE3 = _Place3()
Place3 = Annotated[tuple[float, float, float], PLACE3]
"""Forward, right, down from the reference point of the aircraft, in metres."""


def _cg(text: str) -> tuple[str, float]:
    """``("share", ratio)`` of the mean chord, or ``("m", metres)`` forward."""
    try:
        ratio = notation.share(text)
    except NotationError as error:
        try:
            metres = notation.quantity(text, "length")
        except NotationError:
            raise NotationError(error.reason, "write it as in 25 % or -12 mm") from None
        fault = within(metres, ALONG, text)
        if fault:
            raise NotationError(fault) from None
        return "m", metres
    fault = within(ratio, Limits(-1, 1.5, True, "-100 %", "150 %"), text)
    if fault:
        raise NotationError(fault)
    return "share", ratio


CG = Scalar("a share of the chord or a length", _cg)
"""Read as what it is counted in (``share`` or ``m``) and how much of it."""
