"""What was open while an aircraft was flown, and what was remarked that no rule reads."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from collections.abc import Sequence
from typing import Annotated, Literal

import msgspec

from buildbook.basis.place import Place
from buildbook.records.declare import PRIVATE, Public

Open = Literal[
    "check", "look", "missing part", "status", "defect", "pack", "limit", "check flight", "reserve"
]


class Meanwhile(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that was open during a flight.

    A reserve is that of a pack, which the flight itself went into.
    name: of the check, look or limit; the status; the tag of a pack. of: a station or a tag.
    """

    kind: Public[Open]
    name: Public[str] = ""
    of: Public[str | None] = None

    @property
    def named(self) -> tuple[str, str, str | None]:
        """What it is; of a limit also whose."""
        return (self.kind, self.name, self.of if self.kind == "limit" else None)


class MarkedFlight(msgspec.Struct, frozen=True, kw_only=True):
    """An entry of flights with what was open during them, the worst first."""

    uid: Public[str]
    meanwhile: Public[tuple[Meanwhile, ...]]

    def is_like(self, other: MarkedFlight) -> bool:
        """Whether the same was open, of whichever stations and items."""
        return {one.named for one in self.meanwhile} == {one.named for one in other.meanwhile}


class Silence(msgspec.Struct, frozen=True):
    """Nothing was written after that day, so many days ago. The public is not told."""

    since: Annotated[datetime.date, PRIVATE]
    days: Annotated[int, PRIVATE]


class Remarked(msgspec.Struct, frozen=True, kw_only=True):
    """A remark, how it flew, or what a passed look found.

    tags: of the items it is about. kind: the key of the kind of entry that it stands in. kept:
    nobody looked at it since, so it stays in sight.

    It may name anybody and anything: the public sees none of it.
    """

    aircraft: Annotated[str | None, PRIVATE]
    tags: Annotated[tuple[str, ...], PRIVATE] = ()
    on: Annotated[datetime.date, PRIVATE]
    kind: Annotated[str, PRIVATE]
    entry: Annotated[str, PRIVATE]
    words: Annotated[str, PRIVATE]
    place: Annotated[Place, PRIVATE]
    kept: Annotated[bool, PRIVATE] = False


class RecordDoubt(msgspec.Struct, frozen=True, kw_only=True):
    """What ``check`` doubts of the records, for the page of what it is about; the owner's alone."""

    reason: Annotated[str, PRIVATE]
    hint: Annotated[str | None, PRIVATE]
    place: Annotated[Place, PRIVATE]


def told_first(found: Sequence[Remarked], most: int) -> tuple[tuple[Remarked, ...], int]:
    """The first few with all that are kept, and how many others are left out."""
    shown = tuple(one for at, one in enumerate(found) if at < most or one.kept)
    return shown, len(found) - len(shown)
