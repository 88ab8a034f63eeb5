"""The rotors of a portrait: blades in their sweep, the motor, and which way they turn."""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec

from buildbook.drawings.environment import short
from buildbook.drawings.layout.layout_labels import Site
from buildbook.drawings.layout.layout_scene import Turning
from buildbook.drawings.layout.rotors import Arc, arc, blade
from buildbook.report.drawn.plans import StationPlan, Turn

_SLANT_DEG = -26.0  # of the blades against a line across the arm, mirrored left and right
_APART_DEG = 58.0  # between the blades of a coaxial pair
_WAKE_DEG = (13.0, 27.0, 43.0)
_AHEAD_DEG = 6.0
_SWEEP_DEG = 64.0
_MOTOR_SHARE = 0.1  # of the propeller, a sketch
_SPOKES = 9


class Portrayed(msgspec.Struct, frozen=True, kw_only=True):
    """One site as a picture: paths from the lowest up."""

    site: Site
    known: bool  # whether the size of the propeller is
    lower: str  # the blades of a lower rotor
    blades: str
    wakes: tuple[str, ...]  # each a little shorter, laid over one another
    motor: float  # radius
    bell: str  # what is seen of it between the blades
    turning: tuple[Turning, ...]


def portrayed(site: Site, middle: tuple[float, float]) -> Portrayed:
    """A rotor as seen from above; a propeller edge-on where the aircraft is an aeroplane."""
    upper, lower = site.stations[0], site.stations[1:]
    at = _blade_angle(site, middle)
    motor = min(max(_MOTOR_SHARE * site.radius, 3.6), 12.0)
    if site.edge_on:
        return Portrayed(
            site=site,
            known=upper.propeller_m is not None,
            lower="",
            blades=_edge_on(site),
            wakes=(),
            motor=motor,
            bell="",
            turning=(),
        )
    tips = _tips(upper, at)
    return Portrayed(
        site=site,
        known=upper.propeller_m is not None,
        lower="".join(
            _outline(site, station, angle)
            for station in lower
            for angle in _tips(station, at + _APART_DEG)
        ),
        blades="".join(_outline(site, upper, angle) for angle in tips),
        wakes=() if upper.turns is None else _wakes(site, tips, upper.turns),
        motor=motor,
        bell=_bell(site, motor),
        turning=_turning(site, tips, at),
    )


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


def _at(site: Site, radius: float, angle: float) -> str:
    turned = math.radians(angle)
    x, y = site.x + radius * math.cos(turned), site.y + radius * math.sin(turned)
    return f"{short(x)} {short(y)}"


def _wakes(site: Site, tips: Sequence[float], turn: Turn) -> tuple[str, ...]:
    """What the blades have just swept: sectors behind each, one over another."""
    sign = -1 if turn == "cw" else 1
    radius = 0.97 * site.radius
    r, way = short(radius), int(sign > 0)
    centre = f"{short(site.x)} {short(site.y)}"
    return tuple(
        "".join(
            f"M{centre}L{_at(site, radius, tip)}"
            f"A{r} {r} 0 0 {way} {_at(site, radius, tip + sign * wide)}Z"
            for tip in tips
        )
        for wide in _WAKE_DEG
    )


def _bell(site: Site, motor: float) -> str:
    """Spokes between shaft and rim."""
    return "".join(
        f"M{_at(site, 0.42 * motor, angle)}L{_at(site, 0.8 * motor, angle)}"
        for angle in (360.0 / _SPOKES * number for number in range(_SPOKES))
    )


def _edge_on(site: Site) -> str:
    """A propeller from above: a lens, thick at the hub."""
    x, y, r = site.x, site.y, site.radius
    left, right = f"{short(x - r)} {short(y)}", f"{short(x + r)} {short(y)}"
    thick = max(0.085 * r, 2.0)
    fore, aft = f"{short(x)} {short(y - thick)}", f"{short(x)} {short(y + thick)}"
    return f"M{left}Q{fore} {right}Q{aft} {left}Z"


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
