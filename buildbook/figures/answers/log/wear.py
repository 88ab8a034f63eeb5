"""What airframes and parts have lived through, carried life included."""

from collections.abc import Iterator

import msgspec

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft, Part
from buildbook.figures.answers.gathering import declared, default, measured
from buildbook.figures.answers.packs.use import ABOUT, STRETCHES, uncounted
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, by_method, given_value
from buildbook.records.parts import DRIVE, Carried
from buildbook.report.figure import Figure, Input
from buildbook.report.state import Counters

MOTOR_TIME = "of a glider the time that its motor ran, not the time in the air"
UNKNOWN = "at least; earlier history unknown"
ALL_THE_TIME = "the motor taken to run all the time"
SUMMED = by_method("sum over the log, and the life before it", "the log")
CYCLES = by_method(
    STRETCHES,
    "the counting rule of the records: a charge is counted once",
)


def aircraft_hours(craft: Craft) -> Iterator[Answer]:
    """Flying time of the airframe."""
    now = craft.now
    hours = now.counters.duration_s / 3600
    yield _counted(
        "aircraft",
        "hours",
        hours,
        "h",
        now.counters,
        now.record.carried,
        _place(craft),
        _born(craft),
    )


def aircraft_flights(craft: Craft) -> Iterator[Answer]:
    """Those in the log and those carried over; at least so many where the start is not known."""
    now = craft.now
    flights = now.counters.flights
    yield _counted(
        "aircraft",
        "flights",
        flights,
        "count",
        now.counters,
        now.record.carried,
        _place(craft),
        _born(craft),
    )


def _place(craft: Craft) -> Place | None:
    return craft.now.flights[-1].place if craft.now.flights else None


def _born(craft: Craft) -> Place:
    return craft.now.record.place("carried")


def component_hours(part: Part) -> Iterator[Answer]:
    """Flying time of an item, on whichever aircraft."""
    item = part.item
    figure = _of_part("hours", part, item.counters.duration_s / 3600, "h")
    if item.spec.kind in DRIVE and any(
        part.hangar.aircraft[stay.aircraft].tally.total.gliding_s for stay in item.stays
    ):
        figure = msgspec.structs.replace(figure, notes=(*figure.notes, MOTOR_TIME))
    yield figure


def component_flights(part: Part) -> Iterator[Answer]:
    """Those it was fitted for, on any aircraft, and those carried over."""
    yield _of_part("flights", part, part.item.counters.flights, "count")


def component_cycles(part: Part) -> Figure:
    """Equivalent full cycles of a pack; at least those, where flights or charges lack a figure."""
    gaps = uncounted(part)
    figure = _of_part("cycles", part, part.item.counters.cycles, "count")
    if not gaps:
        return figure
    verdict = UNKNOWN if part.item.counters.basis == "unknown" else "at least"
    return msgspec.structs.replace(figure, verdict=verdict, notes=(*figure.notes, *gaps))


def component_crashes(part: Part) -> Iterator[Answer]:
    """Crashes that touched an item, hard landings beside them."""
    counters = part.item.counters
    figure = _of_part("crashes", part, counters.crashes, "count")
    yield msgspec.structs.replace(figure, other={"hard landings": float(counters.hard_landings)})


def _of_part(kind: str, part: Part, value: float, unit: str) -> Figure:
    item = part.item
    return _counted(
        "component",
        kind,
        value,
        unit,
        item.counters,
        item.item.carried,
        part.last_place,
        item.item.place("carried"),
    )


def _counted(
    whose: str,
    kind: str,
    value: float,
    unit: str,
    counters: Counters,
    carried: Carried | None,
    last: Place | None,
    home: Place,
) -> Figure:
    inputs: list[Input] = []
    missing = carried is not None and _is_missing(kind, carried)
    untold = counters.untold_s / 3600 if kind == "hours" else 0.0
    value_here = value - untold
    before = 0.0 if carried is None else _before(kind, carried)
    if carried is not None and not missing and (before or carried.basis != "unknown"):
        known = measured if carried.basis == "measured" else declared
        inputs.append(known("life before the log", before, unit, home))
        value_here -= before
    inputs.append(measured("in this log", value_here, unit, last))
    if untold:
        inputs.append(default("flights without 'motor_run'", untold, unit, ALL_THE_TIME, last))
    figure = given_value(
        f"{whose}_{kind}",
        value,
        unit=unit,
        way=CYCLES if kind == "cycles" else SUMMED,
        inputs=inputs,
        verdict=_bounds(kind, counters, missing=missing),
    )
    return msgspec.structs.replace(figure, low=value - untold, high=value) if untold else figure


def _bounds(kind: str, counters: Counters, *, missing: bool) -> str | None:
    """On which side the count is a limit, and of what; of some it is one on neither.

    missing: what was before the log is written without this count.
    """
    more = "earlier history unknown" if counters.basis == "unknown" else ""
    if missing and not more:
        more = f"{kind} before the log are not recorded"
    if kind == "hours" and counters.time_at_most:
        about = "about, at most" if counters.basis == "estimate" else "at most"
        whole = amounts.hours(counters.untold_s)
        return f"{more or about}; {whole} of flights without 'motor_run' count whole"
    if more:
        return f"at least; {more}"
    return ABOUT if counters.basis == "estimate" else None


def _is_missing(kind: str, carried: Carried) -> bool:
    """Whether a life before the log was written without this count, though with another."""
    lived = carried.flights > 0 or carried.duration_s > 0 or carried.cycles > 0
    return lived and _before(kind, carried) <= 0


def _before(kind: str, carried: Carried) -> float:
    if kind == "hours":
        return carried.duration_s / 3600
    return {"flights": float(carried.flights), "cycles": carried.cycles}.get(kind, 0.0)


FIGURES = (
    FigureSpec(
        name="aircraft_hours",
        title="Hours of the airframe",
        line="Flown, carried life included.",
        about="Flying time of the airframe.",
        topic="Time in service",
        unit="h",
        shown="public",
        of_aircraft=aircraft_hours,
        methods=(SUMMED,),
        held_by=("tests/figures/answers/test_lives_and_air.py",),
    ),
    FigureSpec(
        name="aircraft_flights",
        title="Flights of the airframe",
        line="Flown, carried life included.",
        about="Flights of the airframe.",
        topic="Time in service",
        unit="count",
        shown="public",
        of_aircraft=aircraft_flights,
        methods=(SUMMED,),
        held_by=("tests/figures/answers/test_lives_and_air.py",),
    ),
    FigureSpec(
        name="component_hours",
        title="Hours of the parts",
        line="Across all aircraft.",
        about="Flying time of an item, on whichever aircraft.",
        topic="Time in service",
        unit="h",
        shown="public",
        of_item=component_hours,
        methods=(SUMMED,),
        held_by=("tests/figures/answers/test_log_and_packs.py",),
    ),
    FigureSpec(
        name="component_flights",
        title="Flights of the parts",
        line="Across all aircraft.",
        about="Flights of an item.",
        topic="Time in service",
        unit="count",
        shown="public",
        of_item=component_flights,
        methods=(SUMMED,),
        held_by=("tests/figures/answers/test_lives_and_air.py",),
    ),
    FigureSpec(
        name="component_cycles",
        title="Cycles of the parts",
        line="Across all aircraft.",
        about="Equivalent full cycles of a pack.",
        topic="Time in service",
        unit="count",
        worded="tenths",
        shown="public",
        of_pack=component_cycles,
        methods=(CYCLES,),
        held_by=("tests/figures/answers/test_log_and_packs.py",),
    ),
    FigureSpec(
        name="component_crashes",
        title="Crashes of the parts",
        line="Across all aircraft.",
        about="Crashes that touched an item.",
        topic="Time in service",
        unit="count",
        shown="public",
        of_item=component_crashes,
        methods=(SUMMED,),
        held_by=("tests/figures/answers/test_lives_and_air.py",),
    ),
)
