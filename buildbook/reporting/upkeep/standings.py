"""How one aircraft or pack stands in the work list, at a glance, and in a calendar."""

import datetime

from buildbook.report.upkeep.jobs import Glance
from buildbook.report.upkeep.work import PackStanding, Row, Standing
from buildbook.reporting.upkeep.checks import open_checks
from buildbook.reporting.whole import Whole


def aircraft_standing(whole: Whole, slug: str) -> Standing:
    """How an aircraft stands. An aircraft that upkeep says nothing of: nothing can be said."""
    return next(
        (found for found in whole.work.aircraft if found.slug == slug),
        Standing(
            slug=slug,
            name=whole.hangar.aircraft[slug].record.aircraft,
            state="cannot say",
        ),
    )


def pack_standing(whole: Whole, tag: str) -> PackStanding:
    """How a pack stands; without a standing, the state of the item."""
    return next(
        (found for found in whole.work.packs if found.tag == tag),
        PackStanding(tag=tag, state=whole.hangar.items[tag].state.state),
    )


def dated_work(whole: Whole) -> tuple[Row, ...]:
    """Rows of the work list with a day of their own, by day, aircraft and name."""
    rows = [row for row in whole.work.rows if row.due_on and row.state != "not applicable"]
    return tuple(sorted(rows, key=_order))


def _order(row: Row) -> tuple[datetime.date, str, str, str, str, str]:
    due_on = row.due_on or datetime.date.min
    return (due_on, row.aircraft or "", row.kind, row.name, row.tag or "", row.station or "")


def glance(whole: Whole, slug: str) -> Glance:
    """What to do first on an aircraft, and how much else is open."""
    reports = whole.reports
    jobs = [job for job in reports.jobs_of_aircraft(slug) if job.state != "not applicable"]
    left: set[str] = set()
    if whole.hangar.aircraft[slug].status == "building":
        left = {rule.check for rule in open_checks(whole, slug)}
    return Glance(
        first=jobs[0] if jobs else None,
        more=sum(job.group != "later" for job in jobs[1:]),
        open_checks=len(left),
    )
