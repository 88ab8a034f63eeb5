"""Thistledown: a wing panel with its root and aileron, the body from the side, the tail."""

from buildbook.report.state import AircraftNow

from .paper import Paper

HIGH = 410.0
ROOT, TIP = 225.0, 195.0
JOINERS = ((68.0, 12.0, 6.0), (170.0, 6.0, 3.6))  # behind the edge, across, above the chord
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


def _mm(length_m: float | None) -> float:
    assert length_m is not None
    return length_m * 1000


def _throw(text: str | None) -> float:
    return float((text or "").removesuffix(" mm"))


def root_edge(now: AircraftNow) -> float:
    """How far behind the nose the wing begins at its root, in mm, of a wing with straight edges.

    The quarter line is straight across; the mean chord sits (b/6)(1 + 2t)/(1 + t) out (geometry).
    """
    wing = now.record.wing
    assert wing is not None
    half, taper = _mm(wing.span_m) / 2, TIP / ROOT
    out = half / 3 * (1 + 2 * taper) / (1 + taper)
    return _mm(wing.leading_edge_m) - (ROOT - TIP) / 4 * out / half


def panel(now: AircraftNow) -> Paper:
    """The right panel from above, its root from the side, the aileron with its throws."""
    paper, scale, left, top = Paper(HIGH), 0.31, 16.0, 74.0
    wing, aileron = now.record.wing, now.surfaces["aileron-right"]
    assert wing is not None
    half, chord, long = _mm(wing.span_m) / 2, _mm(aileron.chord_m), _mm(aileron.length_m)
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
    for aft, thick, _ in JOINERS:
        long_in = 150 if thick > 10 else 60
        paper.box("hidden", *at(0, aft - thick / 2), long_in * scale, thick * scale)
    servo = now.positions["wing-right"]
    paper.box("cut", *at(_mm(servo[1]) - 12, -_mm(servo[0]) - root_edge(now) - 12), 7.5, 7.5)
    paper.along(left, at(half, 0)[0], top - 12, f"{half:.0f}")
    paper.along(*(at(out, 0)[0] for out in (inner, outer)), top + 84, f"aileron {long:.0f}", True)
    paper.along(left, at(inner, 0)[0], top + 84, f"{inner:.0f}", below=True)
    paper.say(at(_mm(servo[1]), 0)[0] + 10, top + 42, f"servo, {_mm(servo[1]):.0f} out", "of")
    paper.say(left + 4, top + 48, f"{ROOT:.0f}", "of")
    paper.say(at(half, 0)[0] - 4, top + 32, f"{TIP:.0f}", "of", "end")
    _root(paper)
    _aileron(paper, chord, _throw(aileron.up), _throw(aileron.down))
    return paper


def _root(paper: Paper) -> None:
    scale, left, y = 1.25, 16.0, 238.0

    def at(aft: float, up: float) -> str:
        return f"{left + aft * scale:.1f} {y - up * scale:.1f}"

    paper.say(12, 206, "Root, from the side", "head")
    upper = [at(aft, above) for aft, above, _ in SECTION]
    lower = [at(aft, -below) for aft, _, below in reversed(SECTION)]
    paper.path("part", f"M{' L'.join((*upper, *lower))}Z")
    for row, (aft, thick, up) in enumerate(JOINERS):
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
    """The body from the side with what sits in it, and the tail with its hinge lines."""
    paper, scale, left, y = Paper(HIGH), 0.267, 14.0, 104.0
    wing = now.record.wing
    assert wing is not None

    def x(aft: float) -> float:
        return left + aft * scale

    paper.say(12, 20, "Body from the left, and what sits in it", "head")
    paper.say(12, 36, "mm behind the nose", "soft")
    paper.path(
        "part",
        f"M{x(0)} {y}C{x(20)} {y - 14} {x(120)} {y - 18} {x(240)} {y - 18}"
        f"C{x(420)} {y - 16} {x(560)} {y - 7} {x(1110)} {y - 5}V{y + 3}"
        f"C{x(560)} {y + 8} {x(420)} {y + 15} {x(240)} {y + 15}"
        f"C{x(100)} {y + 14} {x(20)} {y + 12} {x(0)} {y}Z",
    )
    fin = (
        (x(1000), y - 6),
        (x(1040), y - 56),
        (x(1060), y - 56),
        (x(1060), y + 2),
        (x(1000), y - 2),
    )
    paper.line("part", *fin, closed=True)
    paper.line(
        "part",
        (x(1062), y - 54),
        (x(1112), y - 54),
        (x(1130), y + 2),
        (x(1062), y + 2),
        closed=True,
    )
    paper.line("part", (x(1015), y - 58), (x(1120), y - 58))
    begins = root_edge(now)
    paper.path(
        "part",
        f"M{x(begins)} {y - 16}c3-8 20-8 30-6l{ROOT * scale - 30} 6"
        f"c-20 3-{ROOT * scale - 10:.1f} 4-{ROOT * scale:.1f} 0Z",
    )
    named = {"pack": "1", "receiver": "2", "servo-tray": "3"}
    for station, number in named.items():
        place = _mm(-now.positions[station][0])
        wide = 115 if station == "pack" else 45
        paper.box("cut", x(place - wide / 2), y - 6, wide * scale, 13)
        paper.say(x(place), y + 32, number, "of", "middle")
        paper.line("measure", (x(place), y + 8), (x(place), y + 21))
    paper.along(x(0), x(begins), y + 54, "", below=True)
    paper.say(x(begins) + 8, y + 58.5, f"wing begins {begins:.0f}", "of")
    paper.along(x(0), x(1130), y + 80, "1130", below=True)
    words = [
        f"{number} {station.replace('-', ' ')} {_mm(-now.positions[station][0]):.0f}"
        for station, number in named.items()
    ]
    for column, said in zip((12, 98, 208), words, strict=True):
        paper.say(column, y + 116, said)
    _tail(paper, now)
    return paper


def _tail(paper: Paper, now: AircraftNow) -> None:
    scale, left, top = 0.55, 16.0, 262.0
    elevator, rudder = now.surfaces["elevator"], now.surfaces["rudder"]
    chord, long = _mm(elevator.chord_m), _mm(elevator.length_m)
    paper.say(12, 246, "Tailplane, from above", "head")
    wide = 450 * scale
    fixed = 64 * scale
    paper.line(
        "part",
        (left + 14, top),
        (left + wide - 14, top),
        (left + wide, top + fixed),
        (left, top + fixed),
        closed=True,
    )
    inset = (450 - long) / 2 * scale
    paper.box("part", left + inset, top + fixed + 1.5, long * scale, chord * scale)
    paper.along(left + inset, left + inset + long * scale, top + 76, f"{long:.0f}", below=True)
    paper.beside(left + wide + 10, top, top + fixed, "64")
    paper.beside(left + wide + 10, top + fixed, top + fixed + chord * scale, f"{chord:.0f}")
    high, depth = _mm(rudder.length_m), _mm(rudder.chord_m)
    paper.say(
        12, top + 114, f"Elevator {chord:.0f} deep; rudder {depth:.0f} deep, {high:.0f} high,"
    )
    paper.say(12, top + 130, "hinged at the rear edge of a fin 200 high.")
