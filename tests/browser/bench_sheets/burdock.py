"""Burdock: its plates, a tube with its motor plate and socket, what sits at which height, tray."""

import math
from collections.abc import Callable

from buildbook.report.state import AircraftNow

from .paper import Paper

SIDE, CUT, BOLTS, PINS, SPACERS, LEAD = 118.0, 18.0, 80.0, (34.0, 50.0), 18.0, 28.0
TUBE, WALL, LONG, BEYOND, STOP = 12.0, 1.0, 220.0, 16.0, 11.0
PLATE, CLEAR = 4.0, 12.2
STACK = 30.5
HIGH = 410.0


def plates(_now: AircraftNow) -> Paper:
    """The outline of both plates with every hole, an edge level; forward points to a corner."""
    paper, scale = Paper(HIGH), 1.72
    middle_x, middle_y = 150.0, 186.0

    def at(x: float, y: float) -> tuple[float, float]:
        return middle_x + scale * x, middle_y + scale * y

    half = SIDE / 2
    near = half - CUT
    corners = [(near, -half), (half, -near), (half, near), (near, half)]
    corners += [(-x, -y) for x, y in corners]
    paper.say(12, 20, "Top and bottom plate, two alike", "head")
    paper.say(12, 36, "bamboo ply 4 mm; pins Ø 3, bolts Ø 3.2", "soft")
    paper.line("part", *(at(x, y) for x, y in corners), closed=True)
    paper.line("axis", at(-half - 8, 0), at(half + 8, 0))
    paper.line("axis", at(0, -half - 8), at(0, half + 8))
    for turn in range(4):
        _socket(paper, at, turn)
    for x in (-1, 1):
        for y in (-1, 1):
            paper.ring("hole", *at(x * BOLTS / 2, y * BOLTS / 2), 2.7)
            paper.ring("hole", *at(x * SPACERS / math.sqrt(2), y * SPACERS / math.sqrt(2)), 2.7)
    lead = LEAD / math.sqrt(2)
    paper.ring("hole", *at(lead, lead), 5 * scale)
    left, top = at(-half, -half)
    right, bottom = at(half, half)
    paper.along(left, right, bottom + 58, f"{SIDE:.0f}")
    paper.along(*(at(x * BOLTS / 2, 0)[0] for x in (-1, 1)), bottom + 34, f"bolts {BOLTS:.0f}")
    paper.along(right - CUT * scale, right, bottom + 14, f"{CUT:.0f}", below=True)
    paper.beside(right + 16, at(0, -PINS[1])[1], middle_y, f"pins {PINS[1]:.0f}")
    paper.beside(right + 16, middle_y, at(0, PINS[0])[1], f"and {PINS[0]:.0f}")
    paper.point(*at(lead + 3, lead + 3), right + 8, bottom - 26, "lead Ø 10", "start")
    paper.path("tip", f"M{left + 2:.1f} {top + 2:.1f}l14 4l-10 10Z")
    paper.line("measure", (left + 8, top + 8), (left + 26, top + 26))
    paper.say(left - 22, top - 4, "forward", "of")
    paper.say(middle_x, top - 17, "front-right tube", "soft", "middle")
    paper.say(12, HIGH - 42, f"Carrier: 4 holes {SPACERS:.0f} from the middle, top")
    paper.say(12, HIGH - 26, f"plate only. Lead: {LEAD:.0f} behind it, in both.")
    paper.say(12, HIGH - 8, "Dashed: strips and block between the plates.", "soft")
    return paper


At = Callable[[float, float], tuple[float, float]]


def _socket(paper: Paper, at: At, turn: int) -> None:
    """Strips, end of the tube and pins of one arm, a quarter turn on each time."""
    cos, sin = (1, 0, -1, 0)[turn], (0, 1, 0, -1)[turn]

    def turned(x: float, y: float) -> tuple[float, float]:
        return at(x * cos - y * sin, x * sin + y * cos)

    for side in (1, -1):
        near, far = side * CLEAR / 2, side * (CLEAR / 2 + 8)
        paper.line(
            "hidden",
            *(turned(x, y) for x, y in ((16, near), (59, near), (59, far), (16, far))),
            closed=True,
        )
    cut = STOP - 4
    paper.line("hidden", turned(STOP, -cut), turned(STOP, cut), turned(cut, STOP))
    for pin in PINS:
        paper.ring("hole", *turned(pin, 0), 2.7)


def tube(now: AircraftNow) -> Paper:
    """A tube from above, its motor plate, and a socket cut through."""
    paper, scale, left, y = Paper(HIGH), 1.36, 16.0, 84.0
    assert now.record.diagonal_m is not None
    arm = now.record.diagonal_m * 500
    shaft = left + BEYOND * scale

    def at(from_shaft: float) -> float:
        return shaft + scale * from_shaft

    end = at(arm - STOP)
    paper.say(12, 20, "Tube, four alike", "head")
    paper.say(12, 36, f"glass fibre {TUBE:.0f} x {TUBE:.0f}, wall {WALL:.0f} mm", "soft")
    paper.box("part", left, y - 8, end - left, 16)
    paper.line("axis", (left - 6, y), (end + 6, y))
    for place, radius in ((0, 5.4), (-8, 2.4), (8, 2.4), *((arm - pin, 2.4) for pin in PINS)):
        paper.ring("hole", at(place), y, radius)
    paper.along(left, shaft, y + 24, f"{BEYOND:.0f}", below=True)
    paper.along(shaft, end, y + 24, f"shaft to end {arm - STOP:.0f}", below=True)
    paper.along(at(arm - PINS[1]), end, y - 20, f"{PINS[1] - STOP:.0f}")
    paper.line("measure", (at(arm - PINS[0]), y - 12), (at(arm - PINS[0]), y - 8))
    paper.say(shaft - 16, y - 16, "motor", "soft")
    paper.along(left, end, y + 56, f"cut {LONG:.0f}", below=True)
    paper.say(12, 178, f"Pins Ø 3: {PINS[0] - STOP:.0f} and {PINS[1] - STOP:.0f} from the end.", "")
    _motor_plate(paper)
    _section(paper)
    return paper


def _motor_plate(paper: Paper) -> None:
    scale, x, y = 2.5, 82.0, 292.0
    paper.say(12, 210, "Motor plate, four", "head")
    paper.say(12, 226, "glass fibre 1.5 mm", "soft")
    paper.ring("part", x, y, 18 * scale)
    paper.box("hidden", x - 18 * scale, y - 6 * scale, 36 * scale, 12 * scale)
    paper.ring("hole", x, y, 4 * scale)
    for dx, dy in ((8, 0), (-8, 0), (0, 9.5), (0, -9.5)):
        paper.ring("hole", x + dx * scale, y + dy * scale, 1.6 * scale)
    paper.along(x - 8 * scale, x + 8 * scale, y + 18 * scale + 14, "16, along", below=True)
    paper.beside(x + 18 * scale + 10, y - 9.5 * scale, y + 9.5 * scale, "19")
    paper.say(12, y + 18 * scale + 50, "Ø 36, middle Ø 8,")
    paper.say(12, y + 18 * scale + 66, "screws Ø 3.2 for M3")


def _section(paper: Paper) -> None:
    scale, x, top = 2.6, 246.0, 240.0
    wide, high = 40 * scale, PLATE * scale
    paper.say(176, 210, "Socket, cut", "head")
    paper.box("cut", x - wide / 2, top, wide, high)
    paper.box("cut", x - wide / 2, top + high + CLEAR * scale, wide, high)
    for side in (-1, 1):
        near = x + side * CLEAR / 2 * scale
        left = near if side > 0 else near - 8 * scale
        paper.box("cut", left, top + high, 8 * scale, CLEAR * scale)
    edge = TUBE * scale
    paper.box("part", x - edge / 2, top + high + 0.3, edge, edge)
    paper.box("hole", x - edge / 2 + 2.6, top + high + 2.9, edge - 5.2, edge - 5.2)
    paper.along(x - CLEAR / 2 * scale, x + CLEAR / 2 * scale, top - 9, f"{CLEAR}")
    base = top + 2 * high + CLEAR * scale
    paper.along(x - (CLEAR / 2 + 8) * scale, x - CLEAR / 2 * scale, base + 10, "8", below=True)
    paper.along(x + CLEAR / 2 * scale, x + (CLEAR / 2 + 8) * scale, base + 10, "8", below=True)
    for row, words in enumerate(
        ("8 strips 8 x 12.2,", "43 long; a block", "22 x 22 x 12.2 with", "corners cut by 4")
    ):
        paper.say(184, base + 46 + 16 * row, words)


def heights(now: AircraftNow) -> Paper:
    """From the right, nose to the right: what sits how high, and where the pack is."""
    paper, scale, middle, zero = Paper(HIGH), 1.25, 153.0, 132.0

    def box(kind: str, aft: float, fore: float, top: float, bottom: float) -> None:
        paper.box(
            kind,
            middle + aft * scale,
            zero + top * scale,
            (fore - aft) * scale,
            (bottom - top) * scale,
        )

    forward, down = (now.positions["pack"][place] * 1000 for place in (0, 2))
    paper.say(12, 20, "From the right, nose to the right", "head")
    paper.say(12, 36, "heights from the middle of the tubes", "soft")
    box("part", -70.7, 70.7, -CLEAR / 2 - PLATE, -CLEAR / 2)
    box("part", -70.7, 70.7, CLEAR / 2, CLEAR / 2 + PLATE)
    box("part", -107, 107, -6, 6)
    tray = CLEAR / 2 + PLATE
    box("cut", forward - 75, forward + 75, tray, tray + 3)
    box("part", forward - 67.5, forward + 67.5, down - 11, down + 11)
    box("part", -22, 22, -21.6, -20.1)
    for x in (-SPACERS, SPACERS):
        box("line", x - 2, x + 2, -20.1, -10.1)
    box("hole", -17, 17, -34, -26)
    for x in (-32.0, 32.0):
        box("part", x - 6, x + 6, tray, 72)
    box("part", -100, 100, 70, 80)
    box("cut", -100, 100, 80, 90)
    x = middle + forward * scale
    paper.line("axis", (x, zero + 10), (x, zero + 62))
    paper.line("axis", (middle, zero - 62), (middle, zero + 146))
    paper.along(middle, x, zero - 56, f"{forward:.0f}")
    paper.say(x + 8, zero - 52, "pack this far ahead", "of")
    paper.line("measure", (x, zero - 50), (x, zero + 10))
    paper.say(x, zero + (down + 3.5) * scale, "pack", "", "middle")
    paper.say(middle - 29, zero - 29 * scale + 3, "controller", "", "end")
    paper.beside(middle + 114 * scale, zero, zero + down * scale, f"{down:.0f}")
    paper.beside(middle - 112 * scale, zero, zero + 90 * scale, "90")
    y = zero + 90 * scale + 26
    paper.along(middle - 100 * scale, middle + 100 * scale, y, "runner 200", below=True)
    for row, words in enumerate(
        (
            "Skid, two: rail 12 x 12 x 70 under the bottom",
            "plate, its middle 40 beside the centre line;",
            "two legs 12 x 5 x 85, leaning out until the",
            "runners stand 150 apart; runner 10 x 10 x 200;",
            "foam 10 glued under it.",
        )
    ):
        paper.say(12, y + 38 + 16 * row, words)
    return paper


def tray(now: AircraftNow) -> Paper:
    """The tray and the carrier of the controller, from above, forward up."""
    paper, scale, x, y = Paper(HIGH), 1.5, 84.0, 196.0
    forward = now.positions["pack"][0] * 1000
    paper.say(12, 20, "Pack tray, from above", "head")
    paper.say(12, 36, "bamboo ply 3 mm, forward is up", "soft")
    middle = y + forward * scale
    paper.box("part", x - 30 * scale, y - 75 * scale, 60 * scale, 150 * scale)
    for side in (-1, 1):
        for along in (-35, 35):
            paper.box("hole", x + (side * 25 - 1.5) * scale, y + (along - 11) * scale, 4.5, 33)
    for bolt in (-1, 1):
        paper.ring("hole", x, middle + bolt * BOLTS / math.sqrt(2) * scale, 2.6)
    paper.ring("hole", x, middle + LEAD * scale, 5 * scale)
    paper.line("axis", (x, y - 82 * scale), (x, y + 82 * scale))
    paper.line("axis", (x - 36 * scale, middle), (x + 36 * scale, middle))
    paper.along(x - 30 * scale, x + 30 * scale, y + 75 * scale + 16, "60", below=True)
    paper.along(x - 25 * scale, x + 25 * scale, y + 75 * scale + 48, "slots 50", below=True)
    paper.beside(x + 30 * scale + 12, y - 75 * scale, y + 75 * scale, "150")
    paper.point(x + 20 * scale, middle, x + 30 * scale + 28, middle + 66, "middle of", "start")
    paper.say(x + 30 * scale + 32, middle + 86, "the plates", "of")
    paper.say(12, HIGH - 20, "Slots 3 x 22, their middles 35 before and")
    paper.say(12, HIGH - 4, "behind the middle of the tray.")
    _carrier(paper)
    return paper


def _carrier(paper: Paper) -> None:
    """The square on which the controller sits, with both its patterns of holes."""
    scale, x, y = 2.3, 262.0, 134.0
    paper.say(x, 60, "Carrier", "head", "middle")
    paper.say(x, 76, "glass fibre 1.5", "soft", "middle")
    paper.box("part", x - 22 * scale, y - 22 * scale, 44 * scale, 44 * scale)
    for across, along in ((1, 1), (1, -1), (-1, 1), (-1, -1)):
        at = STACK / 2 * scale
        paper.ring("hole", x + across * at, y + along * at, 1.6 * scale)
    for across, along in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        paper.ring("hole", x + across * SPACERS * scale, y + along * SPACERS * scale, 1.6 * scale)
    half = STACK / 2 * scale
    paper.along(x - half, x + half, y + 22 * scale + 14, f"{STACK}", below=True)
    paper.along(x - SPACERS * scale, x + SPACERS * scale, y + 22 * scale + 44, "36", below=True)
    paper.along(x - 22 * scale, x + 22 * scale, y + 22 * scale + 74, "44", below=True)
