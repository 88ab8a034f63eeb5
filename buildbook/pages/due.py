"""The work list: what to do first, what next, and what is in order."""

from collections.abc import Iterable

from buildbook.audience.view import View
from buildbook.pages.addresses import address_of
from buildbook.pages.jobs import GROUPS, all_jobs, grouped
from buildbook.pages.page import Page
from buildbook.pages.programme import keys as applied_programmes


def keys(_view: View) -> Iterable[str]:
    """There is one."""
    return ("",)


def page(view: View, _key: str) -> Page:
    """All rows of upkeep, those that are alike as one, grouped by what to do first."""
    jobs = all_jobs(view)
    return Page(
        address=address_of("due"),
        template="due.html.j2",
        title="What is due",
        crumbs=((address_of("hangar"), view.hangar.ledger.keeper.hangar),),
        facts={
            "groups": grouped(jobs),
            "headings": GROUPS,
            "hands_on": any(job.propellers_off and job.group != "later" for job in jobs),
            "programmes": applied_programmes(view),
            "check_flight": any(_asks_for_flight(job.row) for job in jobs),
        },
        about=f"The work list of {view.hangar.ledger.keeper.hangar}.",
    )


def _asks_for_flight(row: object) -> bool:
    because = getattr(row, "because", None)
    return because is not None and because.why == "check flight"
