"""Whether a pack or an aircraft leaves its usual range.

Free of numpy: the work list asks for it too. A change of motor, propeller or mass begins a new
history, for then the current changes with good reason.
"""

from collections.abc import Iterator, Sequence

from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft, Part
from buildbook.figures.answers.flight.rates import driven, loaded_apart, with_charge
from buildbook.figures.answers.gathering import Lacking, measured
from buildbook.figures.answers.log.changes import since_change
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt, by_method, given_value
from buildbook.figures.laws.statistics import drift as law
from buildbook.report.figure import Figure
from buildbook.report.history import FlightDone
from buildbook.report.state import AircraftNow, Hangar

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
    among = _since(craft.hangar, craft.now, None)
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
            *driven(flights),
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
