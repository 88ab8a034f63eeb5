"""The rows of a flying day."""

import re
from typing import Annotated, Any, Literal

import msgspec
from msgspec import UNSET

from buildbook.basis.notation import quoted
from buildbook.records.declare import PUBLIC
from buildbook.records.keys.hints import meant
from buildbook.records.keys.names import TAGS
from buildbook.records.keys.nodes import Node, SequenceNode, is_list, is_text, shape_of
from buildbook.records.keys.quantities import CHARGE, FLOWN
from buildbook.records.keys.scope import Scope
from buildbook.records.keys.values import Schema

Landing = Literal["normal", "hard", "crash"]
_LANDINGS = frozenset(("normal", "hard", "crash"))


class FlightRow(msgspec.Struct, frozen=True, kw_only=True):
    """One flight. ``packs`` as flown together; ``line`` is where its row stands."""

    duration_s: Annotated[float, PUBLIC]
    packs: Annotated[tuple[str, ...], PUBLIC] = ()
    used_ah: Annotated[float | None, PUBLIC] = None
    landing: Annotated[Landing, PUBLIC] = "normal"
    line: int = 0


def _is_one_row(node: SequenceNode) -> bool:
    """Whether ``[7:20, P-01]`` is the one flight of a day, without brackets of its own."""
    texts = [member.value for member in node.value if is_text(member)]
    if len(texts) < len(node.value):
        return False
    return not _is_part(texts[0]) and any(map(_is_part, texts[1:]))


def _is_part(text: str) -> bool:
    """Whether it looks like a pack, a charge or a landing rather than a duration."""
    return text.endswith("Ah") or not text[:1].isdigit() or any(sign in text for sign in "-_")


_PARTS = re.compile(r"\s*,\s*|\s+(?!m?Ah)").split


def _is_flight(text: str) -> bool:
    """Whether a text is a flight with its pack or charge: a clock, and more behind it."""
    first, *more = _PARTS(text)
    return ":" in first and bool(more) and any(map(_is_part, more))


class FlightRows:
    """Rows of one day: duration, then pack, charge and landing in any order."""

    words = "a list of flights, as in [[7:20, P-01, 1480 mAh]]"

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A tuple of rows."""
        if not is_list(node):
            if is_text(node) and _is_flight(node.value):
                self._bare(node, scope, "[{}]")
            else:
                scope.expected(self.words, node, path)
            return UNSET
        if not node.value:
            scope.refuse(node, "'flights' is an empty list")
            return UNSET
        members = [node] if _is_one_row(node) else node.value
        rows = [self._row(member, scope, f"{path}.{index}") for index, member in enumerate(members)]
        return tuple(row for row in rows if row is not None)

    def _row(self, node: Node, scope: Scope, path: str) -> FlightRow | None:
        members = node.value if is_list(node) else [node]
        scope.remember(path, node)
        if is_text(node) and _is_flight(node.value):
            self._bare(node, scope, "{}")
            return None
        if not members or not is_text(members[0]):
            scope.refuse(node, f"expected a flight, got {shape_of(node)}", "as in [7:20, P-01]")
            return None
        duration_s = FLOWN.read(members[0], scope, path)
        read: dict[str, Any] = {}
        for member in members[1:]:
            attribute, value = self._part(member, scope, path)
            if value is UNSET:
                continue
            if attribute in read:
                self._again(member, attribute, scope)
            else:
                read[attribute] = value
        if duration_s is UNSET:
            return None
        return FlightRow(duration_s=duration_s, line=node.start_mark.line + 1, **read)

    def _bare(self, node: Node, scope: Scope, outer: str) -> None:
        """A flight that stands there as a text: ``6:20 P-01 940 mAh``."""
        text = f"[{', '.join(_PARTS(node.value))}]"
        reason = f"{quoted(node.value)} is a flight without brackets"
        scope.refuse(node, reason, f"write {outer.format(text)}")

    def _again(self, node: Node, attribute: str, scope: Scope) -> None:
        """A second pack, charge or landing; what looks like a pack may be a landing with a slip."""
        text = node.value if is_text(node) else ""
        landing = meant(text, _LANDINGS) if attribute == "packs" and text.isalpha() else None
        if landing is not None:
            reason = f"{quoted(text)} is neither a pack, a charge nor a landing"
            scope.refuse(node, reason, landing)
        else:
            scope.refuse(node, f"{shape_of(node)} stands beside another of its sort")

    def _part(self, node: Node, scope: Scope, path: str) -> tuple[str, Any]:
        """What a member of a row is, by its form."""
        if is_list(node):
            return "packs", TAGS.read(node, scope, path)
        if is_text(node):
            text = node.value
            if text in _LANDINGS:
                return "landing", text
            if (text[:1].isdigit() and text[-1:] in "hA" and " " in text) or text.endswith("Ah"):
                return "used_ah", CHARGE.read(node, scope, path)
            if text[:1].isdigit() and not any(sign in text for sign in "-_"):
                charge = text.isdecimal() and len(text) >= 3
                scope.refuse(
                    node,
                    f"{quoted(text)} is neither a pack, a charge nor a landing",
                    f"{f'did you mean {text} mAh? ' if charge else ''}as in"
                    " [7:20, P-01, 1480 mAh, hard]",
                )
                return "used_ah", UNSET
            return "packs", TAGS.read(node, scope, path)
        scope.refuse(node, "a group of keys stands in a row of flights")
        return "packs", UNSET

    def schema(self) -> Schema:
        """Rows of strings."""
        row = {"type": "array", "minItems": 1, "items": {"type": ["string", "number", "array"]}}
        return {"type": "array", "minItems": 1, "items": row}
