"""How often something goes wrong, with exact limits: by flights, by hours, by cause and station."""

from collections import Counter
from collections.abc import Iterator

import msgspec

from buildbook.basis import amounts
from buildbook.basis.amounts import significant
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import NOT_FLOWN, Craft
from buildbook.figures.answers.gathering import Lacking, measured
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import (
    LEVEL,
    Answer,
    attempt,
    by_method,
    given_value,
)
from buildbook.figures.laws.law import GARWOOD
from buildbook.figures.laws.statistics.counts import Sides, event_rate, mean_time_between
from buildbook.report.figure import Figure, Input

HUNDRED = 100.0
FEWEST = 10  # flights without an incident from which their bound is told: 30 in 100
COUNTED = "by the incidents in the log, not by what a check or a look found on the ground"
BY_CHANCE = "low and high: no closer can it be told from so few"
RATE = by_method(
    "events over flights or hours, with exact Poisson limits",
    GARWOOD,
    "event_rate",
)

INTERVAL = by_method(
    "time in the log over incidents, with exact limits of an observation ended at a chosen time",
    "NIST/SEMATECH e-Handbook, doi:10.18434/M32189, section 8.4.5.1",
    "mean_time_between",
)


def failure_interval(craft: Craft) -> Iterator[Answer]:
    """Mean time and mean number of flights between incidents."""
    yield attempt("failure_interval", "hours", _between_hours, craft)
    yield attempt("failure_interval", "flights", _between_flights, craft)


def failure_rate(craft: Craft) -> Iterator[Answer]:
    """Incidents per 100 flights and per hour, then by the causes and stations that recur."""
    _enough(craft)
    flown, incidents = craft.now.tally.total, craft.now.incidents
    count = len(incidents)
    hours = flown.duration_s / 3600
    yield attempt("failure_rate", "per 100 flights", _rate, craft, "per 100 flights", count)
    yield attempt("failure_rate", "per hour", _hourly, craft, count, hours)
    causes = Counter(
        one.incident.cause.strip()
        for one in incidents
        if one.incident is not None and one.incident.cause
    )
    for cause, number in _recurring(causes):
        of = f"cause {cause}, per 100 flights"
        answer = attempt("failure_rate", of, _rate, craft, of, number)
        yield msgspec.structs.replace(answer, shown="incidents")
    stations = Counter(station for one in incidents for station in one.stations)
    for station, number in _recurring(stations):
        of = f"station {station}, per 100 flights"
        yield attempt("failure_rate", of, _rate, craft, of, number)


def _enough(craft: Craft) -> None:
    """Lacking: nothing was flown, or so little that no incident tells nothing."""
    flights = craft.now.tally.total.flights
    if not flights:
        raise Lacking(NOT_FLOWN, craft.home)
    if flights < FEWEST and not craft.now.incidents:
        few = amounts.count("flight", flights)
        raise Lacking(
            f"{few} without an incident, which tells nothing yet: it takes {FEWEST}",
            craft.now.flights[-1].place if craft.now.flights else craft.home,
        )


def _recurring(counts: Counter[str]) -> list[tuple[str, int]]:
    """Those that came up twice or more, most often first: once alone makes no rate of its own."""
    twice = [pair for pair in counts.items() if pair[1] > 1]
    return sorted(twice, key=lambda pair: (-pair[1], pair[0]))


def _events(craft: Craft, count: int) -> Input:
    place = craft.now.incidents[-1].place if craft.now.incidents else craft.home
    return _logged("incidents", count, "count", place)


def _logged(name: str, count: float, unit: str, place: Place) -> Input:
    """What was counted in the log; nobody measures an incident."""
    return msgspec.structs.replace(measured(name, count, unit, place), basis="fitted")


def _rate(craft: Craft, of: str, count: int) -> Figure:
    flights = craft.now.tally.total.flights
    exposure = _logged("flights in the log", flights, "count", craft.now.flights[-1].place)
    return _figure(craft, of, count, exposure, flights, HUNDRED, "in 100 flights")


def _hourly(craft: Craft, count: int, hours: float) -> Figure:
    exposure = _logged("hours in the log", hours, "h", craft.now.flights[-1].place)
    return _figure(craft, "per hour", count, exposure, hours, 1.0, "an hour")


def _figure(
    craft: Craft,
    of: str,
    count: int,
    exposure: Input,
    amount: float,
    per: float,
    words: str,
) -> Figure:
    found = event_rate(count, amount, per=per, level=LEVEL)
    verdict = None
    if found.rate is None:
        verdict = f"no incident yet; at most {significant(found.high, 2)} {words}, at 95 %"
    return given_value(
        "failure_rate",
        found.rate,
        unit="count",
        way=RATE,
        of=of,
        low=found.low,
        high=found.high,
        level=found.level,
        inputs=(_events(craft, count), exposure),
        verdict=verdict,
        notes=(*_two_ends(found.sides), COUNTED),
    )


def _two_ends(sides: Sides) -> tuple[str, ...]:
    """What low and high are; of none seen there is one limit, which the verdict says."""
    return (BY_CHANCE,) if sides == "two-sided" else ()


def _between_hours(craft: Craft) -> Figure:
    return _between(craft, "hours", craft.now.tally.total.duration_s / 3600, "h")


def _between_flights(craft: Craft) -> Figure:
    return _between(craft, "flights", float(craft.now.tally.total.flights), "count")


def _between(craft: Craft, of: str, observed: float, unit: str) -> Figure:
    _enough(craft)
    count = len(craft.now.incidents)
    found = mean_time_between(observed, count, level=LEVEL)
    words = "h" if unit == "h" else "flights"
    least = f"no incident yet; at least {significant(found.low, 2)} {words} between two, at 95 %"
    return given_value(
        "failure_interval",
        found.estimate,
        unit=unit,
        way=INTERVAL,
        of=of,
        low=found.low,
        high=found.high,
        level=found.level,
        inputs=(
            _events(craft, count),
            _logged(f"{of} in the log", observed, unit, craft.now.flights[-1].place),
        ),
        verdict=None if count else least,
        notes=(*_two_ends(found.sides), COUNTED),
    )


FIGURES = (
    FigureSpec(
        name="failure_rate",
        title="Incidents",
        line="How many for the flying done, with exact limits.",
        about="Incidents per 100 flights and per hour, with exact limits.",
        topic="Time in service",
        unit="count",
        worded="two digits",
        shown="public",
        of_aircraft=failure_rate,
        methods=(RATE,),
        held_by=(
            "tests/published/test_upkeep_reliability.py",
            "tests/figures/answers/test_log_and_packs.py",
        ),
    ),
    FigureSpec(
        name="failure_interval",
        title="Between incidents",
        line="Mean time from one to the next, with exact limits.",
        about="Mean time and number of flights between incidents, with exact limits.",
        topic="Time in service",
        unit="h",
        further_units=("count",),
        worded="rough",
        shown="public",
        of_aircraft=failure_interval,
        methods=(INTERVAL,),
        held_by=(
            "tests/published/test_upkeep_reliability.py",
            "tests/figures/answers/test_log_and_packs.py",
        ),
    ),
)
