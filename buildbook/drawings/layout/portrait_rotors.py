"""The rotors of a portrait: blades in their sweep, the motor, and which way they turn."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Literal

import msgspec

from buildbook.drawings.environment import short
from buildbook.drawings.layout.layout_labels import Site
from buildbook.drawings.layout.layout_scene import Turning
from buildbook.drawings.layout.rotors import Arc, arc, blade
from buildbook.drawings.layout.view import View, standing
from buildbook.report.drawn.plans import SpinState, StationPlan, Turn

_SLANT_DEG = -18.0  # of the blades against a line across the arm, mirrored left and right
_WAKE_DEG = 32.0
_AHEAD_DEG = 6.0
_SWEEP_DEG = 64.0
_MOTOR_SHARE = 0.1  # of the propeller, a sketch
_MOTOR_HIGH = 1.5  # radii, a sketch as well
_SHAFT_HIGH = 0.5


class Rotors(msgspec.Struct, frozen=True, kw_only=True):
    """Rotors of one height, level under one matrix, in layers from the lowest up."""

    matrix: str
    discs: str = ""
    unknown: str = ""  # discs of propellers whose size no record tells
    wakes: str = ""
    blades: str = ""
    hubs: str = ""  # the middles, for dots of the breadth of a shaft nut
    nut: float = 0.0
    turning: tuple[Turning, ...] = ()


class Motors(msgspec.Struct, frozen=True, kw_only=True):
    """Cylinders on the picture itself: their outlines, and their upper faces."""

    outlines: str
    faces: str


def motor_radius(site: Site) -> float:
    """A sketch: no record tells it."""
    return min(max(_MOTOR_SHARE * site.radius, 3.6), 12.0)


def disc_up(sites: Sequence[Site], tube: float) -> float:
    """How high above the arms the propellers turn; as deep below them on the lower deck."""
    return tube / 2.0 + (_MOTOR_HIGH + _SHAFT_HIGH) * max(map(motor_radius, sites), default=0.0)


def motors(view: View, sites: Sequence[Site], tube: float, side: Literal[1, -1]) -> Motors:
    """The motors of one deck, on the arms or hanging below them."""
    found = []
    for site in sorted(sites, key=lambda one: view.at(one.x, one.y)[1]):
        r = motor_radius(site)
        ends = sorted((side * tube / 2.0, side * (tube / 2.0 + _MOTOR_HIGH * r)))
        found.append(standing(view, (site.x, site.y), r, *ends))
    return Motors(
        outlines="".join(outline for outline, _ in found), faces="".join(face for _, face in found)
    )


def turning_rotors(sites: Sequence[Site], middle: tuple[float, float], matrix: str) -> Rotors:
    """The rotors of one deck, each site with one station."""
    angles = [_blade_angle(site, middle) for site in sites]
    tips = [_tips(site.stations[0], at) for site, at in zip(sites, angles, strict=True)]
    return Rotors(
        matrix=matrix,
        discs="".join(_ring(site) for site in sites if site.stations[0].propeller_m),
        unknown="".join(_ring(site) for site in sites if not site.stations[0].propeller_m),
        wakes="".join(_wake(site, ends) for site, ends in zip(sites, tips, strict=True)),
        blades="".join(
            blade(site.x, site.y, site.radius, angle, site.stations[0].hand).outline
            for site, ends in zip(sites, tips, strict=True)
            for angle in ends
        ),
        hubs="".join(f"M{short(site.x)} {short(site.y)}h0" for site in sites),
        nut=1.1 * max(map(motor_radius, sites), default=0.0),
        turning=_by_state(
            turning
            for site, ends in zip(sites, tips, strict=True)
            for turning in _turning(site, ends[0])
        ),
    )


def ring(x: float, y: float, r: float) -> str:
    """A circle as a path."""
    half, whole = short(r), short(2 * r)
    round_ = f"a{half} {half} 0 1 0"
    return f"M{short(x - r)} {short(y)}{round_} {whole} 0{round_}-{whole} 0Z"


def _ring(site: Site) -> str:
    return ring(site.x, site.y, site.radius)


def _by_state(found: Iterable[Turning]) -> tuple[Turning, ...]:
    arcs: dict[SpinState | Literal["seen"], list[Arc]] = {}
    for turning in found:
        arcs.setdefault(turning.state, []).extend(turning.arcs)
    return tuple(Turning(state, tuple(of_state)) for state, of_state in arcs.items())


def _blade_angle(site: Site, middle: tuple[float, float]) -> float:
    """Across the arm and a little slanted, so that left and right mirror each other."""
    across, along = site.x - middle[0], site.y - middle[1]
    bearing = math.degrees(math.atan2(along, across)) if math.hypot(across, along) > 1 else 0.0
    return bearing + 90.0 + (_SLANT_DEG if across > -1 else -_SLANT_DEG)


def _tips(station: StationPlan, at: float) -> tuple[float, ...]:
    count = max(station.blades, 1)
    return tuple(at + 360.0 / count * number for number in range(count))


def _whole(site: Site, radius: float, angle: float) -> str:
    """A point of a soft edge: whole units are fine enough, and short."""
    turned = math.radians(angle)
    x, y = site.x + radius * math.cos(turned), site.y + radius * math.sin(turned)
    return f"{x:.0f} {y:.0f}"


def _wake(site: Site, tips: Sequence[float]) -> str:
    """What the blades have just swept: a sector behind each; none where no turn is known."""
    turn = site.stations[0].turns
    if turn is None:
        return ""
    sign = -1 if turn == "cw" else 1
    radius = 0.97 * site.radius
    r, way = f"{radius:.0f}", int(sign > 0)
    centre = f"{site.x:.0f} {site.y:.0f}"
    return "".join(
        f"M{centre}L{_whole(site, radius, tip)}"
        f"A{r} {r} 0 0 {way} {_whole(site, radius, tip + sign * _WAKE_DEG)}Z"
        for tip in tips
    )


def _turning(site: Site, tip: float) -> tuple[Turning, ...]:
    station = site.stations[0]
    if station.turns is None:
        return ()
    if station.otherwise and station.spin is not None:
        seen, planned = _ahead(site, tip, station.turns), _ahead(site, tip + 180.0, station.spin)
        return Turning("seen", (seen,)), Turning("planned", (planned,))
    arcs = tuple(_ahead(site, start, station.turns) for start in (tip, tip + 180.0))
    return (Turning(station.spin_state, arcs),)


def _ahead(site: Site, tip: float, turn: Turn) -> Arc:
    sign = 1 if turn == "cw" else -1
    return arc(site.x, site.y, site.radius, tip + sign * _AHEAD_DEG, turn, _SWEEP_DEG)
