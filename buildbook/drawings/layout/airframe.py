"""The airframe of a portrait: arms and hub of a multirotor, wing, surfaces and body of a plane."""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec

from buildbook.drawings.environment import pair
from buildbook.drawings.layout.layout_labels import Site
from buildbook.drawings.layout.view import View, polygon, silhouette
from buildbook.drawings.layout.wing_shape import Outline, WingShape, panels_of, shape_of
from buildbook.drawings.plate import Plate
from buildbook.report.drawn.plans import LayoutPlan

_HUB_OF_ARM = 0.28
_TUBE_OF_ARM = 0.052
_CLEAR = 0.94  # of the room between the middle and the nearest disc
_CANOPY = ((0, 0.9), (0.3, 1), (0.6, 0.7), (0.74, 0), (0.6, -0.7), (0.3, -1), (0, -0.9))
"""A sketch, from the leading edge (0) to the nose (1), and across."""

_Points = Sequence[tuple[float, float]]


class Frame(msgspec.Struct, frozen=True, kw_only=True):
    """Arms and hub of a multirotor on the picture: paths, empty where there is no such thing."""

    arms: str = ""
    tube: float = 0.0  # width of an arm
    lower: str = ""
    upper: str = ""
    upper_edge: str = ""
    pack: Solid | None = None
    pack_below: bool = False
    board: Solid | None = None
    arrow: str = ""  # on top of it, forward


class Solid(msgspec.Struct, frozen=True, kw_only=True):
    """A box: its outline, its upper face, and lines on it."""

    outline: str
    face: str
    lines: str = ""


class Glider(msgspec.Struct, frozen=True, kw_only=True):
    """An aeroplane: what lies level under its matrix, body and fin on the picture itself."""

    body: str
    fin: str
    wing: str
    surfaces: str
    canopy: str
    tail: str
    elevator: str
    below: str  # of the shadow, besides the wing
    at_wing: tuple[str, str]  # matrices of its lower and its upper side
    at_tail: str
    tail_on_top: bool


def hub_half(sites: Sequence[Site], middle: tuple[float, float]) -> float:
    """Half of the breadth of the hub in units, 0 where there is no room for one. A sketch."""
    reaches = [math.dist((site.x, site.y), middle) for site in sites]
    if not reaches or min(reaches) < 6.0:
        return 0.0
    arm = min(reaches)
    rooms = [reach - site.radius for reach, site in zip(reaches, sites, strict=True)]
    return max(min(_HUB_OF_ARM * arm, _CLEAR * min(rooms)), 0.1 * arm)


def tube_of(sites: Sequence[Site], middle: tuple[float, float]) -> float:
    """Width of an arm in units; a sketch."""
    reaches = [math.dist((site.x, site.y), middle) for site in sites]
    return min(max(_TUBE_OF_ARM * min(reaches), 3.0), 7.0) if reaches else 0.0


def frame(plan: LayoutPlan, view: View, sites: Sequence[Site]) -> Frame:
    """What carries the rotors: where the arms end and where the pack is is known, no more."""
    middle = (view.x0, view.y0)
    h, tube = hub_half(sites, middle), tube_of(sites, middle)
    if not h:
        return Frame()
    octagon = _octagon(*middle, 0.86 * h, 1.12 * h, 0.42 * h)
    thick = 0.5 * tube + 1.0
    below = plan.pack_down_m is not None and plan.pack_down_m > 0
    high = 0.5 * h
    stand = (-thick - 2.0 - high, -thick - 2.0) if below else (thick + 2.0, thick + 2.0 + high)
    pack = _octagon(*middle, 0.42 * h, 1.05 * h, 0.1 * h)
    board = _octagon(*middle, 0.4 * h, 0.4 * h, 0.06 * h)
    top = thick + 2.0 + 0.22 * h
    return Frame(
        arms="".join(f"M{pair(view.at(*middle))}L{pair(view.at(one.x, one.y))}" for one in sites),
        tube=tube * view.zoom,
        lower=_plate_at(view, octagon, -thick - 1.5, -thick),
        upper=_plate_at(view, octagon, thick, thick + 1.5),
        upper_edge=polygon(view.at(x, y, thick + 1.5) for x, y in octagon),
        pack=_box(view, pack, *stand, straps=0.42 * h),
        pack_below=below,
        board=_box(view, board, thick + 3.5, top) if below else None,
        arrow=polygon(
            view.at(middle[0] + x * h, middle[1] + y * h, top)
            for x, y in ((0, -0.3), (0.16, 0.1), (0, 0), (-0.16, 0.1))
        )
        if below
        else "",
    )


def _plate_at(view: View, corners: _Points, low: float, high: float) -> str:
    return silhouette(view.at(x, y, up) for x, y in corners for up in (low, high))


def _box(view: View, corners: _Points, low: float, high: float, straps: float = 0.0) -> Solid:
    """straps: how far before and behind the middle each runs over it, 0 for none."""
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    lines = ""
    for along in (-straps, straps) if straps else ():
        y = view.y0 + along
        over = (
            view.at(left, y, low),
            view.at(left, y, high),
            view.at(right, y, high),
            view.at(right, y, low),
        )
        lines += "M" + "L".join(
            map(pair, over[:3] if view.at(left, y)[1] > view.at(right, y)[1] else over[1:])
        )
    return Solid(
        outline=_plate_at(view, corners, low, high),
        face=polygon(view.at(x, y, high) for x, y in corners),
        lines=lines,
    )


def _octagon(x: float, y: float, wide: float, long: float, cut: float) -> _Points:
    return (
        (x - wide + cut, y - long),
        (x + wide - cut, y - long),
        (x + wide, y - long + cut),
        (x + wide, y + long - cut),
        (x + wide - cut, y + long),
        (x - wide + cut, y + long),
        (x - wide, y + long - cut),
        (x - wide, y - long + cut),
    )


def glider(plan: LayoutPlan, view: View, plate: Plate) -> Glider | None:
    """Wing and surfaces to scale; body, fin and outline of the tail are a sketch."""
    wing, shape = plan.wing, shape_of(plan)
    if wing is None or shape is None:
        return None
    nose, leading = shape.body[0][0], shape.wing[1][0]
    wide = max(right for _, right in shape.body)
    canopy = tuple(
        (leading + share * (nose - leading), 0.72 * wide * side) for share, side in _CANOPY
    )
    panels = {
        at_tail: "".join(
            polygon(_placed(corners, plate))
            for surface in wing.surfaces
            if surface.name.startswith("elevator") == at_tail
            for corners in panels_of(surface, wing, shape)
        )
        for at_tail in (False, True)
    }
    tip = (shape.wing[0][0] - shape.wing[5][0]) * plate.scale
    outline = _rounded(_placed(shape.wing, plate), max(0.42 * tip, 2.0))
    tail = _rounded(_placed(shape.tail, plate), 5.0)
    wing_up = (0.7 * wide if wing.up_m is None else wing.up_m) * plate.scale
    tail_up = (0.3 * wide if wing.tail_up_m is None else wing.tail_up_m) * plate.scale
    return Glider(
        body=_tube(view, shape, plate),
        fin=_fin(view, shape, plate, max(tail_up, 0.16 * wing.span_m / 2.0 * plate.scale)),
        wing=outline,
        surfaces=panels[False],
        elevator=panels[True],
        canopy=_smooth(
            [view.at(x, y, 0.6 * wide * plate.scale) for x, y in _placed(canopy, plate)]
        ),
        tail=tail,
        below=tail + _smooth(_placed(shape.body, plate)),
        at_wing=(view.level(wing_up - 2.5), view.level(wing_up)),
        at_tail=view.level(tail_up),
        tail_on_top=wing.tail_up_m is not None and wing.tail_up_m > 2.0 * wide,
    )


def _tube(view: View, shape: WingShape, plate: Plate) -> str:
    """The body as a round one: its edge is as far from its axis on the picture as it is thick."""
    half = shape.body[: len(shape.body) // 2]
    ends = [view.at(plate.x(0), plate.y(forward)) for forward in (half[0][0], half[-1][0])]
    long = math.dist(*ends) or 1.0
    off = (ends[1][1] - ends[0][1]) / long, (ends[0][0] - ends[1][0]) / long
    sides: dict[int, list[tuple[float, float]]] = {}
    for side in (1, -1):
        for forward, right in half:
            x, y = view.at(plate.x(0), plate.y(forward))
            by = side * right * plate.scale * view.zoom
            sides.setdefault(side, []).append((x + by * off[0], y + by * off[1]))
    return _smooth((*sides[1], *reversed(sides[-1])))


def _fin(view: View, shape: WingShape, plate: Plate, high: float) -> str:
    """Upright at the end of the body, raked back in front."""
    front, rear = shape.tail[1][0], shape.tail[4][0]
    deep = front - rear
    corners = (
        (front + 0.1 * deep, 0.0),
        (front - 0.3 * deep, high),
        (rear - 0.1 * deep, high),
        (rear - 0.3 * deep, 0.0),
    )
    return _rounded([view.at(plate.x(0), plate.y(forward), up) for forward, up in corners], 3.0)


def _placed(outline: Outline, plate: Plate) -> tuple[tuple[float, float], ...]:
    return tuple((plate.x(right), plate.y(forward)) for forward, right in outline)


def _rounded(points: _Points, by: float) -> str:
    """A closed line with each corner rounded by so much, or by less than half of a short side."""
    pieces = []
    for number, corner in enumerate(points):
        before, after = points[number - 1], points[(number + 1) % len(points)]
        start, end = _towards(corner, before, by), _towards(corner, after, by)
        pieces.append(f"{pair(start)}Q{pair(corner)} {pair(end)}")
    return "M" + "L".join(pieces) + "Z"


def _towards(
    corner: tuple[float, float], other: tuple[float, float], by: float
) -> tuple[float, float]:
    long = math.dist(corner, other)
    share = min(0.48, by / long) if long > 0 else 0.0
    return corner[0] + share * (other[0] - corner[0]), corner[1] + share * (other[1] - corner[1])


def _smooth(points: _Points) -> str:
    """A closed curve through all points (Catmull and Rom, as cubic pieces)."""
    count = len(points)
    path = f"M{pair(points[0])}"
    for number in range(count):
        a, b = points[number - 1], points[number]
        c, d = points[(number + 1) % count], points[(number + 2) % count]
        first = (b[0] + (c[0] - a[0]) / 6.0, b[1] + (c[1] - a[1]) / 6.0)
        second = (c[0] - (d[0] - b[0]) / 6.0, c[1] - (d[1] - b[1]) / 6.0)
        path += f"C{pair(first)} {pair(second)} {pair(c)}"
    return path + "Z"
