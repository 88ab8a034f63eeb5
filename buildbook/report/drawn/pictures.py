"""What an audience sees of a photograph: a neutral address and a size, never its old name."""

from __future__ import annotations  # marks are looked at for the public only

from collections.abc import Mapping
from typing import Annotated

import msgspec

from buildbook.records.declare import PUBLIC


class Picture(msgspec.Struct, frozen=True, kw_only=True):
    """A cleaned photograph in one or two sizes; addresses from the top of the site, pixels.

    in_story: a story shows it, or it is a portrait; one that only an entry names is for the owner.
    drawn: lines on plain light paper.
    """

    address: Annotated[str, PUBLIC]
    width: Annotated[int, PUBLIC]
    height: Annotated[int, PUBLIC]
    small_address: Annotated[str, PUBLIC]
    small_width: Annotated[int, PUBLIC]
    in_story: Annotated[bool, PUBLIC] = False
    drawn: Annotated[bool, PUBLIC] = False


Pictures = Mapping[tuple[str, str], Picture]
"""By slug of the aircraft and name of the file."""
