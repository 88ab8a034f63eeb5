"""Burdock: its plates, a tube with its motor plate and socket, what sits at which height, tray."""

import math
from collections.abc import Callable

from buildbook.report.state import AircraftNow

from .paper import Paper

SIDE, CUT, BOLTS, PINS, SPACERS = 118.0, 18.0, 80.0, (34.0, 50.0), 18.0
NOTCH, AERIAL = (8.0, 5.0), (20.0, 50.0)  # wide, deep; behind the middle, to its right
SEWN, ASIDE = (36.0, 42.0, 48.0), 12.0  # from the middle; the rear row beside its corner
PAD = (30.0, 25.0, 40.0, 2.0)  # long, wide; its middle beside that of the plates, ahead of it
TUBE, WALL, LONG, BEYOND, STOP = 12.0, 1.0, 220.0, 16.0, 11.0
PLATE, CLEAR, POST = 4.0, 12.2, (8.0, 10.0)
TRAY, TRAY_WIDE, TRAY_LONG, SLOTS, SLOT = 3.0, 60.0, 150.0, (50.0, 30.0), (3.0, 22.0)
PACKERS, PACKERS_WIDE = ((-57.0, 28.0), (0.0, 34.0), (52.0, 18.0)), 40.0
"""Between tray and plate: middle before the middle of the tray, and how long."""
PACK_LONG, PACK_HIGH = 135.0, 18.0
STACK, CARRIER, UNDER, ABOVE = 30.5, 44.0, 10.0, 5.0
RAIL, RUNNER, LEG, LEGS, SLOPE = (12.0, 14.0, 66.0), (10.0, 10.0, 200.0), (12.0, 5.0), 27.0, 0.5
"""High, wide at the bottom, long; a leg wide and thick; its place before and behind the middle."""
INNER, GROUND, FOAM = 33.0, 90.0, 10.0
HIGH, HIGHER = 410.0, 484.0
At = Callable[[float, float], tuple[float, float]]


def leg_top() -> tuple[float, float]:
    """Where the inner side of a leg meets the bottom plate: beside the middle, below the tubes."""
    return INNER + RAIL[1] - SLOPE * RAIL[0], CLEAR / 2 + PLATE


def foot() -> float:
    """How far beside the middle a runner reaches, at its lower edge."""
    beside, top = leg_top()
    return beside + SLOPE * (GROUND - FOAM - top)


def leg_long() -> float:
    """The inner side of a leg, from the plate to the lower edge of the runner."""
    return (GROUND - FOAM - leg_top()[1]) * math.hypot(1, SLOPE)


def plates(_now: AircraftNow) -> Paper:
    """The outline of both plates with every hole, an edge level; forward points to a corner."""
    paper, scale = Paper(HIGH), 1.72
    middle_x, middle_y = 146.0, 182.0

    def at(x: float, y: float) -> tuple[float, float]:
        return middle_x + scale * x, middle_y + scale * y

    half = SIDE / 2
    paper.say(12, 20, "Top and bottom plate, two alike", "head")
    paper.say(12, 36, "bamboo ply 4 mm; pins Ø 3, bolts Ø 3.2", "soft")
    paper.line("part", *(at(x, y) for x, y in _outline()), closed=True)
    paper.line("axis", at(-half - 8, 0), at(half + 8, 0))
    paper.line("axis", at(0, -half - 8), at(0, half + 8))
    for turn in range(4):
        _socket(paper, at, turn)
    for x in (-1, 1):
        for y in (-1, 1):
            wide, long = POST
            corner = at(x * BOLTS / 2 - wide / 2, y * BOLTS / 2 - long / 2)
            paper.box("hidden", *corner, wide * scale, long * scale)
            paper.ring("hole", *at(x * BOLTS / 2, y * BOLTS / 2), 2.7)
            paper.ring("hole", *at(x * SPACERS / math.sqrt(2), y * SPACERS / math.sqrt(2)), 2.7)
    behind, right_of = (one / math.sqrt(2) for one in AERIAL)
    aerial = at(right_of + behind, behind - right_of)
    paper.ring("hole", *aerial, 3 * scale)
    for x, y in sewing_holes():
        paper.ring("hole", *at(x, y), 1.3)
    left, top = at(-half, -half)
    right, bottom = at(half, half)
    paper.along(left, right, bottom + 58, f"{SIDE:.0f}")
    paper.along(*(at(x * BOLTS / 2, 0)[0] for x in (-1, 1)), bottom + 34, f"bolts {BOLTS:.0f}")
    paper.along(right - CUT * scale, right, bottom + 14, f"{CUT:.0f}", below=True)
    paper.beside(right + 16, middle_y, at(0, PINS[0])[1], f"pin {PINS[0]:.0f}")
    paper.beside(right + 16, at(0, -PINS[1])[1], middle_y, f"pin {PINS[1]:.0f}")
    paper.point(*aerial, right - 24, top - 12, "aerial Ø 6", "start")
    edge = at(half - CUT / 2 - 2, half - CUT / 2 - 2)
    paper.point(*edge, right + 12, bottom + 4, "notch", "start")
    paper.say(right + 16, bottom + 23, f"{NOTCH[0]:.0f} x {NOTCH[1]:.0f}", "of")
    paper.path("tip", f"M{left + 2:.1f} {top + 2:.1f}l14 4l-10 10Z")
    paper.line("measure", (left + 8, top + 8), (left + 26, top + 26))
    paper.say(left - 22, top - 4, "forward", "of")
    paper.say(middle_x, top - 17, "front-right tube", "soft", "middle")
    sewn = ", ".join(f"{one:.0f}" for one in SEWN)
    for row, said in enumerate(
        (
            f"Top plate only: carrier, 4 holes {SPACERS:.0f} from",
            f"the middle; aerial, {AERIAL[1]:.0f} right, {AERIAL[0]:.0f} behind;",
            f"sewing Ø 1.5, {sewn} from the middle.",
        )
    ):
        paper.say(12, HIGH - 53 + 15 * row, said)
    paper.say(12, HIGH - 8, "Dashed: strips, block, posts between them.", "soft")
    return paper


def sewing_holes() -> list[tuple[float, float]]:
    """As the sheet lies, from the middle: toward each corner, the rear row beside the joint."""
    found = []
    for x, y in ((-1, -1), (1, -1), (-1, 1), (1, 1)):
        aside = ASIDE if (x, y) == (1, 1) else 0.0
        for out in SEWN:
            along = math.sqrt(out**2 - aside**2)
            found.append(((x * along - aside) / math.sqrt(2), (y * along + aside) / math.sqrt(2)))
    return found


def _outline() -> list[tuple[float, float]]:
    """A square with its corners off, and a notch in that which points to the rear."""
    half, near = SIDE / 2, SIDE / 2 - CUT
    side = [(near, -half), (half, -near), (half, near), (near, half)]
    middle = half - CUT / 2
    wide, deep = NOTCH[0] / 2 / math.sqrt(2), NOTCH[1] / math.sqrt(2)
    notch = [
        (middle + way * wide - depth, middle - way * wide - depth)
        for way, depth in ((1, 0.0), (1, deep), (-1, deep), (-1, 0.0))
    ]
    return [*side[:3], *notch, side[3], *((-x, -y) for x, y in side)]


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
    """From the right, nose to the right: what sits how high, and where the pack is; a skid."""
    paper, scale, middle, zero = Paper(HIGHER), 1.25, 153.0, 118.0

    def box(kind: str, aft: float, fore: float, top: float, bottom: float) -> None:
        paper.box(
            kind,
            middle + aft * scale,
            zero + top * scale,
            (fore - aft) * scale,
            (bottom - top) * scale,
        )

    forward, down = (now.positions["pack"][place] * 1000 for place in (0, 2))
    reach = (SIDE - CUT) / math.sqrt(2)
    paper.say(12, 20, "From the right, nose to the right", "head")
    paper.say(12, 36, "heights from the middle of the tubes", "soft")
    under, tray = CLEAR / 2 + PLATE, CLEAR / 2 + PLATE + TRAY
    box("part", -reach, reach, -under, -CLEAR / 2)
    box("part", -reach, reach, CLEAR / 2, under)
    box("part", -107, 107, -TUBE / 2, TUBE / 2)
    for place, long in PACKERS:
        box("cut", forward + place - long / 2, forward + place + long / 2, under, tray)
    box("part", forward - TRAY_LONG / 2, forward + TRAY_LONG / 2, tray, tray + TRAY)
    high = PACK_HIGH / 2
    box("part", forward - PACK_LONG / 2, forward + PACK_LONG / 2, down - high, down + high)
    top = -under - UNDER
    box("part", -CARRIER / 2, CARRIER / 2, top - 1.5, top)
    for x in (-SPACERS, SPACERS):
        box("line", x - 2, x + 2, top, -under)
    box("hole", -17, 17, top - 14, top - 1.5 - ABOVE)
    for x in (-STACK / 2, STACK / 2):
        box("line", x - 2, x + 2, top - 1.5 - ABOVE, top - 1.5)
    box("part", -RAIL[2] / 2, RAIL[2] / 2, under, under + RAIL[0])
    for x in (-LEGS, LEGS):
        box("part", x - LEG[0] / 2, x + LEG[0] / 2, under, GROUND - FOAM)
    box("part", -RUNNER[2] / 2, RUNNER[2] / 2, GROUND - FOAM - RUNNER[0], GROUND - FOAM)
    box("cut", -RUNNER[2] / 2, RUNNER[2] / 2, GROUND - FOAM, GROUND)
    x = middle + forward * scale
    paper.line("axis", (x, zero + 10), (x, zero + 62))
    paper.line("axis", (middle, zero - 62), (middle, zero + 128))
    paper.along(middle, x, zero - 56, f"{forward:.0f}")
    paper.say(x + 8, zero - 52, "pack this far ahead", "of")
    paper.line("measure", (x, zero - 50), (x, zero + 10))
    paper.say(x + 34, zero + (down + 3.5) * scale, "pack", "", "start")
    paper.say(middle - 29, zero - 29 * scale + 3, "controller", "", "end")
    paper.beside(middle + 114 * scale, zero, zero + down * scale, f"{down:.0f}")
    paper.beside(middle - 112 * scale, zero, zero + GROUND * scale, f"{GROUND:.0f}")
    y = zero + GROUND * scale + 14
    paper.along(middle - LEGS * scale, middle + LEGS * scale, y, f"legs {2 * LEGS:.0f}", below=True)
    half = RUNNER[2] / 2 * scale
    paper.along(middle - half, middle + half, y + 28, f"runner {RUNNER[2]:.0f}", below=True)
    _skid(paper)
    return paper


def _skid(paper: Paper) -> None:
    """The right half from behind: plate, rail, leg and runner, all leaning alike."""
    scale, left, zero = 1.5, 20.0, 324.0

    def at(beside: float, down: float) -> tuple[float, float]:
        return left + beside * scale, zero + (down - leg_top()[1]) * scale

    beside, top = leg_top()
    low = GROUND - FOAM
    paper.say(210, zero - 10, "A skid, from behind", "head", "middle")
    paper.box("part", *at(0, CLEAR / 2), 58 * scale, PLATE * scale)
    paper.line(
        "part",
        at(INNER, top),
        at(beside, top),
        at(INNER + RAIL[1], top + RAIL[0]),
        at(INNER, top + RAIL[0]),
        closed=True,
    )
    across = LEG[1] * math.hypot(1, SLOPE)
    reach = beside + SLOPE * (low - top)
    paper.line(
        "cut",
        at(beside, top),
        at(beside + across, top),
        at(reach + across, low),
        at(reach, low),
        closed=True,
    )
    upper = reach - SLOPE * RUNNER[0]
    inside = reach - RUNNER[1]
    paper.line(
        "part",
        at(inside, low - RUNNER[0]),
        at(upper, low - RUNNER[0]),
        at(reach, low),
        at(inside, low),
        closed=True,
    )
    paper.box("cut", *at(inside, low), RUNNER[1] * scale, FOAM * scale)
    paper.line("axis", at(0, 4), at(0, GROUND))
    paper.along(at(0, 0)[0], at(INNER, 0)[0], at(0, top)[1] + 26, f"{INNER:.0f}", below=True)
    paper.along(at(0, 0)[0], at(reach, 0)[0], at(0, GROUND)[1] + 10, f"{foot():.0f}")
    words = (
        f"rail {RAIL[0]:.0f} high, {RAIL[1] - SLOPE * RAIL[0]:.0f} wide at",
        f"the top, {RAIL[1]:.0f} at the bottom",
        f"leg {LEG[0]:.0f} x {LEG[1]:.0f}; {leg_long():.0f} long",
        "inside, ends cut level",
        f"runner {RUNNER[0]:.0f} high, {RUNNER[1] - SLOPE * RUNNER[0]:.0f} wide",
        f"at the top, {RUNNER[1]:.0f} below;",
        f"foam {FOAM:.0f} under it",
    )
    for row, said in enumerate(words):
        paper.say(158, zero + 18 + 16.5 * row, said)


def tray(now: AircraftNow) -> Paper:
    """The tray and the carrier of the controller, from above, forward up."""
    paper, scale, x, y = Paper(HIGHER), 1.5, 84.0, 196.0
    forward = now.positions["pack"][0] * 1000
    paper.say(12, 20, "Pack tray, from above", "head")
    paper.say(12, 36, "bamboo ply 3 mm, forward is up", "soft")
    middle = y + forward * scale
    half_wide, half_long = TRAY_WIDE / 2 * scale, TRAY_LONG / 2 * scale
    paper.box("part", x - half_wide, y - half_long, 2 * half_wide, 2 * half_long)
    for place, long in PACKERS:
        left, top = x - PACKERS_WIDE / 2 * scale, y - (place + long / 2) * scale
        paper.box("hidden", left, top, PACKERS_WIDE * scale, long * scale)
    wide, long = SLOT
    for side in (-1, 1):
        for along in (-1, 1):
            slot_x, slot_y = x + side * SLOTS[0] / 2 * scale, y + along * SLOTS[1] * scale
            corner = (slot_x - wide / 2 * scale, slot_y - long / 2 * scale)
            paper.box("hole", *corner, wide * scale, long * scale)
    for bolt in (-1, 1):
        paper.ring("hole", x, middle + bolt * BOLTS / math.sqrt(2) * scale, 2.6)
    paper.line("axis", (x, y - 82 * scale), (x, y + 82 * scale))
    paper.line("axis", (x - 36 * scale, middle), (x + 36 * scale, middle))
    paper.along(x - half_wide, x + half_wide, y + half_long + 16, f"{TRAY_WIDE:.0f}", below=True)
    slots = SLOTS[0] / 2 * scale
    paper.along(x - slots, x + slots, y + half_long + 48, f"slots {SLOTS[0]:.0f}", below=True)
    edge = x + half_wide
    paper.beside(edge + 12, y - half_long, y + half_long, f"{TRAY_LONG:.0f}")
    paper.point(x + 12 * scale, middle, edge + 36, middle + 96, "middle of", "start")
    paper.say(edge + 40, middle + 114, "the plates", "of")
    low = y + half_long + 88
    rear, _, front = PACKERS
    for row, said in enumerate(
        (
            f"Slots {wide:.0f} x {long:.0f}, their middles {SLOTS[1]:.0f} before and",
            "behind the middle of the tray. Dashed: packers",
            f"of ply 3, {PACKERS_WIDE:.0f} wide: {PACKERS[1][1]:.0f} long in the middle,",
            f"{rear[1]:.0f} long {-rear[0]:.0f} behind it, "
            f"{front[1]:.0f} long {front[0]:.0f} before it.",
            "The straps run between them, over the tray.",
        )
    ):
        paper.say(12, low + 16 * row, said)
    _carrier(paper)
    return paper


def _carrier(paper: Paper) -> None:
    """The square on which the controller sits, with both its patterns of holes."""
    scale, x, y = 2.3, 262.0, 134.0
    half, stack = CARRIER / 2 * scale, STACK / 2 * scale
    paper.say(x, 60, "Carrier", "head", "middle")
    paper.say(x, 76, "glass fibre 1.5", "soft", "middle")
    paper.box("part", x - half, y - half, 2 * half, 2 * half)
    for across, along in ((1, 1), (1, -1), (-1, 1), (-1, -1)):
        paper.ring("hole", x + across * stack, y + along * stack, 1.6 * scale)
    for across, along in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        paper.ring("hole", x + across * SPACERS * scale, y + along * SPACERS * scale, 1.6 * scale)
    spacers = SPACERS * scale
    paper.along(x - stack, x + stack, y + half + 14, f"{STACK}", below=True)
    paper.along(x - spacers, x + spacers, y + half + 44, f"{2 * SPACERS:.0f}", below=True)
    paper.along(x - half, x + half, y + half + 74, f"{CARRIER:.0f}", below=True)
    paper.say(x, y + half + 108, "holes Ø 3.2", "", "middle")
