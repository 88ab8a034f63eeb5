"""What a visitor is told of a build: its kind, four figures, the facts of its story."""

from collections.abc import Iterator

import msgspec

from buildbook.basis import amounts
from buildbook.records.keeper import Keeper
from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import Spec
from buildbook.report.drawn.plans import BalancePlan, LayoutPlan, StationPlan
from buildbook.report.figure import SUMMED_KG, WEIGHED_KG, Answers, Figure
from buildbook.report.figures.headlines import Headlines
from buildbook.report.state import AircraftNow
from buildbook.words.logbook.entry_details import run_ends
from buildbook.words.measures.figure_values import value_words
from buildbook.words.measures.intervals import flown_words
from buildbook.words.measures.lengths import apart_m, length_words, place_words
from buildbook.words.specs import spec_rows

OWN = "Outputs, leads and directions belong to this aircraft and its controller; check yours."
"""Said where the public sees a layout or its wiring."""

_STATUS = {
    "building": "being built",
    "stored": "in storage",
    "retired": "no longer flown",
    "sold": "sold",
}
_LEFT_OUT_OF_PARTS = frozenset(
    (
        "bench",
        "thrust_coefficient",
        "power_coefficient",
        "figure_of_merit",
        "no_load_current",
        "no_load_voltage",
        "cutoff_cell_voltage",
        "cell_resistance",
        "resistance",
        "nominal_cell_voltage",
    )
)
"""What nobody needs who looks for such a part in a shop."""


class Said(msgspec.Struct, frozen=True):
    """A fact in two words or three: what it is, and how it stands."""

    what: str
    words: str


def kind_of_build(aircraft: AircraftNow) -> str:
    """``X-shaped quad``, and how it is where it is not flying."""
    layout = LAYOUTS.get(aircraft.record.layout)
    words = layout.words if layout else aircraft.record.layout
    status = _STATUS.get(aircraft.status)
    return f"{words}, {status}" if status else words


def four_figures(aircraft: AircraftNow, headlines: Headlines) -> tuple[Said, ...]:
    """Size, mass, time in the air and time flown; a dash is not shown for what nobody recorded.

    The time is the one to plan with, on the pack flown most; the current that of the log where
    there is one.
    """
    return tuple(_figures(aircraft, headlines))[:4]


def _figures(aircraft: AircraftNow, headlines: Headlines) -> Iterator[Said]:
    record = aircraft.record
    if record.diagonal_m is not None:
        apart = apart_m(record.layout, record.diagonal_m)
        if apart is None:
            yield Said("diagonal, shaft to shaft", amounts.length(record.diagonal_m))
        else:
            yield Said("from motor to motor", length_words(apart))
    elif record.wing and record.wing.span_m is not None:
        yield Said("span", amounts.length(record.wing.span_m))
    known = {one.name: one.usual or one.figure for one in headlines.shown if one.figure}
    usual = tuple(one.usual for one in headlines.shown if one.usual)
    for name, what in _CHOSEN:
        figure = known.get(name)
        if name == "hover_current" and "flown_current" in known and record.kind == "multirotor":
            figure, what = known["flown_current"], "in flight"
        if figure is None or figure.value is None:
            continue
        if name == "flight_time" and figure.low is not None:
            pack = "its usual pack" if figure in usual else "one pack"
            yield Said(f"planned on {pack}", _whole(figure, figure.low))
        else:
            yield Said(what, _whole(figure, figure.value))
    if aircraft.counters.flights:
        flights = amounts.count("flight", aircraft.counters.flights)
        yield Said(f"in {flights}", flown_words(aircraft.counters))


def _whole(figure: Figure, value: float) -> str:
    """A time in whole minutes, rounded down: nobody plans a first flight by the second."""
    if figure.unit == "s" and value >= _MINUTE_S:
        return f"{int(value // _MINUTE_S)} min"
    return value_words(figure, value)


_MINUTE_S = 60
_CHOSEN = (
    ("all_up_mass", "ready to fly"),
    ("flight_time", "on one pack"),
    ("hover_current", "in the hover"),
    ("stall_speed", "at the stall"),
)
"""Figures for a visitor, in the order of interest; the first that there are stand."""


def story_facts(aircraft: AircraftNow) -> tuple[Said, ...]:
    """How hard, how long, how much; only what the keeper said and this audience may see."""
    story = aircraft.record.story
    if story is None:
        return ()
    found = (
        ("Build", story.difficulty),
        ("Took", story.time),
        (
            "Parts",
            f"about {_money(story.cost.amount)} {story.cost.currency}" if story.cost else None,
        ),
    )
    return tuple(Said(what, words) for what, words in found if words)


def _money(amount: float) -> str:
    return f"{amount:.2f}".removesuffix(".00")


def licence_of(aircraft: AircraftNow, keeper: Keeper) -> str | None:
    """That of the story, else that of the hangar."""
    story = aircraft.record.story
    return (story.licence if story else None) or keeper.licence


_TURNS = {"cw": "clockwise", "ccw": "counter-clockwise"}


def layout_notes(plan: LayoutPlan) -> tuple[Said, ...]:
    """What to know of each motor station, in the order of the drawing."""
    return tuple(Said(station.name, _station_words(station)) for station in plan.stations)


def balance_notes(plan: BalancePlan) -> tuple[Said, ...]:
    """Where each mass is, by the numbers of the drawing: ``9 mm forward; 26 mm down``."""
    return tuple(
        Said(
            load.name,
            "; ".join((place_words(load.forward_m, load.right_m), *_height_words(load.down_m))),
        )
        for load in plan.numbered
    )


def _height_words(down_m: float) -> Iterator[str]:
    if abs(down_m) >= _LEAST_M:
        yield f"{length_words(abs(down_m))} {'down' if down_m > 0 else 'up'}"


_LEAST_M = 0.0005


def _station_words(station: StationPlan) -> str:
    said = [f"turns {_TURNS[station.spin]}" if station.spin else "spin not recorded"]
    if station.propeller_m is not None:
        hand = f", made for {_TURNS[station.hand]}" if station.hand else ""
        said.append(f"propeller {length_words(station.propeller_m)}{hand}")
    said.append(place_words(station.forward_m, station.right_m))
    return "; ".join(said)


def wiring_notes(aircraft: AircraftNow) -> tuple[Said, ...]:
    """Each run with its size, from the pack on."""
    return tuple(
        Said(
            run_ends(run),
            ", ".join(
                word
                for word in (
                    run.wire.written if run.wire else "",
                    f"{amounts.length(run.length_m)} one way" if run.length_m is not None else "",
                    run.plug or "",
                )
                if word
            )
            or "no size recorded",
        )
        for run in aircraft.wiring
    )


def parts_total(answers: Answers) -> str:
    """What the list of parts adds up to with all that it leaves out, as the mass budget has it.

    Empty where a mass is missing: the sum would be of a part of them.
    """
    budget = next((one for one in answers.figures if one.name == "mass_budget"), None)
    if budget is None or budget.table is None:
        return ""
    at = budget.table.columns.index("mass_kg")
    if any(row[at] is None for row in budget.table.rows):
        return ""
    pack = f"With {budget.of}, fixings" if budget.of else "With fixings"
    summed = f"{pack} and alterations they add up to {amounts.mass(budget.other[SUMMED_KG])}"
    weighed = budget.other.get(WEIGHED_KG)
    return summed if weighed is None else f"{summed}; weighed, {amounts.mass(weighed)}"


def spec_words(spec: Spec) -> str:
    """What to look for in a shop: ``870 rpm/V, 22 A at most``."""
    said = (
        f"{label} {words}" for label, words, key in spec_rows(spec) if key not in _LEFT_OUT_OF_PARTS
    )
    return "; ".join(said)
