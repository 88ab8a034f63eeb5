"""Words of a command line become an entry: where it goes, its kind key, its further keys."""

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

import msgspec

from buildbook.basis.amounts import listed
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.notation import NotationError, said
from buildbook.basis.units import UNITS, Dimension
from buildbook.desk.bringing_in.foreign import same_name
from buildbook.desk.entry_text import Tree, as_tree
from buildbook.records.entries.kinds import KINDS, common
from buildbook.records.entries.rows import FlightRows
from buildbook.records.entries.slots import Slots
from buildbook.records.keys.fields import Field, Fields, Group
from buildbook.records.keys.shapes import ByName, FreeText, Several
from buildbook.records.keys.values import TEXT, Scalar
from buildbook.records.ledger import Ledger
from buildbook.records.reading.corrections import CORRECTS, VOIDS

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

_BARE = re.compile(r"[+-]?\d+(?:\.\d+)?").fullmatch
_GLUED = re.compile(r"([+-]?\d[\d.]*)([^\W\d_]+|%|°[CF])").fullmatch
_LEAST_MAH = 20.0
_DIMENSIONS: Mapping[str, Dimension] = {kind.words: name for name, kind in UNITS.items()}
_OF_ITEMS = ("charge", "capacity", "state")
_ANYWHERE = ("inspection", "defect", "note", "cleared", "corrects", "voids")
_RESULTS = ("pass", "fail")


class WrongWords(Exception):
    """The words are no entry; the text is one sentence."""


class NewEntry(msgspec.Struct):
    """An entry on its way. aircraft: its slug; or item: the tag in whose store it goes.

    assumed: what was taken for granted, as in ``1480 → 1480 mAh``. missing: keys that it must have.
    """

    kind: str
    entry: dict[str, Tree]
    aircraft: str | None = None
    item: str | None = None
    assumed: list[str] = []
    missing: list[str] = []

    def add(self, field: Field, text: str) -> None:
        """Say a key in words. WrongWords: they are none of its kind."""
        self.entry[field.key] = self.value(field, text)

    def meant(self, word: str, name: str) -> str:
        """The name that a word was taken for; that is told where they differ."""
        if word != name:
            self.assumed.append(f"{word} → {name}")
        return name

    def value(self, field: Field, text: str) -> Tree:
        """A value as it stands in a file."""
        return _value(field.value, text, field.key, self.assumed)


def further(kind: str) -> Fields:
    """The keys that an entry of a kind may have beside its kind key."""
    own = {"corrects": CORRECTS, "voids": VOIDS}.get(kind)
    if own is None:
        own = KINDS[kind].fields
    return {**own, **{key: field for key, field in common().items() if key != "id"}}


def own_key(kind: str) -> Field:
    """The kind key of a kind."""
    return (
        (CORRECTS if kind == "corrects" else VOIDS)[kind]
        if kind not in KINDS
        else (KINDS[kind].own_key)
    )


def understood(
    kind: str, words: Sequence[str], options: Mapping[str, str], ledger: Ledger, on: str
) -> NewEntry:
    """What the words say. options: by key. on: the day, where they name none.

    WrongWords: an unknown name, or a value that is none. What is missing is noted, not refused.
    """
    entry = NewEntry(kind, {"on": options.get("on", on), kind: ""}, assumed=[], missing=[])
    rest = _where(entry, list(words), ledger)
    fields = further(kind)
    _READERS.get(kind, _plain)(entry, rest, ledger)
    for key, text in options.items():
        if key == "on":
            continue
        if key not in fields:
            hint = did_you_mean(key, fields)
            raise WrongWords(f"{said(kind)} has no key {said(key)}" + (f"; {hint}" if hint else ""))
        entry.add(fields[key], text)
    for key in {"pack", kind} & {"pack", "charge", "capacity"} & entry.entry.keys():
        entry.entry[key] = _packs(entry, entry.entry[key], ledger)
    if kind in _OF_ITEMS and entry.aircraft is None:
        entry.item = next(iter(_tags(entry.entry[kind])), None)
    if kind in ("defect", "inspection") and entry.item and entry.aircraft is None:
        name = "item" if kind == "defect" else "tags"
        entry.entry.setdefault(name, entry.item if kind == "defect" else [entry.item])
    _note_missing(entry, fields)
    return entry


def _note_missing(entry: NewEntry, fields: Fields) -> None:
    if entry.aircraft is None and entry.item is None and entry.kind not in _OF_ITEMS:
        entry.missing.append("aircraft")
    if not entry.entry[entry.kind]:
        entry.missing.append(entry.kind)
    needed = [key for key, field in fields.items() if field.required and key != "on"]
    if entry.kind in ("corrects", "voids"):
        needed = ["because"]
    entry.missing += [key for key in needed if key not in entry.entry]


def _where(entry: NewEntry, words: list[str], ledger: Ledger) -> list[str]:
    """Take the aircraft or the item off the words; the only aircraft needs no naming."""
    first = words[0] if words else ""
    slug = named_aircraft(first, ledger)
    if slug is not None:
        entry.aircraft = slug
        return words[1:]
    if entry.kind in _OF_ITEMS:
        return words
    if entry.kind in _ANYWHERE and first in ledger.items:
        entry.item = first
        return words[1:]
    names = [*ledger.aircraft, *(record.aircraft for record in ledger.aircraft.values())]
    hint = did_you_mean(first, names) if first else None
    if hint is not None or (len(words) > 1 and len(names) > 2):
        raise WrongWords(f"no aircraft is called {said(first)}" + (f"; {hint}" if hint else ""))
    if len(ledger.aircraft) == 1:
        (entry.aircraft,) = ledger.aircraft
    return words


def named_aircraft(word: str, ledger: Ledger) -> str | None:
    """The slug of the aircraft of that slug or name, whatever its capitals."""
    if word in ledger.aircraft:
        return word
    low = word.casefold()
    return next(
        (slug for slug, one in ledger.aircraft.items() if one.aircraft.casefold() == low), None
    )


def _plain(entry: NewEntry, words: list[str], _: Ledger) -> None:
    """The kind key takes all words: one text, or a list of names."""
    field = own_key(entry.kind)
    if not words:
        return
    if isinstance(field.value, Several):
        names = [name for word in words for name in word.split(",") if name]
        listed_up = [_value(field.value.each, name, entry.kind, entry.assumed) for name in names]
        entry.entry[entry.kind] = listed_up[0] if len(listed_up) == 1 else listed_up
    elif isinstance(field.value, ByName | FreeText):
        entry.add(field, ",".join(words))
    else:
        entry.add(field, " ".join(words))


def _looked(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """Checks and tasks, then pass or fail, then readings."""
    names = [word for word in words if word not in _RESULTS and "=" not in word]
    fields = further(entry.kind)
    tags = [name for name in names if name in ledger.items] if "tags" in fields else []
    _plain(entry, [name for name in names if name not in tags], ledger)
    if tags:
        entry.add(fields["tags"], ",".join(tags))
    results = [word for word in words if word in _RESULTS]
    if len(results) > 1:
        raise WrongWords(f"both {listed([said(word) for word in results])}; write two entries")
    if results:
        entry.entry["result"] = results[0]
    readings = [word for word in words if "=" in word]
    if readings:
        if "readings" not in fields:
            raise WrongWords(f"{said(entry.kind)} takes no {said(readings[0])}")
        entry.add(fields["readings"], ",".join(readings))


def _flight(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """A duration; then, in any order, a pack, a charge and a landing."""
    fields = further("flight")
    time: list[str] = []
    for word in words:
        tag = word if word in ledger.items else same_name(word, ledger.items)
        if word in ("normal", "hard", "crash"):
            entry.entry["landing"] = word
        elif tag is not None:
            packs = [*_tags(entry.entry.get("pack", [])), entry.meant(word, tag)]
            entry.entry["pack"] = packs[0] if len(packs) == 1 else packs
        elif word.endswith("Ah"):
            apart = not word[0].isdigit() and bool(time)  # 1480 mAh as two words
            entry.add(fields["used"], f"{time.pop()} {word}" if apart else word)
        elif _BARE(word) and time and ":" in time[-1]:
            entry.add(fields["used"], word)
        else:
            time.append(word)
    _plain(entry, time, ledger)


def _flights(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """A row a word: ``7:20,P-01,1480mAh``."""
    used = further("flight")["used"]
    rows: list[Tree] = []
    for word in words:
        first, *rest = [part.strip() for part in word.strip("[]").split(",")]
        row: list[Tree] = [first]
        for part in rest:
            tag = None if part in ledger.items else same_name(part, ledger.items)
            if part.endswith("Ah") or (_BARE(part) and tag is None):
                row.append(entry.value(used, part))
            else:
                row.append(part if tag is None else entry.meant(part, tag))
        rows.append(row)
    entry.entry["flights"] = rows


def _gains(entry: NewEntry, words: list[str], _: Ledger) -> None:
    """The name of the set, then ``roll.p=38``."""
    names = [word for word in words if "=" not in word]
    if names:
        entry.add(own_key("gains"), " ".join(names))
    values = [word for word in words if "=" in word]
    if values:
        entry.add(further("gains")["values"], ",".join(values))


def _fit(entry: NewEntry, words: list[str], ledger: Ledger) -> None:
    """``front-left.motor=M-01``; the kind may be left out, the item has it."""
    slots: dict[str, dict[str, Tree]] = {}
    for word in words:
        if word[:1] == "{":
            entry.entry["fit"] = as_tree(word)
            return
        place, equals, tag = word.partition("=")
        station, _, kind = place.partition(".")
        if not equals or not tag:
            raise WrongWords(
                f"{said(word)} is not a part in its place; write front-left.motor=M-01"
            )
        item = ledger.items.get(tag)
        if not kind and item is None:
            hint = did_you_mean(tag, ledger.items)
            raise WrongWords(f"unknown tag {said(tag)}" + (f"; {hint}" if hint else ""))
        if not kind and item is not None and item.spec in ledger.specs:
            kind = ledger.specs[item.spec].kind
        here = slots.setdefault(station, {})
        tags = [*_tags(here.get(kind, [])), tag]
        here[kind] = tags[0] if len(tags) == 1 else tags
    entry.entry["fit"] = slots


_READERS: Mapping[str, Callable[[NewEntry, list[str], Ledger], None]] = {
    "flight": _flight,
    "flights": _flights,
    "check": _looked,
    "calibration": _looked,
    "inspection": _looked,
    "gains": _gains,
    "fit": _fit,
}


def _packs(entry: NewEntry, value: Tree, ledger: Ledger) -> Tree:
    """Tags as the records have them: P1 is P-01 where nothing else is."""
    packs = [entry.meant(tag, same_name(tag, ledger.items) or tag) for tag in _tags(value)]
    return packs[0] if len(packs) == 1 else packs if packs else value


def _tags(value: Tree) -> list[str]:
    if isinstance(value, str):
        return [value] if value else []
    return [str(each) for each in value]


def _value(value: Any, text: str, key: str, assumed: list[str]) -> Tree:
    """A text as the kind of value that is wanted there."""
    if text[:1] in ("[", "{") and not isinstance(value, Scalar):
        try:
            return as_tree(text)
        except ValueError as error:
            raise WrongWords(f"{key}: {error}") from None
    if isinstance(value, Scalar):
        return _scalar(value, text, key, assumed)
    if isinstance(value, Several):
        members = [_value(value.each, part, key, assumed) for part in _parts(text)]
        single = len(members) == 1 and value.words.endswith("or a list")
        return members[0] if single else members
    if isinstance(value, Group | ByName | FreeText):
        return _group(value, text, key, assumed)
    if isinstance(value, Slots | FlightRows):
        raise WrongWords(f"{key}: write it in brackets")
    return _parts(text) if "," in text else text


def _parts(text: str) -> list[str]:
    return [part.strip() for part in text.split(",") if part.strip()]


def _group(value: Any, text: str, key: str, assumed: list[str]) -> Tree:
    """``before=16.7V,after=15.1V``; dots lead into groups, and a part without = goes on."""
    pairs: list[list[str]] = []
    for part in text.split(","):
        name, equals, text_there = part.partition("=")
        if equals:
            pairs.append([name.strip(), text_there.strip()])
        elif pairs:
            pairs[-1][1] += f",{part}"
        else:
            raise WrongWords(f"{key}: {said(part)} has no name; write name=value")
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
        found[name] = _value(_member(value, name, key), text_there, name, assumed)
    return found


def _as_group(tree: Tree) -> Mapping[str, Tree]:
    return tree if isinstance(tree, Mapping) else {}


def _member(value: Any, name: str, key: str) -> Any:
    if isinstance(value, Group):
        if name not in value.fields:
            hint = did_you_mean(name, value.fields)
            raise WrongWords(f"{key}: unknown key {said(name)}" + (f"; {hint}" if hint else ""))
        return value.fields[name].value
    return value.each if isinstance(value, ByName) else TEXT


def _scalar(value: Scalar, text: str, key: str, assumed: list[str]) -> str:
    """The text, with the unit that is usual there where it has none; that is told."""
    dimension = _DIMENSIONS.get(value.words)
    if dimension is not None:
        text = _spaced(text.strip())
    try:
        value.parsed(text)
        return text
    except NotationError as error:
        unit = ASSUMED.get(dimension) if dimension is not None else None
        if unit is not None and _BARE(text) and _likely(unit, text):
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
