"""What a page is: an address, a template, the facts that it shows; and which pages there are."""

from collections.abc import Mapping
from typing import Any

import msgspec

from buildbook.pages.addresses import address_of
from buildbook.report.reports import Reports


class Page(msgspec.Struct, frozen=True, kw_only=True):
    """A page to be composed.

    title: of the window and, shortened by the template, the one h1. facts: what the template may
    name; an unknown name stops the build. crumbs: addresses and words of the way up.
    """

    address: str
    template: str
    title: str
    facts: Mapping[str, Any]
    crumbs: tuple[tuple[str, str], ...] = ()
    about: str = ""


class Sheet(msgspec.Struct, frozen=True, kw_only=True):
    """A file that needs no template: JSON, a feed, a calendar, the stylesheet."""

    address: str
    text: str


Crumbs = tuple[tuple[str, str], ...]


def crumbs(reports: Reports, slug: str | None = None) -> Crumbs:
    """The way up from a page to the front one. slug: by way of the page of that aircraft."""
    home = (address_of("hangar"), reports.hangar.ledger.keeper.hangar)
    if slug is None:
        return (home,)
    return (home, (address_of("aircraft", slug), reports.hangar.aircraft[slug].record.aircraft))


def single(_reports: Reports) -> tuple[str]:
    """The key of a page that there is once."""
    return ("",)


def each_aircraft(reports: Reports) -> tuple[str, ...]:
    """The keys of pages that every aircraft has."""
    return tuple(reports.hangar.aircraft)


def each_logged(reports: Reports) -> tuple[str, ...]:
    """The keys of pages that every aircraft has of which something was written."""
    return tuple(slug for slug, found in reports.hangar.aircraft.items() if found.log)


Leaf = Page | Sheet
