"""How lists and groups of free names are read."""

from typing import Any

from msgspec import UNSET

from buildbook.basis.notation import quoted
from buildbook.basis.sizes import most
from buildbook.records.keys.nodes import (
    MappingNode,
    Node,
    SequenceNode,
    is_group,
    is_list,
    is_text,
)
from buildbook.records.keys.scope import Scope, pairs_of
from buildbook.records.keys.values import TEXT, Schema, Value

_DEEPEST_READING = most("readings")
_LONGEST_LIST = most("list")


class Several:
    """A list of values; where ``single``, one value may stand without the list."""

    def __init__(self, each: Value, *, single: bool = False, least: int = 0) -> None:
        self.each = each
        self.single = single
        self._least = least
        plural = each.words.removeprefix("an ").removeprefix("a ")
        self.words = f"{each.words} or a list" if single else f"a list of {plural}"

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A tuple; a broken member is left out."""
        if not is_list(node):
            if self.single and (not is_group(node) or hasattr(self.each, "fields")):
                one = self.each.read(node, scope, path)
                return UNSET if one is UNSET else (one,)
            scope.expected(self.words, node, path)
            return UNSET
        if len(node.value) > _LONGEST_LIST:
            scope.refuse(node, f"list of {len(node.value)} values, more than {_LONGEST_LIST}")
            return UNSET
        if len(node.value) < self._least:
            scope.refuse(node, f"{quoted(path.rpartition('.')[2])} is an empty list")
            return UNSET
        read = []
        for index, member in enumerate(node.value):
            if member.start_mark.line != node.start_mark.line:
                scope.remember(f"{path}.{index}", member)
            value = self.each.read(member, scope, f"{path}.{index}")
            if value is not UNSET:
                read.append(value)
        return tuple(read)

    def schema(self) -> Schema:
        """An array, or a single value where that is accepted."""
        array = {"type": "array", "items": self.each.schema()}
        return {"anyOf": [self.each.schema(), array]} if self.single else array


class ByName:
    """A group of free names, each with a value of one kind.

    instead: what a broken value is read as, where leaving the name out would mean something else.
    """

    def __init__(
        self, each: Value, words: str, names: Value = TEXT, *, instead: Any = UNSET
    ) -> None:
        self.each = each
        self.words = words
        self.names = names
        self._instead = instead

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A dict in the order of the file; a broken value is left out."""
        if not is_group(node):
            scope.expected(self.words, node, path)
            return UNSET
        read: dict[str, Any] = {}
        for name, (key, member) in pairs_of(node, scope).items():
            scope.remember(f"{path}.{name}", member)
            if self.names.read(key, scope, path) is UNSET:
                continue
            value = self.each.read(member, scope, f"{path}.{name}")
            if value is UNSET:
                value = self._instead
            if value is not UNSET:
                read[name] = value
        return read

    def schema(self) -> Schema:
        """An object with free keys."""
        return {"type": "object", "additionalProperties": self.each.schema()}


class FreeText:
    """A group of the keeper's own names; nested names are joined by a dot, lists by a comma."""

    words = "names with their values"

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A dict of texts as written."""
        if not is_group(node):
            scope.expected(self.words, node, path)
            return UNSET
        read: dict[str, str] = {}
        self._flatten(node, scope, path, "", read, 1)
        return read

    def _flatten(
        self,
        node: MappingNode,
        scope: Scope,
        path: str,
        prefix: str,
        read: dict[str, str],
        depth: int,
    ) -> None:
        for name, (_, member) in pairs_of(node, scope).items():
            scope.remember(f"{path}.{prefix}{name}", member)
            if is_text(member):
                value = TEXT.read(member, scope, f"{path}.{prefix}{name}")
                if value is not UNSET:
                    read[prefix + name] = value
            elif depth >= _DEEPEST_READING:
                scope.refuse(member, f"readings nested more than {_DEEPEST_READING} levels deep")
            elif is_group(member):
                self._flatten(member, scope, path, f"{prefix}{name}.", read, depth + 1)
            elif is_list(member):
                self._listed(member, scope, f"{prefix}{name}", read)

    def _listed(self, node: SequenceNode, scope: Scope, name: str, read: dict[str, str]) -> None:
        if all(is_text(member) for member in node.value):
            read[name] = ", ".join(member.value for member in node.value)
        else:
            scope.refuse(node, f"{quoted(name)} is a list of more than plain values")

    def schema(self) -> Schema:
        """Any object."""
        return {"type": "object"}


FREE_TEXT = FreeText()
