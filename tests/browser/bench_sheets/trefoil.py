"""Trefoil: a plate with all its holes, an arm with its two motor plates."""

import math
from collections.abc import Callable

from buildbook.report.state import AircraftNow

from .paper import Paper

OUTLINE = ((66, 28), (50, 72), (28, 76), (4, 50), (-104, 30))  # forward, right; mirrored
PINS, INNER, BEYOND, TUBE = (44, 74), 34, 22, 16.0
POSTS = ((56, 20), (-20, 20), (-62, 20))
SKIDS, BLOCK = ((59, 60), (59, -60), (90, 180)), (20, 16)  # how far out, and at which bearing
PACKERS, PACKER_WIDE, TRAY = (54, -20), 30, (140, 50)
RINGS = (46, 70)  # across, on the upper plate
PLATE = 2
MOTOR_PLATE, BOLTS, SCREWS = (44, 36), (17, 12), (8, 9.5)
HEAD = 5.5  # of a motor screw, sunk (ISO 7046, from memory)
HIGH = 472.0
At = Callable[[float, float], tuple[float, float]]


def plates(now: AircraftNow) -> Paper:
    """Both plates from above, forward up; what is on the lower one alone is dashed."""
    paper, scale, x0, y0 = Paper(HIGH), 1.62, 152.0, 198.0
    ahead = now.positions["pack"][0] * 1000

    def at(forward: float, right: float) -> tuple[float, float]:
        return x0 + scale * right, y0 - scale * forward

    paper.say(12, 20, "Top and bottom plate, from above", "head")
    paper.say(12, 36, f"carbon {PLATE} mm; forward is up", "soft")
    corners = (*OUTLINE, *((forward, -right) for forward, right in reversed(OUTLINE)))
    paper.line("part", *(at(*corner) for corner in corners), closed=True)
    paper.line("axis", at(80, 0), at(-112, 0))
    _arms(paper, at)
    for forward, right in POSTS:
        for side in (-1, 1):
            paper.ring("hole", *at(forward, side * right), 2.7)
    for forward in PACKERS:
        left, top = at(forward + 6, -PACKER_WIDE / 2)
        paper.box("hidden", left, top, PACKER_WIDE * scale, 12 * scale)
        paper.ring("hole", *at(forward, 0), 2.7)
    left, top = at(ahead + TRAY[0] / 2, -TRAY[1] / 2)
    paper.box("hidden", left, top, TRAY[1] * scale, TRAY[0] * scale)
    _measures(paper, at)
    return paper


def _arms(paper: Paper, at: At) -> None:
    for bearing in (60, -60, 180):
        cos, sin = math.cos(math.radians(bearing)), math.sin(math.radians(bearing))
        for side in (-8, 8):
            ends = ((out * cos - side * sin, out * sin + side * cos) for out in (INNER, 98))
            paper.line("hidden", *(at(*end) for end in ends))
        for pin in PINS:
            paper.ring("hole", *at(pin * cos, pin * sin), 3.4)
    for out, bearing in SKIDS:
        cos, sin = math.cos(math.radians(bearing)), math.sin(math.radians(bearing))
        for side in (-5, 5):
            paper.ring("tip", *at(out * cos - side * sin, out * sin + side * cos), 2.2)


def _measures(paper: Paper, at: At) -> None:
    wide = OUTLINE[2][1]
    paper.along(at(0, -wide)[0], at(0, wide)[0], at(84, 0)[1], f"{2 * wide}")
    front, rear = at(OUTLINE[0][0], 0)[1], at(OUTLINE[-1][0], 0)[1]
    paper.beside(at(0, 88)[0], front, rear, f"{OUTLINE[0][0] - OUTLINE[-1][0]}")
    left = at(0, -62)[0]
    paper.beside(left, at(0, 0)[1], at(-PINS[0], 0)[1], f"pin {PINS[0]}", right=False)
    right = at(0, 48)[0]
    paper.beside(right, at(0, 0)[1], at(-PINS[1], 0)[1], f"lock {PINS[1]}")
    for row, said in enumerate(
        (
            "Pins Ø 4, the rest Ø 3.2. Dashed: arms, tray with",
            "its packers. Dots: screws of the skids. Those, and",
            "the bolts of the tray on the axis, are in the bottom",
            "plate alone.",
        )
    ):
        paper.say(12, HIGH - 62 + 16 * row, said)


def arm(now: AircraftNow) -> Paper:
    """An arm from above, a motor plate, and the end of an arm cut through."""
    paper, scale, left, y = Paper(HIGH), 1.2, 16.0, 84.0
    assert now.record.diagonal_m is not None
    shaft = now.record.diagonal_m * 500 - INNER
    long = shaft + BEYOND

    def at(out: float) -> float:
        return left + scale * out

    paper.say(12, 20, "Arm, three alike, from above", "head")
    paper.say(12, 36, "aluminium tube 16 x 16, wall 1 mm", "soft")
    paper.box("part", left, y - 9.6, long * scale, 19.2)
    paper.line("axis", (left - 6, y), (at(long) + 6, y))
    for out, radius in ((10, 3.6), (40, 3.6), (shaft, 6)):
        paper.ring("hole", at(out), y, radius)
    paper.along(left, at(shaft), y + 28, f"to the shaft {shaft:.0f}", below=True)
    paper.along(left, at(long), y + 60, f"cut {long:.0f}", below=True)
    paper.along(left, at(40), y - 22, "40")
    paper.say(12, 182, "Bushes 10 and 40 from the inner end: holes Ø 6", "")
    paper.say(12, 198, "through both walls. Shaft Ø 10.", "")
    _motor_plate(paper)
    _end(paper)
    return paper


def _motor_plate(paper: Paper) -> None:
    scale, x, y = 2.6, 78.0, 322.0
    wide, high = MOTOR_PLATE[0] * scale, MOTOR_PLATE[1] * scale
    paper.say(12, 236, "Motor plate, six", "head")
    paper.say(12, 252, f"carbon {PLATE} mm", "soft")
    paper.box("part", x - wide / 2, y - high / 2, wide, high)
    paper.box("hidden", x - wide / 2, y - 8 * scale, wide, TUBE * scale)
    paper.ring("hole", x, y, 5 * scale)
    along, across = SCREWS
    for dx, dy in ((along, 0), (-along, 0), (0, across), (0, -across)):
        paper.ring("hole", x + dx * scale, y + dy * scale, HEAD / 2 * scale)
        paper.ring("hole", x + dx * scale, y + dy * scale, 1.6 * scale)
    for dx in (-1, 1):
        for dy in (-1, 1):
            paper.ring("hole", x + dx * BOLTS[0] * scale, y + dy * BOLTS[1] * scale, 1.6 * scale)
    paper.along(x - BOLTS[0] * scale, x + BOLTS[0] * scale, y + high / 2 + 14, "34", below=True)
    paper.along(x - wide / 2, x + wide / 2, y + high / 2 + 46, "44", below=True)
    paper.beside(x + wide / 2 + 10, y - 12 * scale, y + 12 * scale, "24")
    paper.say(12, HIGH - 10, "36 across; screws 16 along, 19 across, sunk; Ø 3.2")


def _end(paper: Paper) -> None:
    """From the end of the arm: tube, both plates, a bolt on either side, motors above and below."""
    scale, x, y = 2.2, 252.0, 322.0
    half, plate = TUBE / 2 * scale, PLATE * scale
    paper.say(200, 236, "Its end, cut", "head")
    for side in (-1, 1):
        top = y - half - plate if side < 0 else y + half
        paper.box("cut", x - 18 * scale, top, 36 * scale, plate)
        motor = y - half - plate - 24 if side < 0 else y + half + plate
        paper.box("line", x - 14 * scale, motor, 28 * scale, 24)
        bolt = x + side * BOLTS[1] * scale
        paper.box("part", bolt - 1.5 * scale, y - half, 3 * scale, 2 * half)
    paper.box("part", x - half, y - half, 2 * half, 2 * half)
    paper.box("hole", x - half + 2.2, y - half + 2.2, 2 * half - 4.4, 2 * half - 4.4)
    paper.say(x, y - half - plate - 30, "upper motor", "soft", "middle")
    paper.say(x, y + half + plate + 40, "lower motor", "soft", "middle")
