"""How one aircraft or pack stands in the work list."""

from buildbook.report.upkeep.work import PackStanding, Standing
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
