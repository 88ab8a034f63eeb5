"""What a page turns to by a day alone: which aircraft is grounded from when, and how many then.

The HTML holds both states with the day between them, and the small script shows the one of the
reader's day. No day is written where days are not shared, or for a past day: what was open then
may be done since.
"""

import datetime
from collections.abc import Iterable
from typing import NamedTuple

from buildbook.report.reports import Reports
from buildbook.report.upkeep.jobs import Job
from buildbook.report.upkeep.work import PackStanding, Row, Standing


class Tally(NamedTuple):
    """How many aircraft stand in a state, from one day to before another."""

    state: str
    number: int
    since: datetime.date | None
    till: datetime.date | None


def ages(reports: Reports) -> bool:
    """Whether the reader's day may be held against the days of the page."""
    return reports.exact_days and not reports.hangar.left_out


def lapse_of(reports: Reports, of: Standing | PackStanding | Job) -> Row | None:
    """Its row that grounds first by its day, where the page ages."""
    return of.lapse if ages(reports) else None


def lapsing_of(reports: Reports, slugs: Iterable[str]) -> tuple[Row, ...]:
    """What grounds some of these aircraft by its day, first the first; each of another one."""
    found = (lapse_of(reports, reports.aircraft_standing(slug)) for slug in slugs)
    dated = [
        (row.grounds_from, row.aircraft or "", row) for row in found if row and row.grounds_from
    ]
    return tuple(row for *_, row in sorted(dated, key=lambda each: each[:2]))


def tallies(reports: Reports, slugs: Iterable[str], order: Iterable[str]) -> tuple[Tally, ...]:
    """How many of these aircraft stand in each state, and anew from each day that changes that."""
    standings = [reports.aircraft_standing(slug) for slug in slugs]
    from_day = {one.slug: row.grounds_from for one in standings if (row := lapse_of(reports, one))}
    days = (None, *sorted({day for day in from_day.values() if day is not None}))
    found: list[Tally] = []
    for state in order:
        counts: list[Tally] = []
        for since in days:
            gone = {slug for slug, day in from_day.items() if since and day and day <= since}
            states: list[str] = ["grounded" if one.slug in gone else one.state for one in standings]
            if not counts or counts[-1].number != states.count(state):
                counts[-1:] = [one._replace(till=since) for one in counts[-1:]]
                counts.append(Tally(state, states.count(state), since, None))
        found += (one for one in counts if one.number)
    return tuple(found)
