"""Hogweed: a plate of its frame with a boom and a clamp, and what sits at which height."""

import math
from collections.abc import Callable

from buildbook.report.state import AircraftNow

from .paper import Paper

CORNER, PLATE, GAP = 112.0, 2.5, 22.0
BOOM, WALL, BOLT, CLAMP, EARS, POSTS = 16.0, 1.5, 52.0, 92.0, 14.0, 80.0
INNER, BEYOND = 44.0, 17.0
CAMERA = 52.0  # ahead of the middle: what the scales said when it came
PACK, TRAY, STRIP = (160.0, 66.0, 22.0), 1.5, 2.0
TRAY_BOLTS = ((53.0, 12.0), (-89.0, 12.0))  # ahead, to either side; upper plate
MAST_AT, MAST_BOLTS = (-91.0, 49.0), 5.0
DAMPERS = ((68.0, 12.0), (36.0, 12.0))  # of the camera; lower plate
SOCKET, SOCKET_BOLTS = (58.0, 70.0), 7.0  # of a leg, its bolts along the edge; lower plate
GROUND, RAIL, LEGS, MAST = 194.0, 350.0, 58.0, 120.0
HIGH = 516.0


def plates(now: AircraftNow) -> Paper:
    """Both plates from above, forward up; booms and clamps between them dashed; a boom; a clamp."""
    paper, scale, x0, y0 = Paper(HIGH), 0.98, 165.0, 158.0
    assert now.record.diagonal_m is not None
    arm = now.record.diagonal_m * 500

    def at(out: float, bearing: float, side: float = 0.0) -> tuple[float, float]:
        cos, sin = math.cos(math.radians(bearing)), math.sin(math.radians(bearing))
        forward, right = out * cos - side * sin, out * sin + side * cos
        return x0 + scale * right, y0 - scale * forward

    paper.say(12, 20, "Top and bottom plate, from above", "head")
    paper.say(12, 36, f"carbon {PLATE} mm; forward is up", "soft")
    booms = range(30, 360, 60)
    paper.line("part", *(at(CORNER, bearing) for bearing in booms), closed=True)
    for bearing in booms:
        for side in (-BOOM / 2, BOOM / 2):
            paper.line("hidden", at(INNER, bearing, side), at(CORNER + 14, bearing, side))
        ends = ((CLAMP - 3, -20), (CLAMP + 3, -20), (CLAMP + 3, 20), (CLAMP - 3, 20))
        paper.line("hidden", *(at(out, bearing, side) for out, side in ends), closed=True)
        for side in (-EARS, EARS):
            paper.ring("hole", *at(CLAMP, bearing, side), 2.2)
        paper.ring("hole", *at(BOLT, bearing), 2.2)
        paper.ring("hole", *at(POSTS, bearing + 30), 2.2)
    _one_plate(paper, lambda ahead, right: (x0 + scale * right, y0 - scale * ahead))
    for letter, out, bearing in (
        ("B", BOLT + 13, 333),
        ("C", CORNER + 4, 321),
        ("P", POSTS - 13, 0),
    ):
        x, y = at(out, bearing)
        paper.say(x, y + 4, letter, "of", "middle")
    paper.along(at(CORNER, 270)[0], at(CORNER, 90)[0], y0 + 122, f"{2 * CORNER:.0f}", below=True)
    words = (
        f"All Ø 3.2. From the middle: B {BOLT:.0f}; C {CLAMP:.0f},",
        f"{EARS:.0f} to either side; P {POSTS:.0f}, between two booms.",
        "Above only, rings: T tray, M mast. Below only,",
        "dots: K camera, Ø 6; L legs. Places in the text.",
    )
    for row, said in enumerate(words):
        paper.say(12, y0 + 154 + 15 * row, said)
    _boom(paper, arm)
    return paper


def _one_plate(paper: Paper, at: Callable[[float, float], tuple[float, float]]) -> None:
    """Holes of one plate alone, each kind with its letter."""
    for ahead, right in TRAY_BOLTS:
        for side in (-1, 1):
            paper.ring("hole", *at(ahead, side * right), 2.2)
    for side in (-1, 1):
        paper.ring("hole", *at(MAST_AT[0], MAST_AT[1] + side * MAST_BOLTS), 2.2)
        for ahead, right in DAMPERS:
            paper.ring("tip", *at(ahead, side * right), 3)
        for end in (-1, 1):
            for bolt in socket_bolts():
                paper.ring("tip", *at(end * bolt[0], side * bolt[1]), 2.2)
    for letter, ahead, right in (
        ("T", 53, 0),
        ("T", -89, 0),
        ("M", -90, 72),
        ("K", 36, 0),
        ("L", 74, 78),
    ):
        x, y = at(ahead, right)
        paper.say(x, y + 4, letter, "of", "middle")


def socket_bolts() -> tuple[tuple[float, float], ...]:
    """Ahead and to the right; the edge that they follow runs 30 degrees off the line forward."""
    cos, sin = math.cos(math.pi / 6), math.sin(math.pi / 6)
    ahead, right = SOCKET
    return tuple(
        (ahead + way * SOCKET_BOLTS * cos, right - way * SOCKET_BOLTS * sin) for way in (-1, 1)
    )


def _boom(paper: Paper, arm: float) -> None:
    scale, left, y = 0.9, 16.0, 424.0
    shaft, long = arm - INNER, arm - INNER + BEYOND
    paper.say(12, 398, "Boom, six", "head")
    paper.say(92, 398, f"carbon tube Ø {BOOM:.0f}, wall {WALL}", "soft")
    paper.box("part", left, y - 7.2, long * scale, 14.4)
    for out in (BOLT - INNER, shaft):
        paper.ring("hole", left + out * scale, y, 2.2)
    paper.box("hidden", left + (CLAMP - INNER - 3) * scale, y - 11, 6 * scale, 22)
    paper.along(left, left + shaft * scale, y + 22, f"to the shaft {shaft:.0f}", below=True)
    paper.along(left, left + long * scale, y + 54, f"cut {long:.0f}", below=True)


def heights(now: AircraftNow) -> Paper:
    """From the right, nose to the right; then a clamp and a motor mount."""
    paper, scale, middle, zero = Paper(HIGH), 0.86, 165.0, 176.0
    forward, down = (now.positions["pack"][place] * 1000 for place in (0, 2))

    def box(kind: str, aft: float, fore: float, top: float, bottom: float) -> None:
        left, upper = middle + aft * scale, zero + top * scale
        paper.box(kind, left, upper, (fore - aft) * scale, (bottom - top) * scale)

    flat = CORNER * math.cos(math.pi / 6)
    paper.say(12, 20, "From the right, nose to the right", "head")
    paper.say(12, 36, "heights from the middle of the booms", "soft")
    outer = GAP / 2 + PLATE
    box("part", -flat, flat, -outer, -GAP / 2)
    box("part", -flat, flat, GAP / 2, outer)
    box("part", -176, 176, -BOOM / 2, BOOM / 2)
    box(
        "part", forward - PACK[0] / 2, forward + PACK[0] / 2, down - PACK[2] / 2, down + PACK[2] / 2
    )
    tray = -outer - STRIP - TRAY
    box("part", forward - PACK[0] / 2, forward + PACK[0] / 2, tray, tray + TRAY)
    for ahead, _ in TRAY_BOLTS:
        box("cut", ahead - 5, ahead + 5, tray + TRAY, -outer)
    box("hole", CAMERA - 34, CAMERA + 34, outer, outer + 20)
    box("part", CAMERA - 30, CAMERA + 42, outer + 26, outer + 92)
    paper.ring("hole", middle + (CAMERA + 42) * scale, zero + (outer + 59) * scale, 13)
    for x in (-LEGS, LEGS):
        box("part", x - 5, x + 5, outer, GROUND - 10)
    box("part", -RAIL / 2, RAIL / 2, GROUND - 10, GROUND)
    mast = MAST_AT[0]
    box("hole", mast - 3, mast + 3, -outer - MAST, -outer)
    box("part", mast - 22, mast + 22, -outer - MAST - 9, -outer - MAST)
    x = middle + forward * scale
    paper.line("axis", (x, zero - 74), (x, zero - 10))
    paper.line("axis", (middle, zero - 74), (middle, zero + GROUND * scale + 8))
    paper.along(x, middle, zero - 62, f"{-forward:.0f}")
    paper.say(middle + 8, zero - 58, f"pack, its middle {-down:.0f} up", "of")
    paper.along(middle, middle + CAMERA * scale, zero + 124 * scale, f"{CAMERA:.0f}", below=True)
    paper.beside(middle + 160, zero, zero + GROUND * scale, f"{GROUND:.0f}", right=False)
    base = zero + GROUND * scale + 16
    half = RAIL / 2 * scale
    paper.along(middle - half, middle + half, base, f"rail {RAIL:.0f}", below=True)
    _ends(paper)
    return paper


def _ends(paper: Paper) -> None:
    scale, y = 2.0, 454.0
    paper.say(12, 408, "Clamp, six; nylon 6", "head")
    paper.box("cut", 16, y - GAP / 2 * scale, 40 * scale, GAP * scale)
    paper.ring("hole", 16 + 20 * scale, y, BOOM / 2 * scale)
    for side in (-EARS, EARS):
        paper.line("axis", (16 + (20 + side) * scale, y - 28), (16 + (20 + side) * scale, y + 28))
    paper.along(16 + 6 * scale, 16 + 34 * scale, y + 34, "28", below=True)
    paper.say(180, 408, "Motor mount, six", "head")
    paper.box("part", 190, y - 15 * scale, 46 * scale, 30 * scale)
    paper.line("axis", (184, y), (288, y))
    paper.ring("hole", 190 + 23 * scale, y, 5 * scale)
    for dx, dy in ((12.5, 0), (-12.5, 0), (0, 9.5), (0, -9.5)):
        paper.ring("hole", 190 + (23 + dx) * scale, y + dy * scale, 1.6 * scale)
    paper.along(190 + 10.5 * scale, 190 + 35.5 * scale, y + 42, "25", below=True)
    paper.beside(290, y - 9.5 * scale, y + 9.5 * scale, "19")
