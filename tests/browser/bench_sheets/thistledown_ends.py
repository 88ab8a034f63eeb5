"""Thistledown's two ends: fin, rudder and tailplane; how the motor sits and where it points."""

import math

from buildbook.report.state import AircraftNow

from .paper import Paper
from .thistledown import FIN, FIN_TOP, RUDDER, RUDDER_END, TAILPLANE, TRAY_LONG, mm

HIGH = 416.0
BULKHEAD, DOWN_DEG, RIGHT_DEG = 36.0, 2.0, 1.5
MOUNT = (16.0, 19.0)
HINGE, SPAN, EDGE = 64.0, 450.0, 400.0
SEAT = (60.0, 20.0)
HORN_BESIDE = 20.0
"""Of the elevator: to the left of the middle, where the top of the rudder goes by it."""
TRAY_WIDE, SERVOS = 50.0, (23.0, 12.0, 30.0)
"""Openings long and wide, and how far their middles are apart."""


def offset(degrees: float) -> float:
    """By how much one edge of the bulkhead stands before the other, in mm."""
    return BULKHEAD * math.tan(math.radians(degrees))


def tail(now: AircraftNow) -> Paper:
    """Fin and rudder from the left, the tailplane from above."""
    paper, scale, left, zero = Paper(HIGH), 0.85, 24.0, 228.0
    elevator, rudder = now.surfaces["elevator"], now.surfaces["rudder"]
    chord, long = mm(elevator.chord_m), mm(elevator.length_m)
    deep, high = mm(rudder.chord_m), mm(rudder.length_m)

    def at(aft: float, up: float) -> tuple[float, float]:
        return left + (aft - FIN[0][0]) * scale, zero - up * scale

    paper.say(12, 20, "Fin and rudder, from the left", "head")
    for outline in (FIN, RUDDER):
        paper.line("part", *(at(*point) for point in outline), closed=True)
    root, top, hinge = FIN[0][0], FIN[1][0], FIN[2][0]
    paper.box("cut", *at(top - 9, FIN_TOP + 3), SEAT[0] * scale, 3 * scale)
    paper.along(*(at(x, 0)[0] for x in (top, hinge)), at(0, FIN_TOP)[1] - 12, f"{hinge - top:.0f}")
    paper.along(
        *(at(x, 0)[0] for x in (hinge, RUDDER[1][0])),
        at(0, FIN_TOP)[1] - 6,
        f"{RUDDER[1][0] - hinge:.0f}",
    )
    paper.along(*(at(x, 0)[0] for x in (root, hinge)), zero + 6, f"{hinge - root:.0f}", True)
    paper.along(at(hinge, 0)[0], at(RUDDER_END, 0)[0], zero + 12, f"{deep:.0f}", below=True)
    paper.beside(
        at(RUDDER_END, 0)[0] + 12,
        at(0, RUDDER[0][1])[1],
        at(0, RUDDER[2][1])[1],
        f"rudder {high:.0f}",
    )
    words = (
        f"Fin: top {FIN_TOP:.0f} above",
        "the thrust line, root",
        f"{root:.0f} to {hinge:.0f} behind",
        "the nose, 12 thick.",
        "Seat of ply 3,",
        f"{SEAT[0]:.0f} x {SEAT[1]:.0f}, two nylon",
        "bolts M3 30 apart.",
        "Rudder: top 12 below",
        "that of the fin, foot",
        "2 below the line.",
    )
    for row, said in enumerate(words):
        paper.say(184, (46 if row < 4 else 110) + 16 * row, said)
    _tailplane(paper, chord, long)
    return paper


def _tailplane(paper: Paper, chord: float, long: float) -> None:
    scale, left, top = 0.55, 16.0, 298.0
    paper.say(12, top - 16, "Tailplane, from above", "head")
    wide, fixed, inset = SPAN * scale, HINGE * scale, (SPAN - EDGE) / 2 * scale
    paper.line(
        "part",
        (left + inset, top),
        (left + wide - inset, top),
        (left + wide, top + fixed),
        (left, top + fixed),
        closed=True,
    )
    end = (SPAN - long) / 2 * scale
    paper.box("part", left + end, top + fixed + 1.5, long * scale, chord * scale)
    paper.along(left + inset, left + wide - inset, top + 14, f"{EDGE:.0f}", below=True)
    middle = left + wide / 2
    paper.ring("hole", middle - HORN_BESIDE * scale, top + fixed + 4, 2.2)
    paper.line("axis", (middle, top + fixed + 3), (middle, top + fixed + chord * scale + 6))
    paper.say(middle + 6, top + fixed + 18, f"horn {HORN_BESIDE:.0f} left", "of")
    paper.along(left, left + wide, top + 76, f"{SPAN:.0f}; elevator {long:.0f}", below=True)
    paper.beside(left + wide + 10, top, top + fixed, f"{HINGE:.0f}")
    paper.beside(left + wide + 10, top + fixed, top + fixed + chord * scale, f"{chord:.0f}")
    paper.say(12, top + 108, f"Its edge {TAILPLANE:.0f} behind the nose; 6 thick.")


def nose(_now: AircraftNow) -> Paper:
    """The bulkhead from the front, where the motor points, and the tray of the servos."""
    paper, scale, x, y = Paper(HIGH), 2.2, 76.0, 94.0
    paper.say(12, 20, "Motor bulkhead, from the front", "head")
    paper.say(12, 36, "birch ply 4, on four layers of glass", "soft")
    radius = BULKHEAD / 2 * scale
    paper.ring("part", x, y, radius)
    along, across = (one / 2 * scale for one in MOUNT)
    paper.ring("hole", x, y, 5 * scale)
    for dx, dy in ((along, 0.0), (-along, 0.0), (0.0, across), (0.0, -across)):
        paper.ring("hole", x + dx, y + dy, 1.6 * scale)
    paper.along(x - along, x + along, y + radius + 10, f"{MOUNT[0]:.0f}", below=True)
    paper.beside(x + radius + 10, y - across, y + across, f"{MOUNT[1]:.0f}")
    for row, said in enumerate(
        (
            f"Ø {BULKHEAD:.0f}, middle Ø 10,",
            "screws Ø 3.2 for M3;",
            "all holes 0.4 up and",
            "0.3 to the left, seen",
            "from behind",
        )
    ):
        paper.say(176, 66 + 16 * row, said)
    _points(paper, 60.0, 226.0, "From the left", DOWN_DEG, "down", "upper")
    _points(paper, 222.0, 226.0, "From above", RIGHT_DEG, "right", "left")
    _tray(paper)
    return paper


def _points(
    paper: Paper, x: float, y: float, head: str, degrees: float, way: str, edge: str
) -> None:
    """The thrust line against the middle of the body, its angle drawn four times as large."""
    paper.say(x - 48, y - 42, head, "head")
    paper.line("axis", (x - 48, y), (x + 60, y))
    side = 1 if way == "down" else -1
    cos, sin = math.cos(math.radians(4 * degrees)), side * math.sin(math.radians(4 * degrees))
    paper.line("line", (x - 26 * sin, y - 26 * cos), (x + 26 * sin, y + 26 * cos))
    paper.line("measure", (x, y), (x - 46 * cos, y + 46 * sin))
    paper.say(x + 10, y - 8, f"{degrees:g}° {way}", "of")
    paper.say(x - 48, y + 46, f"{edge} edge {offset(degrees):.1f} ahead")


def _tray(paper: Paper) -> None:
    scale, x, y = 1.7, 70.0, 346.0
    paper.say(12, 300, "Servo tray, ply 3", "head")
    paper.box(
        "part", x - 25 * scale, y - TRAY_LONG / 2 * scale + 6, TRAY_WIDE * scale, TRAY_LONG * scale
    )
    long, wide, apart = SERVOS
    for side in (-1, 1):
        middle = x + side * apart / 2 * scale
        paper.box(
            "hole", middle - wide / 2 * scale, y + 6 - long / 2 * scale, wide * scale, long * scale
        )
    paper.beside(x + 25 * scale + 10, y + 6 - 22 * scale, y + 6 + 22 * scale, f"{TRAY_LONG:.0f}")
    for row, said in enumerate(
        (
            f"{TRAY_WIDE:.0f} wide; openings",
            f"{long:.0f} x {wide:.0f}, their middles",
            f"{apart:.0f} apart. Elevator on",
            "the left, its shaft in",
            "front; rudder right,",
            "its shaft behind.",
        )
    ):
        paper.say(160, 316 + 16 * row, said)
