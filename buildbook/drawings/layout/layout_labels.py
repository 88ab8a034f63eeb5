"""Where the words of a layout go: in the disc where they fit, beside it, else in a key below."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

import msgspec

from buildbook.drawings.lettering import FACT, NAME, Anchor, Box, Line, Role, clear, text_width
from buildbook.report.drawn.plans import StationPlan

_PITCH = 14.0
_BOOM = 4.0  # half the width of a boom, and a little room


class Site(msgspec.Struct, frozen=True, kw_only=True):
    """A rotor's place on the plate; a coaxial pair is one site with two stations."""

    stations: tuple[StationPlan, ...]
    x: float
    y: float
    radius: float
    edge_on: bool = False
    dial: float = 0.0  # radius of the dial beside an edge-on propeller

    @property
    def name(self) -> str:
        """The main label: the station, or what a coaxial pair has in common."""
        return self.stations[0].name if len(self.stations) == 1 else self.stations[0].arm

    @property
    def box(self) -> Box:
        """The square about the disc; edge-on it is a bar with a dial at its right."""
        high = max(self.dial, 4.0) if self.edge_on else self.radius
        right = self.x + self.radius
        if self.dial:
            right = self.dial_x + self.dial
        return Box(self.x - self.radius, self.y - high, right, self.y + high)

    @property
    def dial_x(self) -> float:
        """Where the dial stands."""
        return self.x + self.radius + 8.0 + self.dial


class Lettering(msgspec.Struct, frozen=True):
    """All lines on the plate, and the sites that only the key below can name."""

    lines: tuple[Line, ...]
    keyed: tuple[Site, ...]


def output_words(station: StationPlan) -> str:
    """`output 3`, or nothing."""
    return "" if station.output is None else f"output {station.output}"


def spin_words(station: StationPlan) -> str:
    """`ccw`, `seen cw, not ccw`, or nothing."""
    if station.otherwise:
        return f"seen {station.seen}, not {station.spin}"
    return station.turns or ""


def name_lines(name: str) -> tuple[str, ...]:
    """A long name broken at the hyphen nearest its middle, any other in one line."""
    breaks = [at + 1 for at, character in enumerate(name[:-1]) if character == "-"]
    if not breaks or text_width(name, NAME, bold=True) <= 88.0:
        return (name,)
    at = min(breaks, key=lambda place: abs(2 * place - len(name)))
    return name[:at], name[at:]


def site_words(site: Site) -> tuple[str, ...]:
    """The secondary lines of a site when they stand outside the disc."""
    if len(site.stations) == 1:
        station = site.stations[0]
        words = " · ".join(filter(None, (spin_words(station), output_words(station))))
        return (words,) if words else ()
    return tuple(
        " · ".join(filter(None, (station.tier, spin_words(station), output_words(station))))
        for station in site.stations
    )


def _line(text: str, x: float, y: float, role: Role = "fact", anchor: Anchor = "middle") -> Line:
    size = NAME if role == "name" else FACT
    return Line(text=text, x=x, y=y, size=size, role=role, anchor=anchor)


def _in_disc(site: Site) -> list[Line]:
    """Spin over the hub, name and output under it."""
    station = site.stations[0]
    clearance = max(6.0, 0.12 * site.radius)
    below = site.y + clearance + NAME
    lines = [_line(site.name, site.x, below, "name")]
    if station.turns:
        lines.append(_line(spin_words(station), site.x, site.y - clearance - 3))
    if station.output is not None:
        lines.append(_line(output_words(station), site.x, below + 13.5))
    return lines


def _in_small_disc(site: Site) -> list[Line]:
    """Output over the hub, the name under it, broken at its hyphens."""
    station = site.stations[0]
    lines = []
    if station.output is not None:
        lines.append(_line(output_words(station), site.x, site.y - 8.0))
    parts = site.name.split("-")
    texts = [f"{part}-" for part in parts[:-1]] + parts[-1:]
    for row, text in enumerate(texts):
        y = site.y + 16.0 + 12.7 * row
        lines.append(Line(text=text, x=site.x, y=y, size=12.0, role="name"))
    return lines


def _in_pair(site: Site) -> list[Line]:
    """Upper half for the upper rotor, lower half for the lower one, the name between."""
    lines = [_line(site.name, site.x, site.y + 4.5, "name")]
    for station in site.stations:
        first, second = (-25.5, -13.0) if station.tier == "upper" else (20.5, 33.0)
        words = (f"{station.tier} {spin_words(station)}".strip(), output_words(station))
        for text, shift in zip(words, (first, second), strict=True):
            if text:
                lines.append(_line(text, site.x, site.y + shift))
    return lines


def _inside(site: Site) -> tuple[list[Line], ...]:
    """The ways to letter a disc from within, the fullest first; none where it is edge-on."""
    if site.edge_on:
        return ()
    if len(site.stations) > 1:
        return (_in_pair(site),)
    return _in_disc(site), _in_small_disc(site)


def _fits_disc(site: Site, lines: Iterable[Line]) -> bool:
    """Whether every corner of every line lies within the disc, a little clear of the rim."""
    limit = site.radius - 2.0
    for line in lines:
        box = line.box
        reach_x = max(abs(box.left - site.x), abs(box.right - site.x))
        reach_y = max(abs(box.top + 2 - site.y), abs(box.bottom - 3 - site.y))
        if reach_x**2 + reach_y**2 > limit**2:
            return False
    return True


def _outside(site: Site, facts: Sequence[str], middle: tuple[float, float]) -> list[list[Line]]:
    """Blocks above, below, right and left of the disc, the ones away from the middle first."""
    names = name_lines(site.name)
    texts = (*names, *facts)
    high = len(texts) * _PITCH
    box = site.box

    def block(x: float, first: float, anchor: Anchor) -> list[Line]:
        roles: list[Role] = ["name"] * len(names)
        roles += ["fact"] * len(facts)
        return [
            _line(text, x, first + _PITCH * row, role, anchor)
            for row, (text, role) in enumerate(zip(texts, roles, strict=True))
        ]

    below = block(site.x, box.bottom + 14.5, "middle")
    above = block(site.x, box.top - high + 8.0, "middle")
    right = block(box.right + 6.0, site.y - high / 2 + 10.5, "start")
    left = block(box.left - 6.0, site.y - high / 2 + 10.5, "end")
    upright = [above, below] if site.edge_on or site.y < middle[1] + 1 else [below, above]
    sideways = [left, right] if site.x < middle[0] + 1 else [right, left]
    on_axis = site.edge_on and abs(site.x - middle[0]) < 1
    if site.edge_on:
        return [*sideways, *upright] if on_axis else [*upright, *sideways]
    # A disc near the rim has no room for words about its middle: they start or end at its edge.
    flush = [
        block(x, first, anchor)
        for first in (box.bottom + 14.5, box.top - high + 8.0)
        for x, anchor in _edges(box)
    ]
    return [*upright, *sideways, *flush]


def _edges(box: Box) -> tuple[tuple[float, Anchor], tuple[float, Anchor]]:
    return (box.left, "start"), (box.right, "end")


def boom_boxes(site: Site, middle: tuple[float, float]) -> Iterator[Box]:
    """The boom from the middle of the frame to a disc as a row of small boxes."""
    long = math.hypot(site.x - middle[0], site.y - middle[1])
    steps = int((long - site.radius) / _BOOM)
    for step in range(1, steps + 1):
        share = step * _BOOM / long
        x = middle[0] + share * (site.x - middle[0])
        y = middle[1] + share * (site.y - middle[1])
        yield Box(x - _BOOM, y - _BOOM, x + _BOOM, y + _BOOM)


def outside_reach(site: Site) -> float:
    """Half the width of the words of a site when they stand above or below it."""
    names = (_line(text, 0, 0, "name") for text in name_lines(site.name))
    facts = (_line(text, 0, 0) for text in site_words(site))
    return max(line.box.right for line in (*names, *facts))


def fits_inside(site: Site) -> bool:
    """Whether the disc is large enough for its words, one way or the other."""
    return any(_fits_disc(site, lines) for lines in _inside(site))


def _choices(site: Site, first_way: int, middle: tuple[float, float]) -> Iterator[list[Line]]:
    inside = _inside(site)[first_way:]
    yield from (lines for lines in inside if _fits_disc(site, lines))
    yield from _outside(site, site_words(site), middle)
    yield from _outside(site, (), middle)


def letter(
    sites: Sequence[Site], taken: Iterable[Box], bounds: Box, middle: tuple[float, float]
) -> Lettering:
    """Place the words of all sites, first fit, so that no two boxes meet and none leaves.

    Discs are lettered alike: the fullest way that fits all. Words beside a disc stand away from
    the middle, keep off all discs, and off booms where they can; a site for which nothing fits is
    named in the key.
    """
    ways = range(max((len(_inside(site)) for site in sites), default=0))
    alike = (way for way in ways if all(_fits_way(site, way) for site in sites))
    first_way = next(alike, 0)
    boxes = list(taken)
    lines: list[Line] = []
    keyed: list[Site] = []
    booms = [box for site in sites if not site.edge_on for box in boom_boxes(site, middle)]
    for site in sites:
        choices = tuple(_choices(site, first_way, middle))
        off_discs = [lines for lines in choices if _off_discs(lines, site, sites)]
        # Where discs overlap, which is told as a problem, words stay within their own.
        within = [lines for lines in choices if not site.edge_on and _fits_disc(site, lines)]
        tried = ((off_discs, [*boxes, *booms]), (off_discs, boxes), (within, boxes))
        found = (one for ways, kept_off in tried for one in ways if clear(one, kept_off, bounds))
        chosen = next(found, None)
        if chosen is None:
            keyed.append(site)
            continue
        lines += chosen
        boxes += (line.box for line in chosen)
    return Lettering(tuple(lines), tuple(keyed))


def _off_discs(lines: Sequence[Line], own: Site, sites: Sequence[Site]) -> bool:
    """Whether words lie clear of every rim: within their own disc, or off all discs."""
    if not own.edge_on and _fits_disc(own, lines):
        return not any(other is not own and _on_disc(other, lines) for other in sites)
    return not any(_on_disc(site, lines) for site in sites)


def _on_disc(site: Site, lines: Sequence[Line]) -> bool:
    """Whether any of the words reach into a disc, or over a propeller edge-on or its dial."""
    if site.edge_on:
        return any(line.box.meets(site.box) for line in lines)
    for line in lines:
        x = min(max(site.x, line.box.left), line.box.right)
        y = min(max(site.y, line.box.top + 1.0), line.box.bottom - 1.0)
        if math.hypot(site.x - x, site.y - y) < site.radius + 0.5:
            return True
    return False


def _fits_way(site: Site, way: int) -> bool:
    ways = _inside(site)
    return way < len(ways) and _fits_disc(site, ways[way])
