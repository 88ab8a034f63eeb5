"""Thistledown's body cut lengthways: what stands in its front half, seat, former and wall."""

from buildbook.report.state import AircraftNow

from .paper import Paper
from .thistledown import (
    BODY,
    BOLT_PLATE,
    CANOPY,
    CHORD_LINE,
    PLATE,
    ROOT,
    SECTION,
    TRAY_LONG,
    between,
    mm,
    root_edge,
)
from .thistledown_inside import (
    FORMER,
    PACK,
    PACK_TRAY,
    SERVO,
    TRAY_THICK,
    along_rod,
    rods,
    seat_at,
)

HIGH = 288.0
FROM, TO = 44.0, 504.0
TRAY_FROM = 84.0
BEARERS, WALL, PLY = (90.0, 198.0), 488.0, 3.0
_SCALE, _LEFT, _LINE = 0.664, 12.0, 106.0


def _x(behind: float) -> float:
    return _LEFT + (behind - FROM) * _SCALE


def _y(below: float) -> float:
    return _LINE + below * _SCALE


def _reach(behind: float) -> tuple[float, float]:
    up, down, _ = between([row for row in BODY if row[1]], behind)
    return up, down


def along(now: AircraftNow) -> Paper:
    """From the left, behind the nose."""
    paper = Paper(HIGH)
    paper.say(12, 20, "The front half, cut lengthways", "head")
    paper.say(12, 36, "mm behind the nose; across: the thrust line", "soft")
    _shell(paper, now)
    _inside(paper, now)
    _places(paper, now)
    return paper


def _shell(paper: Paper, now: AircraftNow) -> None:
    lower = [(at, _reach(at)[1]) for at in (FROM, 60.0, 150.0, 255.0, 486.0, TO)]
    paper.line("line", *((_x(at), _y(down)) for at, down in lower))
    for ends in ((FROM, CANOPY[0]), (CANOPY[1], FORMER + PLY), (WALL - PLY / 2, TO)):
        paper.line("line", *((_x(at), _y(-_reach(at)[0])) for at in ends))
    lid = [(at, _reach(at)[0]) for at in (CANOPY[0], 150.0, CANOPY[1])]
    edge = [(CANOPY[0], 0.0), *lid, (CANOPY[1], 0.0)]
    paper.line("hidden", *((_x(at), _y(-up)) for at, up in edge), closed=True)
    begins = root_edge(now)
    upper = [(begins + aft, CHORD_LINE + 1 - 2 * aft / ROOT + up) for aft, up, _ in SECTION]
    seat = [(begins + aft, seat_at(now, begins + aft)) for aft, *_ in SECTION]
    wing = [*upper, *reversed(seat)]
    paper.line("cut", *((_x(at), _y(-up)) for at, up in wing), closed=True)


def _board(
    paper: Paper, at: float, long: float, top: float, low: float, kind: str = "part"
) -> None:
    """A piece of so many mm along the body, its middle behind the nose, from top to low."""
    paper.box(kind, _x(at - long / 2), _y(top), long * _SCALE, (low - top) * _SCALE)


def _inside(paper: Paper, now: AircraftNow) -> None:
    pack, tray = now.positions["pack"], now.positions["servo-tray"]
    low = mm(pack[2]) + PACK[2] / 2
    board = low + PACK_TRAY[2]
    _board(paper, -mm(pack[0]), PACK[0], low - PACK[2], low, "cut")
    _board(paper, TRAY_FROM + PACK_TRAY[0] / 2, PACK_TRAY[0], low, board)
    for at in BEARERS:
        _board(paper, at, PLY, board, _reach(at)[1])
    at, level = -mm(tray[0]), mm(tray[2])
    _board(paper, at, SERVO[0], level - SERVO[2], level + SERVO[3], "cut")
    _board(paper, at, TRAY_LONG, level, level + TRAY_THICK)
    _board(paper, FORMER, PLY, -_reach(FORMER)[0], _reach(FORMER)[1])
    under = -seat_at(now, BOLT_PLATE)
    _board(paper, BOLT_PLATE, PLATE[0], under, under + 6)
    _board(paper, WALL, PLY, -_reach(WALL)[0], -seat_at(now, 486.0))
    for name in ("rod to the bellcrank", "rod to the rudder"):
        rod = rods(now)[name]
        start = rod[0][0]
        paper.line("hidden", *((_x(one), _y(along_rod(rod, one)[1])) for one in (start, TO)))
    paper.line("axis", (_x(FROM) - 4, _LINE), (_x(TO) + 4, _LINE))


def _places(paper: Paper, now: AircraftNow) -> None:
    """Lines down to the places, and what stands there."""
    row = _y(60)
    for what, begins, ends in (
        ("tray", TRAY_FROM, TRAY_FROM + PACK_TRAY[0]),
        ("seat", root_edge(now), root_edge(now) + ROOT),
    ):
        words = f"{what} {begins:.0f} to {ends:.0f}"
        paper.along(_x(begins), _x(ends), row, words, below=True)
    numbered = (*((1, at) for at in BEARERS), (2, FORMER), (3, BOLT_PLATE), (4, WALL))
    for number, at in numbered:
        paper.line("measure", (_x(at), _y(44)), (_x(at), _y(-42)))
        paper.say(_x(at), _y(-46), f"{number}", "of", "middle")
    for line, said in enumerate(
        (
            f"1 bearers of the pack tray, {BEARERS[0]:.0f} and {BEARERS[1]:.0f}",
            f"2 former {FORMER:.0f}, its opening in the next drawing",
            f"3 plate for the wing bolts, {BOLT_PLATE:.0f}",
            f"4 wall {WALL:.0f}, from the seat up; open below",
            "Dashed: the canopy, and both rods under the",
            "plate and on into the tail.",
        )
    ):
        paper.say(12, row + 46 + 17 * line, said)
