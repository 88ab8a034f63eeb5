"""Entries about entries; what they do to the original is worked out in corrections.py."""

from typing import Annotated, ClassVar, Union

from buildbook.records.declare import PUBLIC, WrittenOnly, key
from buildbook.records.entries.building import (
    Alteration,
    Firmware,
    Fit,
    Gains,
    Remove,
    Setting,
    StateChange,
    Verdict,
)
from buildbook.records.entries.entry import Entry
from buildbook.records.entries.flying import Capacity, Charge, Flight, Opening
from buildbook.records.entries.looking import (
    Check,
    Cleared,
    Defect,
    Incident,
    Inspection,
    Note,
    Overhaul,
    Repair,
    Transport,
    Water,
    Weigh,
)
from buildbook.records.keys.shapes import FREE_TEXT

Plain = Union[  # noqa: UP007 (read by msgspec and mypy alike)
    Fit,
    Remove,
    StateChange,
    Flight,
    Opening,
    Charge,
    Capacity,
    Check,
    Setting,
    Gains,
    Verdict,
    Weigh,
    Incident,
    Repair,
    Overhaul,
    Inspection,
    Defect,
    Cleared,
    Firmware,
    Alteration,
    Transport,
    Water,
    Note,
]

_Why = Annotated[str, key("Why", "misread the charger")]


class Correction(Entry, frozen=True, kw_only=True, tag="corrects"):
    """A later word on an earlier entry, which stays visible.

    corrects: the id as written. original: the uid of the entry at the root of the chain.
    becomes: what that entry says from now on, earlier corrections of it included.
    changed: the keys that were written under ``set``; empty where the whole entry was replaced.
    """

    corrects: Annotated[str, key("Id of the entry", "2026-03-01-2")]
    set: ClassVar[
        Annotated[
            WrittenOnly,
            FREE_TEXT,
            key(
                "Keys with their correct values; left out beside a whole new kind key",
                "{used: 1480 mAh}",
            ),
        ]
    ]
    original: Annotated[str, PUBLIC]
    becomes: Annotated[Plain, PUBLIC]
    changed: Annotated[tuple[str, ...], PUBLIC] = ()
    because: _Why


class Void(Entry, frozen=True, kw_only=True, tag="voids"):
    """An earlier entry is voided; it stays visible. ``original`` is its uid."""

    voids: Annotated[str, key("Id of the entry", "2026-03-01-2")]
    original: Annotated[str, PUBLIC]
    because: _Why


AnyEntry = Union[Plain, Correction, Void]  # noqa: UP007
