"""How one aircraft or pack stands in the work list, at a glance, and in a calendar."""

import datetime

from buildbook.report.state import Hangar
from buildbook.report.upkeep.jobs import Glance, in_sight
from buildbook.report.upkeep.work import PackStanding, Row, Standing
from buildbook.reporting.upkeep.set_up import open_checks
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


_AT_FITTING = (None, "interval", "trigger", "never done")
"""Why a task of a spare part need not be told before it is fitted; a failed look must be."""


def waits_for_fitting(hangar: Hangar, row: Row) -> bool:
    """Whether it is what comes round of a part in the drawer: told on its page, and once fitted."""
    item = hangar.items.get(row.tag or "")
    if item is None or item.is_pack or row.aircraft is not None or row.kind != "task":
        return False
    return (None if row.because is None else row.because.why) in _AT_FITTING


def dated_work(whole: Whole) -> tuple[Row, ...]:
    """Rows of the work list with a day of their own, by day, aircraft and name."""
    rows = [
        row
        for row in whole.work.rows
        if row.due_on and row.state != "not applicable" and not waits_for_fitting(whole.hangar, row)
    ]
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
    also, more = in_sight([job for job in jobs[1:] if job.group != "later"], 0)
    return Glance(
        first=jobs[0] if jobs else None,
        also=also,
        more=more,
        open_checks=len(left),
    )
