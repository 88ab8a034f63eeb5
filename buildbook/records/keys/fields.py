"""The keys of a group, made from what is declared of the fields of its type, and their reading."""

import datetime
import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from itertools import pairwise
from types import MappingProxyType, NoneType, UnionType
from typing import Annotated, Any, ClassVar, Literal, Union, get_args, get_origin

import msgspec
from msgspec import NODEFAULT, UNSET, StructMeta

from buildbook.basis.amounts import listed
from buildbook.basis.notation import quoted
from buildbook.records.declare import annotations, of, own_annotations
from buildbook.records.declare import key as declared
from buildbook.records.keys.hints import meant
from buildbook.records.keys.nodes import Node, is_group, is_text
from buildbook.records.keys.scope import Pairs, Scope, pairs_of
from buildbook.records.keys.shapes import ByName, FreeText, Several
from buildbook.records.keys.values import DAY, TEXT, TRUTH, Schema, Value, choice

_MOST_UNKNOWN = 12
_NOTHING: frozenset[str] = frozenset()
_MANY = (ByName, FreeText, Several)


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
    torn = _NOTHING if pairs.keys() <= fields.keys() else _torn_numbers(pairs, scope)
    for key, (key_node, node) in pairs.items():
        if key in torn:
            continue
        field = fields.get(key)
        if field is None:
            unknown += 1
            if unknown > _MOST_UNKNOWN:
                continue
            if _without_colon(key_node, node):
                hint = "a text with a comma in it needs quotes"
                scope.refuse(key_node, f"{quoted(key)} stands alone after a comma", hint)
                continue
            if key in owners:
                whose = listed(owners[key], "or")
                scope.refuse(
                    key_node,
                    f"kind {quoted(kind)} has no key {quoted(key)}",
                    f"it belongs to {whose}",
                )
            else:
                reason = f"unknown key {quoted(key)} in {what}"
                scope.refuse(key_node, reason, _there_is(key, fields))
            continue
        path = prefix + key
        if node.start_mark.line + 1 != scope.line:
            scope.lines[path] = node.start_mark.line + 1
        if isinstance(field.value, _MANY) and _is_other(field, node):
            scope.expected(field.value.words, node, path, f"as in {key}: {field.example}")
            continue
        value = field.value.read(node, scope, path)
        if value is not UNSET:
            read[field.attribute] = value
    if unknown > _MOST_UNKNOWN:
        scope.refuse(None, f"{unknown - _MOST_UNKNOWN} more unknown keys in {what}")
    return read


def _is_other(field: Field, node: Node) -> bool:
    """Whether a group stands where a list or a name belongs, or the other way round: an example
    says what is meant."""
    if not field.example or (is_text(node) and not node.value):
        return False
    if isinstance(field.value, Several):
        return is_group(node) and not hasattr(field.value.each, "fields")
    return not is_group(node)


def _without_colon(key: Node, value: Node) -> bool:
    """Whether a key of ``{name: long, black}`` is but the rest of a text."""
    bare = is_text(value) and not value.value
    return bare and (key.end_mark.line, key.end_mark.column) == (
        value.start_mark.line,
        value.start_mark.column,
    )


def _torn_numbers(pairs: Pairs, scope: Scope) -> frozenset[str]:
    """Keys of a number that its comma tore in two, ``{capacity: 2,800 mAh}``: told here, once."""
    torn: set[str] = set()
    for (key, (_, node)), (rest, (rest_node, none)) in pairwise(pairs.items()):
        if (
            is_text(node)
            and _BEFORE_THOUSANDS(node.value)
            and _THOUSANDS(rest)
            and _without_colon(rest_node, none)
        ):
            scope.refuse(
                node, f"{quoted(f'{node.value},{rest}')} has a comma", f"write {node.value}{rest}"
            )
            torn |= {key, rest}
    return frozenset(torn)


_BEFORE_THOUSANDS = re.compile(r"[0-9]{1,3}").fullmatch
_THOUSANDS = re.compile(r"[0-9]{3}(?![0-9])").match
_FEW_KEYS = 10


def _there_is(key: str, fields: Fields) -> str | None:
    """A hint for an unknown key: the one that is meant, where it stands, or which there are."""
    hint = meant(key, frozenset(fields))
    if hint is not None:
        return hint
    part = key.casefold().replace("-", "_").removesuffix("s")
    longer = [name for name in fields if part in name.split("_")]
    if len(longer) == 1:
        return f"did you mean '{longer[0]}'?"
    for name, field in fields.items():
        for inner in fields_within(field):
            if inner == key or part in inner.split("_"):
                return f"under {name} stands '{inner}'"
    of_an_entry = "on" in fields  # whose few keys of its own are lost among those of all
    return f"keys: {', '.join(fields)}" if len(fields) <= _FEW_KEYS and not of_an_entry else None


def fields_within(field: Field) -> Fields:
    """The keys of a group, or of each of several groups, that stand under a key; else none."""
    value = field.value
    while isinstance(value, ByName | Several):
        value = value.each
    return value.fields if isinstance(value, Group) else MappingProxyType({})


def missing(
    pairs: Pairs, fields: Fields, scope: Scope, node: Node | None, what: str
) -> tuple[str, ...]:
    """The required keys that are not written, each noted as a problem."""
    absent = tuple(key for key, field in fields.items() if field.required and key not in pairs)
    if pairs and len(fields) == 1 and not pairs.keys() & fields.keys():
        return absent  # all that is written there is unknown, which is told with the only key
    for key in absent:
        scope.refuse(node, f"{what} has no {quoted(key)}", _as_in(fields[key]))
    return absent


def complete(read: Mapping[str, Any], fields: Fields) -> bool:
    """Whether all that is required could be read."""
    return all(field.attribute in read for field in fields.values() if field.required)


def _as_in(field: Field) -> str | None:
    return f"as in {field.key}: {field.example}" if field.example else None


class Group:
    """A group of known keys, read into a frozen type.

    make: the type, which declares the keys, or what makes it of the values by attribute.
    what: it in words (``a run of wire``). fields: the keys, where ``make`` doesn't declare them.
    A type with a field ``line`` is told the line where the group begins.
    """

    def __init__(
        self,
        make: Callable[..., Any],
        what: str,
        *,
        fields: Callable[[], Fields] | None = None,
    ) -> None:
        self.words = what
        self._make = make
        self._fields = fields
        self._lined = isinstance(make, StructMeta) and "line" in make.__struct_fields__

    @property
    def fields(self) -> Fields:
        """By their names; those of a Struct are looked at when first asked for."""
        if self._fields is not None:
            return self._fields()
        assert isinstance(self._make, type)
        return fields_of(self._make)

    def read(self, node: Node, scope: Scope, path: str) -> Any:
        """The type, or UNSET where a required key is missing or broken."""
        if not is_group(node):
            hint = None
            if is_text(node) and node.value and len(self.fields) <= _FEW_KEYS:
                hint = f"its keys: {', '.join(self.fields)}"
            scope.expected(f"{self.words}: a group of keys", node, path, hint)
            return UNSET
        fields = self.fields
        pairs = pairs_of(node, scope)
        missing(pairs, fields, scope, node, self.words)
        read = read_fields(pairs, fields, scope, self.words, f"{path}.")
        if not complete(read, fields):
            return UNSET
        if self._lined:
            read["line"] = node.start_mark.line + 1
        return self._make(**read)

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


# Units at the end of the name of a field, which the name of its key leaves out.
_UNIT = re.compile(r"_(rpm_v|share|ohm|ah|kg|m2|[ackmsvw])$")
_NONE: Mapping[str, Any] = MappingProxyType({})


@cache
def fields_of(
    kind: type, of_kind: str = "", *, beyond: type | None = None, under: str = ""
) -> Fields:
    """The keys that a type declares, by key.

    of_kind: the kind of the record, whose own keys are there too. beyond: a base whose keys aren't.
    under: those of that group only.
    TypeError: a declaration from which nobody can see how the key is written.
    """
    known = _NONE if beyond is None else annotations(beyond)
    needed = _without_default(kind)
    found: dict[str, Field] = {}
    for name, annotation in _own_first(kind):
        for one in () if name in known else _keys(annotation):
            if one.under == under and (not one.kinds or of_kind in one.kinds):
                required = name in needed and not one.value_of_kind
                written = one.written or _UNIT.sub("", name)
                found[written] = field_of(written, name, annotation, one, required)
    return MappingProxyType(found)


def field_of(
    written: str, attribute: str, annotation: Any, one: declared, required: bool = False
) -> Field:
    """A key as it is declared, read as its annotation says."""
    return Field(
        key=written,
        attribute=attribute,
        value=_reader(annotation),
        doc=one.about,
        example=one.example,
        required=required if one.required is None else one.required,
    )


def _own_first(kind: type) -> Iterator[tuple[str, Any]]:
    """The annotations of a type, then those of its bases: what every record has comes last."""
    for base in kind.__mro__:
        if isinstance(base, StructMeta):
            yield from own_annotations(base).items()


def _without_default(kind: Any) -> frozenset[str]:
    """The fields of a Struct that must be given."""
    fields, defaults = kind.__struct_fields__, kind.__struct_defaults__
    open_ones = fields[: len(fields) - len(defaults)]
    last = fields[len(fields) - len(defaults) :]
    unset = (name for name, default in zip(last, defaults, strict=True) if default is NODEFAULT)
    return frozenset((*open_ones, *unset))


def _keys(annotation: Any) -> Iterator[declared]:
    """The keys in an annotation; a field that repeats one of another type has its keys."""
    for each in _notes(annotation):
        if isinstance(each, declared):
            yield each
        elif isinstance(each, of):
            yield from _keys(annotations(each.declared)[each.field])


def _notes(annotation: Any) -> tuple[Any, ...]:
    if get_origin(annotation) is ClassVar:
        return _notes(get_args(annotation)[0])
    return get_args(annotation)[1:] if get_origin(annotation) is Annotated else ()


def _reader(annotation: Any) -> Value:
    """How a value of that type is read: as the annotation says, else as its type is."""
    for each in _notes(annotation):
        if isinstance(each, of):
            return _reader(annotations(each.declared)[each.field])
        if hasattr(each, "read") and hasattr(each, "schema"):
            reader: Value = each
            return reader
    origin, args = get_origin(annotation), get_args(annotation)
    if origin in (Annotated, ClassVar):
        return _reader(args[0])
    if origin in (Union, UnionType) and NoneType in args and len(args) == 2:
        return _reader(args[0] if args[1] is NoneType else args[1])
    if origin is tuple and len(args) == 2 and args[1] is Ellipsis:
        return Several(_reader(args[0]))
    if origin is Literal:
        return choice(*args)
    if annotation in _PLAIN:
        return _PLAIN[annotation]
    raise TypeError(f"how {annotation} is written is not declared")


_PLAIN: Mapping[Any, Value] = {str: TEXT, bool: TRUTH, datetime.date: DAY}
