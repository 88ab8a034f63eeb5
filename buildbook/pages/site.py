"""The site: which pages there are, in the order in which they are made.

Each kind of page is a module with two functions: ``keys(reports)`` names its pages (aircraft, tags,
or one empty key for a page that there is once) and ``page(reports, key)`` makes one of them.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

import msgspec

from buildbook.pages import find, hangar, not_found
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft import (
    aircraft,
    figure_sources,
    figures,
    gains,
    layout,
    logbook,
    set_up,
    timeline,
)
from buildbook.pages.cards import cards
from buildbook.pages.outputs import build_file, calendar, feeds, json_files, sitemap
from buildbook.pages.page import Leaf
from buildbook.pages.stock import compare, item, radio, stock
from buildbook.pages.story import write_up
from buildbook.pages.work import due, going_flying, problems, programme
from buildbook.report.reports import Reports

Keys = Callable[[Reports], Iterable[str]]
Make = Callable[[Reports, str], Leaf]


class Kind(NamedTuple):
    """A kind of page."""

    keys: Keys
    make: Make


def _sitemap(reports: Reports, _key: str) -> Leaf:
    """All of the site, itself left out."""
    return sitemap.sheet(reports, (address_of(work.kind, work.key) for work in plan(reports)))


SITE: Mapping[str, Kind] = {
    "hangar": Kind(hangar.keys, hangar.page),
    "aircraft": Kind(aircraft.keys, aircraft.page),
    "layout": Kind(layout.keys, layout.page),
    "due": Kind(due.keys, due.page),
    "going-flying": Kind(going_flying.keys, going_flying.page),
    "stock": Kind(stock.keys, stock.page),
    "radio": Kind(radio.keys, radio.page),
    "compare": Kind(compare.keys, compare.page),
    "programme": Kind(programme.keys, programme.page),
    "logbook": Kind(logbook.keys, logbook.page),
    "store-log": Kind(logbook.store_keys, logbook.store_page),
    "figures": Kind(figures.keys, figures.page),
    "figure-sources": Kind(figure_sources.keys, figure_sources.page),
    "gains": Kind(gains.keys, gains.page),
    "write-up": Kind(write_up.keys, write_up.page),
    "timeline": Kind(timeline.keys, timeline.page),
    "set-up": Kind(set_up.keys, set_up.page),
    "item": Kind(item.keys, item.page),
    "bench-card": Kind(cards.keys, cards.bench_card),
    "field-card": Kind(cards.keys, cards.field_card),
    "pack-labels": Kind(cards.label_keys, cards.labels),
    "find": Kind(find.keys, find.page),
    "search": Kind(find.keys, find.sheet),
    "feed": Kind(feeds.hangar_keys, feeds.hangar_feed),
    "aircraft-feed": Kind(feeds.aircraft_keys, feeds.aircraft_feed),
    "calendar": Kind(calendar.keys, calendar.sheet),
    "problems": Kind(problems.keys, problems.page),
    "not-found": Kind(not_found.keys, not_found.page),
    "hangar-json": Kind(json_files.hangar_keys, json_files.hangar_sheet),
    "aircraft-json": Kind(json_files.aircraft_keys, json_files.aircraft_sheet),
    "build-json": Kind(build_file.keys, build_file.sheet),
    "sitemap": Kind(sitemap.keys, _sitemap),
}


class Work(msgspec.Struct, frozen=True):
    """One page to be made: its kind and key."""

    kind: str
    key: str


def plan(reports: Reports) -> Iterator[Work]:
    """All pages of the site, in a fixed order."""
    for name, kind in SITE.items():
        for key in kind.keys(reports):
            yield Work(name, key)


def make(reports: Reports, work: Work) -> Leaf:
    """One page."""
    return SITE[work.kind].make(reports, work.key)
