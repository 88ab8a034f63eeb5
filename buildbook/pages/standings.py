"""Find how one aircraft or pack stands in the work list of a reports."""

from buildbook.report.reports import Reports
from buildbook.report.work import PackStanding, Standing


def standing_of(reports: Reports, slug: str) -> Standing:
    """How an aircraft stands. An aircraft that upkeep says nothing of: nothing can be said."""
    return next(
        (found for found in reports.work.aircraft if found.slug == slug),
        Standing(
            slug=slug,
            name=reports.hangar.aircraft[slug].record.aircraft,
            state="cannot say",
        ),
    )


def pack_standing_of(reports: Reports, tag: str) -> PackStanding:
    """How a pack stands; without a standing, the state of the item."""
    return next(
        (found for found in reports.work.packs if found.tag == tag),
        PackStanding(tag=tag, state=reports.hangar.items[tag].state.state),
    )
