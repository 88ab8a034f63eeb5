"""Shapes of a turning propeller: blades whose heavy edge leads, and arcs that run along the rim.

Screen angles: degrees, 0 to the right, growing clockwise (y runs down), so that a clockwise
rotor seen from above turns towards growing angles.
"""

from __future__ import annotations

import math

import msgspec

from buildbook.drawings.environment import pair, short
from buildbook.report.drawn.plans import Turn

_SWEEP_DEG = 78.0
_GAP_DEG = 5.0


class Arc(msgspec.Struct, frozen=True):
    """A spin arc: the path along the rim, its arrow head, and the middle for a cross."""

    path: str
    head: str
    cross: str


class Blade(msgspec.Struct, frozen=True):
    """A blade: its outline, and the leading edge (empty where the hand is not known)."""

    outline: str
    edge: str


def _at(x: float, y: float, radius: float, angle_deg: float) -> tuple[float, float]:
    angle = math.radians(angle_deg)
    return x + radius * math.cos(angle), y + radius * math.sin(angle)


def arc(x: float, y: float, radius: float, start_deg: float, turn: Turn, sweep: float) -> Arc:
    """The arc from `start_deg` over `sweep` degrees in the direction of `turn`."""
    sign = 1 if turn == "cw" else -1
    head_deg = math.degrees(min(9.0, 0.42 * radius) / radius)
    tip_deg = start_deg + sign * sweep
    foot_deg = tip_deg - sign * head_deg
    begin, foot = _at(x, y, radius, start_deg), _at(x, y, radius, foot_deg)
    path = f"M{pair(begin)}A{short(radius)} {short(radius)} 0 0 {int(sign > 0)} {pair(foot)}"
    half = min(4.4, 0.2 * radius)
    tip = _at(x, y, radius - 0.06 * half, tip_deg)
    outer, inner = _at(x, y, radius + half, foot_deg), _at(x, y, radius - half, foot_deg)
    notch = _at(x, y, radius, foot_deg + sign * head_deg * 0.22)
    head = f"M{pair(tip)}L{pair(outer)}L{pair(notch)}L{pair(inner)}Z"
    middle = _at(x, y, radius, start_deg + sign * sweep * 0.45)
    size = min(5.5, 0.26 * radius)
    cross = "".join(
        f"M{short(middle[0] - size)} {short(middle[1] - size * way)}"
        f"L{short(middle[0] + size)} {short(middle[1] + size * way)}"
        for way in (1, -1)
    )
    return Arc(path, head, cross)


def rim_arcs(x: float, y: float, radius: float, turn: Turn) -> tuple[Arc, ...]:
    """Two arcs, each running ahead of a blade tip of a rotor with level blades."""
    sign = 1 if turn == "cw" else -1
    return tuple(
        arc(x, y, radius, start + sign * _GAP_DEG, turn, _SWEEP_DEG) for start in (0.0, 180.0)
    )


def blade(
    x: float, y: float, radius: float, angle_deg: float, hand: Turn | None, inner: float = 0.06
) -> Blade:
    """One blade from `inner` radii outwards; a `cw` hand leads with its clockwise edge.

    Without a hand it is drawn evenly, with no leading edge.
    """
    along = math.radians(angle_deg)
    side = {"cw": 1.0, "ccw": -1.0, None: 0.0}[hand]
    run = 0.97 - inner

    def point(share: float, lead: float) -> str:
        """`share` of the run along the blade, and `lead` radii towards clockwise."""
        out = inner + share * run
        px = x + radius * (out * math.cos(along) - lead * math.sin(along))
        py = y + radius * (out * math.sin(along) + lead * math.cos(along))
        return f"{short(px)} {short(py)}"

    if side == 0:
        outline = f"M{point(0, 0.03)}L{point(1, 0.03)}L{point(1, -0.03)}L{point(0, -0.03)}Z"
        return Blade(outline, "")
    lead = f"M{point(0, 0.03 * side)}C{point(0.3, 0.05 * side)} {point(0.7, 0.05 * side)} "
    lead += point(1, 0.0)
    back = f"C{point(0.7, -0.06 * side)} {point(0.4, -0.2 * side * run)} {point(0, -0.03 * side)}Z"
    return Blade(lead + back, lead)


def blades(x: float, y: float, radius: float, count: int, hand: Turn | None) -> tuple[Blade, ...]:
    """All blades of a propeller, level for two and evenly round for more."""
    step = 360.0 / max(count, 1)
    return tuple(blade(x, y, radius, 180.0 + step * number, hand) for number in range(count))
