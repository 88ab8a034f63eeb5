"""The site: which pages there are, in the order in which they are made.

Each kind of page has two functions: one names its pages by their keys (aircraft, tags, or an empty
key for a page that there is once), the other, ``page(reports, key)``, makes one of them.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Literal, NamedTuple
from xml.sax.saxutils import escape

import msgspec

from buildbook.pages import cards, find, hangar
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft import (
    aircraft,
    figure_sources,
    figures,
    gains,
    layout,
    log_parts,
    logbook,
    set_up,
    timeline,
)
from buildbook.pages.outputs import build_file, calendar, feeds, json_files
from buildbook.pages.page import Leaf, Page, Sheet, each_aircraft, each_logged, single
from buildbook.pages.stock import compare, item, stock
from buildbook.pages.story import builds, write_up
from buildbook.pages.work import due, field_form, going_flying, problems, programme
from buildbook.report.reports import Reports

Keys = Callable[[Reports], Iterable[str]]
Make = Callable[[Reports, str], Leaf]


class Kind(NamedTuple):
    """A kind of page. of: whose it is; what is the owner's has no page for the public.

    for_public: makes it in place of ``make`` where others look.
    """

    keys: Keys
    make: Make
    of: Literal["everybody", "owner"] = "everybody"
    for_public: Make | None = None


def _not_found(_reports: Reports, _key: str) -> Page:
    """Says so, and where to go on."""
    return Page(
        address=address_of("not-found"),
        template="not_found.html.j2",
        title="No page here",
        facts={},
        about="There is no page at this address.",
    )


_SITEMAPS = "http://www.sitemaps.org/schemas/sitemap/0.9"


def _sitemap_keys(reports: Reports) -> Iterable[str]:
    """There is one, where an address is set."""
    return ("",) if reports.hangar.ledger.keeper.address else ()


def _sitemap(reports: Reports, _key: str) -> Sheet:
    """All addresses that are pages; the one for what is not there is none.

    After the protocol of sitemaps.org, 0.9. No dates: the public may not be told exact days.
    """
    addresses = (address_of(work.kind, work.key) for work in plan(reports))
    home = (reports.hangar.ledger.keeper.address or "").rstrip("/")
    rows = [
        f"<url><loc>{escape(f'{home}/{address}')}</loc></url>"
        for address in addresses
        if address.endswith(".html") and address != address_of("not-found")
    ]
    head = f'<?xml version="1.0" encoding="UTF-8"?>\n<urlset xmlns="{_SITEMAPS}">'
    return Sheet(address=address_of("sitemap"), text="\n".join([head, *rows, "</urlset>\n"]))


SITE: Mapping[str, Kind] = {
    "hangar": Kind(single, hangar.page, for_public=builds.page),
    "aircraft": Kind(each_aircraft, aircraft.page, for_public=builds.build_page),
    "layout": Kind(each_aircraft, layout.page),
    "due": Kind(single, due.page, of="owner"),
    "going-flying": Kind(single, going_flying.page, of="owner"),
    "field-form": Kind(single, field_form.page, of="owner"),
    "field-form-alone": Kind(single, field_form.alone, of="owner"),
    "stock": Kind(single, stock.page, of="owner"),
    "radio": Kind(single, stock.radio_page, of="owner"),
    "compare": Kind(single, compare.page, of="owner"),
    "programme": Kind(programme.keys, programme.page, of="owner"),
    "logbook": Kind(each_aircraft, logbook.page),
    "earlier-logbook": Kind(log_parts.earlier_keys, logbook.earlier_page),
    "store-log": Kind(logbook.store_keys, logbook.store_page, of="owner"),
    "earlier-store-log": Kind(log_parts.earlier_store_keys, logbook.earlier_store_page, of="owner"),
    "figures": Kind(each_aircraft, figures.page),
    "figure-sources": Kind(single, figure_sources.page),
    "gains": Kind(gains.keys, gains.page),
    "write-up": Kind(write_up.keys, write_up.page),
    "timeline": Kind(each_logged, timeline.page),
    "set-up": Kind(set_up.keys, set_up.page, of="owner"),
    "item": Kind(item.keys, item.page, of="owner"),
    "bench-card": Kind(cards.keys, cards.bench_card, of="owner"),
    "field-card": Kind(cards.keys, cards.field_card, of="owner"),
    "pack-labels": Kind(cards.label_keys, cards.labels, of="owner"),
    "find": Kind(single, find.page, of="owner"),
    "search": Kind(single, find.sheet, of="owner"),
    "feed": Kind(single, feeds.hangar_feed),
    "aircraft-feed": Kind(each_logged, feeds.aircraft_feed),
    "calendar": Kind(calendar.keys, calendar.sheet, of="owner"),
    "problems": Kind(problems.keys, problems.page, of="owner"),
    "not-found": Kind(single, _not_found),
    "hangar-json": Kind(single, json_files.hangar_sheet, of="owner"),
    "aircraft-json": Kind(each_aircraft, json_files.aircraft_sheet),
    "build-json": Kind(build_file.keys, build_file.sheet),
    "sitemap": Kind(_sitemap_keys, _sitemap),
}


class Work(msgspec.Struct, frozen=True):
    """One page to be made: its kind and key."""

    kind: str
    key: str


def plan(reports: Reports) -> Iterator[Work]:
    """All pages of the site, in a fixed order."""
    for name, kind in SITE.items():
        if kind.of == "owner" and reports.is_public:
            continue
        for key in kind.keys(reports):
            yield Work(name, key)


def make(reports: Reports, work: Work) -> Leaf:
    """One page."""
    kind = SITE[work.kind]
    makes = kind.for_public if reports.is_public and kind.for_public else kind.make
    return makes(reports, work.key)
