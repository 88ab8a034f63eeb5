"""The JSON Schema of the files, made from the declarations of their keys."""

from collections.abc import Sequence
from fnmatch import fnmatchcase
from pathlib import PurePosixPath
from typing import Any

from buildbook.records.aircraft import Aircraft
from buildbook.records.entries import Correction, Entry, Void
from buildbook.records.entries.kinds import KINDS, common
from buildbook.records.keeper import Keeper
from buildbook.records.keys.fields import Fields, fields_of, object_schema
from buildbook.records.notices import Notice
from buildbook.records.parts import KINDS as PART_KINDS
from buildbook.records.parts import Item, Spec, spec_kinds
from buildbook.records.programmes import CheckRule, LimitRule, Programme, TaskRule

Schema = dict[str, Any]

# Which files have which shape; a star stands for any name, two for any folders or none.
FILES: dict[str, str] = {
    "hangar.yaml": "hangar",
    "aircraft/*/aircraft.yaml": "aircraft",
    "aircraft/*/logbook.yaml": "log",
    "aircraft/*/logbook/**/*.yaml": "log",
    "stores/**/*.yaml": "log",
    "parts/specs.yaml": "specs",
    "parts/specs/**/*.yaml": "specs",
    "parts/items.yaml": "items",
    "parts/items/**/*.yaml": "items",
    "programmes/**/*.yaml": "programme",
    "notices/**/*.yaml": "notices",
}


def schema() -> Schema:
    """A schema with one definition for each shape of file, under ``$defs`` by its name in FILES."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Files of a hangar",
        "$comment": "; ".join(f"{path}: #/$defs/{name}" for path, name in FILES.items()),
        "$defs": {
            "hangar": object_schema(fields_of(Keeper)),
            "specs": _list_of([_spec(kind) for kind in PART_KINDS]),
            "items": _list_of([_item()]),
            "aircraft": _aircraft(),
            "log": _list_of([*(_entry(kind) for kind in KINDS), *_amending()]),
            "programme": _programme(),
            "notices": _list_of([object_schema(fields_of(Notice))]),
        },
    }


def shape_of(path: str) -> str:
    """The shape of a file of a hangar, by its path in it. KeyError: no file of records."""
    for pattern, shape in FILES.items():
        if _matches(PurePosixPath(path).parts, pattern.split("/")):
            return shape
    raise KeyError(path)


def _matches(parts: Sequence[str], pattern: Sequence[str]) -> bool:
    """Whether a path is of a pattern: a star is any name, two stars any folders or none."""
    if not pattern:
        return not parts
    if pattern[0] == "**":
        return any(_matches(parts[skip:], pattern[1:]) for skip in range(len(parts) + 1))
    return bool(parts) and fnmatchcase(parts[0], pattern[0]) and _matches(parts[1:], pattern[1:])


def schema_of(shape: str) -> Schema:
    """The schema of one shape of file, complete in itself. KeyError: no such shape."""
    whole = schema()
    return {"$schema": whole["$schema"], "title": f"{shape} of a hangar", **whole["$defs"][shape]}


def _list_of(shapes: list[Schema]) -> Schema:
    """A list of such records; an empty file is null."""
    return {
        "type": ["array", "null"],
        "items": shapes[0] if len(shapes) == 1 else {"anyOf": shapes},
    }


def _spec(kind: str) -> Schema:
    made = object_schema({**fields_of(Spec), **spec_kinds()[kind]})
    made["properties"]["kind"] = {"const": kind}
    return made


def _item() -> Schema:
    made = object_schema(fields_of(Item))
    made["oneOf"] = [{"required": ["tag"]}, {"required": ["tags"]}]
    return made


def _aircraft() -> Schema:
    made = object_schema(fields_of(Aircraft))
    made["properties"]["items"] = _list_of([_item()])
    return made


def _entry(kind: str) -> Schema:
    made = object_schema(KINDS[kind].all)
    made["required"] = list(dict.fromkeys(["on", kind, *made.get("required", ())]))
    return made


def _amending() -> list[Schema]:
    """Corrections of parts, corrections by a whole new entry, and voids."""
    by_set: Fields = {**common(), **fields_of(Correction, beyond=Entry)}
    parts, void = (
        object_schema(by_set),
        object_schema({**common(), **fields_of(Void, beyond=Entry)}),
    )
    parts["required"] = ["on", "corrects", "set", "because"]
    anew = []
    for kind, each in KINDS.items():
        if kind != "note":
            whole = object_schema({**each.all, **by_set})
            del whole["properties"]["set"]
            whole["required"] = list(
                dict.fromkeys(["on", "corrects", "because", kind, *whole.get("required", ())])
            )
            anew.append(whole)
    return [parts, *anew, void]


def _programme() -> Schema:
    made = object_schema(fields_of(Programme))
    for name, kind in (("checks", CheckRule), ("tasks", TaskRule), ("life_limits", LimitRule)):
        fields = fields_of(kind)
        row = object_schema(fields)
        # A row that changes one of its base names only what it changes.
        row["required"] = [next(iter(fields))]
        made["properties"][name] = _list_of([row])
    return made
