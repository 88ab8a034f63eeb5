"""The plate on which a top view stands: its scale, its edges, and the way from metres to units."""

from __future__ import annotations

import msgspec

from buildbook.drawings.lettering import Box
from buildbook.words.measures.lengths import length_words, round_length


class Extent(msgspec.Struct, frozen=True, kw_only=True):
    """What must be on the plate, in metres (or arms): ends on the forward axis, and sides."""

    front: float
    rear: float
    left: float
    right: float

    @property
    def across(self) -> float:
        """Width, never nothing."""
        return max(self.right - self.left, 1e-3)

    @property
    def along(self) -> float:
        """Length, never nothing."""
        return max(self.front - self.rear, 1e-3)


class Plate(msgspec.Struct, frozen=True, kw_only=True):
    """A scaled area: `scale` units a metre, `x0`, `y0` where the reference point stands."""

    scale: float
    x0: float
    y0: float
    area: Box

    def x(self, right_m: float) -> float:
        """Across the plate."""
        return self.x0 + right_m * self.scale

    def y(self, forward_m: float) -> float:
        """Down the plate: forward is up."""
        return self.y0 - forward_m * self.scale


def fit_plate(
    extent: Extent,
    *,
    width: float,
    tallest: float,
    top: float,
    side: float,
    ends: float = 0.0,
) -> Plate:
    """The largest plate that holds the extent.

    width: of the whole drawing; side: margin at left and right; top: where the area begins; ends:
    room to keep free before the front and behind the rear; tallest: height of the extent at most.
    All in units of the drawing.
    """
    scale = min((width - 2 * side) / extent.across, tallest / extent.along)
    middle = (extent.left + extent.right) / 2
    area = Box(4.0, top, width - 4.0, top + 2 * ends + extent.along * scale)
    return Plate(
        scale=scale,
        x0=width / 2 - middle * scale,
        y0=top + ends + extent.front * scale,
        area=area,
    )


class ScaleBar(msgspec.Struct, frozen=True):
    """A round length and how long it is on the plate, with its words."""

    units: float
    words: str


def scale_bar(scale: float, longest: float) -> ScaleBar:
    """The longest round bar of at most `longest` units at `scale` units a metre."""
    metres = round_length(longest / scale)
    return ScaleBar(metres * scale, length_words(metres))
