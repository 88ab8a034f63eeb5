"""All kinds of entry, in the order of the manual."""

from collections.abc import Callable, Mapping
from functools import cache, cached_property
from typing import Any, get_args

import msgspec

from buildbook.records.entries.amending import Plain
from buildbook.records.entries.building import Alteration, alterable
from buildbook.records.entries.entry import Entry
from buildbook.records.entries.flying import (
    Capacity,
    Charge,
    Flight,
    day_of_flights,
    one_flight,
)
from buildbook.records.entries.looking import (
    Check,
    Cleared,
    Inspection,
    Note,
    assumed,
    taught,
    to_be_joined,
)
from buildbook.records.keys.fields import Field, Fields, Owners, fields_of, key_owners

Read = dict[str, Any]


class EntryKind:
    """One kind of entry.

    key: its kind key. make: its type. doc: one line about it, that of its type unless given.
    build: turns what was read into the arguments of the type, where they differ.
    """

    def __init__(
        self,
        key: str,
        make: type[Entry],
        doc: str = "",
        build: Callable[[Read], Read] | None = None,
    ) -> None:
        self.key = key
        self.make = make
        self.doc = doc or (make.__doc__ or "").partition(".")[0]
        self.build = build

    @cached_property
    def _own(self) -> Fields:
        return fields_of(self.make, self.key, beyond=Entry)

    @property
    def own_key(self) -> Field:
        """The kind key itself."""
        return self._own[self.key]

    @cached_property
    def fields(self) -> Fields:
        """The further keys."""
        return {key: field for key, field in self._own.items() if key != self.key}

    @cached_property
    def required(self) -> tuple[Field, ...]:
        """The further keys that have to be there."""
        return tuple(field for field in self.fields.values() if field.required)

    @cached_property
    def all(self) -> Fields:
        """All keys that such an entry may have, its kind key among them."""
        return {**common(), self.key: self.own_key, **self.fields}


def common() -> Fields:
    """The keys that all entries have."""
    return fields_of(Entry)


def _altered(read: Read) -> Read:
    read["keys"] = tuple(key for key, field in alterable().items() if field.attribute in read)
    return read


_READ_OTHERWISE: Mapping[type[Entry], tuple[EntryKind, ...]] = {
    Flight: (
        EntryKind("flight", Flight, "One flight", one_flight),
        EntryKind(
            "flights",
            Flight,
            "Several flights of one day; further keys apply to all rows",
            day_of_flights,
        ),
    ),
    Check: (
        EntryKind("check", Check),
        EntryKind(
            "calibration",
            Check,
            "Something was calibrated; records the check of that name as passed",
            taught,
        ),
    ),
    Inspection: (EntryKind("inspection", Inspection, build=assumed),),
    Cleared: (EntryKind("cleared", Cleared, build=to_be_joined),),
    Alteration: (EntryKind("alteration", Alteration, build=_altered),),
}
"""Types with more than one kind key, or whose fields are made from what was read."""


def _kinds_of(make: type[Entry]) -> tuple[EntryKind, ...]:
    return _READ_OTHERWISE.get(make) or (EntryKind(str(make.__struct_config__.tag), make),)


KINDS: Mapping[str, EntryKind] = {
    kind.key: kind for make in get_args(Plain) for kind in _kinds_of(make)
}
"""By kind key. Each type of ``Plain`` is one, under its tag, unless it says otherwise above."""

AMENDING = ("corrects", "voids")


@cache
def owners() -> Owners:
    """Which kinds have a key."""
    return key_owners({kind.key: kind.fields for kind in KINDS.values()})


def items_told_of(entry: Plain) -> tuple[str, ...]:
    """The items that a charge, a measurement, a look or a note is about."""
    match entry:
        case Charge():
            return entry.packs
        case Capacity():
            return (entry.pack,)
        case Inspection():
            return entry.tags
        case Note():
            return (entry.item,) if entry.item else ()
        case _:
            return ()


_WHERE = ("file", "line", "lines", "index", "id", "log")
_REMARKS = ("note", "photos", "by", "checked_by", "entered", "public", "sure")


def said_of(entry: Entry) -> bytes:
    """What an entry says, remarks and its place apart: two that say the same have the same."""
    whole = msgspec.to_builtins(entry)
    said = {key: whole[key] for key in whole if key not in (*_WHERE, *_REMARKS)}
    return msgspec.json.encode(said, order="deterministic")
