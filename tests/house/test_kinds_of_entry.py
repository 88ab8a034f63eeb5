"""A kind of entry has all that pages ask of it, so that a new one says what it lacks."""

from typing import get_args

import msgspec
import pytest

from buildbook.audience.projection import BLANK, ENTRY_NAMES
from buildbook.records.declare import shown
from buildbook.records.entries.amending import Plain
from buildbook.records.entries.entry import Entry
from buildbook.words.logbook.entries import LINES

KINDS = get_args(Plain)


@pytest.mark.parametrize("kind", KINDS)
def test_the_logbook_has_a_line_for_it(kind: type[Entry]) -> None:
    """Its ``words``, or a line of its own in words/logbook/entries.py."""
    assert "words" in kind.__struct_fields__ or kind in LINES


@pytest.mark.parametrize("kind", KINDS)
def test_the_public_may_lack_what_is_private(kind: type[Entry]) -> None:
    """A private field has a default, or stands in BLANK of audience/projection.py."""
    marks = shown(kind)
    needed = {one.name for one in msgspec.structs.fields(kind) if one.required}
    private = {name for name in needed if marks.get(name, "private") == "private"}

    assert set() == private - set(BLANK) - ENTRY_NAMES


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind.of_items])
def test_what_is_about_items_stands_in_stores_too(kind: type[Entry]) -> None:
    """An item on the shelf has no aircraft."""
    assert kind.in_stores
