"""What a page is: an address, a template, and the facts that the template shows."""

from collections.abc import Mapping
from typing import Any

import msgspec


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


Leaf = Page | Sheet
