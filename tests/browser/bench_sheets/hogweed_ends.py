"""Hogweed: what is cut for its booms: a boom, a clamp, a saddle and the two halves of a mount."""

import math

from buildbook.report.state import AircraftNow

from .hogweed import BOLT, BOOM, CLAMP, EARS, GAP, INNER
from .paper import Paper

WALL, BEYOND, WIRES = 1.0, 23.0, 130.0  # of a boom; beyond the shaft; hole of the motor's wires
CLAMP_LONG, CLAMP_THICK, SAW = 40.0, 6.0, 1.0
BORE = 15.9  # of a clamp: the boom springs it open
SADDLE, SADDLE_HIGH = (14.0, 16.0), 7.0  # across, along; before it is hollowed
MOUNT = (46.0, 30.0)
UPPER, LOWER = (10.0, 5.0), (6.0, 3.0)  # how high; how deep it is hollowed for the boom
BOLTS, MOTOR, LEFT, POCKET = (18.5, 11.5), (12.5, 9.5), 3.0, 6.5
"""Along and across; what is left under the head of a motor screw, and how wide that is sunk."""
CENTRE = 10.0
HIGH = 636.0


def booms(now: AircraftNow) -> Paper:
    """A boom from below, a clamp and a saddle cut across, a motor mount from above and cut."""
    assert now.record.diagonal_m is not None
    paper = Paper(HIGH)
    _boom(paper, now.record.diagonal_m * 500)
    _clamp(paper)
    _saddle(paper)
    _mount(paper)
    _mount_cut(paper)
    return paper


def _boom(paper: Paper, arm: float) -> None:
    scale, left, y = 0.9, 16.0, 84.0
    shaft, long = arm - INNER, arm - INNER + BEYOND
    paper.say(12, 20, "Boom, six", "head")
    paper.say(92, 20, f"from below; carbon tube {BOOM:.0f}, wall {WALL:.0f}", "soft")
    paper.box("part", left, y - 7.2, long * scale, 14.4)
    paper.box("hidden", left + (CLAMP - INNER - 3) * scale, y - 11, 6 * scale, 22)
    paper.ring("hole", left + (BOLT - INNER) * scale, y, 2.2)
    paper.ring("hole", left + WIRES * scale, y, 3.6)
    paper.line("axis", (left + shaft * scale, y - 14), (left + shaft * scale, y + 26))
    paper.point(left + (BOLT - INNER) * scale, y, 34, y - 32, "bolt Ø 3.2, through, at 8", "start")
    paper.point(left + WIRES * scale, y, 160, y - 14, "wires Ø 8, this side", "start")
    for row, (end, words) in enumerate(
        (
            (WIRES, f"wires {WIRES:.0f}"),
            (shaft, f"shaft {shaft:.0f}; no hole"),
            (long, f"{long:.0f}"),
        )
    ):
        paper.along(left, left + end * scale, y + 22 + 29 * row, words, below=True)


def _clamp(paper: Paper) -> None:
    scale, left, y = 2.4, 36.0, 256.0
    middle, top = left + CLAMP_LONG / 2 * scale, y - GAP / 2 * scale
    paper.say(12, 214, f"Clamp, six; nylon {CLAMP_THICK:.0f}", "head")
    paper.box("cut", left, top, CLAMP_LONG * scale, GAP * scale)
    paper.box("hole", middle, y - SAW / 2 * scale, CLAMP_LONG / 2 * scale, SAW * scale)
    paper.ring("hole", middle, y, BOOM / 2 * scale)
    for side in (-EARS, EARS):
        paper.line("axis", (middle + side * scale, y - 32), (middle + side * scale, y + 40))
    paper.beside(left - 8, top, y + GAP / 2 * scale, f"{GAP:.0f}", right=False)
    paper.say(middle, y + 4.5, f"{BORE:g}", "of", "middle")
    paper.point(left + 39 * scale, y, left + 39 * scale + 16, y - 20, f"saw cut {SAW:.0f}", "start")
    paper.along(*(middle + side * scale for side in (-EARS, EARS)), y + 40, "bolts 28", below=True)
    half = CLAMP_LONG / 2 * scale
    paper.along(middle - half, middle + half, y + 69, f"{CLAMP_LONG:.0f}", below=True)


def _saddle(paper: Paper) -> None:
    scale, x, y = 2.4, 258.0, 276.0
    half, edge = SADDLE[0] / 2, GAP / 2 - SADDLE_HIGH
    reach = math.sqrt((BOOM / 2) ** 2 - half**2)
    paper.say(208, 214, "Saddle, twelve", "head")
    top, radius = y - SADDLE_HIGH * scale, BOOM / 2 * scale
    lip = y + (edge - reach) * scale
    paper.path(
        "cut",
        f"M{x - half * scale:.1f} {top:.1f}h{2 * half * scale:.1f}V{lip:.1f}"
        f"A{radius} {radius} 0 0 0 {x - half * scale:.1f} {lip:.1f}Z",
    )
    paper.along(
        x - half * scale, x + half * scale, y + 14, f"{SADDLE[0]:.0f}, long {SADDLE[1]:.0f}", True
    )
    crown = (GAP - BOOM) / 2 * scale
    paper.beside(x + half * scale + 10, top, top + crown, "3")
    paper.beside(x - half * scale - 10, top, y, f"{SADDLE_HIGH:.0f}", right=False)


def _mount(paper: Paper) -> None:
    scale, x, y = 2.6, 84.0, 450.0
    wide, high = MOUNT[0] * scale, MOUNT[1] * scale
    paper.say(12, 362, "Motor mount, six, from above; nylon", "head")
    paper.say(12, 379, f"Ø 3.2; centre Ø {CENTRE:.0f}; motor screws sunk", "soft")
    paper.say(12, 395, f"Ø {POCKET} from below until {LEFT:.0f} are left", "soft")
    paper.box("part", x - wide / 2, y - high / 2, wide, high)
    for side in (-1, 1):
        edge = y + side * BOOM / 2 * scale
        paper.line("hidden", (x - wide / 2, edge), (x + wide / 2, edge))
    paper.ring("hole", x, y, CENTRE / 2 * scale)
    along, across = MOTOR
    for dx, dy in ((along, 0.0), (-along, 0.0), (0.0, across), (0.0, -across)):
        paper.ring("hidden", x + dx * scale, y + dy * scale, POCKET / 2 * scale)
        paper.ring("hole", x + dx * scale, y + dy * scale, 1.6 * scale)
    for dx in (-BOLTS[0], BOLTS[0]):
        for dy in (-BOLTS[1], BOLTS[1]):
            paper.ring("hole", x + dx * scale, y + dy * scale, 1.6 * scale)
    right = x + wide / 2
    for place, (half, words) in enumerate(
        ((across, "motor 19"), (BOLTS[1], "bolts 23"), (MOUNT[1] / 2, "30"))
    ):
        paper.beside(right + 10 + 67 * place, y - half * scale, y + half * scale, words)
    for place, (half, words) in enumerate(
        ((along, "motor 25"), (BOLTS[0], "bolts 37"), (MOUNT[0] / 2, "46"))
    ):
        down = y + high / 2 + 12 + 29 * place
        paper.along(x - half * scale, x + half * scale, down, words, below=True)


def _mount_cut(paper: Paper) -> None:
    """Across the boom at the shaft: the halves, the boom, both motor screws beside it sunk."""
    scale, x, y = 2.6, 236.0, 572.0
    half, radius = MOUNT[1] / 2, BOOM / 2
    top, bottom = -radius - UPPER[0] + UPPER[1], radius + LOWER[0] - LOWER[1]
    paper.say(184, 516, "Cut at the shaft", "head")
    for outer, inner, sweep in (
        (top, top + UPPER[0], 0),
        (bottom, bottom - LOWER[0], 1),
    ):
        reach = math.sqrt(radius**2 - inner**2)
        paper.path(
            "cut",
            f"M{x - half * scale:.1f} {y + outer * scale:.1f}h{2 * half * scale:.1f}"
            f"V{y + inner * scale:.1f}H{x + reach * scale:.1f}"
            f"A{radius * scale:.1f} {radius * scale:.1f} 0 0 {sweep}"
            f" {x - reach * scale:.1f} {y + inner * scale:.1f}H{x - half * scale:.1f}Z",
        )
    for side in (-1, 1):
        at = x + side * MOTOR[1] * scale
        sunk = (UPPER[0] - LEFT) * scale
        paper.box("hole", at - POCKET / 2 * scale, y + (top + LEFT) * scale, POCKET * scale, sunk)
        paper.box("hole", at - 1.6 * scale, y + top * scale, 3.2 * scale, LEFT * scale)
    paper.box("hole", x - CENTRE / 2 * scale, y + top * scale, CENTRE * scale, UPPER[1] * scale)
    paper.ring("part", x, y, radius * scale)
    paper.ring("hole", x, y, (radius - WALL) * scale)
    left, right = x - half * scale, x + half * scale
    paper.beside(right + 10, y + top * scale, y + (top + UPPER[0]) * scale, f"{UPPER[0]:.0f}")
    paper.beside(right + 10, y + (bottom - LOWER[0]) * scale, y + bottom * scale, f"{LOWER[0]:.0f}")
    paper.beside(left - 10, y + top * scale, y + (top + LEFT) * scale, f"{LEFT:.0f} left", False)
    paper.beside(
        left - 10, y + (bottom - LOWER[0] + LOWER[1]) * scale, y + bottom * scale, "3", False
    )
    paper.say(x, y + bottom * scale + 20, "the halves 8 apart", "soft", "middle")
