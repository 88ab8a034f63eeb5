"""Our own drawings as pixels: what they are made of, paths in the ten colours, and no more of SVG.

Words are left out. Source of the path data and of arcs by their ends: SVG 2, chapter 9 and its
notes on the implementation of elliptical arcs (from memory).
"""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from xml.etree import ElementTree

import msgspec
from PIL import Image, ImageDraw

_SVG = "{http://www.w3.org/2000/svg}"
_TOKEN = re.compile(r"[A-Za-z]|-?(?:\d+\.?\d*|\.\d+)")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "Q": 4, "C": 6, "A": 7, "Z": 0}
_STEPS = 12  # of a curve; of an arc as many to a quarter turn

Point = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]


class _Pen(msgspec.Struct, frozen=True):
    """What an element hands down to those within it."""

    matrix: Matrix
    fill: str = ""
    stroke: str = ""
    width: float = 1.0
    fill_opacity: float = 1.0
    stroke_opacity: float = 1.0
    dash: tuple[float, ...] = ()

    def at(self, point: Point) -> Point:
        a, b, c, d, e, f = self.matrix
        return a * point[0] + c * point[1] + e, b * point[0] + d * point[1] + f

    @property
    def scale(self) -> float:
        """How broad a line of one unit is."""
        a, b, c, d, _, _ = self.matrix
        return math.sqrt(abs(a * d - b * c))


def drawn(svg: str, colours: Mapping[str, str], ground: str, wide: int) -> Image.Image:
    """A drawing as wide as that, on the ground. colours: by the names in its classes."""
    root = ElementTree.fromstring(svg)
    _, _, width, height = (float(one) for one in root.attrib["viewBox"].split())
    times = wide / width
    picture = Image.new("RGB", (wide, round(height * times)), ground)
    known = {one.attrib["id"]: one for one in root.iter() if "id" in one.attrib}
    for element, pen in _placed(root, _Pen((times, 0, 0, times, 0, 0)), known):
        lines = [[pen.at(point) for point in line] for line in flattened(element.attrib["d"])]
        if pen.fill:
            _filled(picture, lines, pen, colours[pen.fill])
        if pen.stroke:
            _stroked(picture, lines, pen, colours[pen.stroke])
    return picture


def _placed(
    element: ElementTree.Element, pen: _Pen, known: Mapping[str, ElementTree.Element]
) -> Iterator[tuple[ElementTree.Element, _Pen]]:
    pen = _within(element, pen)
    if element.tag == f"{_SVG}path":
        yield element, pen
    if element.tag == f"{_SVG}use":
        yield from _placed(known[element.attrib["href"].removeprefix("#")], pen, known)
    for one in element:
        yield from _placed(one, pen, known)


def _within(element: ElementTree.Element, pen: _Pen) -> _Pen:
    said = element.attrib
    changes: dict[str, object] = {}
    for word in said.get("class", "").split():
        if word.startswith(("d-f-", "d-s-")):
            changes["fill" if word[2] == "f" else "stroke"] = word[4:]
    if "transform" in said:
        changes["matrix"] = _product(pen.matrix, _numbers(said["transform"]))
    if "stroke-width" in said:
        changes["width"] = float(said["stroke-width"])
    if "stroke-dasharray" in said:
        changes["dash"] = _numbers(said["stroke-dasharray"])
    for name in ("fill-opacity", "stroke-opacity"):
        if name in said:
            changes[name.replace("-", "_")] = float(said[name])
    if said.get("stroke") == "none":
        changes["stroke"] = ""
    return msgspec.structs.replace(pen, **changes)


def _numbers(text: str) -> tuple[float, ...]:
    return tuple(float(one) for one in re.findall(r"-?\d+\.?\d*", text))


def _product(outer: Matrix, inner: Sequence[float]) -> Matrix:
    a, b, c, d, e, f = outer
    g, h, i, j, k, m = inner
    return (
        a * g + c * h,
        b * g + d * h,
        a * i + c * j,
        b * i + d * j,
        a * k + c * m + e,
        b * k + d * m + f,
    )


def flattened(path: str) -> list[list[Point]]:
    """Path data as lines from point to point; a closed one ends where it began."""
    tokens = _TOKEN.findall(path)
    lines: list[list[Point]] = []
    at, order = 0, "M"
    while at < len(tokens):
        if tokens[at].isalpha():
            order, at = tokens[at], at + 1
        takes = _TAKES[order.upper()]
        values = [float(one) for one in tokens[at : at + takes]]
        at += takes
        if order == "M":
            lines.append([(values[0], values[1])])
            order = "L"
        elif order.upper() == "Z":
            lines[-1].append(lines[-1][0])
        else:
            lines[-1].extend(_piece(order, values, lines[-1][-1]))
    return lines


def _piece(order: str, values: Sequence[float], here: Point) -> list[Point]:
    x0, y0 = here if order.islower() else (0.0, 0.0)
    kind = order.upper()
    if kind == "H":
        return [(x0 + values[0], here[1])]
    if kind == "V":
        return [(here[0], y0 + values[0])]
    pairs = range(5 if kind == "A" else 0, len(values), 2)
    points = [(x0 + values[n], y0 + values[n + 1]) for n in pairs]
    if kind == "L":
        return points
    if kind == "A":
        return _arc(here, values, points[-1])
    return [_bezier((here, *points), n / _STEPS) for n in range(1, _STEPS + 1)]


def _bezier(points: Sequence[Point], share: float) -> Point:
    """De Casteljau."""
    while len(points) > 1:
        points = [
            (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            for a, b in itertools.pairwise(points)
        ]
    return points[0]


def _arc(here: Point, values: Sequence[float], end: Point) -> list[Point]:
    """By the centre, which lies square to the middle of both ends, on the side asked for."""
    rx, ry, _, large, sweep = values[:5]
    x, y = (here[0] - end[0]) / 2.0 / rx, (here[1] - end[1]) / 2.0 / ry
    half = x * x + y * y  # of the way between the ends, on the unit circle, squared
    far = math.sqrt(max(1.0 / half - 1.0, 0.0)) if half else 0.0
    far = far if large != sweep else -far
    grown = max(math.sqrt(half), 1.0)
    middle = (far * y, -far * x)
    start = math.atan2(y - middle[1], x - middle[0])
    turn = math.atan2(-y - middle[1], -x - middle[0]) - start
    if sweep and turn < 0:
        turn += 2 * math.pi
    if not sweep and turn > 0:
        turn -= 2 * math.pi
    centre_x = (here[0] + end[0]) / 2.0 + middle[0] * rx
    centre_y = (here[1] + end[1]) / 2.0 + middle[1] * ry
    count = max(2, math.ceil(abs(turn) / (math.pi / 2) * _STEPS))
    angles = (start + turn * n / count for n in range(1, count + 1))
    return [
        (centre_x + grown * rx * math.cos(one), centre_y + grown * ry * math.sin(one))
        for one in angles
    ]


def _filled(picture: Image.Image, lines: Iterable[Sequence[Point]], pen: _Pen, colour: str) -> None:
    mask = Image.new("L", picture.size)
    draw = ImageDraw.Draw(mask)
    for line in lines:
        if len(line) > 2:
            draw.polygon(list(line), fill=round(255 * pen.fill_opacity))
    picture.paste(Image.new("RGB", picture.size, colour), (0, 0), mask)


def _stroked(
    picture: Image.Image, lines: Iterable[Sequence[Point]], pen: _Pen, colour: str
) -> None:
    mask = Image.new("L", picture.size)
    draw, seen = ImageDraw.Draw(mask), round(255 * pen.stroke_opacity)
    width = max(pen.width * pen.scale, 1.0)
    for line in lines:
        for piece in _dashed(line, [one * pen.scale for one in pen.dash]) if pen.dash else (line,):
            if math.dist(piece[0], piece[-1]) < 0.01 and len(piece) == 2:
                (x, y), half = piece[0], width / 2.0
                draw.ellipse((x - half, y - half, x + half, y + half), fill=seen)
            else:
                draw.line(list(piece), fill=seen, width=round(width), joint="curve")
    picture.paste(Image.new("RGB", picture.size, colour), (0, 0), mask)


def _dashed(line: Sequence[Point], dash: Sequence[float]) -> Iterator[Sequence[Point]]:
    """Straight pieces of a line, on and off in turn; one of no length is a dot."""
    on, off = dash[0], dash[1]
    along = 0.0
    for a, b in itertools.pairwise(line):
        long = math.dist(a, b)
        while along < long:
            shares = (along / long, min(along + on, long) / long)
            yield [(a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])) for s in shares]
            along += on + off
        along -= long
