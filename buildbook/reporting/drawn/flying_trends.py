"""How an aircraft or the whole hangar flew over the time, as series for the charts."""

from buildbook.figures.answers.log.changes import since_change
from buildbook.figures.laws.statistics.drift import individuals_chart
from buildbook.report.drawn.series import ConsumptionSeries, CrashSeries, FlownSeries, MonthSeries
from buildbook.report.figure import HOVER_A
from buildbook.report.history import FlightDone
from buildbook.reporting.drawn.plans import last_months
from buildbook.reporting.whole import Whole

FEWEST_FLIGHTS = 8
"""Limits from fewer moving ranges say little. Common practice, no source."""

FEWEST_PREDICTED = 10
MOST_FLIGHTS = 60

FEWEST_MONTHS = 3
MOST_MONTHS = 24


def flying_by_month(whole: Whole) -> MonthSeries | None:
    """Flights of all aircraft by month, two years at most; None where it is hardly a season."""
    hangar = whole.hangar
    flights = [flight for one in hangar.aircraft.values() for flight in one.flights]
    months = last_months(hangar.as_of, flights, MOST_MONTHS)
    first = next((place for place, month in enumerate(months) if month.flights), len(months))
    if len(months) - first < FEWEST_MONTHS:
        return None
    all_flights = sum(one.counters.flights for one in hangar.aircraft.values())
    return MonthSeries(
        name=hangar.ledger.keeper.hangar,
        months=months[first:],
        earlier=all_flights - sum(month.flights for month in months),
    )


def charge_a_minute(whole: Whole, slug: str) -> ConsumptionSeries | None:
    """Charge of each flight since the last change of motor, propeller or mass.

    A flight is numbered by its place in the log of the aircraft. Limits are those of single
    values against their moving range (NIST/SEMATECH e-Handbook 6.3.2.2).
    """
    aircraft = whole.hangar.aircraft[slug]
    since = since_change(whole.hangar, aircraft)
    points = tuple(
        (float(number), 1000 * flight.row.used_ah / (flight.duration_s / 60))
        for number, flight in enumerate(aircraft.flights, 1)
        if flight.seq > since and flight.row.used_ah and flight.duration_s > 0
    )
    if len(points) < FEWEST_FLIGHTS:
        return None
    chart = individuals_chart([value for _, value in points])
    first, last = points[0][0], points[-1][0]
    return ConsumptionSeries(
        name=aircraft.record.aircraft,
        points=points,
        centre=chart.centre,
        lower=((first, chart.low), (last, chart.low)) if chart.low > 0 else (),
        upper=((first, chart.high), (last, chart.high)),
        signals=chart.outside,
    )


def between_crashes(whole: Whole, slug: str) -> CrashSeries | None:
    """Hours flown up to each crash; a flight that ended in one counts up to it."""
    aircraft = whole.hangar.aircraft[slug]
    gaps: list[float] = []
    hours = 0.0
    for flight in aircraft.flights:
        hours += flight.duration_s / 3600
        if _crashed(flight):
            gaps.append(hours)
            hours = 0.0
    if not gaps:
        return None
    return CrashSeries(name=aircraft.record.aircraft, gaps_h=tuple(gaps), since_h=hours)


def _crashed(flight: FlightDone) -> bool:
    return flight.landing == "crash"


def predicted_flown(whole: Whole, slug: str) -> FlownSeries | None:
    """Each of the newest flights: time by theory for the charge it used, against time flown."""
    figure = whole.reports.figures_of_aircraft(slug).find("flown_current")
    theory = figure.other.get(HOVER_A) if figure else None
    if not theory:
        return None
    aircraft = whole.hangar.aircraft[slug]
    points = tuple(
        (flight.row.used_ah * 3600 / theory, flight.duration_s)
        for flight in aircraft.flights
        if flight.row.used_ah
    )[-MOST_FLIGHTS:]
    if len(points) < FEWEST_PREDICTED:
        return None
    return FlownSeries(name=aircraft.record.aircraft, points=points)
