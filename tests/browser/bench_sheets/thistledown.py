"""Thistledown: a wing panel with its root and aileron, the body from the side and from above."""

import itertools
from collections.abc import Sequence

from buildbook.report.state import AircraftNow

from .paper import Paper

HIGH, BODY_HIGH = 416.0, 406.0
ROOT, TIP = 225.0, 195.0
JOINERS = ((68.0, 12.0, 8.5, 120.0), (160.0, 6.0, 5.4, 60.0))
"""Behind the edge, across, above the chord line at the root, deep in a panel."""
SLEEVE, VENEER, STRIP = 0.5, 0.6, 1.0  # how thick
SECTION = (
    (0.0, 0.0, 0.0),
    (2.5, 4.0, 1.9),
    (5.5, 6.3, 2.9),
    (11.0, 9.0, 4.0),
    (22.5, 12.4, 5.0),
    (45.0, 15.9, 5.4),
    (67.5, 16.9, 5.0),
    (90.0, 16.5, 4.2),
    (135.0, 12.8, 2.2),
    (180.0, 7.0, 0.7),
    (225.0, 0.4, 0.4),
)
"""Of the root: behind the edge, above the chord line, below it, in mm."""
AILERON_FROM = 380.0
BODY = (
    (0.0, 19.0, 19.0, 38.0),
    (60.0, 25.0, 28.0, 48.0),
    (150.0, 29.0, 35.0, 54.0),
    (255.0, 27.0, 38.0, 56.0),
    (261.0, 0.0, 38.0, 56.0),
    (486.0, 0.0, 32.0, 46.0),
    (492.0, 20.0, 32.0, 46.0),
    (620.0, 19.0, 17.0, 34.0),
    (800.0, 16.0, 9.0, 24.0),
    (975.0, 13.0, 5.0, 18.0),
    (1062.0, 12.0, 4.0, 14.0),
)
"""Behind the nose: above the thrust line, below it, wide, in mm; the wing's seat is cut out."""
CHORD_LINE, CANOPY = 5.0, (60.0, 255.0)
BOLT_PLATE, PLATE, BOLTS_BESIDE = 391.0, (30.0, 50.0), 17.0
PACK_LONG, TRAY_LONG = 88.0, 44.0
FIN_TOP, TAILPLANE, TAIL_CHORD, RUDDER_END = 200.0, 1015.0, 105.0, 1130.0
FIN = ((975.0, 13.0), (1020.0, FIN_TOP), (1062.0, FIN_TOP), (1062.0, 12.0))
RUDDER = ((1062.0, 188.0), (1112.0, 188.0), (RUDDER_END, -2.0), (1062.0, -2.0))
"""Behind the nose and above the thrust line, in mm."""


def between(rows: Sequence[tuple[float, ...]], at: float) -> list[float]:
    """The other numbers of rows that begin with places, in straight lines from one to the next."""
    for one, other in itertools.pairwise(rows):
        if one[0] <= at <= other[0]:
            share = (at - one[0]) / (other[0] - one[0])
            return [a + share * (b - a) for a, b in zip(one[1:], other[1:], strict=True)]
    raise ValueError(at)


def section_at(aft: float) -> list[float]:
    """How far the section of the root reaches above and below its chord line there."""
    return between(SECTION, aft)


def mm(length_m: float | None) -> float:
    """A length that the record has, in mm."""
    assert length_m is not None
    return length_m * 1000


def throw(text: str | None) -> float:
    """A throw that the record has, in mm."""
    return float((text or "").removesuffix(" mm"))


def root_edge(now: AircraftNow) -> float:
    """How far behind the nose the wing begins at its root, in mm, of a wing with straight edges.

    The quarter line is straight across; the mean chord sits (b/6)(1 + 2t)/(1 + t) out (geometry).
    """
    wing = now.record.wing
    assert wing is not None
    half, taper = mm(wing.span_m) / 2, TIP / ROOT
    out = half / 3 * (1 + 2 * taper) / (1 + taper)
    return mm(wing.leading_edge_m) - (ROOT - TIP) / 4 * out / half


def panel(now: AircraftNow) -> Paper:
    """The right panel from above, its root from the side, the aileron with its throws."""
    paper, scale, left, top = Paper(HIGH), 0.31, 16.0, 74.0
    wing, aileron = now.record.wing, now.surfaces["aileron-right"]
    assert wing is not None
    half, chord, long = mm(wing.span_m) / 2, mm(aileron.chord_m), mm(aileron.length_m)
    sweep = (ROOT - TIP) / 4

    def at(out: float, aft: float) -> tuple[float, float]:
        return left + out * scale, top + aft * scale

    def edge(out: float) -> float:
        return sweep * out / half + ROOT - (ROOT - TIP) * out / half

    paper.say(12, 20, "Right wing panel, from above", "head")
    paper.say(12, 36, "foam under veneer; the left one mirrored", "soft")
    outline = (at(0, 0), at(half, sweep), at(half, edge(half)), at(0, ROOT))
    paper.line("part", *outline, closed=True)
    inner, outer = AILERON_FROM, AILERON_FROM + long
    hinge = (at(inner, edge(inner) - chord), at(outer, edge(outer) - chord))
    paper.line("line", at(inner, edge(inner)), *hinge, at(outer, edge(outer)))
    for aft, thick, _, long_in in JOINERS:
        paper.box("hidden", *at(0, aft - thick / 2), long_in * scale, thick * scale)
    servo = now.positions["wing-right"]
    paper.box("cut", *at(mm(servo[1]) - 12, -mm(servo[0]) - root_edge(now) - 12), 7.5, 7.5)
    paper.along(left, at(half, 0)[0], top - 12, f"{half:.0f}")
    paper.along(*(at(out, 0)[0] for out in (inner, outer)), top + 84, f"aileron {long:.0f}", True)
    paper.along(left, at(inner, 0)[0], top + 84, f"{inner:.0f}", below=True)
    paper.say(at(mm(servo[1]), 0)[0] + 10, top + 42, f"servo, {mm(servo[1]):.0f} out", "of")
    paper.say(left + 4, top + 41, f"{ROOT:.0f}", "of")
    paper.say(at(half, 0)[0] - 4, top + 32, f"{TIP:.0f}", "of", "end")
    paper.say(at(half, 0)[0] - 4, top + 15, f"edge {sweep:g} back at the tip", "of", "end")
    _root(paper)
    _aileron(paper, chord, throw(aileron.up), throw(aileron.down))
    return paper


def _root(paper: Paper) -> None:
    scale, left, y = 1.25, 16.0, 238.0

    def at(aft: float, up: float) -> str:
        return f"{left + aft * scale:.1f} {y - up * scale:.1f}"

    paper.say(12, 206, "Root, from the side", "head")
    upper = [at(aft, above) for aft, above, _ in SECTION]
    lower = [at(aft, -below) for aft, _, below in reversed(SECTION)]
    paper.path("part", f"M{' L'.join((*upper, *lower))}Z")
    for row, (aft, thick, up, _) in enumerate(JOINERS):
        paper.ring("hole", left + aft * scale, y - up * scale, thick / 2 * scale)
        words = f"{aft:.0f}, tube Ø {thick:.0f}"
        paper.along(left, left + aft * scale, y + 26 + 26 * row, words, below=True)
    paper.along(left, left + ROOT * scale, y + 78, f"{ROOT:.0f}", below=True)


def _aileron(paper: Paper, chord: float, up: float, down: float) -> None:
    scale, x, y = 2.6, 120.0, 368.0
    end = x + chord * scale
    paper.say(12, 346, "Aileron", "head")
    paper.path("cut", f"M{x - 70} {y - 13}L{x - 2} {y - 9}V{y + 9}L{x - 70} {y + 11}Z")
    paper.line("part", (x + 2, y - 9), (end, y), (x + 2, y + 8), closed=True)
    paper.ring("hole", x, y - 9, 2.4)
    paper.line("hidden", (x, y - 9), (end - 3, y - up * scale))
    paper.line("hidden", (x, y - 9), (end - 3, y + down * scale))
    paper.beside(end + 12, y - up * scale, y, f"up {up}")
    paper.beside(end + 12, y, y + down * scale, f"down {down}")
    paper.along(x, end, y + down * scale + 4, f"{chord:.0f}", below=True)


def body(now: AircraftNow) -> Paper:
    """The body from the side with what sits in it, and from above."""
    paper, scale, left, y = Paper(BODY_HIGH), 0.267, 14.0, 112.0
    begins, top = root_edge(now), 274.0

    def x(aft: float) -> float:
        return left + aft * scale

    paper.say(12, 20, "Body from the left, and what sits in it", "head")
    paper.say(12, 36, "mm behind the nose", "soft")
    upper = [(x(aft), y - above * scale) for aft, above, _, _ in BODY]
    lower = [(x(aft), y + below * scale) for aft, _, below, _ in reversed(BODY)]
    paper.line("part", *upper, *lower, closed=True)
    for outline in (FIN, RUDDER):
        paper.line("part", *((x(aft), y - up * scale) for aft, up in outline), closed=True)
    paper.box("cut", x(TAILPLANE), y - (FIN_TOP + 6) * scale, TAIL_CHORD * scale, 6 * scale)
    section = [(aft, up) for aft, up, _ in SECTION]
    section += [(aft, -below) for aft, _, below in reversed(SECTION)]
    chord_line = [(x(begins + aft), y - (CHORD_LINE + up) * scale) for aft, up in section]
    paper.line("part", *chord_line, closed=True)
    named = {"pack": ("1", PACK_LONG), "servo-tray": ("2", TRAY_LONG)}
    for station, (number, wide) in named.items():
        place = mm(-now.positions[station][0])
        down = mm(now.positions[station][2]) * scale
        paper.box("cut", x(place - wide / 2), y + down - 2.5, wide * scale, 5)
        paper.say(x(place), y + 32, number, "of", "middle")
        paper.line("measure", (x(place), y + 4), (x(place), y + 21))
    paper.line("axis", (x(-20), y), (x(1000), y))
    paper.along(x(0), x(begins), y + 54, "", below=True)
    paper.say(x(begins) + 8, y + 58.5, f"wing begins {begins:.0f}", "of")
    paper.along(x(0), x(RUDDER_END), y + 80, f"{RUDDER_END:.0f}", below=True)
    words = [
        f"{number} {station.replace('-', ' ')} {mm(-now.positions[station][0]):.0f}"
        for station, (number, _) in named.items()
    ]
    words[1] += ", receiver above it"
    for column, said in zip((12, 96), words, strict=True):
        paper.say(column, y + 116, said)
    paper.say(12, top - 14, "From above", "head")
    for way in (-1, 1):
        side = [(x(aft), top + 26 + way * wide / 2 * scale) for aft, _, _, wide in BODY]
        paper.line("part", (side[0][0], top + 26), *side, (side[-1][0], top + 26))
    paper.line("axis", (x(-20), top + 26), (x(RUDDER_END), top + 26))
    row = top + 56
    paper.along(x(CANOPY[0]), x(CANOPY[1]), top + 12, "")
    paper.say(12, top + 5, f"canopy {CANOPY[0]:.0f} to {CANOPY[1]:.0f}", "of")
    long, wide = (one * scale for one in PLATE)
    paper.box("cut", x(BOLT_PLATE) - long / 2, top + 26 - wide / 2, long, wide)
    paper.line("measure", (x(BOLT_PLATE), top + 26), (x(BOLT_PLATE), row + 22))
    paper.say(x(BOLT_PLATE) + 6, row + 26, f"wing bolts {BOLT_PLATE:.0f}", "of")
    for line, said in enumerate(
        (
            "Root of the wing: chord line above the thrust",
            f"line {CHORD_LINE + 1:.0f} in front, {CHORD_LINE - 1:.0f} behind.",
        )
    ):
        paper.say(12, row + 50 + 14 * line, said)
    return paper
