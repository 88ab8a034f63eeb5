"""Thistledown cut through: pack, servos, former and wing bolts in its body, the bellcrank's way."""

import math

from buildbook.report.state import AircraftNow

from .paper import Paper
from .thistledown import (
    BODY,
    BOLT_PLATE,
    BOLTS_BESIDE,
    CHORD_LINE,
    FIN,
    FIN_TOP,
    ROOT,
    TAILPLANE,
    between,
    mm,
    root_edge,
    section_at,
)
from .thistledown_ends import HINGE, HORN_BESIDE, SEAT

HIGH, CRANK_HIGH = 372.0, 274.0
GLASS = 0.8  # four layers
PACK, PACK_TRAY = (88.0, 34.0, 24.0), (120.0, 34.0, 3.0)
"""Long, wide, high."""
SERVO = (23.0, 12.0, 16.0, 7.0, 11.0)
"""Long, wide; from its lugs up to its foot, down to the end of its case, down to its arm."""
SERVO_BESIDE, SHAFT = 15.0, 6.0
"""Their middles beside the middle of the body; a shaft beside the middle of its servo."""
RECEIVER = (30.0, 20.0, 12.0)
TRAY_THICK = 3.0
FORMER, OPENING, DOWEL = 258.0, (30.0, 10.0, 26.0), (15.0, 6.0, 4.0)
"""Wide, its upper and lower edge below the thrust line; beside, above the line, across."""
BLOCK, BOLT_LONG = 6.0, 20.0
BELLCRANK, CRANK_ARM, CRANK_BESIDE = (1030.0, 30.0), 12.0, 9.0
TAIL_SEAT, TAIL_THICK = 3.0, 6.0  # ply below the tailplane; its balsa
RUDDER_HORN = (1062.0, 15.0, 4.0)
"""Behind the nose, beside the middle, above the thrust line."""
CLEVIS = 15.0
TUBE = 3.0
TAIL_BOLTS, POCKET = (1026.0, 1056.0), (7.0, 8.0)

Place = tuple[float, float, float]
"""Behind the nose, right of the middle, below the thrust line."""


def body_at(behind: float) -> tuple[float, float, float]:
    """How far the body reaches above and below the thrust line there, and half its breadth.

    Where the wing's seat is cut out the upper half is what it would be without.
    """
    up, down, wide = between([row for row in BODY if row[1]], behind)
    return up, down, wide / 2


def half_inside(behind: float, below: float) -> float:
    """Half the room between the sides there, four layers of glass off."""
    up, down, half = body_at(behind)
    share = below / (down if below > 0 else up)
    return half * math.sqrt(max(0.0, 1 - share**2)) - GLASS


def rods(now: AircraftNow) -> dict[str, tuple[Place, Place]]:
    """From pin to pin: from the servos back, and from the bellcrank up."""
    tray = now.positions["servo-tray"]
    aft, arm = -mm(tray[0]), mm(tray[2]) + SERVO[4]
    left, right = now.surfaces["elevator"], now.surfaces["rudder"]
    crank, high = BELLCRANK
    return {
        "rod to the bellcrank": (
            (aft - SHAFT, mm(left.servo_arm_m) - SERVO_BESIDE, arm),
            (crank, -CRANK_BESIDE, CRANK_ARM - high),
        ),
        "rod to the rudder": (
            (aft + SHAFT, SERVO_BESIDE - mm(right.servo_arm_m), arm),
            (RUDDER_HORN[0], RUDDER_HORN[1], -RUDDER_HORN[2]),
        ),
        "rod from the bellcrank up to the elevator": (
            (crank + CRANK_ARM, -CRANK_BESIDE, -high),
            (TAILPLANE + HINGE, -HORN_BESIDE, -elevator_pin(now)),
        ),
    }


def elevator_pin(now: AircraftNow) -> float:
    """How far above the thrust line the horn's pin is: below the hinge, which is at the top."""
    return FIN_TOP + TAIL_SEAT + TAIL_THICK - mm(now.surfaces["elevator"].horn_m)


def along_rod(rod: tuple[Place, Place], behind: float) -> tuple[float, float]:
    """Where a rod is at a place behind the nose: right of the middle, below the thrust line."""
    (start, right, down), (end, to_right, to_down) = rod
    share = (behind - start) / (end - start)
    return right + share * (to_right - right), down + share * (to_down - down)


def leaves_at(rod: tuple[Place, Place]) -> int:
    """Where a rod comes out of the side of the body, behind the nose."""
    return next(
        behind
        for behind in range(math.ceil(rod[0][0]), 1062)
        if abs(along_rod(rod, behind)[0]) > half_inside(behind, along_rod(rod, behind)[1]) + GLASS
    )


def sections(now: AircraftNow) -> Paper:
    """Four cuts from behind, to one scale."""
    paper = Paper(HIGH)
    paper.say(12, 20, "Sections of the body, from behind", "head")
    paper.say(12, 36, "mm behind the nose; across: the thrust line", "soft")
    _pack(paper, now, 80.0, 112.0)
    _servos(paper, now, 244.0, 112.0)
    _former(paper, now, 80.0, 272.0)
    _bolts(paper, now, 244.0, 272.0)
    return paper


SCALE = 1.75


def _outline(paper: Paper, x: float, y: float, behind: float, *, open_top: bool = False) -> None:
    up, down, half = (one * SCALE for one in body_at(behind))
    over = "" if open_top else f"A{half:.1f} {up:.1f} 0 0 1 {x + half:.1f} {y:.1f}"
    start = f"M{x - half:.1f} {y:.1f}" if over else f"M{x + half:.1f} {y:.1f}"
    paper.path("part", f"{start}{over}A{half:.1f} {down:.1f} 0 0 1 {x - half:.1f} {y:.1f}")
    paper.line("axis", (x - half - 10, y), (x + half + 10, y))


def _box(
    paper: Paper, kind: str, x: float, y: float, middle: float, wide: float, top: float, low: float
) -> None:
    """A rectangle in a cut: its middle right of the body's, from top to low below the line."""
    paper.box(
        kind,
        x + (middle - wide / 2) * SCALE,
        y + top * SCALE,
        wide * SCALE,
        (low - top) * SCALE,
    )


def _pack(paper: Paper, now: AircraftNow, x: float, y: float) -> None:
    place = now.positions["pack"]
    front = -mm(place[0]) - PACK[0] / 2
    low = mm(place[2]) + PACK[2] / 2
    paper.say(12, y - 55, f"{front:.0f}: pack, its tray")
    _outline(paper, x, y, front)
    _box(paper, "cut", x, y, 0, PACK[1], low - PACK[2], low)
    _box(paper, "hole", x, y, 0, PACK_TRAY[1], low, low + PACK_TRAY[2])
    half = PACK[1] / 2 * SCALE
    paper.along(x - half, x + half, y + 64, f"{PACK[1]:.0f}", below=True)
    paper.beside(x + body_at(front)[2] * SCALE + 6, y, y + low * SCALE, f"{low:.0f}")


def _servos(paper: Paper, now: AircraftNow, x: float, y: float) -> None:
    place = now.positions["servo-tray"]
    behind, tray = -mm(place[0]), mm(place[2])
    _, wide, foot, case, arm = SERVO
    paper.say(182, y - 55, f"{behind:.0f}: servos, receiver")
    _outline(paper, x, y, behind)
    _box(paper, "hole", x, y, 0, 50, tray, tray + TRAY_THICK)
    for way in (-1, 1):
        _box(paper, "cut", x, y, way * SERVO_BESIDE, wide, tray - foot, tray + case)
    _box(paper, "cut", x, y, 0, RECEIVER[0], tray - foot - RECEIVER[2], tray - foot)
    names = ("rod to the bellcrank", "rod to the rudder")
    for way, (start, _) in zip((-1, 1), (rods(now)[name] for name in names), strict=True):
        line = y + start[2] * SCALE
        paper.line("line", (x + way * SERVO_BESIDE * SCALE, line), (x + start[1] * SCALE, line))
        paper.ring("hole", x + start[1] * SCALE, line, 2.4)
    side = body_at(behind)[2] * SCALE
    paper.beside(x + side + 4, y, y + tray * SCALE, f"{tray:.0f}")
    paper.beside(x - side - 4, y, y + (tray + arm) * SCALE, f"{tray + arm:.0f}", right=False)
    apart = SERVO_BESIDE * SCALE
    paper.along(x - apart, x + apart, y + 74, f"{2 * SERVO_BESIDE:.0f}", below=True)


def _former(paper: Paper, _now: AircraftNow, x: float, y: float) -> None:
    wide, top, low = OPENING
    beside, above, across = DOWEL
    paper.say(12, y - 55, f"{FORMER:.0f}: former, ply 3")
    _outline(paper, x, y, FORMER)
    _box(paper, "hole", x, y, 0, wide, top, low)
    for way in (-1, 1):
        paper.ring("hole", x + way * beside * SCALE, y - above * SCALE, across / 2 * SCALE)
    paper.along(
        x - beside * SCALE, x + beside * SCALE, y - above * SCALE - 8, f"{2 * beside:.0f}", False
    )
    paper.along(x - wide / 2 * SCALE, x + wide / 2 * SCALE, y + 72, f"{wide:.0f}", below=True)
    side = body_at(FORMER)[2] * SCALE
    paper.beside(x + side + 4, y, y + top * SCALE, f"{top:.0f}")
    paper.beside(x - side - 4, y, y + low * SCALE, f"{low:.0f}", right=False)


def seat_at(now: AircraftNow, behind: float) -> float:
    """The lower side of the wing's root there, above the thrust line."""
    aft = behind - root_edge(now)
    return CHORD_LINE + 1 - 2 * aft / ROOT - section_at(aft)[1]


def _bolts(paper: Paper, now: AircraftNow, x: float, y: float) -> None:
    under = -seat_at(now, BOLT_PLATE)
    half = body_at(BOLT_PLATE)[2]
    paper.say(182, y - 55, f"{BOLT_PLATE:.0f}: wing bolts")
    _outline(paper, x, y, BOLT_PLATE, open_top=True)
    _box(paper, "hole", x, y, 0, 2 * half - 4 * GLASS, under, under + 6)
    for way in (-1, 1):
        _box(paper, "cut", x, y, way * 20, 30, under - BLOCK, under)
        beside = way * BOLTS_BESIDE
        _box(paper, "hole", x, y, beside, 8, under + 6, under + 10)
        _box(paper, "part", x, y, beside, 5, under - BLOCK, under - BLOCK + BOLT_LONG)
        _box(paper, "part", x, y, beside, 9, under - BLOCK - 3, under - BLOCK)
    for name in ("rod to the bellcrank", "rod to the rudder"):
        right, below = along_rod(rods(now)[name], BOLT_PLATE)
        paper.ring("hole", x + right * SCALE, y + below * SCALE, TUBE / 2 * SCALE)
    apart = BOLTS_BESIDE * SCALE
    paper.along(x - apart, x + apart, y + 62, f"{2 * BOLTS_BESIDE:.0f}", below=True)
    lowest = max(along_rod(rods(now)[n], BOLT_PLATE)[1] for n in list(rods(now))[:2])
    paper.beside(x + half * SCALE + 4, y, y + lowest * SCALE, f"{lowest:.0f}")


def crank(now: AircraftNow) -> Paper:
    """The fin from the left: bellcrank, rods, horn and the nuts of the tailplane."""
    paper, scale, left, zero = Paper(CRANK_HIGH), 0.9, 56.0, 254.0
    start = 940.0

    def at(aft: float, up: float) -> tuple[float, float]:
        return left + (aft - start) * scale, zero - up * scale

    paper.say(12, 20, "Fin from the left: bellcrank, tail bolts", "head")
    paper.line("part", *(at(*point) for point in FIN), closed=True)
    top = [at(aft, body_at(aft)[0]) for aft in (start, 975, 1062)]
    low = [at(aft, -body_at(aft)[1]) for aft in (1062, 975, start)]
    paper.line("line", *top, *low)
    paper.box("cut", *at(FIN[1][0] - 9, FIN_TOP + 3), SEAT[0] * scale, 3 * scale)
    hinge, top = at(TAILPLANE + HINGE, FIN_TOP + TAIL_SEAT + TAIL_THICK)
    paper.box("cut", at(TAILPLANE, 0)[0], top, HINGE * scale, TAIL_THICK * scale)
    wide, deep = POCKET
    for bolt in TAIL_BOLTS:
        paper.box("hole", *at(bolt - wide / 2, FIN_TOP), wide * scale, deep * scale)
        paper.line("line", at(bolt, FIN_TOP + 9), at(bolt, FIN_TOP - 6))
    (aft, high), arm = BELLCRANK, CRANK_ARM
    paper.line("line", at(aft, high - arm), at(aft, high), at(aft + arm, high))
    ways = rods(now)
    first, up = ways["rod to the bellcrank"], ways["rod from the bellcrank up to the elevator"]
    paper.line("line", at(start, -along_rod(first, start)[1]), at(aft, high - arm))
    paper.line("line", at(up[0][0], -up[0][2]), at(up[1][0], -up[1][2]))
    pin = TAILPLANE + HINGE, elevator_pin(now)
    for point in ((aft, high), (aft, high - arm), (aft + arm, high), pin):
        paper.ring("hole", *at(*point), 2.4)
    paper.beside(at(1088, 0)[0], at(0, high)[1], zero, f"{high:.0f}")
    paper.beside(42, at(0, pin[1])[1], zero, f"{pin[1]:.0f}", right=False)
    paper.line("axis", (42, zero), (at(1092, 0)[0], zero))
    horn = f"{mm(now.surfaces['elevator'].horn_m):.0f}"
    paper.beside(hinge + 16, top, at(0, pin[1])[1], horn)
    paper.along(at(TAIL_BOLTS[0], 0)[0], at(TAIL_BOLTS[1], 0)[0], at(0, FIN_TOP)[1] - 20, "30")
    for row, said in enumerate(
        (
            "Bellcrank",
            f"{aft:.0f} behind,",
            f"arms {arm:.0f}: one",
            "down and one",
            "to the rear,",
            f"{CRANK_BESIDE:.0f} left of the",
            "middle.",
            "Nuts M3 in",
            f"pockets {wide:.0f} x {deep:.0f}",
            "below the seat.",
        )
    ):
        paper.say(216, 92 + 16 * row, said)
    return paper
