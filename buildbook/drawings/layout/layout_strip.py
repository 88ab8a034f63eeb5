"""The strip below a layout: scale bar, view, legend, problems, and what had no room above."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from buildbook.drawings.layout.layout_labels import (
    Site,
    output_words,
    site_words,
    spin_words,
)
from buildbook.drawings.layout.layout_scene import Scene
from buildbook.drawings.lettering import FACT, Line, text_width
from buildbook.drawings.plate import ScaleBar, scale_bar
from buildbook.records.layouts import WINGED
from buildbook.report.drawn.plans import LayoutPlan, StationPlan
from buildbook.words.measures.lengths import across_words, place_words

_LEFT = 14.0
_ROW = 16.0
_APART = 14.0  # between words of one row
_SWATCH = 26.0


class Swatch(msgspec.Struct, frozen=True):
    """One legend entry: its sign (`checked`, `read`, `planned`, `seen`, `failed`, `hand`, `dial`,
    `sketch`, `cg`, `band`)."""

    sign: str
    x: float
    y: float


class KeyMark(msgspec.Struct, frozen=True):
    """The letter of a problem where the strip explains it."""

    letter: str
    x: float
    y: float


class Strip(msgspec.Struct, frozen=True, kw_only=True):
    """Everything below the plate; `height` is that of the whole drawing."""

    top: float
    height: float
    bar: ScaleBar | None
    bar_y: float
    swatches: tuple[Swatch, ...]
    marks: tuple[KeyMark, ...]
    lines: tuple[Line, ...]


def wrap(text: str, size: float, room: float) -> tuple[str, ...]:
    """`text` broken between words into lines no wider than `room`; a longer word is broken too."""
    lines = [""]
    for word in text.split():
        if lines[-1] and text_width(f"{lines[-1]} {word}", size) <= room:
            lines[-1] += f" {word}"
            continue
        if lines[-1]:
            lines.append("")
        for character in word:
            if text_width(lines[-1] + character, size) > room:
                lines.append("")
            lines[-1] += character
    return tuple(lines)


def cg_words(plan: LayoutPlan) -> str:
    """Where the centre of gravity is, in words, or nothing."""
    cg = plan.cg
    if cg is None or cg.forward_m is None:
        return ""
    how = f", {cg.words}" if cg.words else ""
    if plan.wing is not None:
        share = (-cg.forward_m - plan.wing.leading_edge_aft_m) / plan.wing.mean_chord_m
        return f"CG {share * 100:.0f} % of mean chord{how}"
    return f"CG {place_words(cg.forward_m, cg.right_m, plan.to_scale)}{how}"


def band_words(plan: LayoutPlan) -> str:
    """The band that the centre of gravity may lie in, in words, or nothing."""
    cg = plan.cg
    if cg is None:
        return ""
    if cg.band_share is not None and plan.wing is not None:
        low, high = (share * 100 for share in cg.band_share)
        return f"CG band {low:.0f} to {high:.0f} % of mean chord"
    if cg.band_forward_m is not None:
        front, rear = sorted(cg.band_forward_m, reverse=True)
        words = (place_words(end, 0.0, plan.to_scale) for end in (front, rear))
        return "CG band " + " to ".join(words)
    return ""


def _legend(plan: LayoutPlan) -> Iterator[tuple[str, str]]:
    states = {"seen" if at.otherwise else at.spin_state for at in plan.stations if at.turns}
    if any(at.otherwise and at.tier == "single" for at in plan.stations):
        states.add("planned")
    words = {
        "checked": "spin checked",
        "read": "spin as planned, check not passed",
        "planned": "spin planned",
        "seen": "spin seen, not as planned",
        "failed": "spin check failed",
    }
    yield from ((sign, words[sign]) for sign in words if sign in states)
    if plan.layout not in WINGED and any(at.hand and at.propeller_m for at in plan.stations):
        yield "hand", "bold: leading edge"
    if plan.layout in WINGED and any(at.turns for at in plan.stations):
        yield "dial", "spin from behind"
    if plan.wing is not None:
        yield "sketch", "body and tail sketched"
    yield from ((sign, text) for sign, text in (("cg", cg_words(plan)),) if text)
    yield from ((sign, text) for sign, text in (("band", band_words(plan)),) if text)


def _hands(plan: LayoutPlan) -> Iterator[str]:
    """What the two short words for a direction mean, where they stand on the plate."""
    if any(at.turns for at in plan.stations):
        seen = "behind" if plan.layout in WINGED else "above"
        yield f"ccw counter-clockwise, cw clockwise, from {seen}"


def keyed_words(site: Site, to_scale: bool) -> str:
    """A site that found no room on the plate, in one line of the key."""
    place = place_words(site.stations[0].forward_m, site.stations[0].right_m, to_scale)
    return "; ".join((site.name, *site_words(site), place))


def _unplaced_words(station: StationPlan) -> str:
    """A station of which no record says where it is."""
    facts = filter(None, (spin_words(station), output_words(station)))
    return " · ".join((station.name, *facts, "place not recorded"))


def build_strip(plan: LayoutPlan, scene: Scene, width: float) -> Strip:
    """The strip below `scene`, row by row."""
    room = width - 2 * _LEFT
    top = scene.plate.area.bottom + 4.0
    lines: list[Line] = []
    swatches: list[Swatch] = []
    marks: list[KeyMark] = []

    def write(text: str, x: float, y: float) -> None:
        lines.append(Line(text=text, x=x, y=y, size=FACT, anchor="start"))

    bar = scale_bar(scene.plate.scale, 0.3 * width) if plan.to_scale else None
    y = top + 20.0
    bar_y = y - 4.0
    words = bar.words if bar else "not to scale: no diagonal recorded"
    beside = _LEFT + (bar.units + 7.0 if bar else 0.0)
    write(words, beside, y)
    if plan.diagonal_m is not None:
        taken = beside + text_width(words, FACT) + _APART
        words = across_words(plan.layout, plan.diagonal_m)
        if taken + text_width(words, FACT) > width - _LEFT:
            y += _ROW
        lines.append(Line(text=words, x=width - _LEFT, y=y, size=FACT, anchor="end"))
    y += _ROW + 2.0
    x = _LEFT
    for sign, text in _legend(plan):
        wide = _SWATCH + text_width(text, FACT)
        if x > _LEFT and x + wide > width - _LEFT:
            x, y = _LEFT, y + _ROW
        swatches.append(Swatch(sign, x, y - 4.0))
        for row, part in enumerate(wrap(text, FACT, room - _SWATCH)):
            y += _ROW if row else 0.0
            write(part, x + _SWATCH, y)
        x += wide + 14.0
    if swatches:
        y += _ROW
    if scene.marks:
        y += 4.0
    for mark in scene.marks:
        marks.append(KeyMark(mark.letter, _LEFT + 8.0, y - 4.0))
        for part in wrap(mark.words, FACT, room - _SWATCH):
            write(part, _LEFT + _SWATCH, y)
            y += _ROW
        y += 4.0
    keyed = [*_hands(plan)]
    keyed += (keyed_words(site, plan.to_scale) for site in scene.lettering.keyed)
    keyed += (_unplaced_words(station) for station in plan.unplaced)
    for words in keyed:
        for part in wrap(words, FACT, room):
            write(part, _LEFT, y)
            y += _ROW
    return Strip(
        top=top,
        height=round(y - 2.0),
        bar=bar,
        bar_y=bar_y,
        swatches=tuple(swatches),
        marks=tuple(marks),
        lines=tuple(lines),
    )
