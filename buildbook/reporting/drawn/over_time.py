"""What is drawn over time: trends of a pack, of an aircraft, of the hangar; the timeline."""

from collections.abc import Iterator
from typing import Literal

from buildbook.figures.answers.log.changes import since_change
from buildbook.figures.laws.statistics.drift import individuals_chart
from buildbook.records import entries
from buildbook.records.programmes import LimitRule
from buildbook.report.drawn.plans import EventPlan, MonthPlan, TimelinePlan
from buildbook.report.drawn.series import (
    CapacitySeries,
    ConsumptionSeries,
    CrashSeries,
    FlownSeries,
    MonthSeries,
    ResistanceSeries,
)
from buildbook.report.figure import A_CHARGE, HOVER_A
from buildbook.report.history import FlightDone
from buildbook.report.packs.like_conditions import (
    charges_by,
    like_capacities,
    like_resistances,
    resistances,
    resistances_at,
)
from buildbook.report.state import AircraftNow, ItemNow
from buildbook.reporting.drawn.plans import last_months
from buildbook.reporting.whole import Whole

FEWEST_FLIGHTS = 8
"""Limits from fewer moving ranges say little. Common practice, no source."""

FEWEST_PREDICTED = 10
MOST_FLIGHTS = 30

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


FEWEST = 2
"""One reading makes no trend."""


def capacity_trend(whole: Whole, tag: str) -> CapacitySeries | None:
    """Measured capacities with the limit of the keeper, and the forecast where there is one.

    The forecast is drawn from the newest reading to the charge at which the limit is expected,
    its band to the early and late end of that interval.
    """
    pack, answers = whole.hangar.items[tag], whole.reports.figures_of_item(tag)
    counts = charges_by(pack, [done.seq for done in pack.capacities])
    points = tuple(
        (float(count), done.measured_ah)
        for count, done in zip(counts, pack.capacities, strict=True)
    )
    if len(points) < FEWEST:
        return None
    rated = pack.spec.capacity_ah
    share = whole.hangar.ledger.keeper.pack_end_of_life_share
    limit = rated * share if rated is not None and share is not None else None
    forecast = answers.find("pack_end_of_life")
    line: tuple[tuple[float, float], ...] = ()
    band: tuple[tuple[float, float, float], ...] = ()
    change = answers.find("pack_capacity", A_CHARGE)
    alike = like_capacities(pack).alike
    at, now = float(charges_by(pack, [alike[-1].seq])[0]), alike[-1].measured_ah
    if limit is not None and forecast is not None and forecast.value and forecast.value > at:
        line = ((at, now), (forecast.value, limit))
        if forecast.low is not None and forecast.high is not None:
            band = _band(at, now, limit, max(forecast.low, at), forecast.high)
    return CapacitySeries(
        tag=pack.tag,
        points=points,
        line=line,
        band=band,
        limit_ah=limit,
        rated_ah=rated,
        apart=tuple(at for at, done in enumerate(pack.capacities) if done not in alike),
        change_ah=None if change is None else change.value,
        without_storage=_has_stored(pack),
    )


def _band(
    at: float, now: float, limit: float, early: float, late: float
) -> tuple[tuple[float, float, float], ...]:
    """Charge, low and high between the straight lines to the early and the late end."""

    def on_line(end: float, charge: float) -> float:
        return limit if charge >= end else now + (limit - now) * (charge - at) / (end - at)

    steps = [at + (late - at) * step / 12 for step in range(13)]
    return tuple((charge, on_line(early, charge), on_line(late, charge)) for charge in steps)


def resistance_trend(whole: Whole, tag: str) -> ResistanceSeries | None:
    """Resistance of each cell by the number of the charge; the limit of the programme.

    Readings that several packs shared are left out: they belong to none of them.
    The limit is that of the first reading under like conditions.
    """
    pack, answers = whole.hangar.items[tag], whole.reports.figures_of_item(tag)
    read = [(float(number), charge.resistance_ohm) for number, charge in resistances(pack)]
    likes = like_resistances(pack)
    if len(read) < FEWEST:
        return None
    cells = min(len(values) for _, values in read)
    share = _resistance_share(whole, pack)
    figure = answers.find("pack_resistance")
    first = resistances_at(pack, likes.alike[0][1], likes.alike[-1][1].temperature_k)
    return ResistanceSeries(
        tag=pack.tag,
        cells=tuple(tuple((at, values[cell]) for at, values in read) for cell in range(cells)),
        limit_ohm=None if share is None else share * min(first[:cells]),
        odd_cell=figure.odd if figure and figure.odd and figure.odd <= cells else None,
        apart=tuple(float(number) for (number, _), _ in likes.unlike),
        without_storage=_has_stored(pack),
    )


def _has_stored(pack: ItemNow) -> bool:
    return any(charge.to == "storage" for charge in pack.charges)


def _resistance_share(whole: Whole, pack: ItemNow) -> float | None:
    for standing in whole.work.packs:
        for row in standing.rows if standing.tag == pack.tag else ():
            if isinstance(row.rule, LimitRule) and row.rule.cell_resistance_share:
                return row.rule.cell_resistance_share
    return None


def timeline(whole: Whole, slug: str) -> TimelinePlan | None:
    """Flying by month with what befell it and what was done; None before anything happened."""
    aircraft = whole.hangar.aircraft[slug]
    months = _months(aircraft)
    events = tuple(_events(aircraft))
    if not months and not events:
        return None
    return TimelinePlan(aircraft=aircraft.record.aircraft, months=months, events=events)


def _months(aircraft: AircraftNow) -> tuple[MonthPlan, ...]:
    flown: dict[str, tuple[int, float]] = {}
    for flight in aircraft.flights:
        month = f"{flight.on:%Y-%m}"
        count, seconds = flown.get(month, (0, 0.0))
        flown[month] = (count + 1, seconds + flight.duration_s)
    return tuple(
        MonthPlan(month=month, flights=count, hours=seconds / 3600)
        for month, (count, seconds) in sorted(flown.items())
    )


def _events(aircraft: AircraftNow) -> Iterator[EventPlan]:
    for done in aircraft.incidents:
        kind: Literal["crash", "hard landing"]
        kind = "hard landing" if done.severity == "light" else "crash"
        yield EventPlan(
            month=f"{done.on:%Y-%m}",
            kind=kind,
            words=kind,
            incident_words=done.incident.words if done.incident else "",
            day=done.on.day,
        )
    for line in aircraft.log:
        stands = line.stands
        if isinstance(stands, entries.Repair | entries.Alteration):
            yield EventPlan(
                month=f"{stands.on:%Y-%m}",
                kind="repair" if isinstance(stands, entries.Repair) else "alteration",
                words=stands.words or "",
                day=stands.on.day,
            )
