"""The plan of a timeline: flying by month, and what happened."""

from collections.abc import Iterator
from typing import Literal

from buildbook.records import entries
from buildbook.report.drawn.plans import EventPlan, MonthPlan, TimelinePlan
from buildbook.report.state import AircraftNow
from buildbook.reporting.whole import Whole


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
