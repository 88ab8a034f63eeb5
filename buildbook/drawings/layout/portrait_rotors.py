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
from buildbook.report.drawn.plans import SpinState, StationPlan, Turn

_SLANT_DEG = -18.0  # of the blades against a line across the arm, mirrored left and right
_APART_DEG = 58.0  # between the blades of a coaxial pair
_WAKE_DEG = (18.0, 40.0)
_AHEAD_DEG = 6.0
_SWEEP_DEG = 64.0
_MOTOR_SHARE = 0.1  # of the propeller, a sketch


class Rotors(msgspec.Struct, frozen=True, kw_only=True):
    """All rotors as a picture, in layers from the lowest up: a path each, empty where none is."""

    discs: str = ""
    unknown: str = ""  # discs of propellers whose size no record tells
    wakes: tuple[str, ...] = ()  # each a little shorter, laid over one another
    lower: str = ""  # the blades of lower rotors
    blades: str = ""
    spinners: str = ""
    hubs: str = ""  # the middles, for dots of the breadth of a motor
    motor: float = 0.0  # its radius
    bells: str = ""  # what is seen of the motors between the blades: rings, to be dashed
    turning: tuple[Turning, ...] = ()


def portrayed(sites: Sequence[Site], middle: tuple[float, float]) -> Rotors:
    """The rotors as seen from above; propellers edge-on where the aircraft is an aeroplane."""
    edge_on = [site for site in sites if site.edge_on]
    flat = [site for site in sites if not site.edge_on]
    angles = [_blade_angle(site, middle) for site in flat]
    tips = [_tips(site.stations[0], at) for site, at in zip(flat, angles, strict=True)]
    motor = max(map(_motor, flat), default=0.0)
    return Rotors(
        discs="".join(_ring(site, site.radius) for site in flat if site.stations[0].propeller_m),
        unknown="".join(
            _ring(site, site.radius) for site in flat if not site.stations[0].propeller_m
        ),
        wakes=tuple(
            "".join(_wake(site, ends, wide) for site, ends in zip(flat, tips, strict=True))
            for wide in _WAKE_DEG
        ),
        lower="".join(
            _outline(site, station, angle)
            for site, at in zip(flat, angles, strict=True)
            for station in site.stations[1:]
            for angle in _tips(station, at + _APART_DEG)
        ),
        blades="".join(_edge_on(site) for site in edge_on)
        + "".join(
            _outline(site, site.stations[0], angle)
            for site, ends in zip(flat, tips, strict=True)
            for angle in ends
        ),
        spinners="".join(_spinner(site) for site in edge_on),
        hubs="".join(f"M{short(site.x)} {short(site.y)}h0" for site in flat),
        motor=motor,
        bells="".join(_ring(site, 0.62 * motor) for site in flat),
        turning=_by_state(
            turning
            for site, ends, at in zip(flat, tips, angles, strict=True)
            for turning in _turning(site, ends, at)
        ),
    )


def _motor(site: Site) -> float:
    return min(max(_MOTOR_SHARE * site.radius, 3.6), 12.0)


def _ring(site: Site, r: float) -> str:
    half, whole = short(r), short(2 * r)
    round_ = f"a{half} {half} 0 1 0"
    return f"M{short(site.x - r)} {short(site.y)}{round_} {whole} 0{round_}-{whole} 0Z"


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


def _outline(site: Site, station: StationPlan, angle: float) -> str:
    return blade(site.x, site.y, site.radius, angle, station.hand).outline


def _whole(site: Site, radius: float, angle: float) -> str:
    """A point of a soft edge: whole units are fine enough, and short."""
    turned = math.radians(angle)
    x, y = site.x + radius * math.cos(turned), site.y + radius * math.sin(turned)
    return f"{x:.0f} {y:.0f}"


def _wake(site: Site, tips: Sequence[float], wide: float) -> str:
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
        f"A{r} {r} 0 0 {way} {_whole(site, radius, tip + sign * wide)}Z"
        for tip in tips
    )


def _edge_on(site: Site) -> str:
    """A propeller from above: a lens, thick at the hub."""
    x, y, r = site.x, site.y, site.radius
    left, right = f"{short(x - r)} {short(y)}", f"{short(x + r)} {short(y)}"
    thick = max(0.085 * r, 2.0)
    fore, aft = f"{short(x)} {short(y - thick)}", f"{short(x)} {short(y + thick)}"
    return f"M{left}Q{fore} {right}Q{aft} {left}Z"


def _spinner(site: Site) -> str:
    """The cone before the hub of a propeller."""
    x, y, r = site.x, site.y, _motor(site)
    tip = f"{short(x)} {short(y - 2.2 * r)}"
    left, right = f"{short(x - r)} {short(y)}", f"{short(x + r)} {short(y)}"
    near, far = f"{short(x - r)} {short(y - 1.9 * r)}", f"{short(x + r)} {short(y - 1.9 * r)}"
    return f"M{left}Q{near} {tip}Q{far} {right}Z"


def _turning(site: Site, tips: Sequence[float], at: float) -> tuple[Turning, ...]:
    upper, lower = site.stations[0], site.stations[1:]
    found: list[Turning] = []
    middles: list[float] = []
    if upper.turns is not None:
        if upper.otherwise and upper.spin is not None:
            found.append(Turning("seen", (_ahead(site, tips[0], upper.turns),)))
            found.append(Turning("planned", (_ahead(site, tips[0] + 180.0, upper.spin),)))
        else:
            starts = (tips[0],) if lower else (tips[0], tips[0] + 180.0)
            arcs = tuple(_ahead(site, start, upper.turns) for start in starts)
            found.append(Turning(upper.spin_state, arcs))
        middles.append(_middle(tips[0], upper.turns))
    for station in lower:
        if station.turns is None:
            continue
        turns = station.turns
        start = max(
            (at + _APART_DEG + half for half in (0.0, 180.0)),
            key=lambda one: min((_apart(_middle(one, turns), m) for m in middles), default=0.0),
        )
        state = "seen" if station.otherwise else station.spin_state
        found.append(Turning(state, (_ahead(site, start, turns),)))
    return tuple(found)


def _ahead(site: Site, tip: float, turn: Turn) -> Arc:
    sign = 1 if turn == "cw" else -1
    return arc(site.x, site.y, site.radius, tip + sign * _AHEAD_DEG, turn, _SWEEP_DEG)


def _middle(tip: float, turn: Turn) -> float:
    return tip + (1 if turn == "cw" else -1) * (_AHEAD_DEG + _SWEEP_DEG / 2.0)


def _apart(one: float, other: float) -> float:
    """Degrees between two directions, at most 180."""
    return abs((one - other + 180.0) % 360.0 - 180.0)
