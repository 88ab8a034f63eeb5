"""The plan of a timeline: flying by month, and what happened."""

from collections.abc import Iterator

from buildbook.records import entries
from buildbook.report.drawn.plans import EventPlan, MonthPlan, TimelinePlan
from buildbook.report.state import AircraftNow
from buildbook.reporting.whole import Whole


def timeline(whole: Whole, slug: str) -> TimelinePlan | None:
    """Flying by month with crashes, repairs and alterations; None before anything happened."""
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
    for crash in aircraft.incidents:
        if crash.severity != "light":
            yield EventPlan(
                month=f"{crash.on:%Y-%m}",
                kind="crash",
                words="crash",
                incident_words=crash.incident.words if crash.incident else "",
                day=crash.on.day,
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
