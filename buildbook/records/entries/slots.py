"""Slots: stations, the kinds of item that go there, and their tags."""

from typing import Annotated, Any

import msgspec
from msgspec import UNSET

from buildbook.basis.notation import quoted
from buildbook.records.declare import PUBLIC
from buildbook.records.keys.hints import meant
from buildbook.records.keys.names import TAGS
from buildbook.records.keys.nodes import Node, is_group, is_text, shape_of
from buildbook.records.keys.scope import Scope, pairs_of
from buildbook.records.keys.values import NAME, Schema
from buildbook.records.parts import KINDS


class Slot(msgspec.Struct, frozen=True):
    """A station, the kind of item that sits there, and the tags of it."""

    station: Annotated[str, PUBLIC]
    kind: Annotated[str, PUBLIC]
    tags: Annotated[tuple[str, ...], PUBLIC]


class Slots:
    """Stations, the kinds of item that go there, and their tags."""

    words = "stations with kinds and tags"

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A tuple of slots in the order of the file."""
        if not is_group(node):
            scope.expected(f"{self.words}, as in {{front-left: {{motor: M-01}}}}", node, path)
            return UNSET
        slots: list[Slot] = []
        for station, (key, kinds) in pairs_of(node, scope).items():
            if NAME.read(key, scope, path) is UNSET:
                continue
            if station in KINDS and is_text(kinds):
                first = f"name its station first, as in front-left: {{{station}: {kinds.value}}}"
                scope.refuse(kinds, f"{quoted(station)} is a kind of part, not a station", first)
                continue
            if not is_group(kinds):
                scope.refuse(
                    kinds,
                    f"expected a kind and a tag at {quoted(station)}, got {shape_of(kinds)}",
                    "as in {motor: M-01}",
                )
                continue
            if not kinds.value:
                reason = f"nothing is fitted at {quoted(station)}"
                scope.refuse(kinds, reason, "as in {motor: M-01}")
            for kind, (kind_key, tags) in pairs_of(kinds, scope).items():
                there = f"{path}.{station}.{kind}"
                scope.remember(there, tags)
                if kind not in KINDS:
                    hint = meant(kind, frozenset(KINDS))
                    scope.refuse(kind_key, f"unknown kind of item {quoted(kind)}", hint)
                    continue
                read = TAGS.read(tags, scope, there)
                if read is not UNSET:
                    slots.append(Slot(station, kind, read))
        return tuple(slots)

    def schema(self) -> Schema:
        """Stations, kinds, tags."""
        kinds = {kind: TAGS.schema() for kind in KINDS}
        return {
            "type": "object",
            "additionalProperties": {
                "type": "object",
                "properties": kinds,
                "additionalProperties": False,
            },
        }
