"""The layout of an aircraft from above, to scale: drawing, thumbnail, and the table beside it."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from buildbook.drawings.environment import draw
from buildbook.drawings.layout.layout_faults import layout_faults
from buildbook.drawings.layout.layout_scene import build_scene
from buildbook.drawings.layout.layout_strip import band_words, build_strip, cg_words
from buildbook.drawings.layout.portrait import portrait_drawing
from buildbook.drawings.lettering import FACT, WIDTH, Anchor, Box, Line
from buildbook.records.layouts import WINGED
from buildbook.report.drawn.plans import Fault, LayoutPlan, SpinState, StationPlan, Table
from buildbook.words.measures.lengths import across_words, apart_m, length_words, place_words

THUMBNAIL_WIDTH = 160.0

_STATE_WORDS: dict[SpinState, str] = {
    "planned": "planned",
    "checked": "checked",
    "read": "turns as planned, but the check as a whole failed",
    "failed": "check failed",
}


def layout_drawing(plan: LayoutPlan, prefix: str = "layout") -> Markup:
    """Top view with spin, hand, outputs, balance, problems and scale; legible from 288 px wide."""
    faults = layout_faults(plan)
    scene = build_scene(plan, faults, WIDTH)
    return draw(
        "layout",
        prefix=prefix,
        width=WIDTH,
        title=f"Layout of {plan.aircraft}: {plan.layout}, seen from above",
        desc=layout_words(plan, faults),
        scene=scene,
        strip=build_strip(plan, scene, WIDTH),
        corners=_head_lines(plan, scene.plate.x(0)),
    )


def _head_lines(plan: LayoutPlan, axis_x: float) -> tuple[Line, ...]:
    """The words at the head of the plate: forward at its mark, the view where there is room."""

    def line(text: str, x: float, anchor: Anchor) -> Line:
        return Line(text=text, x=x, y=20.0, size=FACT, anchor=anchor)

    right = axis_x < 0.74 * WIDTH
    forward = line("forward", axis_x + (11.0 if right else -11.0), "start" if right else "end")
    arrow = Box(axis_x - 8.0, 6.0, axis_x + 8.0, 28.0)
    corners = (line(plan.layout, 14.0, "start"), line("from above", WIDTH - 14.0, "end"))
    clear_of = (forward.box, arrow)
    free = (at for at in corners if not any(at.box.meets(box) for box in clear_of))
    return forward, *free


def layout_portrait(plan: LayoutPlan, prefix: str = "portrait", *, lettered: bool = True) -> Markup:
    """The aircraft as a picture, where no photograph of it is named. lettered: with lengths."""
    seen = "Seen from ahead and above, hovering over its plan"
    gist = _gist(seen, plan, layout_faults(plan))
    return portrait_drawing(plan, prefix, gist, lettered=lettered)


def layout_thumbnail(plan: LayoutPlan, prefix: str = "thumb") -> Markup:
    """The same view without words, for a card of 120 to 200 px."""
    faults = layout_faults(plan)
    scene = build_scene(plan, faults, THUMBNAIL_WIDTH, lettered=False)
    return draw(
        "layout_thumbnail",
        prefix=prefix,
        width=THUMBNAIL_WIDTH,
        height=round(scene.plate.area.bottom + 4.0),
        title=f"Layout of {plan.aircraft}: {plan.layout}",
        desc=_gist("Seen from above, forward is up", plan, faults),
        scene=scene,
    )


def _gist(seen: str, plan: LayoutPlan, faults: Sequence[Fault]) -> str:
    """What a card or a picture says: it stands beside its page, which says the rest."""
    states = [station.spin_state for station in plan.stations if station.turns is not None]
    told = [
        f"{states.count(state)} {word}" for state, word in _STATE_WORDS.items() if state in states
    ]
    spins = f"; spins: {', '.join(told)}" if told else ""
    problems = f". Problems: {'; '.join(fault.words for fault in faults)}" if faults else ""
    return f"{seen}{spins}{problems}."


def _station_words(station: StationPlan) -> str:
    parts = [station.name]
    if station.otherwise:
        parts.append(f"seen to turn {station.seen}, planned {station.spin}")
    elif station.spin is None:
        parts.append("no spin declared" + (f", seen {station.seen}" if station.seen else ""))
    else:
        parts.append(f"turns {station.spin}, {_STATE_WORDS[station.spin_state]}")
    if station.output is not None:
        parts.append(f"output {station.output}")
    if station.propeller_m is not None:
        hand = f", {station.hand} hand" if station.hand else ""
        parts.append(f"propeller {length_words(station.propeller_m)}{hand}")
    return ", ".join(parts) + "."


def _turn_words(station: StationPlan) -> str:
    if station.otherwise:
        return f"seen {station.seen}, planned {station.spin}"
    if station.spin is None:
        return f"seen {station.seen}, none declared" if station.seen else "not declared"
    return station.spin


def layout_words(plan: LayoutPlan, faults: Sequence[Fault]) -> str:
    """All facts of the drawing in sentences; each station is named."""
    seen = "Seen from above, forward is up"
    seen += "; spin is as seen from behind." if plan.layout in WINGED and plan.stations else "."
    sentences = [seen]
    if plan.diagonal_m is not None:
        apart = apart_m(plan.layout, plan.diagonal_m)
        words = across_words(plan.layout, plan.diagonal_m)
        words += "" if apart is None else f", motors {length_words(apart)} apart"
        sentences.append(f"{words[0].upper()}{words[1:]}.")
    if plan.wing is not None:
        wing = f"Span {length_words(plan.wing.span_m)}"
        wing += f", mean chord {length_words(plan.wing.mean_chord_m)}"
        sized = any(one.chord_m and one.length_m for one in plan.wing.surfaces)
        places = ", tail and where its surfaces sit along it" if sized else " and tail"
        sentences.append(f"{wing}; body{places} are a sketch.")
    if not plan.to_scale:
        sentences.append("Not to scale, as no diagonal is recorded.")
    sentences += (_station_words(station) for station in plan.stations)
    sentences += (
        f"{_station_words(station)[:-1]}, place not recorded." for station in plan.unplaced
    )
    for words in (cg_words(plan), band_words(plan)):
        if words:
            sentences.append(words[0].upper() + words[1:] + ".")
    if faults:
        sentences.append(f"Problems: {'; '.join(fault.words for fault in faults)}.")
    return " ".join(filter(None, sentences))


def _propeller_words(station: StationPlan) -> str:
    """``279 mm ccw``."""
    size = "" if station.propeller_m is None else length_words(station.propeller_m)
    return " ".join(word for word in (size, station.hand) if word)


def layout_table(plan: LayoutPlan) -> Table:
    """One row a station: spin and its state, output, propeller with its hand, place, problems."""
    faults = layout_faults(plan)
    columns = ("station", "turns", "state", "output", "propeller", "place", "problem")
    rows = tuple(
        (
            station.name,
            _turn_words(station),
            _STATE_WORDS[station.spin_state] if station.turns else "",
            "" if station.output is None else str(station.output),
            _propeller_words(station),
            "not recorded"
            if station in plan.unplaced
            else place_words(station.forward_m, station.right_m, plan.to_scale),
            "; ".join(fault.words for fault in faults if station.name in fault.stations),
        )
        for station in (*plan.stations, *plan.unplaced)
    )
    return columns, rows
