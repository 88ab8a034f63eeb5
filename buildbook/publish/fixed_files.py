"""Files of a site that are no pages: styles, the script, photographs and cards, by address."""

from collections.abc import Mapping
from pathlib import Path

from buildbook.pages.addresses import address_of
from buildbook.pages.story import write_up
from buildbook.pages.story.linked import card_address
from buildbook.pages.theme import more_script, more_style, script, stylesheet
from buildbook.report.reports import Reports
from buildbook.words.public import kind_of_build


def fixed_files(
    reports: Reports, theme: tuple[Path, ...], photos: Mapping[str, bytes]
) -> Mapping[str, bytes]:
    """All of them. photos: bytes by address; only those that the audience may see are taken."""
    found = {
        address_of("style"): stylesheet(theme).encode("utf-8"),
        **{address: more_style(theme, address).encode("utf-8") for address in _more(reports)},
    }
    if not reports.is_public:
        found |= {
            address: more_script(theme, address).encode("utf-8")
            for address in (address_of("form-script"), address_of("form-worker"))
        }
    book = script(theme)
    if book is not None:
        found[address_of("script")] = book.encode("utf-8")
    shown = reports.pictures.values()
    addresses = {picture.address for picture in shown} | {one.small_address for one in shown}
    return found | {address: photos[address] for address in sorted(addresses & photos.keys())}


def _more(reports: Reports) -> tuple[str, ...]:
    """Styles that only some pages load; nobody else sees cards or the form for the field."""
    kinds = ("inner-style", "story-style")
    more = () if reports.is_public else ("card-style", "form-style")
    return tuple(map(address_of, (*kinds, *more)))


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
