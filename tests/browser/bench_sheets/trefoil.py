"""Trefoil: a plate with all its holes, an arm with its two motor plates, tray and skids."""

import math
from collections.abc import Callable

from buildbook.report.state import AircraftNow

from .paper import Paper

OUTLINE = ((66, 28), (50, 72), (28, 76), (4, 50), (-104, 30))  # forward, right; mirrored
PINS, INNER, BEYOND, TUBE = (44, 74), 34, 22, 16.0
POSTS = ((56, 20), (-20, 20), (-62, 20))
SKIDS, BLOCK = ((59, 60), (59, -60), (90, 180)), (20, 16)  # how far out, and at which bearing
LEG, FOOT, SLOPE = (120, 10, 15), 20, 1 / 3  # long, glued in, in the foot; how far it leans
PACKERS, PACKER_WIDE, PACKER_HIGH = (54, -20), 30, 5
TRAY, TRAY_HIGH, STRAPS, STRAP = (140, 50), 3, (34, 2), 20  # straps: middles, ahead of the plates'
PACK = (138, 45, 23)
RINGS, SEWN = (46, 70), (20, 29, 38)  # across, on the upper plate; thread holes, from the middle
PLATE, APART = 2, 16.2
MOTOR_PLATE, BOLTS, SCREWS = (44, 36), (17, 12), (8, 9.5)
HEAD = 5.5  # of a motor screw, sunk (ISO 7046, from memory)
HIGH, HIGHER, PLATES_HIGH = 472.0, 516.0, 532.0
At = Callable[[float, float], tuple[float, float]]


def plates(now: AircraftNow) -> Paper:
    """Both plates from above, forward up; what is on the lower one alone is dashed."""
    paper, scale, x0, y0 = Paper(PLATES_HIGH), 1.62, 152.0, 198.0
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
        between = math.radians(bearing + 30)
        for turn in (0, math.pi):
            for out in SEWN:
                sewn = (out * math.cos(between + turn), out * math.sin(between + turn))
                paper.ring("hole", *at(*sewn), 1.2)
    for out, bearing in SKIDS:
        cos, sin = math.cos(math.radians(bearing)), math.sin(math.radians(bearing))
        for side in (-5, 5):
            paper.ring("tip", *at(out * cos - side * sin, out * sin + side * cos), 2.2)


def _measures(paper: Paper, at: At) -> None:
    wide = OUTLINE[2][1]
    paper.along(at(0, -wide)[0], at(0, wide)[0], at(84, 0)[1], f"{2 * wide}")
    front, rear = at(OUTLINE[0][0], 0)[1], at(OUTLINE[-1][0], 0)[1]
    paper.beside(at(0, 88)[0], front, rear, f"{OUTLINE[0][0] - OUTLINE[-1][0]}")
    hub = at(0, 0)
    paper.line("axis", at(0, -42), at(0, 42))
    for pin, right, name in ((PINS[0], -51, "hinge"), (PINS[1], 48, "lock")):
        x, hole = at(0, right)[0], at(-pin, 0)
        paper.line("measure", at(0, math.copysign(42, right)), (x, hub[1]))
        paper.line("measure", hole, (x, hole[1]))
        paper.beside(x, hub[1], hole[1], f"{name} {pin}", right=right > 0)
    (ahead, beside), (behind, _), (rear_post, _) = POSTS
    rows = (
        ("Both plates; from the middle:", "soft"),
        (f"hinge bolt {PINS[0]} out, lock pin {PINS[1]}, drilled last,", ""),
        ("Ø 4, on each arm; posts Ø 3.2:", ""),
        (f"{ahead} ahead, {-behind} and {-rear_post} behind, {beside} beside", ""),
        ("Top only:", "soft"),
        (f"thread Ø 1.5: {SEWN[0]}, {SEWN[1]} and {SEWN[2]} out, on six lines", ""),
        ("Bottom only, Ø 3.2:", "soft"),
        (f"tray on the axis, {PACKERS[0]} ahead, {-PACKERS[1]} behind; dots:", ""),
        (f"skids {SKIDS[0][0]} out in front, {SKIDS[2][0]} behind, 10 apart", ""),
    )
    for row, (said, kind) in enumerate(rows):
        paper.say(12, PLATES_HIGH - 138 + 16 * row, said, kind)


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
    paper.along(left, at(40), y - 22, "bush 40")
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
    paper.along(
        x - BOLTS[0] * scale, x + BOLTS[0] * scale, y + high / 2 + 14, "bolts 34", below=True
    )
    paper.along(x - wide / 2, x + wide / 2, y + high / 2 + 43, "plate 44", below=True)
    paper.beside(x + wide / 2 + 10, y - 12 * scale, y + 12 * scale, "bolts 24")
    paper.say(12, HIGH - 26, "Plate 36 across; motor screws 16 along,")
    paper.say(12, HIGH - 10, "19 across, sunk; all Ø 3.2, shaft Ø 10")


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


def stands() -> float:
    """The underside of the lower plate above the ground."""
    long, glued, inside = LEG
    return BLOCK[1] + (long - glued) * math.cos(math.atan(SLOPE)) + FOOT - inside


def tray(now: AircraftNow) -> Paper:
    """From the right with tray, pack and a skid; the tray from above."""
    paper, scale, x0, y0 = Paper(HIGHER), 1.1, 196.0, 92.0
    ahead = now.positions["pack"][0] * 1000
    under, plate = APART / 2, APART / 2 + PLATE

    def box(kind: str, aft: float, fore: float, top: float, bottom: float) -> None:
        left, upper = x0 + aft * scale, y0 + top * scale
        paper.box(kind, left, upper, (fore - aft) * scale, (bottom - top) * scale)

    paper.say(12, 20, "From the right, nose to the right", "head")
    paper.say(12, 36, "tray and pack below the plates, rear skid", "soft")
    box("part", OUTLINE[-1][0], OUTLINE[0][0], -plate, -under)
    box("part", OUTLINE[-1][0], OUTLINE[0][0], under, plate)
    for post, _ in POSTS:
        box("part", post - 2.7, post + 2.7, -under, under)
    for packer in PACKERS:
        box("cut", packer - 6, packer + 6, plate, plate + PACKER_HIGH)
    top = plate + PACKER_HIGH
    box("part", ahead - TRAY[0] / 2, ahead + TRAY[0] / 2, top, top + TRAY_HIGH)
    for strap in STRAPS:
        half = STRAP / 2
        box("hidden", strap - half, strap + half, top - 1, top + TRAY_HIGH + PACK[2] + 2)
    low = top + TRAY_HIGH
    box("part", ahead - PACK[0] / 2, ahead + PACK[0] / 2, low, low + PACK[2])
    _skid(paper, x0, y0 + plate * scale, scale)
    _lead(paper, lambda forward, down: (x0 + forward * scale, y0 + down * scale), low)
    _from_above(paper, ahead)
    return paper


def _skid(paper: Paper, x0: float, y0: float, scale: float) -> None:
    """The rear one, from its block under the plate to the ground, and how high it stands."""
    out, ground = -SKIDS[2][0], stands()
    half = BLOCK[0] / 2
    paper.box("cut", x0 + (out - half) * scale, y0, BLOCK[0] * scale, BLOCK[1] * scale)
    foot = out - (ground - BLOCK[1]) * SLOPE
    knee = foot + (FOOT - 5) * SLOPE
    for side in (-3, 3):
        start = (x0 + (out + side) * scale, y0 + BLOCK[1] * scale)
        paper.line("line", start, (x0 + (knee + side) * scale, y0 + (ground - FOOT) * scale))
    left, top = x0 + (foot - FOOT / 2) * scale, y0 + (ground - FOOT) * scale
    paper.box("hole", left, top, FOOT * scale, FOOT * scale)
    down = y0 + ground * scale
    paper.line("axis", (left - 8, down), (x0 + 90 * scale, down))
    paper.beside(x0 + 8 * scale, y0, down, f"ground {ground:.0f}")
    block = x0 + (out - half) * scale - 8
    paper.beside(block, y0, y0 + BLOCK[1] * scale, f"block {BLOCK[1]}", right=False)


def _lead(paper: Paper, at: At, low: float) -> None:
    """From the rings over the front edge to the pack."""
    plate, edge = APART / 2 + PLATE, OUTLINE[0][0]
    end = (73, low + PACK[2] / 2)
    way = ((RINGS[1] / 2, -plate - 2), (edge + 2, -plate - 2), (78, plate), (78, end[1]), end)
    paper.line("measure", *(at(*point) for point in way))
    x, y = at(edge - 10, -plate - 2)
    paper.point(x, y, x - 20, y - 14, "lead 130", "end")


def _from_above(paper: Paper, ahead: float) -> None:
    scale, x, y = 1.8, 150.0, 364.0
    long, wide = TRAY[0] * scale, TRAY[1] * scale
    paper.say(12, 272, "Pack tray, from above", "head")
    paper.say(
        12, 288, f"birch ply {TRAY_HIGH} mm, packers {PACKER_HIGH}; nose to the right", "soft"
    )
    paper.box("part", x - long / 2, y - wide / 2, long, wide)
    paper.line("axis", (x, y - wide / 2 - 6), (x, y + wide / 2 + 6))
    for strap in STRAPS:
        left = x + (strap - ahead - STRAP / 2) * scale
        paper.box("hidden", left, y - wide / 2, STRAP * scale, wide)
    for packer in PACKERS:
        at = x + (packer - ahead) * scale
        high = PACKER_WIDE * scale
        paper.box("cut", at - 6 * scale, y - high / 2, 12 * scale, high)
        paper.ring("hole", at, y, 1.6 * scale)
    front, rear = (packer - ahead for packer in PACKERS)
    paper.along(x, x + front * scale, y + wide / 2 + 12, f"bolt {front:.0f}", below=True)
    paper.along(x + rear * scale, x, y + wide / 2 + 12, f"{-rear:.0f}", below=True)
    paper.along(x - long / 2, x + long / 2, y + wide / 2 + 41, f"{TRAY[0]}", below=True)
    paper.beside(x + long / 2 + 12, y - wide / 2, y + wide / 2, f"{TRAY[1]}")
    one, other = (strap - ahead for strap in STRAPS)
    paper.say(
        12, HIGHER - 30, f"Hatched: packers {PACKER_WIDE} x 12, bolts sunk from below.", "soft"
    )
    paper.say(12, HIGHER - 13, f"Dashed: straps, {one:.0f} ahead and {-other:.0f} behind.", "soft")
