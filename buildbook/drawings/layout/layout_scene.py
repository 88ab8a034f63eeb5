"""A layout plan turned into shapes on a plate, ready for the template."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import msgspec

from buildbook.drawings.environment import pair
from buildbook.drawings.layout.layout_labels import (
    Lettering,
    Site,
    fits_inside,
    letter,
    outside_reach,
)
from buildbook.drawings.layout.rotors import Arc, Blade, arc, blade, blades, rim_arcs
from buildbook.drawings.layout.wing_shape import Outline, WingShape, panels_of, shape_of
from buildbook.drawings.lettering import Box
from buildbook.drawings.plate import Extent, Plate, fit_plate
from buildbook.records.layouts import WINGED
from buildbook.report.drawn.plans import Fault, LayoutPlan, SpinState, StationPlan, WingPlan

_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_DIAL_SHARE = 0.04  # of the width
_UNKNOWN_DISC = 15.0
_ROUNDED = 6.0


class Turning(msgspec.Struct, frozen=True):
    """Spin arcs of one station and how sure they are; `seen`: the other way than planned."""

    state: SpinState | Literal["seen"]
    arcs: tuple[Arc, ...]


class Rotor(msgspec.Struct, frozen=True, kw_only=True):
    """One site drawn: a disc, or a bar with a dial where the propeller stands edge-on."""

    site: Site
    known: bool  # whether the size of the propeller is
    pair: bool
    blades: tuple[Blade, ...]
    turning: tuple[Turning, ...]


class FaultMark(msgspec.Struct, frozen=True, kw_only=True):
    """A lettered mark in place, with the words that the key below repeats."""

    letter: str
    words: str
    x: float
    y: float

    @property
    def box(self) -> Box:
        """The room that the mark takes."""
        return Box(self.x - 9, self.y - 9, self.x + 9, self.y + 9)


class Balance(msgspec.Struct, frozen=True, kw_only=True):
    """The mark of the centre of gravity and its band, in units; either may be missing."""

    cg: tuple[float, float] | None = None
    band: Box | None = None


class Scene(msgspec.Struct, frozen=True, kw_only=True):
    """Everything above the strip of scale and legend."""

    plate: Plate
    rotors: tuple[Rotor, ...]
    arms: tuple[tuple[float, float], ...]
    servo: tuple[float, float] | None
    wing: str
    surfaces: str
    sketch: tuple[str, ...]
    balance: Balance
    marks: tuple[FaultMark, ...]
    lettering: Lettering
    hub: float


def sites_of(stations: Sequence[StationPlan]) -> tuple[tuple[StationPlan, ...], ...]:
    """Stations grouped by place: a coaxial pair together (upper first), any other alone."""
    groups: dict[tuple[object, ...], list[StationPlan]] = {}
    for station in stations:
        place = (station.arm, station.forward_m, station.right_m)
        key = (*place, station.name if station.tier == "single" else "pair")
        groups.setdefault(key, []).append(station)
    return tuple(
        tuple(sorted(group, key=lambda station: station.tier == "lower"))
        for group in groups.values()
    )


def _extent(plan: LayoutPlan, shape: WingShape | None) -> Extent:
    points = [(0.0, 0.0)]
    for station in plan.stations:
        half = (station.propeller_m or 0.0) / 2
        deep = 0.0 if plan.layout in WINGED else half
        points.append((station.forward_m + deep, station.right_m + half))
        points.append((station.forward_m - deep, station.right_m - half))
    if shape is not None:
        points += (*shape.wing, *shape.body, *shape.tail)
    if plan.cg is not None and plan.cg.forward_m is not None:
        points.append((plan.cg.forward_m, plan.cg.right_m))
    forwards, rights = zip(*points, strict=True)
    return Extent(front=max(forwards), rear=min(forwards), left=min(rights), right=max(rights))


def _radius(station: StationPlan, plate: Plate) -> float:
    return (station.propeller_m or 0.0) * plate.scale / 2 or _UNKNOWN_DISC


def _sites(plan: LayoutPlan, plate: Plate) -> tuple[Site, ...]:
    edge_on = plan.layout in WINGED
    dial = _DIAL_SHARE * (plate.area.right + 4.0) if edge_on else 0.0
    return tuple(
        Site(
            stations=group,
            x=plate.x(group[0].right_m),
            y=plate.y(group[0].forward_m),
            radius=max(_radius(station, plate) for station in group),
            edge_on=edge_on,
            dial=dial if any(station.turns for station in group) else 0.0,
        )
        for group in sites_of(plan.stations)
    )


def _picture_plate(plan: LayoutPlan, shape: WingShape | None, width: float) -> Plate:
    """The plate of a picture: wide, with room in the corners for a length or two."""
    side, top, tallest = 34.0, 36.0, 0.76 * width
    if plan.wing is not None:
        side, tallest = 20.0, 0.6 * width
    return fit_plate(_extent(plan, shape), width=width, tallest=tallest, top=top, side=side)


def _plate(plan: LayoutPlan, shape: WingShape | None, width: float, lettered: bool) -> Plate:
    """The plate, with room at the edges for words that will not fit into small discs."""
    extent = _extent(plan, shape)
    top, tallest = (36.0, 1.35 * width) if lettered else (20.0, width)
    side = 14.0 if lettered else 9.0
    ends = 6.0
    if any(station.propeller_m is None for station in plan.stations):
        side += 0.5 * _UNKNOWN_DISC
        ends += 0.5 * _UNKNOWN_DISC
    plate = fit_plate(extent, width=width, tallest=tallest, top=top, side=side, ends=ends)
    sites = _sites(plan, plate)
    if not lettered or all(fits_inside(site) for site in sites):
        return plate
    if plan.layout in WINGED:
        ends = 26.0
    else:
        reach = max(outside_reach(site) for site in sites)
        side = max(side, reach + 10.0 - min(site.radius for site in sites))
        ends = 16.0 + 13.5 * max(len(group) for group in sites_of(plan.stations))
        ends += 13.5
    return fit_plate(extent, width=width, tallest=tallest, top=top, side=side, ends=ends)


def _path(outline: Outline, plate: Plate) -> str:
    """A closed line with its corners rounded off, as those of an airframe are."""
    points = [(plate.x(right), plate.y(forward)) for forward, right in outline]
    pieces = []
    befores, afters = points[-1:] + points[:-1], points[1:] + points[:1]
    for before, corner, after in zip(befores, points, afters, strict=True):
        start, end = _towards(corner, before), _towards(corner, after)
        pieces.append(f"{pair(start)}Q{pair(corner)} {pair(end)}")
    return "M" + "L".join(pieces) + "Z"


def _surfaces(wing: WingPlan | None, shape: WingShape | None, plate: Plate) -> str:
    """Hinge and ends of each surface; the trailing edge is that of the wing or tail."""
    if wing is None or shape is None:
        return ""
    return "".join(
        "M" + "L".join(pair((plate.x(right), plate.y(forward))) for forward, right in line)
        for surface in wing.surfaces
        for inner, outer, outer_edge, inner_edge in panels_of(surface, wing, shape)
        for line in ((inner_edge, inner, outer, outer_edge),)
    )


def _towards(corner: tuple[float, float], other: tuple[float, float]) -> tuple[float, float]:
    """The point where the rounding of a corner begins: a third of the way, six units at most."""
    long = math.dist(corner, other)
    share = min(1 / 3, _ROUNDED / long) if long > 0 else 0.0
    return (
        corner[0] + share * (other[0] - corner[0]),
        corner[1] + share * (other[1] - corner[1]),
    )


def _single(site: Site) -> tuple[tuple[Blade, ...], tuple[Turning, ...]]:
    station = site.stations[0]
    shapes = blades(site.x, site.y, site.radius, station.blades, station.hand)
    if station.turns is None:
        return shapes, ()
    arcs = rim_arcs(site.x, site.y, site.radius, station.turns)
    if station.otherwise and station.spin is not None:
        planned = rim_arcs(site.x, site.y, site.radius, station.spin)
        return shapes, (Turning("seen", arcs[:1]), Turning("planned", planned[1:]))
    return shapes, (Turning(station.spin_state, arcs),)


def _pair(site: Site) -> tuple[tuple[Blade, ...], tuple[Turning, ...]]:
    """The upper rotor along the upper half of the rim, the lower one along the lower half."""
    shapes: list[Blade] = []
    turning: list[Turning] = []
    for station in site.stations:
        middle = -90.0 if station.tier == "upper" else 90.0
        sign = 1 if station.turns == "cw" else -1
        start = middle - sign * 62.0
        if station.hand is not None:
            tip = start - sign * 6.0
            shapes.append(blade(site.x, site.y, site.radius, tip, station.hand, 0.62))
        if station.turns is not None:
            rim = arc(site.x, site.y, site.radius, start, station.turns, 124.0)
            turning.append(Turning("seen" if station.otherwise else station.spin_state, (rim,)))
    return tuple(shapes), tuple(turning)


def _rotor(site: Site) -> Rotor:
    known = any(station.propeller_m for station in site.stations)
    shapes: tuple[Blade, ...] = ()
    if site.edge_on:
        turning = _single(msgspec.structs.replace(site, x=site.dial_x, radius=site.dial))[1]
    elif len(site.stations) == 1:
        shapes, turning = _single(site)
    else:
        shapes, turning = _pair(site)
    return Rotor(
        site=site,
        known=known,
        pair=len(site.stations) > 1,
        blades=shapes if known else (),
        turning=turning,
    )


def _marks(faults: Sequence[Fault], sites: Sequence[Site], plate: Plate) -> tuple[FaultMark, ...]:
    """Marks on the rim of one site or halfway between two, pushed apart where they would meet."""
    at = {station.name: (site, station) for site in sites for station in site.stations}
    placed: list[FaultMark] = []
    for number, fault in enumerate(faults):
        found = [at[name] for name in fault.stations if name in at]
        if not found:
            x, y = plate.area.right - 14.0, plate.area.top + 12.0
        elif len({id(site) for site, _ in found}) == 1:
            site, station = found[0]
            y_side = 0.72 if station.tier == "lower" and len(found) == 1 else -0.72
            x, y = site.x + 0.72 * site.radius, site.y + y_side * site.radius
        else:
            x = sum(site.x for site, _ in found) / len(found)
            y = sum(site.y for site, _ in found) / len(found)
        x = min(max(x, plate.area.left + 11), plate.area.right - 11)
        y = min(max(y, plate.area.top + 11), plate.area.bottom - 11)
        mark = FaultMark(
            letter=_LETTERS[number] if number < len(_LETTERS) else str(number + 1),
            words=fault.words,
            x=x,
            y=y,
        )
        for step in range(12):
            if not any(mark.box.meets(other.box) for other in placed):
                break
            shifted = x + 19.0 * (step // 2 + 1) * (-1 if step % 2 else 1)
            shifted = min(max(shifted, plate.area.left + 11), plate.area.right - 11)
            mark = msgspec.structs.replace(mark, x=shifted)
        placed.append(mark)
    return tuple(placed)


def _balance(plan: LayoutPlan, plate: Plate) -> Balance:
    cg = plan.cg
    if cg is None:
        return Balance()
    band = cg.band_forward_m
    if cg.band_share is not None and plan.wing is not None:
        edge, chord = plan.wing.leading_edge_aft_m, plan.wing.mean_chord_m
        band = (-(edge + cg.band_share[0] * chord), -(edge + cg.band_share[1] * chord))
    half = 21.0 if plan.wing is not None else 5.0
    box = None
    if band is not None:
        front, rear = sorted(band, reverse=True)
        box = Box(plate.x(0) - half, plate.y(front), plate.x(0) + half, plate.y(rear))
    mark = None if cg.forward_m is None else (plate.x(cg.right_m), plate.y(cg.forward_m))
    return Balance(cg=mark, band=box)


def build_scene(
    plan: LayoutPlan,
    faults: Sequence[Fault],
    width: float,
    lettered: bool = True,
    pictured: bool = False,
) -> Scene:
    """Shapes and words of the plan at `width` units; unlettered for a thumbnail.

    pictured: placed as on a portrait, with room for lengths.
    """
    edge_on = plan.layout in WINGED
    shape = shape_of(plan)
    plate = _picture_plate(plan, shape, width) if pictured else _plate(plan, shape, width, lettered)
    sites = _sites(plan, plate)
    hub = 15.0 if lettered else 7.0
    marks = _marks(faults, sites, plate)
    balance = _balance(plan, plate)
    taken = [mark.box for mark in marks]
    if balance.cg is not None:
        taken.append(
            Box(balance.cg[0] - 9, balance.cg[1] - 9, balance.cg[0] + 9, balance.cg[1] + 9)
        )
    servo = None
    rear = next((site for site in sites if site.name == "rear"), None)
    if plan.layout == "tri-y" and rear is not None:
        servo = (plate.x(0), (plate.y(0) + hub + rear.y - rear.radius) / 2)
        taken.append(Box(servo[0] - 12, servo[1] - 9, servo[0] + 82, servo[1] + 9))
    middle = (plate.x(0), plate.y(0))
    lettering = letter(sites, taken, plate.area, middle) if lettered else Lettering((), ())
    return Scene(
        plate=plate,
        rotors=tuple(_rotor(site) for site in sites),
        arms=() if edge_on else tuple((site.x, site.y) for site in sites),
        servo=servo,
        wing="" if shape is None else _path(shape.wing, plate),
        surfaces=_surfaces(plan.wing, shape, plate),
        sketch=() if shape is None else (_path(shape.body, plate), _path(shape.tail, plate)),
        balance=balance,
        marks=marks,
        lettering=lettering,
        hub=0.0 if edge_on else hub,
    )
