"""A canary in every field that the public may not see, made from the declarations of the fields."""

import datetime
import typing
from collections.abc import Iterator, Mapping
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

import msgspec

from buildbook.audience.projection import PEOPLE
from buildbook.records.declare import shown as marks_of
from buildbook.records.ledger import BenchRow, Ledger

STRUCTURE = frozenset(("file", "line", "lines", "log", "public"))
"""Where something was written, and the keeper's word that it may be public: no contents."""
LEADING = {("Spec", "bench"), ("Spec", "table")}
"""Names of files that figures are made from; ``test_files_of_a_keeper`` names them otherwise."""
FITTED = (BenchRow,)
"""Readings that figures are made of; they may not be anything."""


def every_field() -> Iterator[tuple[type, str, str]]:
    """Each field of each type that a ledger is made of, and who may see it."""
    seen: set[type] = set()
    waiting: list[type] = [Ledger]
    while waiting:
        kind = waiting.pop()
        if kind in seen:
            continue
        seen.add(kind)
        hints = get_type_hints(kind)
        for name in kind.__struct_fields__:  # type: ignore[attr-defined]
            shown = "names" if name in PEOPLE else marks_of(kind).get(name, "private")
            yield kind, name, shown
            waiting += structs_in(hints[name])


def structs_in(hint: Any) -> list[type]:
    """The types of records inside a type hint."""
    if isinstance(hint, type) and issubclass(hint, msgspec.Struct):
        return [hint]
    return [found for part in get_args(hint) for found in structs_in(part)]


class Canaries:
    """Puts a word or a number of its own into every private field, and remembers which.

    shared: the switches that are on: what they let be seen gets no canary. kept: names of fields
    that stay as they are.
    """

    def __init__(self, shared: frozenset[str], kept: frozenset[str] = frozenset()) -> None:
        self._kept = STRUCTURE | kept
        self._open = {"public", *shared}
        self._fields = {(kind, name): shown for kind, name, shown in every_field()}
        self.words: dict[str, str] = {}
        self.sat: set[tuple[str, str]] = set()

    def poisoned(self, value: Any, hint: Any, where: str = "", hidden: bool = False) -> Any:
        """The value with canaries. hint: its type, which says what may be put there."""
        if isinstance(value, FITTED):
            return value
        if isinstance(value, msgspec.Struct):
            return self._struct(value, hidden)
        if not hidden:
            return self._inside(value, hint, where, hidden)
        choices = plain_types(hint)
        if str in choices:
            return self._word(where)
        if float in choices:
            return self._number(where)
        if bool in choices:
            return not value
        if datetime.date in choices:
            return datetime.date(2026, 1, 2)
        return self._inside(value, hint, where, hidden)

    def _inside(self, value: Any, hint: Any, where: str, hidden: bool) -> Any:
        parts = get_args(_group(hint))
        if isinstance(value, Mapping) and len(parts) == 2:
            return {
                self.poisoned(key, parts[0], where, hidden): self.poisoned(
                    part, parts[1], where, hidden
                )
                for key, part in value.items()
            }
        if isinstance(value, tuple) and parts:
            if hidden and not value and parts[0] is str:
                return (self._word(where),)
            each = parts[0]
            return tuple(self.poisoned(part, each, where, hidden) for part in value)
        return value

    def _struct(self, value: msgspec.Struct, hidden: bool) -> Any:
        kind = type(value)
        hints = get_type_hints(kind)
        changed = {}
        for name in kind.__struct_fields__:
            if name in self._kept or (kind.__name__, name) in LEADING:
                continue
            inner = hidden or self._fields[kind, name] not in self._open
            part = getattr(value, name)
            if isinstance(value, Ledger):  # the records themselves are looked at field by field
                inner = False
            changed[name] = self.poisoned(part, hints[name], f"{kind.__name__}.{name}", inner)
        return msgspec.structs.replace(value, **changed)

    def _word(self, where: str) -> str:
        kind, _, name = where.partition(".")
        self.sat.add((kind, name))
        word = f"Zq{len(self.words):x}{kind.lower()}Xw"
        self.words[word] = where
        return word

    def _number(self, where: str) -> float:
        kind, _, name = where.partition(".")
        self.sat.add((kind, name))
        number = 1300.0 + len(self.words) % 600 + 0.37
        self.words[f"{number:.2f}"] = where
        return number


def plain_types(hint: Any) -> set[Any]:
    """The plain types that a hint allows; a closed list of words allows none."""
    origin = get_origin(hint)
    if origin is Annotated:
        return plain_types(get_args(hint)[0])
    if origin in (Union, UnionType, typing.Union):
        return {found for part in get_args(hint) for found in plain_types(part)}
    if origin is Literal or origin is not None:
        return set()
    return {hint}


def _group(hint: Any) -> Any:
    """The mapping or tuple that a hint allows."""
    if get_origin(hint) in (Union, UnionType, typing.Union):
        groups = [part for part in get_args(hint) if get_origin(part) in (tuple, _MAPPING)]
        return groups[0] if groups else None
    return hint


_MAPPING = get_origin(Mapping[str, str])


def texts_that_may_hold_anything() -> set[tuple[str, str]]:
    """The private fields of the records that are plain texts: each must get a canary."""
    return {
        (kind.__name__, name)
        for kind, name, shown in every_field()
        if shown not in ("public",)
        and name not in STRUCTURE
        and (kind.__name__, name) not in LEADING
        and str in plain_types(get_type_hints(kind)[name])
    }


DAY = datetime.date(2026, 11, 20)
