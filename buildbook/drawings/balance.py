"""What weighs where: masses as discs of that area, from above and from the right side, nose up.

Both views stand side by side on one scale and share the forward axis. Discs carry numbers, clear
of every disc; the key below has names and masses, the heaviest first.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import msgspec
from markupsafe import Markup

from buildbook.drawings.environment import draw
from buildbook.drawings.lettering import FACT, WIDTH, Anchor, Box, Line, shorten, text_width
from buildbook.drawings.plate import ScaleBar, scale_bar
from buildbook.report.drawn.plans import BalancePlan, LoadPlan, Table
from buildbook.words.measures.lengths import length_words, place_words

_GROWN = 1.05  # a theme may set words larger on a phone, by so much
_LARGEST, _SMALLEST = 13.5, 2.0  # radius of the heaviest load, and of the lightest
_TOP = 58.0  # where the views begin
_FOOT = 16.0  # strip below the views: which end of the side view is up
_AROUND = 34.0  # room about the outermost places: a disc and its number
_TALLEST = 250.0
_ROW = 16.0


class LoadDisc(msgspec.Struct, frozen=True):
    """A load on one of the two views."""

    x: float
    y: float
    r: float


class Number(msgspec.Struct, frozen=True):
    """The number of a load beside its disc, and the line that leads to it."""

    line: Line
    leader: tuple[float, float, float, float] | None


class View(msgspec.Struct, frozen=True, kw_only=True):
    """One view: discs, numbers, centre of gravity; `x` is where its axis runs."""

    area: Box
    x: float
    discs: tuple[LoadDisc, ...]
    numbers: tuple[Number, ...]
    cg: tuple[float, float] | None


class End(msgspec.Struct, frozen=True):
    """A small arrow to the side: its tip, and how far its back stands from it."""

    x: float
    y: float
    back: float


class KeyLine(msgspec.Struct, frozen=True, kw_only=True):
    """A load in the list below: its number in the views, its name and mass."""

    number: Line
    name: Line
    mass: Line


class BalanceSheet(msgspec.Struct, frozen=True, kw_only=True):
    """Two views with a number at each load, the scale below them, and the list of loads."""

    views: tuple[View, View]
    band: tuple[float, float] | None  # its upper and lower edge
    zero: float  # where the reference point stands
    floor: float  # lower edge of the views
    ends: tuple[End, ...]  # of the side view
    bar: ScaleBar
    base: float  # of the scale bar
    key: tuple[KeyLine, ...]
    lines: tuple[Line, ...]
    cg_mark: tuple[float, float] | None
    height: float


def _ends(values: Sequence[float]) -> tuple[float, float]:
    return min((0.0, *values)), max((0.0, *values))


def _circle_meets(disc: LoadDisc, box: Box) -> bool:
    """Whether a disc reaches into a box, a little clear of its rim."""
    x = min(max(disc.x, box.left), box.right)
    y = min(max(disc.y, box.top), box.bottom)
    return math.hypot(disc.x - x, disc.y - y) < disc.r + 1.5


def _around(disc: LoadDisc, text: str) -> Iterator[Number]:
    """Places for a number, nearest first: below, then round the disc, then further out."""
    for step in range(12):
        reach = disc.r + 8.5 + 7.0 * step
        for turn in (4, 12, 0, 8, 2, 6, 10, 14, 1, 3, 5, 7, 9, 11, 13, 15):
            angle = math.tau * turn / 16
            across, down = math.cos(angle), math.sin(angle)
            x, y = disc.x + (reach + 3.0 * abs(across)) * across, disc.y + reach * down
            line = Line(text=text, x=x, y=y + 4.0, size=FACT)
            foot = (x - 7.5 * across, y - 7.5 * down)
            rim = (disc.x + (disc.r - 1.0) * across, disc.y + (disc.r - 1.0) * down)
            yield Number(line, (*rim, *foot) if step else None)


def _path_boxes(number: Number) -> Iterator[Box]:
    """A leader as a row of small boxes."""
    if number.leader is None:
        return
    x1, y1, x2, y2 = number.leader
    steps = max(int(math.hypot(x2 - x1, y2 - y1) / 3.0), 1)
    for step in range(steps + 1):
        x, y = x1 + (x2 - x1) * step / steps, y1 + (y2 - y1) * step / steps
        yield Box(x - 1.0, y - 1.0, x + 1.0, y + 1.0)


def _numbers(discs: Sequence[LoadDisc], taken: Sequence[Box], area: Box) -> tuple[Number, ...]:
    """A number for each disc, clear of discs, of each other and of what else is drawn.

    One for which no room is left within reach has none here: it is in the key all the same.
    """
    boxes = list(taken)
    found: list[Number] = []
    order = sorted(range(len(discs)), key=lambda place: (discs[place].r, place))
    for place in order:
        for number in _around(discs[place], str(place + 1)):
            box = number.line.box
            blocked = any(box.meets(other) for other in boxes) or not box.within(area)
            if blocked or any(_circle_meets(disc, box) for disc in discs):
                continue
            way = list(_path_boxes(number))
            if any(piece.meets(other.line.box) for piece in way for other in found):
                continue
            found.append(number)
            boxes += (box, *way)
            break
    return tuple(found)


def _view(
    loads: Sequence[LoadPlan],
    at: Sequence[tuple[float, float]],
    x: float,
    area: Box,
    cg: tuple[float, float] | None,
) -> View:
    most = max((load.mass_kg for load in loads), default=0.0) or 1.0
    discs = tuple(
        LoadDisc(across, down, max(_LARGEST * math.sqrt(max(load.mass_kg, 0) / most), _SMALLEST))
        for load, (across, down) in zip(loads, at, strict=True)
    )
    taken = [] if cg is None else [Box(cg[0] - 7, cg[1] - 7, cg[0] + 7, cg[1] + 7)]
    return View(area=area, x=x, discs=discs, numbers=_numbers(discs, taken, area), cg=cg)


def _views(plan: BalancePlan, loads: Sequence[LoadPlan]) -> tuple[float, float, View, View]:
    """Scale, height of the reference point, and both views."""
    places = [(load.forward_m, load.right_m, load.down_m) for load in loads]
    if plan.cg_m is not None:
        places.append(plan.cg_m)
    rear, front = _ends([*(place[0] for place in places), *(plan.band_forward_m or ())])
    left, right = _ends([place[1] for place in places])
    above, below = _ends([place[2] for place in places])
    wide = max(right - left + below - above, 1e-3)
    scale = min((WIDTH - 4 * _AROUND) / wide, _TALLEST / max(front - rear, 1e-3))
    zero = _TOP + _AROUND + front * scale
    bottom = zero - rear * scale + _AROUND
    spare = (WIDTH - 4 * _AROUND - wide * scale) / 2  # what the views do not need, shared
    middle = 2 * _AROUND + (right - left) * scale + spare
    x_top = _AROUND - left * scale + spare / 2
    x_side = middle + _AROUND - above * scale + spare / 2

    def seen(x: float, across: int) -> list[tuple[float, float]]:
        return [(x + place[across] * scale, zero - place[0] * scale) for place in places]

    def view(x: float, across: int, area: Box) -> View:
        at = seen(x, across)
        cg = at[-1] if plan.cg_m is not None else None
        return _view(loads, at[: len(loads)], x, area, cg)

    return (
        scale,
        zero,
        view(x_top, 1, Box(6.0, _TOP, middle - 2.0, bottom)),
        view(x_side, 2, Box(middle + 2.0, _TOP, WIDTH - 6.0, bottom)),
    )


def _key(loads: Sequence[LoadPlan], top: float) -> tuple[tuple[KeyLine, ...], float]:
    """Number, name and mass of each load, in two columns where names are short."""
    masses = [f"{load.mass_kg * 1000:.0f} g" for load in loads]
    room = WIDTH / 2 - 54.0 - max((text_width(words, FACT) for words in masses), default=0.0)
    longest = max((text_width(load.name, FACT) for load in loads), default=0.0)
    columns = 2 if longest <= room and len(loads) > 3 else 1
    width = (WIDTH - 28.0 - 22.0 * (columns - 1)) / columns
    deep = -(-len(loads) // columns)
    lines: list[KeyLine] = []
    for place, (load, mass) in enumerate(zip(loads, masses, strict=True)):
        x = 14.0 + (place // deep) * (width + 22.0)
        y = top + (place % deep) * _ROW
        fitting = shorten(load.name, FACT, width - 30.0 - text_width(mass, FACT))
        lines.append(
            KeyLine(
                number=Line(text=str(place + 1), x=x + 14.0, y=y, size=FACT, anchor="end"),
                name=Line(text=fitting, x=x + 21.0, y=y, size=FACT, anchor="start"),
                mass=Line(text=mass, x=x + width, y=y, size=FACT, anchor="end"),
            )
        )
    return tuple(lines), top + deep * _ROW


def _fact(text: str, x: float, y: float, anchor: Anchor) -> Line:
    return Line(text=text, x=x, y=y, size=FACT, anchor=anchor)


def _directions(top: View, side: View) -> tuple[tuple[Line, ...], tuple[End, ...]]:
    """Which way the views stand: "forward" over both arrows, "up" and "down" at the side's ends."""
    y = side.area.bottom + 11.0
    left, right = side.area.left + 2.0, side.area.right - 2.0
    half = text_width("forward", FACT * _GROWN) / 2
    lines = [
        _fact("from above", 14.0, 20.0, "start"),
        _fact("from the right", WIDTH - 14.0, 20.0, "end"),
    ]
    for view in (top, side):
        x = min(max(view.x, view.area.left + half), view.area.right - half)
        lines.append(_fact("forward", x, 37.0, "middle"))
    up, down = _fact("up", left + 9.0, y, "start"), _fact("down", right - 9.0, y, "end")
    ends = [End(left, y - 4.0, 6.0)]
    lines.append(up)
    if up.box.right + 6.0 <= down.box.left:  # else "up" alone says it
        lines.append(down)
        ends.append(End(right, y - 4.0, -6.0))
    return tuple(lines), tuple(ends)


def build_balance(plan: BalancePlan) -> BalanceSheet:
    """Both views, scale and key as shapes."""
    loads = plan.numbered
    scale, zero, top, side = _views(plan, loads)
    floor = top.area.bottom + _FOOT
    base = floor + 18.0
    bar = scale_bar(scale, 90.0)
    length = _fact(bar.words, 21.0 + bar.units, base + 4.0, "start")
    directions, ends = _directions(top, side)
    lines = [*directions, length]
    cg_mark, rows = None, base
    if plan.words and plan.cg_m is not None:
        room = WIDTH - 31.0 - length.x - _GROWN * text_width(bar.words, FACT) - 12.0
        if _GROWN * text_width(plan.words, FACT) > room:  # a line of its own
            rows += _ROW + 4.0
        cg_mark = (WIDTH - 20.0, rows)
        lines.append(_fact(plan.words, WIDTH - 31.0, rows + 4.0, "end"))
    key, bottom = _key(loads, rows + 27.0)
    band = None
    if plan.band_forward_m is not None:
        front, rear = sorted(plan.band_forward_m, reverse=True)
        band = (zero - front * scale, zero - rear * scale)
    return BalanceSheet(
        views=(top, side),
        band=band,
        zero=zero,
        floor=floor,
        ends=ends,
        bar=bar,
        base=base,
        key=key,
        lines=tuple(lines),
        cg_mark=cg_mark,
        height=round(bottom + 2.0),
    )


def balance_drawing(plan: BalancePlan, prefix: str = "balance") -> Markup:
    """Two views, nose up, to one scale, with the centre of gravity, its band, and a key."""
    return draw(
        "balance",
        prefix=prefix,
        width=WIDTH,
        title=f"Balance of {plan.aircraft}",
        desc=balance_words(plan),
        sheet=build_balance(plan),
    )


def balance_words(plan: BalancePlan) -> str:
    """Every load, the centre of gravity and the band in sentences."""
    sentences = [
        f"{load.name} {load.mass_kg * 1000:.0f} g, {place_words(load.forward_m, load.right_m)}."
        for load in plan.loads
    ]
    if plan.cg_m is not None:
        how = f", {plan.words}" if plan.words else ""
        sentences.append(f"Centre of gravity {place_words(*plan.cg_m[:2])}{how}.")
    if plan.band_forward_m is not None:
        front, rear = sorted(plan.band_forward_m, reverse=True)
        sentences.append(f"Its band: {place_words(front, 0)} to {place_words(rear, 0)}.")
    return " ".join(sentences) or "No masses with a place."


def balance_table(plan: BalancePlan) -> Table:
    """One row a load: mass and place, down as a length of its own."""
    rows = tuple(
        (
            load.name,
            f"{load.mass_kg * 1000:.1f} g",
            place_words(load.forward_m, load.right_m),
            length_words(load.down_m),
        )
        for load in plan.loads
    )
    return ("what", "mass", "place", "down"), rows
