"""What stands beside an aircraft on the front page."""

from buildbook.report.glance import Glance
from buildbook.reporting.whole import Whole

_FINE = ("ok", "not applicable")


def glance(whole: Whole, slug: str) -> Glance:
    """What to do first on an aircraft, and how much else is open."""
    reports = whole.reports
    jobs = [job for job in reports.jobs_of_aircraft(slug) if job.state != "not applicable"]
    open_checks: set[str] = set()
    if whole.hangar.aircraft[slug].status == "building":
        open_checks = {row.name for row in reports.set_up_checks(slug) if row.state not in _FINE}
    return Glance(
        first=jobs[0] if jobs else None,
        more=sum(job.group != "later" for job in jobs[1:]),
        open_checks=len(open_checks),
    )
