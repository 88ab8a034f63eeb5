"""How much room a word takes: a width for each character, and the boxes of words.

The widths are those of a wide sans-serif (DejaVu Sans, read from the font, rounded up), so that
a label which fits by this model fits in the reader's own font too.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from typing import Literal

import msgspec

_EM_BY_CHARACTERS = (
    (0.30, "ijlIJ'"),
    (0.42, " ,-.:;/t()rf!|"),
    (0.56, 'csvxyzk"?_'),
    (0.65, "abdeghnopquFELT0123456789·–²°"),
    (0.84, "ABCDGHKNOPQRSUVXYZw+=<>±×#&Ω→"),
    (1.00, "mMW%"),
)
_EM = {character: em for em, characters in _EM_BY_CHARACTERS for character in characters}
_BOLD = 1.17

WIDTH = 340.0
"""Of a drawing, so that it fits a phone."""
NAME, FACT = 13.0, 11.5
"""Sizes of letters on it: of names, and of what is said beside them."""

Anchor = Literal["start", "middle", "end"]
Role = Literal["name", "fact", "mark"]


def text_width(text: str, size: float, bold: bool = False) -> float:
    """Width of `text` at `size`, in the unit of `size`; unknown characters count as wide."""
    ems = sum(_EM.get(character, 1.0) for character in text)
    return ems * size * (_BOLD if bold else 1.0)


def shorten(text: str, size: float, room: float, bold: bool = False) -> str:
    """`text`, or as much of it as fits in `room` with an ellipsis."""
    if text_width(text, size, bold) <= room:
        return text
    while text and text_width(text + "…", size, bold) > room:
        text = text[:-1]
    return text.rstrip(" -·,") + "…"


class Box(msgspec.Struct, frozen=True):
    """A rectangle by its edges, y downwards."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def within(self, other: Box) -> bool:
        """Whether this box lies inside the other, edges included."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )


class Line(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """One line of text on a drawing: place of its baseline, size, and role.

    Roles: `name` (the main label), `fact` (secondary), `mark` (on a problem mark).
    """

    text: str
    x: float
    y: float
    size: float
    role: Role = "fact"
    anchor: Anchor = "middle"

    @cached_property
    def box(self) -> Box:
        """The room that the line takes, by the width model."""
        width = text_width(self.text, self.size, self.role == "name")
        shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        left = self.x - shift * width
        return Box(left, self.y - 0.8 * self.size, left + width, self.y + 0.25 * self.size)


def clear(lines: Iterable[Line], taken: Iterable[Box], bounds: Box) -> bool:
    """Whether all lines lie within the bounds and meet none of the boxes taken."""
    rooms = [line.box for line in lines]
    if not all(room.within(bounds) for room in rooms):
        return False
    return not any(room.meets(box) for box in taken for room in rooms)
