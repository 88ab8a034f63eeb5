"""What all entries of a logbook share, and which items they name by their tags."""

import datetime
import re
from collections.abc import Iterable
from functools import cache
from typing import Annotated, ClassVar, Literal, NamedTuple

from buildbook.records.declare import PUBLIC, key
from buildbook.records.keys.fields import fields_of
from buildbook.records.keys.quantities import PACK, TAG, Name, Texts
from buildbook.records.keys.shapes import ByName, Several
from buildbook.records.keys.values import MOMENT
from buildbook.records.record import Record

Result = Literal["pass", "fail"]


class Entry(Record, frozen=True, kw_only=True, tag_field="kind"):
    """What all entries share.

    log: ``aircraft/<slug>`` or ``stores/<name>``; files of one log are read as one list.
    index: the position in that list.
    id: as written, or ``<day>-<n>`` (the nth of that day in its file).
    uid: ``<file>#<id>``, unique in the hangar.
    time: the clock time as written, never shown in public.

    Of a kind: in_stores: it means something without an aircraft. of_items: it is about the items
    that it names, and counts for them whatever becomes of the aircraft.
    """

    in_stores: ClassVar[bool] = False
    of_items: ClassVar[bool] = False

    log: str
    aircraft: Annotated[str | None, PUBLIC]
    index: Annotated[int, PUBLIC]
    on: Annotated[
        datetime.date,
        MOMENT,
        key("The day, with a time where it matters", "2026-03-01", shown="public"),
    ]
    time: str | None = None
    by: Annotated[str | None, key("Who did it", "ida", shown="public")] = None
    checked_by: Annotated[str | None, key("A second person", "jon", shown="public")] = None
    note: Annotated[str | None, key("Remarks", "gusty, landed early")] = None
    photos: Annotated[Texts, key("Files of photos/", "[arm.jpg]")] = ()
    sure: Annotated[bool, key("Right as written: silences the doubts about it", "true")] = False
    id: Annotated[
        Name, key("Its name; else the day and a count", "crash-1", shown="public", required=False)
    ]
    entered: Annotated[datetime.date | None, key("Day it was written, if later", "2026-03-09")] = (
        None
    )

    @property
    def uid(self) -> str:
        """Unique in the hangar."""
        return f"{self.file}#{self.id}"


Because = Annotated[str | None, key("Why", "worn bearing")]


class Tagged(NamedTuple):
    """A field that holds tags, by its declared type. of_packs: only packs go there."""

    key: str
    attribute: str
    of_packs: bool

    def tags(self, entry: Entry) -> tuple[str, ...]:
        """Those that stand there."""
        value = getattr(entry, self.attribute)
        return (value,) if isinstance(value, str) else tuple(value or ())


@cache
def tagged(kind: type[Entry]) -> tuple[Tagged, ...]:
    """The fields of a kind of entry that are a tag, a list of tags, or a group by tags."""
    found = []
    for field in fields_of(kind, beyond=Entry).values():
        value = field.value
        if isinstance(value, Several | ByName):
            value = value.each if isinstance(value, Several) else value.names
        if value in (TAG, PACK) and field.attribute in kind.__struct_fields__:
            found.append(Tagged(field.key, field.attribute, value is PACK))
    return tuple(found)


_WORDS = re.compile(r"\w+(?:-\w+)*")


def tags_named(words: str, tags: Iterable[str]) -> tuple[str, ...]:
    """The tags that stand in the words as a word of their own, in whatever case.

    Only tags with a letter and a digit: ``A`` and ``2`` are words of other meaning.
    """
    said = {word.casefold() for word in _WORDS.findall(words)}
    return tuple(tag for tag in tags if tag.casefold() in said and _is_no_word(tag))


def _is_no_word(tag: str) -> bool:
    return any(map(str.isdigit, tag)) and any(map(str.isalpha, tag))
