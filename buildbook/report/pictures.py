"""What an audience sees of a photograph: a neutral address and a size, never its old name."""

from collections.abc import Mapping

import msgspec


class Picture(msgspec.Struct, frozen=True, kw_only=True):
    """A cleaned photograph in one or two sizes; addresses from the top of the site, pixels.

    in_story: a build story shows it; one that only an entry names is for the owner.
    """

    address: str
    width: int
    height: int
    small_address: str
    small_width: int
    in_story: bool = False


Pictures = Mapping[tuple[str, str], Picture]
"""By slug of the aircraft and name of the file."""
