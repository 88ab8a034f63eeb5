"""Words of a command line as values: texts, quantities, lists and groups, as a file has them."""

import re
from collections.abc import Mapping
from typing import Any

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, quoted
from buildbook.basis.units import Dimension
from buildbook.desk.entry_text import Tree, as_tree
from buildbook.records.entries.building import Slots
from buildbook.records.entries.flying import FlightRows
from buildbook.records.keys.fields import Group
from buildbook.records.keys.quantities import Lengths
from buildbook.records.keys.shapes import ByName, FreeText, Several
from buildbook.records.keys.values import TEXT, Scalar

ASSUMED: Mapping[Dimension, str] = {
    "charge": "mAh",
    "mass": "g",
    "length": "mm",
    "voltage": "V",
    "current": "A",
    "resistance": "mΩ",
    "temperature": "°C",
    "speed": "m/s",
    "share": "%",
}
"""The unit of a bare number, by what it measures; it is always told. A duration has none: 440 may
be seconds or a slip."""

_GLUED = re.compile(r"([+-]?\d[\d.]*)([^\W\d_]+|%|°[CF])").fullmatch
_BETWEEN = re.compile(r"\s*[/|;]\s*|\s+(?=[\d.])").split
_MEASURED = re.compile(r"[\d.]+ ?[^\W\d]*").fullmatch
_DECIMAL_COMMAS = re.compile(r"\d+,\d+(?:[\s/;|]+\d+,\d+)+(?: ?[^\W\d]+)?").fullmatch
_LEAST_MAH = 20.0
bare = re.compile(r"[+-]?\d+(?:\.\d+)?").fullmatch
"""A number without a unit."""


class WrongWords(Exception):
    """The words are no entry; the text is one sentence."""


def value_said(value: Any, text: str, key: str, assumed: list[str]) -> Tree:
    """A text as the kind of value that is wanted there."""
    if text[:1] in ("[", "{") and not isinstance(value, Scalar):
        try:
            return as_tree(text)
        except ValueError as error:
            raise WrongWords(f"{key}: {error}") from None
    if isinstance(value, Scalar):
        return _scalar(value, text, key, assumed)
    if isinstance(value, Several):
        measured = isinstance(value.each, Scalar) and value.each.dimension is not None
        parts = measurements(text) if measured else _parts(text)
        members = [value_said(value.each, part, key, assumed) for part in parts]
        single = len(members) == 1 and value.single
        return members[0] if single else members
    if isinstance(value, Group | ByName | FreeText):
        return _group(value, text, key, assumed)
    if isinstance(value, Slots | FlightRows):
        raise WrongWords(f"{key}: write it in brackets")
    if isinstance(value, Lengths):
        return [_scalar(value.each, part, key, assumed) for part in _parts(text)]
    return _parts(text) if "," in text else text


def measurements(text: str) -> list[str]:
    """Values side by side as chargers show them: ``4.1, 4.3``, ``4.1 4.3`` or ``4.1/4.3 mΩ``.

    WrongWords: their commas are decimal ones, as in ``4,18 4,19``.
    """
    if _DECIMAL_COMMAS(text.strip()):
        points = text.strip().replace(",", ".")
        raise WrongWords(f"{quoted(text)} has decimal commas; write {points}")
    return [
        each
        for part in _parts(text)
        for each in (_BETWEEN(part) if all(map(_MEASURED, _BETWEEN(part))) else [part])
    ]


def _parts(text: str) -> list[str]:
    return [part.strip() for part in text.split(",") if part.strip()]


def _group(value: Any, text: str, key: str, assumed: list[str]) -> Tree:
    """``before=16.7V,after=15.1V``; dots lead into groups, and a part without = goes on."""
    pairs: list[list[str]] = []
    for part in text.split(","):
        name, equals, text_there = part.partition("=")
        if equals:
            pairs.append([name.strip(), text_there.strip()])
        elif pairs and _own_name(value, part) is None:
            pairs[-1][1] += f",{part}"
        else:
            own = _own_name(value, part)
            if own is None:
                raise WrongWords(f"{key}: {_stands_alone(value, part)}")
            pairs.append(own)
    found: dict[str, Tree] = {}
    for name, text_there in pairs:
        outer, dot, inner = name.partition(".")
        if dot and not (isinstance(value, ByName) and not isinstance(value.each, ByName)):
            each = value.each if isinstance(value, ByName) else value
            deeper = _group(each, f"{inner}={text_there}", key, assumed)
            old = found.get(outer)
            merged = {**(old if isinstance(old, Mapping) else {}), **_as_group(deeper)}
            found[outer] = merged
            continue
        found[name] = value_said(_member(value, name, key), text_there, name, assumed)
    return found


def _own_name(value: Any, part: str) -> list[str] | None:
    """A part with the only name that it can have in a group: ``5 flights``, or a day."""
    fields = value.fields if isinstance(value, Group) else {}
    words = part.split()
    if len(words) == 2 and words[1] in fields:
        return [words[1], words[0]]
    fit = [
        name
        for name, field in fields.items()
        if isinstance(field.value, Scalar)
        and _reads(field.value, part.strip())
        and not _reads(field.value, "?")  # any text would do
    ]
    return [fit[0], part.strip()] if len(fit) == 1 else None


def _reads(value: Scalar, text: str) -> bool:
    try:
        value.parsed(text)
    except NotationError:
        return False
    return True


def _stands_alone(value: Any, part: str) -> str:
    if (
        isinstance(value, ByName)
        and isinstance(value.each, Scalar)
        and "enum" in value.each.schema()
    ):
        return f"{quoted(part)} stands alone; write {part}=STATE, one of {value.each.words}"
    return f"{quoted(part)} has no name; write name=value"


def _as_group(tree: Tree) -> Mapping[str, Tree]:
    return tree if isinstance(tree, Mapping) else {}


def _member(value: Any, name: str, key: str) -> Any:
    if isinstance(value, Group):
        if name not in value.fields:
            hint = did_you_mean(name, value.fields)
            raise WrongWords(f"{key}: unknown key {quoted(name)}" + (f"; {hint}" if hint else ""))
        return value.fields[name].value
    return value.each if isinstance(value, ByName) else TEXT


def _scalar(value: Scalar, text: str, key: str, assumed: list[str]) -> str:
    """The text, with the unit that is usual there where it has none; that is told."""
    dimension = value.dimension
    if dimension is not None:
        text = _spaced(text.strip())
    try:
        value.parsed(text)
        return text
    except NotationError as error:
        if error.meant is not None:
            assumed.append(f"{text} → {error.meant}")
            return error.meant
        unit = ASSUMED.get(dimension) if dimension is not None else None
        if unit is not None and bare(text) and _likely(unit, text):
            whole = f"{text} {unit}"
            try:
                value.parsed(whole)
            except NotationError as worse:
                raise WrongWords(_refused(key, worse)) from None
            assumed.append(f"{text} → {whole}")
            return whole
        raise WrongWords(_refused(key, error)) from None


def _likely(unit: str, text: str) -> bool:
    """Whether a bare number can be of that unit: 1.48 is no count of mAh."""
    return unit != "mAh" or float(text) == 0 or float(text) >= _LEAST_MAH


def _refused(key: str, error: NotationError) -> str:
    hint = f"; {error.hint}" if error.hint else ""
    return f"{key}: {error.reason}{hint}"


def _spaced(text: str) -> str:
    glued = _GLUED(text)
    return f"{glued[1]} {glued[2]}" if glued else text
