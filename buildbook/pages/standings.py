"""Find how one aircraft or pack stands in the work list of a view."""

from buildbook.audience.view import View
from buildbook.report.work import PackStanding, Standing


def standing_of(view: View, slug: str) -> Standing:
    """How an aircraft stands. An aircraft that upkeep says nothing of: nothing can be said."""
    return next(
        (found for found in view.work.aircraft if found.slug == slug),
        Standing(
            slug=slug,
            name=view.hangar.aircraft[slug].record.aircraft,
            state="cannot say",
        ),
    )


def pack_standing_of(view: View, tag: str) -> PackStanding:
    """How a pack stands; without a standing, the state of the item."""
    return next(
        (found for found in view.work.packs if found.tag == tag),
        PackStanding(tag=tag, state=view.hangar.items[tag].state.state),
    )
