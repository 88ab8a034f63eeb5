"""Where a value was written."""

import msgspec


class Place(msgspec.Struct, frozen=True, order=True):
    """A line of a file; ``file`` is relative to the hangar, ``line`` counts from 1."""

    file: str
    line: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}"


NOWHERE = Place("", 0)
"""Stands where a place would be that an audience is not told."""
