"""How a portrait looks at an aircraft: from ahead and above, without perspective."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import msgspec

from buildbook.drawings.environment import pair, short

Point = tuple[float, float]


class View(msgspec.Struct, frozen=True, kw_only=True):
    """Plate units and heights to units of the picture.

    turn_deg: how far the plate is turned on the ground, clockwise; dip_deg: how far down one looks.
    `x0`, `y0` is the reference point on the plate, which comes to lie at `x`, `y`.
    """

    turn_deg: float
    dip_deg: float
    x0: float
    y0: float
    zoom: float = 1.0
    x: float = 0.0
    y: float = 0.0

    @property
    def _ground(self) -> tuple[float, float, float, float]:
        turn, squash = math.radians(self.turn_deg), math.sin(math.radians(self.dip_deg))
        cos, sin = self.zoom * math.cos(turn), self.zoom * math.sin(turn)
        return cos, sin * squash, -sin, cos * squash

    @property
    def lift(self) -> float:
        """How far up on the picture a unit of height is."""
        return self.zoom * math.cos(math.radians(self.dip_deg))

    @property
    def squash(self) -> float:
        """How deep a level circle is to its breadth."""
        return math.sin(math.radians(self.dip_deg))

    def at(self, x: float, y: float, up: float = 0.0) -> Point:
        """A place on the plate, so high above it."""
        a, b, c, d = self._ground
        right, aft = x - self.x0, y - self.y0
        return self.x + a * right + c * aft, self.y + b * right + d * aft - self.lift * up

    def level(self, up: float) -> str:
        """The matrix for what lies level at a height, drawn in plate units."""
        a, b, c, d = self._ground
        return _matrix((a, b, c, d), self.at(0.0, 0.0, up))

    def across(self, x: float, y: float, up: float) -> str:
        """The matrix for what stands across the aircraft: right and down from a place."""
        a, b, _, _ = self._ground
        return _matrix((a, b, 0.0, self.lift), self.at(x, y, up))

    def fitted(self, seen: Iterable[Point], width: float, tallest: float) -> View:
        """The same view so that all that is seen fills the width, or the height that there is."""
        xs, ys = zip(*seen, strict=True)
        wide, high = max(xs) - min(xs), max(ys) - min(ys)
        zoom = min(width / max(wide, 1e-6), tallest / max(high, 1e-6))
        return msgspec.structs.replace(
            self, zoom=zoom, x=-zoom * (min(xs) + max(xs)) / 2.0, y=-zoom * min(ys)
        )

    def moved(self, x: float, y: float) -> View:
        """The same view further along the picture."""
        return msgspec.structs.replace(self, x=self.x + x, y=self.y + y)


def _matrix(ground: Sequence[float], origin: Point) -> str:
    numbers = (*(f"{number:.4f}" for number in ground), *(short(number) for number in origin))
    return f"matrix({' '.join(numbers)})"


def polygon(points: Iterable[Point]) -> str:
    """A closed line."""
    return "M" + "L".join(map(pair, points)) + "Z"


def silhouette(points: Iterable[Point]) -> str:
    """The outline of a solid without hollows: the convex hull of its corners (monotone chain)."""
    left_to_right = sorted(set(points))
    return polygon((*_side(left_to_right), *_side(left_to_right[::-1])))


def _side(points: Sequence[Point]) -> list[Point]:
    chain: list[Point] = []
    for x, y in points:
        while len(chain) > 1 and not _turns(chain[-2], chain[-1], (x, y)):
            chain.pop()
        chain.append((x, y))
    return chain[:-1]


def _turns(a: Point, b: Point, c: Point) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 0


def standing(view: View, place: Point, radius: float, low: float, high: float) -> tuple[str, str]:
    """A cylinder that stands upright: its outline below the upper face, and that."""
    r, rs = view.zoom * radius, view.zoom * radius * view.squash
    (x, bottom), (_, top) = view.at(*place, low), view.at(*place, high)
    half, arc = short(2 * r), f"a{short(r)} {short(rs)} 0 0"
    outline = f"M{short(x - r)} {short(top)}V{short(bottom)}{arc} 0 {half} 0V{short(top)}Z"
    face = f"M{short(x - r)} {short(top)}{arc} 0 {half} 0{arc} 0-{half} 0Z"
    return outline, face
