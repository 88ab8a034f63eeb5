"""What a kind of entry is, and the keys that all entries have."""

from collections.abc import Callable
from typing import Any

import msgspec

from buildbook.records.fields import PUBLIC_OK, Field, Fields, key, table
from buildbook.records.shapes import Several
from buildbook.records.values import DAY, MOMENT, NAME, TEXT, choice

Read = dict[str, Any]


class EntryKind(msgspec.Struct, frozen=True, kw_only=True):
    """One kind of entry.

    make: its type. heart: the kind key itself. fields: the further keys.
    build: turns what was read into the arguments of the type, where they differ.
    """

    key: str
    make: Callable[..., Any]
    heart: Field
    fields: Fields
    doc: str
    build: Callable[[Read], Read] | None = None


def entry_kind(
    make: Callable[..., Any],
    heart: Field,
    doc: str,
    *fields: Field,
    build: Callable[[Read], Read] | None = None,
) -> EntryKind:
    """A kind; its key is that of its heart."""
    return EntryKind(
        key=heart.key, make=make, heart=heart, fields=table(*fields), doc=doc, build=build
    )


COMMON: Fields = table(
    key(
        "on", MOMENT, "The day, with a time where it matters", "2026-03-01", "moment", required=True
    ),
    key("by", TEXT, "Who did it", "ida"),
    key("checked_by", TEXT, "A second person", "jon"),
    key("note", TEXT, "Remarks", "gusty, landed early"),
    key("photos", Several(TEXT, single=True), "Files of photos/", "[arm.jpg]"),
    key("id", NAME, "Its name; else the day and a count", "crash-1"),
    key("entered", DAY, "Day it was written, where that was later", "2026-03-09"),
    PUBLIC_OK,
)

ITEM_STATE = choice("serviceable", "quarantined", "retired", "scrapped")
RESULT = choice("pass", "fail")
LOOKED = choice("pass", "fail", "not applicable")
BECAUSE = key("because", TEXT, "Why", "worn bearing")
