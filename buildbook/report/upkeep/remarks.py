"""What was remarked of late, in words that no rule reads, and that nothing was written for long."""

from __future__ import annotations  # marks are looked at for the public only

import datetime
from typing import Annotated

import msgspec

from buildbook.basis.place import Place
from buildbook.records.declare import PRIVATE


class Silence(msgspec.Struct, frozen=True):
    """Nothing was written after that day, so many days ago. The public is not told."""

    since: Annotated[datetime.date, PRIVATE]
    days: Annotated[int, PRIVATE]


class Remarked(msgspec.Struct, frozen=True, kw_only=True):
    """A remark, how it flew, or what a passed look found.

    tags: of the items it is about. kind: the key of the kind of entry that it stands in.

    It may name anybody and anything: the public sees none of it.
    """

    aircraft: Annotated[str | None, PRIVATE]
    tags: Annotated[tuple[str, ...], PRIVATE] = ()
    on: Annotated[datetime.date, PRIVATE]
    kind: Annotated[str, PRIVATE]
    entry: Annotated[str, PRIVATE]
    words: Annotated[str, PRIVATE]
    place: Annotated[Place, PRIVATE]
