"""Which links of a story lead on: for others to pages of builds alone, not to a keeper's files."""

from collections.abc import Callable, Iterable, Mapping
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft import aircraft, figures, gains, layout, logbook, timeline
from buildbook.pages.story.story_text import Leads
from buildbook.report.reports import Reports

_OF_A_BUILD: Mapping[str, Callable[[Reports], Iterable[str]]] = {
    "aircraft": aircraft.keys,
    "layout": layout.keys,
    "figures": figures.keys,
    "logbook": logbook.keys,
    "gains": gains.keys,
    "timeline": timeline.keys,
    "write-up": lambda reports: reports.hangar.ledger.write_ups,
}


def leads_of(reports: Reports, address: str) -> Leads | None:
    """For the page at that address; None where its reader has the records at hand."""
    if not reports.is_public:
        return None
    pages = {address_of(kind, slug) for kind, keys in _OF_A_BUILD.items() for slug in keys(reports)}
    pages.add(address_of("hangar"))

    def leads(link: str) -> bool:
        path = unquote(link.partition("#")[0])
        return normpath(join(dirname(address), path)) in pages

    return leads
