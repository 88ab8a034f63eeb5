"""Whether a pack or an aircraft leaves its usual range, and what of the log asks for a look."""

from collections.abc import Iterator, Sequence

import msgspec

from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft, Part
from buildbook.figures.answers.flight.rates import (
    driven,
    flown_alike,
    loaded_apart,
    with_charge,
)
from buildbook.figures.answers.gathering import Lacking, measured, number
from buildbook.figures.answers.log.changes import since_change
from buildbook.figures.answers.packs.packs import end_of_life
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt, by_method, given_value
from buildbook.figures.laws.statistics import drift as law
from buildbook.figures.laws.statistics.odd_one import odd_one_out
from buildbook.records.row_names import AIRCRAFT_DRIFT, ODD_CELL, PACK_CAPACITY, PACK_DRIFT
from buildbook.report.figure import Figure
from buildbook.report.history import ChargeDone, FlightDone, Recorded
from buildbook.report.packs.like_conditions import like_capacities
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.findings import Drifted, Finding, Measure
from buildbook.report.upkeep.pack_findings import CapacityLow, OddCell

BASELINE = 15
EWMA = by_method(
    "moving average of the flights against the mean of the first ones, with limits from their "
    "moving ranges",
    "NIST/SEMATECH e-Handbook 6.3.2.2 and 6.3.2.4, doi 10.18434/M32189",
    "ewma_chart",
)


def drift_of_aircraft(craft: Craft) -> Iterator[Answer]:
    """Time flown on each ampere-hour."""
    yield attempt("drift", "time on an ampere-hour", aircraft_drift, craft)


def drift_of_part(part: Part) -> Iterator[Answer]:
    """Charge of a pack for each minute flown."""
    yield attempt("drift", "charge a minute", pack_drift, part)


def _since(hangar: Hangar, aircraft: AircraftNow, tag: str | None) -> list[FlightDone]:
    """All flights since its last change, or those on one pack alone."""
    since = since_change(hangar, aircraft)
    return [
        flight
        for flight in aircraft.flights
        if flight.seq > since and (tag is None or flight.row.packs == (tag,))
    ]


def aircraft_drift(craft: Craft) -> Figure:
    """The drift of an aircraft since its last change. Lacking: too few flights.

    Of a glider the time that the motor ran: in the air it draws nothing.
    """
    among = flown_alike(craft, _since(craft.hangar, craft.now, None))
    flights = with_charge(among)
    values = [flight.motor_s / (flight.row.used_ah or 1.0) for flight in flights]
    return _judged("time on an ampere-hour", values, flights, among, craft.home)


def pack_drift(part: Part) -> Figure:
    """The drift of a pack on the aircraft that it flew on last. Lacking: too few flights."""
    item = part.item
    if not item.flights:
        raise Lacking(f"{item.tag} has not flown yet", item.item.place())
    aircraft = part.hangar.aircraft[item.flights[-1].aircraft]
    among = _since(part.hangar, aircraft, item.tag)
    flights = with_charge(among)
    values = [(flight.row.used_ah or 0.0) / flight.motor_s for flight in flights]
    return _judged("charge a minute", values, flights, among, item.item.place())


def _judged(
    of: str,
    values: Sequence[float],
    flights: Sequence[FlightDone],
    among: Sequence[FlightDone],
    home: Place,
) -> Figure:
    if len(values) <= BASELINE:
        raise Lacking(
            f"flights with their charge since the last change of motor, propeller or mass: "
            f"{len(values)}; it takes {BASELINE + 1}",
            flights[-1].place if flights else home,
        )
    found = law.drift(values, baseline=BASELINE)
    last = found.chart.points[-1]
    outside = found.now_outside
    words = "outside its own limits now" if outside else "within its own limits"
    if found.first_signal is not None and not outside:
        words = "within its own limits now, outside before"
    return given_value(
        "drift",
        found.change_share,
        unit="ratio",
        way=EWMA,
        of=of,
        low=last.low / found.baseline_mean - 1,
        high=last.high / found.baseline_mean - 1,
        basis="measured",
        inputs=(
            measured("flights looked at", len(values), "count", flights[-1].place),
            measured("flights of the baseline", BASELINE, "count", flights[BASELINE - 1].place),
        ),
        verdict=words,
        judged="outside its own limits" if outside else None,
        notes=(
            "low and high: where the average may be by chance",
            *driven(flights, among),
            *loaded_apart(flights, among),
        ),
    )


FIGURES = (
    FigureSpec(
        name="drift",
        title="Drift",
        line="Whether a figure has left its usual range.",
        about="Whether a pack or an aircraft leaves its usual range.",
        topic="Time in service",
        unit="ratio",
        worded="share",
        shown="public",
        of_aircraft=drift_of_aircraft,
        of_pack=drift_of_part,
        methods=(EWMA,),
        held_by=(
            "tests/published/test_upkeep_charts.py",
            "tests/figures/answers/test_log_and_packs.py",
        ),
    ),
)


ODD_AT_FIRST_SIGHT = 1.2  # greatest over least resistance of the cells of one reading


class Signal(msgspec.Struct, frozen=True, kw_only=True):
    """Something to look at.

    task: the name of the task that it opens; figure: the figure that shows it; entry: the newest
    entry that it rests on: an inspection of that task after it closes it.
    """

    task: str
    figure: str
    found: Finding
    entry: Recorded


def signals_of_aircraft(hangar: Hangar, slug: str) -> tuple[Signal, ...]:
    """What the log of an aircraft shows. KeyError: no such aircraft."""
    craft = Craft(hangar, slug)
    try:
        figure = aircraft_drift(craft)
    except (Lacking, ValueError):
        return ()
    entry = craft.now.flights[-1]
    return _outside(AIRCRAFT_DRIFT, figure, "time on an ampere-hour", entry)


def signals_of_pack(hangar: Hangar, tag: str) -> tuple[Signal, ...]:
    """What the log of a pack shows: drift, an odd cell, worn out. KeyError: no such item."""
    part = Part(hangar, hangar.items[tag])
    if not part.item.is_pack:
        return ()
    found: list[Signal] = []
    try:
        figure = pack_drift(part)
        entry = part.item.flights[-1]
        found += _outside(PACK_DRIFT, figure, "charge a minute", entry)
    except (Lacking, ValueError):
        pass
    return (*found, *_odd_cell(part), *_worn(part))


def _outside(task: str, figure: Figure, of: Measure, entry: Recorded) -> tuple[Signal, ...]:
    if figure.judged != "outside its own limits" or figure.value is None:
        return ()
    found = Drifted(of=of, share=figure.value)
    return (Signal(task=task, figure="drift", found=found, entry=entry),)


def _odd_cell(part: Part) -> tuple[Signal, ...]:
    found = odd_cell(part.item)
    if found is None:
        return ()
    odd, charge = found
    return (Signal(task=ODD_CELL, figure="pack_resistance", found=odd, entry=charge),)


def odd_cell(pack: ItemNow) -> tuple[OddCell, ChargeDone] | None:
    """The cell that stands out in the last reading of each, and the charge that read them."""
    for charge in reversed(pack.charges):
        ohms = charge.resistance_ohm
        if len(ohms) < 3:
            continue
        if min(ohms) <= 0 or max(ohms) < ODD_AT_FIRST_SIGHT * min(ohms):
            return None
        odd = odd_one_out(ohms)
        return None if odd is None else (OddCell(cell=odd.position + 1, share=odd.share), charge)
    return None


def _worn(part: Part) -> tuple[Signal, ...]:
    """The last capacity under like conditions is below the share; it warns and retires nothing."""
    item = part.item
    if not item.capacities or not item.spec.capacity_ah:
        return ()
    last, share = like_capacities(item).alike[-1], number(end_of_life(part.keeper))
    now = item.share_of_rated_in(last)
    if now is None or not item.is_below(share, last):
        return ()
    return (
        Signal(
            task=PACK_CAPACITY,
            figure="pack_end_of_life",
            found=CapacityLow(share=now, least_share=share),
            entry=last,
        ),
    )
