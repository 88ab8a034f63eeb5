"""Where an entry stands on the page of its logbook: the anchors that links lead to."""

from __future__ import annotations  # marks are looked at for the public only

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING, Annotated

import msgspec

from buildbook.basis.naming import distinct, file_name
from buildbook.records.declare import PUBLIC

if TYPE_CHECKING:
    from buildbook.records.entries import AnyEntry

_OF_PAGES = re.compile(r"main|m-\d{4}-\d{2}").fullmatch  # anchors of a logbook page itself


class EntryName(msgspec.Struct, frozen=True):
    """An entry, as an audience calls it."""

    uid: Annotated[str, PUBLIC]


def wanted_anchor(uid: str) -> str:
    """The anchor of an entry where no other one of its page wants the same."""
    file, _, name = uid.rpartition("#")
    stem = file.rpartition("/")[2].removesuffix(".yaml")
    plain = stem == "logbook" or name.startswith(stem)
    anchor = file_name(name if plain else f"{stem}-{name}")
    return f"entry-{anchor}" if _OF_PAGES(anchor) else anchor


def anchors_of(entries: Iterable[AnyEntry]) -> dict[str, str]:
    """The anchors of all entries; those of one logbook page are all different."""
    by_page: dict[str | None, dict[str, str]] = {}
    for entry in entries:
        by_page.setdefault(entry.aircraft, {})[entry.uid] = wanted_anchor(entry.uid)
    return {uid: anchor for page in by_page.values() for uid, anchor in distinct(page).items()}
