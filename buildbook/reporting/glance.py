"""What stands beside an aircraft on the front page."""

from buildbook.report.glance import Glance
from buildbook.reporting.upkeep.checks import open_checks
from buildbook.reporting.whole import Whole


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
