"""How structures are read: lists, groups of free names, groups of known keys."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

import msgspec
from msgspec import UNSET

from buildbook.basis.notation import said
from buildbook.basis.saying import listed
from buildbook.records.hints import meant
from buildbook.records.scope import Pairs, Scope, pairs_of
from buildbook.records.values import TEXT, Schema, Value, choice
from buildbook.records.yaml_nodes import MappingNode, Node, ScalarNode, SequenceNode

_DEEPEST_READING = 6
_LONGEST_LIST = 2000
_MOST_UNKNOWN = 12


class Field(msgspec.Struct, frozen=True, kw_only=True):
    """One key of a record: how it is written, read and explained.

    attribute: its name in the type. doc: one line, what it is. example: as in a file.
    """

    key: str
    attribute: str
    value: Any  # a Value
    doc: str
    example: str = ""
    required: bool = False


Fields = Mapping[str, Field]


class Owners(msgspec.Struct, frozen=True):
    """Which kinds of a record have a key: ``of`` by key; ``kinds`` are all there are."""

    kinds: tuple[str, ...]
    of: Mapping[str, tuple[str, ...]]


def key_owners(kinds: Mapping[str, Fields]) -> Owners:
    """The owners of the keys of all kinds."""
    keys = dict.fromkeys(key for fields in kinds.values() for key in fields)
    return Owners(
        tuple(kinds),
        {key: tuple(kind for kind in kinds if key in kinds[kind]) for key in keys},
    )


def key(
    name: str,
    value: Value,
    doc: str,
    example: str,
    attribute: str = "",
    *,
    required: bool = False,
) -> Field:
    """A field; its attribute has the name of the key unless said otherwise."""
    return Field(
        key=name,
        attribute=attribute or name,
        value=value,
        doc=doc,
        example=example,
        required=required,
    )


def table(*fields: Field) -> dict[str, Field]:
    """The fields by their key."""
    return {field.key: field for field in fields}


def read_fields(
    pairs: Pairs,
    fields: Fields,
    scope: Scope,
    what: str,
    prefix: str = "",
    *,
    kind: str = "",
    owners: Mapping[str, tuple[str, ...]] = MappingProxyType({}),
) -> dict[str, Any]:
    """The values by attribute; unknown keys are noted.

    what: the record in words for messages (``a motor``). prefix: the path of the group, with dot.
    owners: keys of the other kinds of this record, each with the kinds that have it.
    """
    read: dict[str, Any] = {}
    unknown = 0
    for key, (key_node, node) in pairs.items():
        field = fields.get(key)
        if field is None:
            unknown += 1
            if unknown > _MOST_UNKNOWN:
                continue
            if key in owners:
                whose = listed(owners[key], "or")
                scope.refuse(
                    key_node, f"kind {said(kind)} has no key {said(key)}", f"it belongs to {whose}"
                )
            else:
                hint = meant(key, frozenset(fields))
                scope.refuse(key_node, f"unknown key {said(key)} in {what}", hint)
            continue
        path = prefix + key
        if node.start_mark.line + 1 != scope.line:
            scope.lines[path] = node.start_mark.line + 1
        value = field.value.read(node, scope, path)
        if value is not UNSET:
            read[field.attribute] = value
    if unknown > _MOST_UNKNOWN:
        scope.refuse(None, f"{unknown - _MOST_UNKNOWN} more unknown keys in {what}")
    return read


def missing(
    pairs: Pairs, fields: Fields, scope: Scope, node: Node | None, what: str
) -> tuple[str, ...]:
    """The required keys that are not written, each noted as a problem."""
    absent = tuple(key for key, field in fields.items() if field.required and key not in pairs)
    for key in absent:
        scope.refuse(node, f"{what} has no {said(key)}", _as_in(fields[key]))
    return absent


def complete(read: Mapping[str, Any], fields: Fields) -> bool:
    """Whether all that is required could be read."""
    return all(field.attribute in read for field in fields.values() if field.required)


def _as_in(field: Field) -> str | None:
    return f"as in {field.key}: {field.example}" if field.example else None


class Group:
    """A group of known keys, read into a frozen type.

    build: makes the arguments of the type from the values that were read, where they differ.
    """

    def __init__(
        self,
        make: Callable[..., Any],
        fields: Fields,
        what: str,
        build: Callable[[dict[str, Any]], dict[str, Any]] | None = None,
        *,
        lined: bool = False,
    ) -> None:
        self.make = make
        self.fields = fields
        self.words = what
        self._build = build
        self._lined = lined

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """The type, or UNSET where a required key is missing or broken."""
        if not isinstance(node, MappingNode):
            scope.expected(f"{self.words}: a group of keys", node, path)
            return UNSET
        pairs = pairs_of(node, scope)
        missing(pairs, self.fields, scope, node, self.words)
        read = read_fields(pairs, self.fields, scope, self.words, f"{path}.")
        if not complete(read, self.fields):
            return UNSET
        if self._build is not None:
            read = self._build(read)
        if self._lined:
            read["line"] = node.start_mark.line + 1
        return self.make(**read)

    def schema(self) -> Schema:
        """An object with these keys and no others."""
        return object_schema(self.fields)


def object_schema(fields: Fields) -> Schema:
    """A JSON object with exactly these keys."""
    schema: Schema = {
        "type": "object",
        "properties": {
            key: {**field.value.schema(), "title": field.doc} for key, field in fields.items()
        },
        "additionalProperties": False,
    }
    required = [key for key, field in fields.items() if field.required]
    if required:
        schema["required"] = required
    return schema


class Several:
    """A list of values; where ``single``, one value may stand without the list."""

    def __init__(self, each: Value, *, single: bool = False, least: int = 0) -> None:
        self.each = each
        self._single = single
        self._least = least
        plural = each.words.removeprefix("an ").removeprefix("a ")
        self.words = f"{each.words} or a list" if single else f"a list of {plural}"

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A tuple; a broken member is left out."""
        if not isinstance(node, SequenceNode):
            if self._single and (not isinstance(node, MappingNode) or isinstance(self.each, Group)):
                one = self.each.read(node, scope, path)
                return UNSET if one is UNSET else (one,)
            scope.expected(self.words, node, path)
            return UNSET
        if len(node.value) > _LONGEST_LIST:
            scope.refuse(node, f"list of {len(node.value)} values, more than {_LONGEST_LIST}")
            return UNSET
        if len(node.value) < self._least:
            scope.refuse(node, f"{said(path.rpartition('.')[2])} is an empty list")
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
        return {"anyOf": [self.each.schema(), array]} if self._single else array


class ByName:
    """A group of free names, each with a value of one kind.

    instead: what a broken value is read as, where leaving the name out would mean something else.
    """

    def __init__(
        self, each: Value, words: str, names: Value = TEXT, *, instead: Any = UNSET
    ) -> None:
        self.each = each
        self.words = words
        self._names = names
        self._instead = instead

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """A dict in the order of the file; a broken value is left out."""
        if not isinstance(node, MappingNode):
            scope.expected(self.words, node, path)
            return UNSET
        read: dict[str, Any] = {}
        for name, (key, member) in pairs_of(node, scope).items():
            scope.remember(f"{path}.{name}", member)
            if self._names.read(key, scope, path) is UNSET:
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
        if not isinstance(node, MappingNode):
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
            if isinstance(member, ScalarNode):
                value = TEXT.read(member, scope, f"{path}.{prefix}{name}")
                if value is not UNSET:
                    read[prefix + name] = value
            elif depth >= _DEEPEST_READING:
                scope.refuse(member, f"readings nested more than {_DEEPEST_READING} levels deep")
            elif isinstance(member, MappingNode):
                self._flatten(member, scope, path, f"{prefix}{name}.", read, depth + 1)
            elif isinstance(member, SequenceNode):
                self._listed(member, scope, f"{prefix}{name}", read)

    def _listed(self, node: SequenceNode, scope: Scope, name: str, read: dict[str, str]) -> None:
        if all(isinstance(member, ScalarNode) for member in node.value):
            read[name] = ", ".join(member.value for member in node.value)
        else:
            scope.refuse(node, f"{said(name)} is a list of more than plain values")

    def schema(self) -> Schema:
        """Any object."""
        return {"type": "object"}


PUBLIC_OK = key(
    "public",
    choice("ok"),
    "Lets its texts stand in a public render though they look like something private",
    "ok",
)
"""A key of every record; what is private by its kind stays so."""

FREE_TEXT = FreeText()
WORDS = Several(TEXT, single=True)
"""One text, or a list of them."""
