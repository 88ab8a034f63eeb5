"""What weighs where: masses as discs of that area, from above and from the left side."""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec
from markupsafe import Markup

from buildbook.drawings.environment import draw
from buildbook.drawings.lettering import Anchor, Box, Line, clear
from buildbook.drawings.plate import Extent, Plate, fit_plate, scale_bar
from buildbook.report.drawn.plans import BalancePlan, LoadPlan, Table
from buildbook.words.measures.lengths import length_words, place_words

WIDTH = 340.0
_FACT = 11.5
_LARGEST = 17.0  # radius of the heaviest load


class LoadDisc(msgspec.Struct, frozen=True):
    """A load on one of the two views."""

    x: float
    y: float
    r: float


class View(msgspec.Struct, frozen=True, kw_only=True):
    """One view: its words, discs, centre of gravity, band."""

    head: Line
    discs: tuple[LoadDisc, ...]
    lines: tuple[Line, ...]
    cg: tuple[float, float] | None
    band: Box | None
    axis: tuple[float, float, float, float]
    bottom: float


def _nose_left(plan: BalancePlan, plate: Plate, side_view: bool) -> View:
    """Both views have the nose at the left; from above, the right side is then at the top."""
    most = max((load.mass_kg for load in plan.loads), default=1.0) or 1.0

    def at(forward: float, right: float, down: float) -> tuple[float, float]:
        return plate.x(-forward), plate.y(-down if side_view else right)

    discs = tuple(
        LoadDisc(
            *at(load.forward_m, load.right_m, load.down_m),
            max(_LARGEST * math.sqrt(max(load.mass_kg, 0.0) / most), 1.8),
        )
        for load in plan.loads
    )
    cg = None if plan.cg_m is None else at(*plan.cg_m)
    band = None
    if plan.band_forward_m is not None:
        front, rear = sorted(plan.band_forward_m, reverse=True)
        band = Box(plate.x(-front), plate.area.top + 4, plate.x(-rear), plate.area.bottom - 4)
    taken = [] if cg is None else [Box(cg[0] - 8, cg[1] - 8, cg[0] + 8, cg[1] + 8)]
    words = "from the left side" if side_view else "from above"
    head = Line(text=words, x=10.0, y=plate.area.top - 4.0, size=_FACT, anchor="start")
    return View(
        head=head,
        discs=discs,
        lines=_names(plan.loads, discs, taken, plate.area),
        cg=cg,
        band=band,
        axis=(plate.area.left + 4, plate.y(0), plate.area.right - 4, plate.y(0)),
        bottom=plate.area.bottom,
    )


def _name(load: LoadPlan, x: float, y: float, anchor: Anchor) -> Line:
    return Line(text=load.name, x=x, y=y, size=_FACT, anchor=anchor)


def _names(
    loads: Sequence[LoadPlan], discs: Sequence[LoadDisc], taken: list[Box], bounds: Box
) -> tuple[Line, ...]:
    """Names where they fit, best off the discs, the heaviest first; the table has them all."""
    lines: list[Line] = []
    boxes = list(taken)
    order = sorted(range(len(loads)), key=lambda place: (-loads[place].mass_kg, place))
    for place in order:
        load, disc = loads[place], discs[place]

        choices = (
            _name(load, disc.x, disc.y + disc.r + 11.0, "middle"),
            _name(load, disc.x, disc.y - disc.r - 4.0, "middle"),
            _name(load, disc.x + disc.r + 4.0, disc.y + 4.0, "start"),
            _name(load, disc.x - disc.r - 4.0, disc.y + 4.0, "end"),
        )
        free = [one for one in choices if clear([one], boxes, bounds)]
        others = [Box(o.x - o.r, o.y - o.r, o.x + o.r, o.y + o.r) for o in discs if o is not disc]
        off_discs = (one for one in free if clear([one], others, bounds))
        chosen = next(iter((*off_discs, *free)), None)
        if chosen is not None:
            lines.append(chosen)
            boxes.append(chosen.box)
    return tuple(lines)


def _extent(plan: BalancePlan, side_view: bool) -> Extent:
    across = [-load.forward_m for load in plan.loads]
    along = [-load.down_m if side_view else load.right_m for load in plan.loads]
    if plan.cg_m is not None:
        across.append(-plan.cg_m[0])
        along.append(-plan.cg_m[2] if side_view else plan.cg_m[1])
    across += (-end for end in plan.band_forward_m or ())
    return Extent(
        front=max(along, default=0.0),
        rear=min(along, default=0.0),
        left=min(across, default=0.0),
        right=max(across, default=0.0),
    )


def _scale_for(plan: BalancePlan) -> float:
    """One scale for both views: the smaller of what each would take."""
    return min(
        fit_plate(_extent(plan, side), width=WIDTH, tallest=210.0, top=0.0, side=40.0).scale
        for side in (False, True)
    )


def _plate(plan: BalancePlan, side_view: bool, top: float, scale: float) -> Plate:
    extent = _extent(plan, side_view)
    middle = (extent.left + extent.right) / 2
    high = (extent.front - extent.rear) * scale + 70.0
    return Plate(
        scale=scale,
        x0=WIDTH / 2 - middle * scale,
        y0=top + 35.0 + extent.front * scale,
        area=Box(4.0, top, WIDTH - 4.0, top + high),
    )


def balance_drawing(plan: BalancePlan, prefix: str = "balance") -> Markup:
    """Two views, nose at the left, to one scale, with the centre of gravity and its band."""
    scale = _scale_for(plan)
    top = _nose_left(plan, _plate(plan, False, 22.0, scale), False)
    side = _nose_left(plan, _plate(plan, True, top.bottom + 22.0, scale), True)
    return draw(
        "balance",
        prefix=prefix,
        width=WIDTH,
        height=round(side.bottom + 28.0),
        title=f"Balance of {plan.aircraft}",
        desc=balance_words(plan),
        views=(top, side),
        bar=scale_bar(scale, 100.0),
        base=side.bottom + 16.0,
        words=plan.words,
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
