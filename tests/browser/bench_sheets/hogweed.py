"""Hogweed: a plate of its frame with its holes, the pack tray, and what sits at which height."""

import math
from collections.abc import Callable

from buildbook.report.state import AircraftNow

from .paper import Paper

CORNER, PLATE, GAP = 112.0, 2.0, 22.0
BOOM, BOLT, CLAMP, EARS, POSTS = 16.0, 52.0, 92.0, 14.0, 80.0
INNER = 44.0
RINGS, SEWN = (74.0, 84.0), (34.0, 45.0)  # across; thread holes beside them, from the middle
CAMERA = 52.0  # ahead of the middle: what the scales said when it came
PACK, TRAY, STRIP = (160.0, 66.0, 22.0), 2.0, 2.0
TRAY_WIDE, SLOTS, SLOT = 76.0, (34.5, 40.0), (3.0, 22.0)
TRAY_BOLTS = ((53.0, 12.0), (-89.0, 12.0))  # ahead, to either side; upper plate
MAST_AT, MAST_BOLTS, MAST_FOOT = (-91.0, 49.0), 5.0, 3.0
DAMPERS = ((68.0, 12.0), (36.0, 12.0))  # of the camera; lower plate
SOCKET, SOCKET_BOLTS = (58.0, 70.0), 7.0  # of a leg, its bolts along the edge; lower plate
GROUND, RAIL, LEGS, MAST = 193.0, 350.0, 58.0, 120.0
HIGH, HIGHER = 454.0, 646.0
STRIPS, STRIP_WIDE, CLAMP_HEAD = (76.0, 58.0), 10.0, 5.7  # front and rear; of a bolt M3
At = Callable[[float, float], tuple[float, float]]


def plates(_now: AircraftNow) -> Paper:
    """Both plates from above, forward up; booms and clamps between them dashed."""
    paper, scale, x0, y0 = Paper(HIGH), 0.98, 165.0, 158.0

    def at(out: float, bearing: float, side: float = 0.0) -> tuple[float, float]:
        cos, sin = math.cos(math.radians(bearing)), math.sin(math.radians(bearing))
        forward, right = out * cos - side * sin, out * sin + side * cos
        return x0 + scale * right, y0 - scale * forward

    paper.say(12, 20, "Top and bottom plate, from above", "head")
    paper.say(12, 36, f"carbon {PLATE:.0f} mm; forward is up", "soft")
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
        for out in SEWN:
            paper.ring("hole", *at(out, bearing + 30), 1.2)
    _one_plate(paper, lambda ahead, right: (x0 + scale * right, y0 - scale * ahead))
    for letter, out, bearing in (
        ("B", BOLT + 13, 333),
        ("C", CORNER + 4, 321),
        ("P", POSTS - 13, 0),
        ("S", SEWN[1], 49),
    ):
        x, y = at(out, bearing)
        paper.say(x, y + 4, letter, "of", "middle")
    paper.along(at(CORNER, 270)[0], at(CORNER, 90)[0], y0 + 122, f"{2 * CORNER:.0f}", below=True)
    _table(paper, y0 + 154)
    return paper


def _table(paper: Paper, top: float) -> None:
    """Each letter with the places of its holes, from the middle of the plate."""
    (front, beside), (rear, _) = TRAY_BOLTS
    mast, near, far = -MAST_AT[0], MAST_AT[1] - MAST_BOLTS, MAST_AT[1] + MAST_BOLTS
    (one, one_right), (two, two_right) = reversed(socket_bolts())
    rows = (
        ("", "Both, from the middle; Ø 3.2:"),
        ("B", f"{BOLT:.0f}"),
        ("", "Top only, rings:"),
        ("T", f"{front:.0f} ahead and {-rear:.0f} behind, {beside:.0f} beside"),
        ("M", f"{mast:.0f} behind, {near:.0f} and {far:.0f} to the right"),
        ("S", f"thread, Ø 1.5: {SEWN[0]:.0f} and {SEWN[1]:.0f} from the middle"),
        ("", "Bottom only, dots:"),
        (
            "K",
            f"Ø 6: {DAMPERS[1][0]:.0f} and {DAMPERS[0][0]:.0f} ahead, {DAMPERS[0][1]:.0f} beside",
        ),
        ("L", f"{two:.0f} ahead, {two_right:.1f} beside; {one:.0f}, {one_right:.1f}"),
    )
    for row, (letter, said) in enumerate(rows):
        if letter:
            paper.say(12, top + 16 * row, letter, "of")
        paper.say(28 if letter else 12, top + 16 * row, said, "" if letter else "soft")
    for x, letter, said in (
        (64, "C", f"{CLAMP:.0f}, {EARS:.0f} beside"),
        (196, "P", f"{POSTS:.0f}"),
    ):
        paper.say(x, top + 16, letter, "of")
        paper.say(x + 16, top + 16, said)


def _one_plate(paper: Paper, at: At) -> None:
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
        ("K", 68, 22),
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


def _tray(paper: Paper, middle: float) -> None:
    """From above, nose to the right; its bolts where those of the plate are."""
    scale, x, y = 1.2, 112.0, 496.0
    long, wide = PACK[0] * scale, TRAY_WIDE * scale
    paper.say(12, 416, "Pack tray", "head")
    paper.say(88, 416, f"glass fibre {TRAY:.0f} mm; nose to the right", "soft")
    paper.box("part", x - long / 2, y - wide / 2, long, wide)
    paper.line("axis", (x, y - wide / 2 - 6), (x, y + wide / 2 + 6))
    bolts = [x + (ahead - middle) * scale for ahead, _ in TRAY_BOLTS]
    beside = TRAY_BOLTS[0][1] * scale
    for bolt in bolts:
        for side in (-1, 1):
            paper.ring("hole", bolt, y + side * beside, 2.2)
    for end in (-1, 1):
        for side in (-1, 1):
            left = x + (end * SLOTS[1] - SLOT[1] / 2) * scale
            top = y + (side * SLOTS[0] - SLOT[0] / 2) * scale
            paper.box("hole", left, top, SLOT[1] * scale, SLOT[0] * scale)
    front, rear = (abs(ahead - middle) for ahead, _ in TRAY_BOLTS)
    paper.along(bolts[1], x, y, f"bolts {rear:.0f}", below=True)
    paper.along(x, bolts[0], y, f"{front:.0f}", below=True)
    paper.along(x, x + SLOTS[1] * scale, y - wide / 2 - 12, f"slots {SLOTS[1]:.0f}")
    paper.beside(x + long / 2 + 12, y - beside, y + beside, f"{2 * TRAY_BOLTS[0][1]:.0f}")
    _strips(paper, x, y, scale, middle)
    reach = SLOTS[0] * scale
    paper.beside(x + long / 2 + 40, y - reach, y + reach, f"slots {2 * SLOTS[0]:.0f}")
    paper.along(
        x - long / 2, x + long / 2, y + wide / 2 + 14, f"{PACK[0]:.0f} x {TRAY_WIDE:.0f}", True
    )
    paper.say(222, y + wide / 2 + 24, f"slots {SLOT[1]:.0f} x {SLOT[0]:.0f}", "of")


def clamp_bolts(bearing: float) -> tuple[tuple[float, float], ...]:
    """Of the clamp of the boom at that bearing: ahead of the middle and to the right."""
    cos, sin = math.cos(math.radians(bearing)), math.sin(math.radians(bearing))
    return tuple((CLAMP * cos - side * sin, CLAMP * sin + side * cos) for side in (-EARS, EARS))


def _strips(paper: Paper, x: float, y: float, scale: float, middle: float) -> None:
    """Under the tray, dashed: the rear one ends before the heads of two clamp bolts."""
    for long, (ahead, _) in zip(STRIPS, TRAY_BOLTS, strict=True):
        left = x + (ahead - middle - STRIP_WIDE / 2) * scale
        paper.box("hidden", left, y - long / 2 * scale, STRIP_WIDE * scale, long * scale)
    for bearing in (150, 210):
        ahead, right = min(clamp_bolts(bearing), key=lambda bolt: abs(bolt[1]))
        paper.ring("tip", x + (ahead - middle) * scale, y + right * scale, CLAMP_HEAD / 2 * scale)
    for row, said in enumerate(
        (
            f"Dashed: strips, {STRIPS[0]:.0f} and {STRIPS[1]:.0f} long, {STRIP_WIDE:.0f} wide.",
            "Dots: heads of two clamp bolts below; the",
            "rear strip ends before them.",
        )
    ):
        paper.say(12, y + TRAY_WIDE / 2 * scale + 56 + 16 * row, said, "soft")


def heights(now: AircraftNow) -> Paper:
    """From the right, nose to the right; then the tray."""
    paper, scale, middle, zero = Paper(HIGHER), 0.8, 175.0, 176.0
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
    paper.ring("hole", middle + (CAMERA + 42) * scale, zero + (outer + 59) * scale, 12)
    for x in (-LEGS, LEGS):
        box("part", x - 5, x + 5, outer, GROUND - 10)
    box("part", -RAIL / 2, RAIL / 2, GROUND - 10, GROUND)
    mast = MAST_AT[0]
    box("hole", mast - 3, mast + 3, -outer - MAST, -outer)
    box("part", mast - 22, mast + 22, -outer - MAST - 9, -outer - MAST)
    _places(paper, middle, zero, scale, (forward, down))
    _tray(paper, forward)
    return paper


def _places(
    paper: Paper, middle: float, zero: float, scale: float, pack: tuple[float, float]
) -> None:
    """What sits where: dimensions with the name of what they are of."""
    forward, down = pack
    x, outer, mast = middle + forward * scale, GAP / 2 + PLATE, middle + MAST_AT[0] * scale
    camera, ground = middle + CAMERA * scale, zero + GROUND * scale
    paper.line("axis", (x, zero - 74), (x, zero - 10))
    paper.line("axis", (middle, zero - 74), (middle, ground + 8))
    paper.line("axis", (camera, zero + (outer + 16) * scale), (camera, ground + 8))
    paper.along(x, middle, zero - 62, f"{-forward:.0f}")
    paper.say(middle + 8, zero - 58, f"pack's middle {-down:.0f} up", "of")
    paper.beside(
        mast - 26, zero - (outer + MAST) * scale, zero - outer * scale, f"mast {MAST:.0f}", False
    )
    paper.along(middle, camera, ground + 14, f"camera {CAMERA:.0f}", below=True)
    paper.beside(middle - 74, zero, ground, f"ground {GROUND:.0f}", right=False)
    half = RAIL / 2 * scale
    paper.along(middle - half, middle + half, ground + 44, f"rail {RAIL:.0f}", below=True)
