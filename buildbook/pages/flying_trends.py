"""How an aircraft or the whole hangar flew over the time, as charts with their tables."""

from collections.abc import Iterator

from buildbook.drawings.chart_tables import (
    consumption_table,
    crash_gaps_table,
    flying_by_month_table,
)
from buildbook.figures.answers.log.changes import since_change
from buildbook.figures.laws.statistics.drift import individuals_chart
from buildbook.pages.pack_trends import Chart
from buildbook.pages.plans import months_flown
from buildbook.report.history import FlightDone
from buildbook.report.reports import Reports
from buildbook.report.series import ConsumptionSeries, CrashSeries, MonthSeries

FEWEST_FLIGHTS = 8
"""Limits from fewer moving ranges say little. Common practice, no source."""

FEWEST_MONTHS = 3
MOST_MONTHS = 24


def trends_of_aircraft(reports: Reports, slug: str) -> Iterator[Chart]:
    """Charge a minute and hours between crashes, where there is enough to draw."""
    charge = charge_a_minute(reports, slug)
    gaps = between_crashes(reports, slug)
    if not (charge or gaps):
        return
    from buildbook.drawings.charts import consumption_chart, crash_gaps_chart  # slow to import

    if charge:
        yield Chart(
            heading="Charge a minute",
            drawing=consumption_chart(charge, "consumption"),
            caption="Each flight with its charge noted, since motor, propeller or mass changed "
            "last. The limits come from these flights themselves.",
            table=consumption_table(charge),
        )
    if gaps:
        yield Chart(
            heading="Hours between crashes",
            drawing=crash_gaps_chart(gaps, "crashes"),
            caption="Time flown up to each flight that ended in a crash, and since the last one.",
            table=crash_gaps_table(gaps),
        )


def flying_of_hangar(reports: Reports) -> Chart | None:
    """Flights of all aircraft by month; nothing where it is hardly more than a month or two."""
    flights = [flight for one in reports.hangar.aircraft.values() for flight in one.flights]
    months = months_flown(reports, tuple(flights), MOST_MONTHS)
    first = next((place for place, month in enumerate(months) if month.flights), len(months))
    if len(months) - first < FEWEST_MONTHS:
        return None
    from buildbook.drawings.charts import flying_by_month_chart  # slow to import

    series = MonthSeries(name=reports.hangar.ledger.keeper.hangar, months=months[first:])
    return Chart(
        heading="Flying by month",
        drawing=flying_by_month_chart(series, "flying"),
        caption="Flights of all aircraft together, the last two years at most.",
        table=flying_by_month_table(series),
    )


def charge_a_minute(reports: Reports, slug: str) -> ConsumptionSeries | None:
    """Charge of each flight since the last change of motor, propeller or mass.

    A flight is numbered by its place in the log of the aircraft. Limits are those of single
    values against their moving range (NIST/SEMATECH e-Handbook 6.3.2.2).
    """
    aircraft = reports.hangar.aircraft[slug]
    since = since_change(reports.hangar, aircraft)
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


def between_crashes(reports: Reports, slug: str) -> CrashSeries | None:
    """Hours flown up to each crash; a flight that ended in one counts up to it."""
    aircraft = reports.hangar.aircraft[slug]
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
