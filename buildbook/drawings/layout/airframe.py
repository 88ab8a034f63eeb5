"""The airframe of a portrait: arms and hub of a multirotor, wing, surfaces and body of a plane."""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec

from buildbook.drawings.environment import pair, short
from buildbook.drawings.layout.layout_labels import Site
from buildbook.drawings.layout.wing_shape import Outline, moved_edge, shape_of
from buildbook.drawings.plate import Plate
from buildbook.records.layouts import WINGED
from buildbook.report.drawn.plans import LayoutPlan, SurfacePlan, WingPlan

_HUB_OF_ARM = 0.28
_TUBE_OF_ARM = 0.052
_CLEAR = 0.94  # of the room between the middle and the nearest disc
_FROM_TIP = 0.05  # of the half span, outside of ailerons; a sketch

_CANOPY = ((0, 0.9), (0.3, 1), (0.6, 0.7), (0.74, 0), (0.6, -0.7), (0.3, -1), (0, -0.9))
"""A sketch, from the leading edge (0) to the nose (1), and across."""

_Points = Sequence[tuple[float, float]]


class Airframe(msgspec.Struct, frozen=True, kw_only=True):
    """Paths in units; empty where there is no such thing."""

    arms: tuple[str, ...] = ()
    tube: float = 0.0  # width of an arm
    hub: str = ""
    screws: str = ""  # the middles, for dots
    pack: str = ""
    strap: str = ""
    body: str = ""
    canopy: str = ""
    tail: str = ""
    wing: str = ""
    surfaces: str = ""


def airframe(plan: LayoutPlan, plate: Plate, sites: Sequence[Site]) -> Airframe:
    """What carries the rotors. Only a wing and its surfaces are known; the rest is a sketch."""
    if plan.layout in WINGED or plan.wing is not None:
        return _aeroplane(plan, plate)
    x0, y0 = plate.x(0), plate.y(0)
    reaches = [math.hypot(site.x - x0, site.y - y0) for site in sites]
    if not reaches or min(reaches) < 6.0:
        return Airframe()
    arm = min(reaches)
    rooms = [reach - site.radius for reach, site in zip(reaches, sites, strict=True)]
    h = max(min(_HUB_OF_ARM * arm, _CLEAR * min(rooms)), 0.1 * arm)
    return Airframe(
        arms=tuple(f"M{pair((x0, y0))}L{pair((site.x, site.y))}" for site in sites),
        tube=min(max(_TUBE_OF_ARM * arm, 3.0), 7.0),
        hub=_octagon(x0, y0, 0.86 * h, 1.12 * h, 0.42 * h),
        screws="".join(
            f"M{short(x0 + 0.62 * h * across)} {short(y0 + 0.84 * h * along)}h0"
            for across in (-1, 1)
            for along in (-1, 1)
        ),
        pack=_octagon(x0, y0, 0.4 * h, 0.94 * h, 0.1 * h),
        strap="".join(
            f"M{short(x0 - 0.46 * h)} {short(y0 + side * 0.4 * h)}h{short(0.92 * h)}"
            for side in (-1, 1)
        ),
    )


def _octagon(x: float, y: float, wide: float, long: float, cut: float) -> str:
    corners = (
        (x - wide + cut, y - long),
        (x + wide - cut, y - long),
        (x + wide, y - long + cut),
        (x + wide, y + long - cut),
        (x + wide - cut, y + long),
        (x - wide + cut, y + long),
        (x - wide, y + long - cut),
        (x - wide, y - long + cut),
    )
    return "M" + "L".join(pair(corner) for corner in corners) + "Z"


def _aeroplane(plan: LayoutPlan, plate: Plate) -> Airframe:
    wing, shape = plan.wing, shape_of(plan)
    if wing is None or shape is None:
        return Airframe()
    nose, leading = shape.body[0][0], shape.wing[1][0]
    wide = max(right for _, right in shape.body)
    canopy = tuple(
        (leading + share * (nose - leading), 0.72 * wide * side) for share, side in _CANOPY
    )
    panels = [
        corners
        for surface in wing.surfaces
        for corners in _panels(surface, wing, shape.wing, shape.tail)
    ]
    tip = (shape.wing[0][0] - shape.wing[5][0]) * plate.scale
    return Airframe(
        body=_smooth(_placed(shape.body, plate)),
        canopy=_smooth(_placed(canopy, plate)),
        tail=_rounded(_placed(shape.tail, plate), 5.0),
        wing=_rounded(_placed(shape.wing, plate), max(0.42 * tip, 2.0)),
        surfaces="".join(
            "M" + "L".join(pair(point) for point in _placed(corners, plate)) + "Z"
            for corners in panels
        ),
    )


def _panels(
    surface: SurfacePlan, wing: WingPlan, outline: Outline, tail: Outline
) -> tuple[Outline, ...]:
    """A surface from above, at the trailing edge: its size is recorded, its place along is not."""
    if surface.chord_m is None or surface.length_m is None:
        return ()
    kind = surface.name.split("-")[0]
    half = wing.span_m / 2.0
    if kind == "elevator":
        reach = min(surface.length_m / 2.0, tail[2][1])
        return (moved_edge(tail, -reach, reach, surface.chord_m),)
    if kind not in ("aileron", "flap", "elevon", "flaperon"):
        return ()
    long = min(surface.length_m, 0.9 * half)
    end = half * (1.0 - _FROM_TIP) if kind != "flap" else 0.08 * half + long
    sides = [
        side
        for side, other in ((-1, "right"), (1, "left"))
        if not surface.name.endswith(f"-{other}")
    ]
    return tuple(
        moved_edge(
            outline,
            min(side * (end - long), side * end),
            max(side * (end - long), side * end),
            surface.chord_m,
        )
        for side in sides
    )


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
