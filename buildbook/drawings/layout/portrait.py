"""A portrait of an aircraft: the top view as a picture, to scale, with its main lengths beside it.

Places, propellers, wing and surfaces are the records'; hub, motors, body and tail are a sketch.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec
from markupsafe import Markup

from buildbook.drawings.environment import draw, short
from buildbook.drawings.layout.airframe import Airframe, airframe
from buildbook.drawings.layout.layout_faults import layout_faults
from buildbook.drawings.layout.layout_labels import Site
from buildbook.drawings.layout.layout_scene import FaultMark, build_scene
from buildbook.drawings.layout.portrait_rotors import Rotors, portrayed
from buildbook.drawings.lettering import Line, text_width
from buildbook.drawings.plate import Plate, ScaleBar, scale_bar
from buildbook.report.drawn.plans import LayoutPlan
from buildbook.words.measures.lengths import length_words, name_of, named_length

WIDTH = 400.0
SIZE = 14.0  # of words; a theme makes them smaller where the picture is large
_FOOT = 58.0  # room for the lengths below the aircraft
_EDGE = 12.0
_LONGEST_BAR = 74.0


class Length(msgspec.Struct, frozen=True, kw_only=True):
    """A length drawn as on a plan: thin lines, the ends of the measure, its words."""

    lines: str
    ends: str
    words: Line


class Sheet(msgspec.Struct, frozen=True, kw_only=True):
    """All that stands on the picture, from the paper up."""

    height: float
    crosses: str  # lines to be dashed, a step of the bar apart: crosses remain
    airframe: Airframe
    rotors: Rotors
    lengths: tuple[Length, ...]
    bar: ScaleBar | None
    words: tuple[Line, ...]
    marks: tuple[FaultMark, ...]


def portrait_drawing(plan: LayoutPlan, prefix: str, gist: str) -> Markup:
    """The picture of an aircraft where no photograph is named. gist: what it says, in sentences."""
    return draw(
        "portrait",
        prefix=prefix,
        width=WIDTH,
        title=f"{plan.aircraft} from above: {plan.layout}",
        desc=gist,
        sheet=build_sheet(plan),
    )


def build_sheet(plan: LayoutPlan) -> Sheet:
    """Shapes and words of the picture, in units."""
    scene = build_scene(plan, layout_faults(plan), WIDTH, lettered=False, pictured=True)
    plate, sites = scene.plate, tuple(rotor.site for rotor in scene.rotors)
    height = round(plate.area.bottom + _FOOT)
    bar = scale_bar(plate.scale, _LONGEST_BAR) if plan.to_scale else None
    lengths = _lengths(plan, plate, sites, height) if plan.to_scale else ()
    words = [_line("forward", _EDGE + 13.0, 24.0)]
    if bar is not None:
        words.append(_line(bar.words, _EDGE + bar.units + 7.0, height - 12.0))
    return Sheet(
        height=height,
        crosses="" if bar is None else _crosses(plate, bar.units, height),
        airframe=airframe(plan, plate, sites),
        rotors=portrayed(sites, (plate.x(0), plate.y(0))),
        lengths=lengths,
        bar=bar,
        words=tuple(words),
        marks=scene.marks,
    )


def _line(text: str, x: float, y: float) -> Line:
    return Line(text=text, x=x, y=y, size=SIZE, anchor="start")


def _crosses(plate: Plate, step: float, height: float) -> str:
    """Lines of which two units at each end of a step are drawn, through the reference point."""
    left, top = (2.0 + (at - 2.0) % step for at in (plate.x(0), plate.y(0)))
    rows, columns = 1 + int((height - top) / step), 1 + int((WIDTH - left) / step)
    across = (f"M{short(left - 2)} {short(top + step * n)}H{WIDTH:.0f}" for n in range(rows))
    along = (f"M{short(left + step * n)} {short(top - 2)}V{height:.0f}" for n in range(columns))
    return "".join((*across, *along))


def _lengths(
    plan: LayoutPlan, plate: Plate, sites: Sequence[Site], height: float
) -> tuple[Length, ...]:
    """How far it reaches across, below it; the propeller, in the corner above it."""
    found = []
    across = _across(plan, plate, sites)
    if across is not None:
        found.append(_across_length(plan, plate, *across, height - 36.0))
    known = [site for site in sites if site.stations[0].propeller_m]
    if known:
        found.append(_propeller_length(max(known, key=lambda site: (site.x, -site.y))))
    return tuple(found)


_Point = tuple[float, float]


def _across(plan: LayoutPlan, plate: Plate, sites: Sequence[Site]) -> tuple[_Point, _Point] | None:
    """The tips of a wing, else the two shafts that stand furthest apart across, the rear ones."""
    if plan.wing is not None:
        half, aft = plan.wing.span_m / 2.0, plan.wing.leading_edge_aft_m + plan.wing.mean_chord_m
        return (plate.x(-half), plate.y(-aft)), (plate.x(half), plate.y(-aft))
    if len(sites) < 2:
        return None
    left = min(sites, key=lambda site: (round(site.x, 1), -site.y))
    right = max(sites, key=lambda site: (round(site.x, 1), site.y))
    if right.x - left.x < text_width("across 0000 mm", SIZE) + 16.0:
        return None
    return (left.x, left.y), (right.x, right.y)


def _across_length(plan: LayoutPlan, plate: Plate, left: _Point, right: _Point, y: float) -> Length:
    lines = "".join(f"M{short(x)} {short(from_y)}V{short(y + 5)}" for x, from_y in (left, right))
    words = _across_words(plan, (right[0] - left[0]) / plate.scale)
    middle, gap = (left[0] + right[0]) / 2.0, text_width(words, SIZE) / 2.0 + 3.0
    lines += f"M{short(left[0])} {short(y)}H{short(middle - gap)}"
    lines += f"M{short(middle + gap)} {short(y)}H{short(right[0])}"
    ends = "".join(f"M{short(x - 3.5)} {short(y + 3.5)}l7-7" for x, _ in (left, right))
    return Length(lines=lines, ends=ends, words=Line(text=words, x=middle, y=y + 4.5, size=SIZE))


def _across_words(plan: LayoutPlan, across_m: float) -> str:
    """Which length it is: side and diagonal of a quad are easily taken for each other."""
    if plan.wing is not None:
        return named_length("span", across_m)
    name = "across" if plan.diagonal_m is None else name_of(plan.layout, plan.diagonal_m, across_m)
    return named_length(name, across_m)


def _propeller_length(site: Site) -> Length:
    """The diameter: beside a propeller edge-on, else in the corner with a line to the rim."""
    words = f"Ø {length_words(site.stations[0].propeller_m or 0.0)}"
    long = text_width(words, SIZE)
    if site.edge_on:
        return _propeller_edge_on(site, words, long)
    line = _line(words, WIDTH - _EDGE - long, 24.0)
    foot_x, foot_y = WIDTH - _EDGE - 0.5 * long, 29.0
    far = math.hypot(foot_x - site.x, foot_y - site.y) or 1.0
    rim_x = site.x + site.radius * (foot_x - site.x) / far
    rim_y = site.y + site.radius * (foot_y - site.y) / far
    under = f"M{short(WIDTH - _EDGE - long)} {short(foot_y)}h{short(long)}"
    leader = f"M{short(foot_x)} {short(foot_y)}L{short(rim_x)} {short(rim_y)}"
    dot = f"M{short(rim_x - 2)} {short(rim_y)}a2 2 0 1 0 4 0a2 2 0 1 0-4 0"
    return Length(lines=under + leader, ends=dot, words=line)


def _propeller_edge_on(site: Site, words: str, long: float) -> Length:
    """Beside the tip, on the side that has more room."""
    side = 1 if site.x + site.radius + long + 24.0 < WIDTH else -1
    tip, near = site.x + side * site.radius, site.x + side * (site.radius + 12.0)
    line = _line(words, near + 4.0 if side > 0 else near - 4.0 - long, site.y + 4.5)
    lead = f"M{short(tip + side * 2)} {short(site.y)}H{short(near)}"
    return Length(lines=lead, ends=f"M{short(tip + side * 2)} {short(site.y)}h.1", words=line)
