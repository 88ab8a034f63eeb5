"""A portrait of an aircraft: from ahead and above, over a sheet with its plan and main lengths.

Places, propellers, wing, surfaces and the side of the pack are the records'; hub, motors, body and
fin are a sketch, and so is how far apart the decks of a coaxial pair are.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import msgspec
from markupsafe import Markup

from buildbook.drawings.environment import draw, pair, short
from buildbook.drawings.layout.airframe import Frame, Glider, frame, glider, tube_of
from buildbook.drawings.layout.layout_faults import layout_faults
from buildbook.drawings.layout.layout_labels import Site
from buildbook.drawings.layout.layout_scene import FaultMark, build_scene
from buildbook.drawings.layout.portrait_rotors import (
    Motors,
    Rotors,
    disc_up,
    motor_radius,
    motors,
    ring,
    turning_rotors,
)
from buildbook.drawings.layout.view import Point, View, polygon, silhouette
from buildbook.drawings.layout.wing_shape import shape_of
from buildbook.drawings.lettering import Anchor, Box, Line, text_width
from buildbook.drawings.plate import Plate, scale_bar
from buildbook.records.layouts import WINGED
from buildbook.report.drawn.plans import LayoutPlan
from buildbook.words.measures.lengths import length_words, name_of, named_length

WIDTH = 400.0
SIZE = 14.0  # of words; a theme makes them smaller where the picture is large
_TALLEST = 284.0
_SIDE, _WORD_SIDE = 6.0, 18.0  # on a phone the sheet reaches into the margin, words do not
_WORDS_END = WIDTH - _WORD_SIDE
_TOP = 26.0
_FOOT = 14.0  # room for words below the sheet
_STEP = 74.0  # the longest step between two crosses
_MULTIROTOR, _AEROPLANE = (202.0, 38.0), (207.0, 32.0)  # turned and dipped by so many degrees
_HOVER = 0.45  # of an arm
_HOVER_OF_SPAN = 0.09
_MARGIN, _AHEAD = 6.0, 36.0  # of the sheet round the plan, and before it


class Length(msgspec.Struct, frozen=True, kw_only=True):
    """A length drawn as on a plan: thin lines, the ends of the measure, its words."""

    lines: str
    ends: str
    words: Line


class Paper(msgspec.Struct, frozen=True, kw_only=True):
    """The sheet below the aircraft: all but its outline lies level, under its matrix."""

    outline: str
    matrix: str
    shadow: str  # of discs, or of a wing: the same lines as above
    below: str = ""  # the rest of it
    stems: str = ""  # arms of the shadow, to be stroked
    grid: str = ""  # lines to be dashed, a step apart: dots remain
    step: float = 0.0
    arrow: str = ""


class Sheet(msgspec.Struct, frozen=True, kw_only=True):
    """All that stands on the picture, from the paper up."""

    height: float
    paper: Paper
    frame: Frame
    glider: Glider | None
    decks: tuple[tuple[Motors | None, Rotors], ...]  # the lower one first
    spinners: str
    lengths: tuple[Length, ...]
    words: tuple[Line, ...]
    marks: tuple[FaultMark, ...]


def portrait_drawing(plan: LayoutPlan, prefix: str, gist: str, *, lettered: bool) -> Markup:
    """The picture of an aircraft where no photograph is named. gist: what it says, in sentences."""
    sheet = build_sheet(plan)
    if not lettered:
        bare = msgspec.structs.replace(sheet.paper, arrow="")
        sheet = msgspec.structs.replace(sheet, paper=bare, lengths=(), words=())
    return draw(
        "portrait",
        prefix=prefix,
        width=WIDTH,
        title=f"{plan.aircraft} from ahead and above: {plan.layout}",
        desc=gist,
        sheet=sheet,
    )


def build_sheet(plan: LayoutPlan) -> Sheet:
    """Shapes and words of the picture, in units."""
    scene = build_scene(plan, layout_faults(plan), WIDTH, lettered=False, pictured=True)
    plate, sites = scene.plate, tuple(rotor.site for rotor in scene.rotors)
    winged = plan.layout in WINGED or plan.wing is not None
    ground, corners = _ground(plan, plate, sites, winged)
    view = _view(plate, sites, winged, ground, corners)
    tall = max(view.at(*corner, ground)[1] for corner in corners)
    height = round(tall + _FOOT)
    plane = glider(plan, view, plate) if winged else None
    step = scale_bar(plate.scale, _STEP) if plan.to_scale else None
    return Sheet(
        height=height,
        paper=_paper(plan, plate, view, sites, ground, corners, plane),
        frame=Frame() if winged else frame(plan, view, sites),
        glider=plane,
        decks=_decks(view, sites, winged),
        spinners="".join(_spinner(view, site) for site in sites if site.edge_on),
        lengths=_lengths(plan, plate, view, sites, ground, corners) if plan.to_scale else (),
        words=_words(view, ground, corners, height, step.words if step else ""),
        marks=tuple(_mark(view, mark, sites) for mark in scene.marks),
    )


def _extent(plan: LayoutPlan, plate: Plate, sites: Sequence[Site]) -> Box:
    points = [(plate.x(0), plate.y(0))]
    for site in sites:
        deep = 0.0 if site.edge_on else site.radius
        points += ((site.x - site.radius, site.y - deep), (site.x + site.radius, site.y + deep))
    shape = shape_of(plan)
    if shape is not None:
        outlines = (*shape.wing, *shape.body, *shape.tail)
        points += ((plate.x(right), plate.y(forward)) for forward, right in outlines)
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def _ground(
    plan: LayoutPlan, plate: Plate, sites: Sequence[Site], winged: bool
) -> tuple[float, tuple[Point, ...]]:
    """How high the sheet is, below nought, and its corners: front left, and on clockwise."""
    box = _extent(plan, plate, sites)
    left, right, rear = box.left - _MARGIN, box.right + _MARGIN, box.bottom + _MARGIN
    front = box.top - _MARGIN - _AHEAD
    arm = max((math.hypot(site.x - plate.x(0), site.y - plate.y(0)) for site in sites), default=0)
    hover = _HOVER_OF_SPAN * (box.right - box.left) if winged else _HOVER * max(arm, 20.0)
    return -hover, ((left, front), (right, front), (right, rear), (left, rear))


def _view(
    plate: Plate,
    sites: Sequence[Site],
    winged: bool,
    ground: float,
    corners: Sequence[Point],
) -> View:
    """From ahead, so that sheet and aircraft fill the picture."""
    turn, dip = _AEROPLANE if winged else _MULTIROTOR
    view = View(turn_deg=turn, dip_deg=dip, x0=plate.x(0), y0=plate.y(0))
    seen = [view.at(*corner, ground) for corner in corners]
    for site in sites:
        up = site.radius if site.edge_on else disc_up(sites, 0.0) + 3.0
        x, y = view.at(site.x, site.y, up)
        deep = 0.0 if site.edge_on else site.radius * view.squash
        seen += ((x - site.radius, y - deep), (x + site.radius, y))
    return view.fitted(seen, WIDTH - 2 * _SIDE, _TALLEST).moved(WIDTH / 2, _TOP)


def _decks(
    view: View, sites: Sequence[Site], winged: bool
) -> tuple[tuple[Motors | None, Rotors], ...]:
    middle = (view.x0, view.y0)
    if winged:
        flat = (
            (site, msgspec.structs.replace(site, x=0.0, y=0.0, edge_on=False)) for site in sites
        )
        return tuple(
            (None, turning_rotors((one,), (0.0, 0.0), view.across(site.x, site.y, 0.0)))
            for site, one in flat
        )
    tube, up = tube_of(sites, middle), disc_up(sites, tube_of(sites, middle))
    lower = [_deck(site, 1) for site in sites if len(site.stations) > 1]
    upper = [_deck(site, 0) for site in sites]
    decks = [(motors(view, lower, tube, -1), turning_rotors(lower, middle, view.level(-up)))]
    decks.append((motors(view, upper, tube, 1), turning_rotors(upper, middle, view.level(up))))
    return tuple(decks if lower else decks[1:])


def _deck(site: Site, number: int) -> Site:
    return msgspec.structs.replace(site, stations=(site.stations[number],))


def _spinner(view: View, site: Site) -> str:
    """The cone before the hub of a propeller."""
    r = motor_radius(site)
    rim = ((math.cos(at), math.sin(at)) for at in (math.pi * n / 10 for n in range(20)))
    points = [view.at(site.x + r * across, site.y, r * up) for across, up in rim]
    return silhouette((*points, view.at(site.x, site.y - 2.2 * r, 0.0)))


def _paper(
    plan: LayoutPlan,
    plate: Plate,
    view: View,
    sites: Sequence[Site],
    ground: float,
    corners: Sequence[Point],
    plane: Glider | None,
) -> Paper:
    """With the plan of the aircraft as a shadow."""
    step = scale_bar(plate.scale, _STEP).units if plan.to_scale else 0.0
    middle = (plate.x(0), plate.y(0))
    arrow = (middle[0], corners[0][1] - 13.0)
    return Paper(
        outline=polygon(view.at(*corner, ground) for corner in corners),
        matrix=view.level(ground),
        shadow=plane.wing if plane else "".join(ring(s.x, s.y, s.radius) for s in sites),
        below=plane.below if plane else "",
        stems="" if plane else "".join(f"M{pair(middle)}L{pair((s.x, s.y))}" for s in sites),
        grid=_grid(middle, corners, step) if step else "",
        step=step,
        arrow=f"M{pair(arrow)}l6.5 16-6.5-4-6.5 4Z",
    )


def _grid(middle: Point, corners: Sequence[Point], step: float) -> str:
    """Lines across, a step apart and through the reference point, that begin with a dot."""
    (left, front), _, (right, rear), _ = corners
    x = middle[0] - step * math.floor((middle[0] - left - 4.0) / step)
    y = middle[1] - step * math.floor((middle[1] - front - 4.0) / step)
    rows = range(int((rear - 4.0 - y) / step) + 1)
    return "".join(f"M{short(x)} {short(y + step * n)}H{short(right - 3.0)}" for n in rows)


def _words(
    view: View, ground: float, corners: Sequence[Point], height: float, step: str
) -> tuple[Line, ...]:
    """Forward below the arrow; how far the crosses are apart in the corner."""
    x, y = view.at(view.x0, corners[0][1] - 13.0, ground)
    long = text_width("forward", SIZE)
    found = [_line("forward", max(x - 4.0, _WORD_SIDE + long), y + 8.0, "end")]
    if step:
        words = f"grid {step}"
        found.append(_line(words, _WORDS_END, height - 4.0, "end"))
    return tuple(found)


def _line(text: str, x: float, y: float, anchor: Anchor = "start") -> Line:
    return Line(text=text, x=x, y=y, size=SIZE, anchor=anchor)


def _mark(view: View, mark: FaultMark, sites: Sequence[Site]) -> FaultMark:
    x, y = view.at(mark.x, mark.y, disc_up(sites, 0.0))
    return msgspec.structs.replace(mark, x=x, y=y)


def _lengths(
    plan: LayoutPlan,
    plate: Plate,
    view: View,
    sites: Sequence[Site],
    ground: float,
    corners: Sequence[Point],
) -> tuple[Length, ...]:
    """How far it reaches across, before it on the sheet; the propeller, in the corner above it."""
    found = list(_across_length(plan, plate, view, sites, ground, corners[0][1] + 21.0))
    known = [site for site in sites if site.stations[0].propeller_m]
    if known:
        found.append(_propeller_length(view, known))
    return tuple(found)


def _across(plan: LayoutPlan, plate: Plate, sites: Sequence[Site]) -> tuple[Point, Point] | None:
    """The tips of a wing, else the two shafts that stand furthest apart across, the front ones."""
    if plan.wing is not None:
        half, aft = plan.wing.span_m / 2.0, plan.wing.leading_edge_aft_m
        return (plate.x(-half), plate.y(-aft)), (plate.x(half), plate.y(-aft))
    if len(sites) < 2:
        return None
    left = min(sites, key=lambda site: (round(site.x, 1), site.y))
    right = max(sites, key=lambda site: (round(site.x, 1), -site.y))
    return (left.x, left.y), (right.x, right.y)


def _across_length(
    plan: LayoutPlan,
    plate: Plate,
    view: View,
    sites: Sequence[Site],
    ground: float,
    y: float,
) -> Iterator[Length]:
    across = _across(plan, plate, sites)
    if across is None:
        return
    (left, left_y), (right, right_y) = across
    words = _across_words(plan, (right - left) / plate.scale)
    begin, end = view.at(left, y, ground), view.at(right, y, ground)
    long = math.dist(begin, end)
    if long < text_width(words, SIZE) + 24.0:
        return
    middle = ((begin[0] + end[0]) / 2.0, (begin[1] + end[1]) / 2.0)
    gap = (text_width(words, SIZE) / 2.0 + 5.0) / abs(end[0] - begin[0])
    points = [view.at(left + share * (right - left), y, ground) for share in (0.5 - gap, 0.5 + gap)]
    lines = f"M{pair(begin)}L{pair(points[0])}M{pair(points[1])}L{pair(end)}"
    for x, from_y in ((left, left_y), (right, right_y)):
        lines += f"M{pair(view.at(x, from_y, ground))}L{pair(view.at(x, y - 4.0, ground))}"
    ends = "".join(f"M{short(x - 3.5)} {short(at + 3.5)}l7-7" for x, at in (begin, end))
    yield Length(
        lines=lines, ends=ends, words=Line(text=words, x=middle[0], y=middle[1] + 4.5, size=SIZE)
    )


def _across_words(plan: LayoutPlan, across_m: float) -> str:
    """Which length it is: side and diagonal of a quad are easily taken for each other."""
    if plan.wing is not None:
        return named_length("span", across_m)
    name = "across" if plan.diagonal_m is None else name_of(plan.layout, plan.diagonal_m, across_m)
    return named_length(name, across_m)


def _propeller_length(view: View, known: Sequence[Site]) -> Length:
    """The diameter in the corner above, with a line to the rim that is nearest to it."""
    site = max(known, key=lambda one: view.at(one.x, one.y)[0])
    words = f"Ø {length_words(site.stations[0].propeller_m or 0.0)}"
    long = text_width(words, SIZE)
    r = site.radius * view.zoom
    if site.edge_on:
        x, y = view.at(site.x, site.y, site.radius)
        start = max(x - long - 22.0, _WORD_SIDE)
        line, foot = _line(words, start, y - 14.0), (start, y - 10.0)
        rim = (x, y)
    else:
        x, y = view.at(site.x, site.y, disc_up(known, 0.0))
        line, foot = _line(words, _WORDS_END, 16.0, "end"), (_WORDS_END - long, 21.0)
        rim = (x + 0.64 * r, y - 0.77 * r * view.squash)
    under = f"M{pair(foot)}h{short(long)}"
    leader = f"M{short(foot[0] + 0.5 * long)} {short(foot[1])}L{pair(rim)}"
    dot = f"M{short(rim[0] - 2)} {short(rim[1])}a2 2 0 1 0 4 0a2 2 0 1 0-4 0"
    return Length(lines=under + leader, ends=dot, words=line)
