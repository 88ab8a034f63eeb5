"""The pictures that stand beside links to stories, by address."""

from collections.abc import Mapping

from buildbook.pages.story import write_up
from buildbook.pages.story.linked import card_address
from buildbook.report.reports import Reports
from buildbook.words.public import kind_of_build


def cards_of(reports: Reports) -> Mapping[str, bytes]:
    """One for each story with a layout, where others may read it."""
    if not reports.is_public:
        return {}
    plans = {slug: reports.layout_outline(slug) for slug in write_up.keys(reports)}
    if not any(plans.values()):
        return {}
    from buildbook.pictures.card import card  # only here: letters and pixels take long to load

    made = {}
    for slug, plan in plans.items():
        aircraft = reports.hangar.aircraft[slug]
        story = aircraft.record.story
        if plan is not None:
            promise = (story.promise if story else None) or kind_of_build(aircraft).capitalize()
            name = aircraft.record.aircraft
            made[card_address(slug)] = card(
                plan, name, promise, reports.hangar.ledger.keeper.hangar
            )
    return made
