"""Where each page lives. All links are relative, so a site opens from any folder."""

import re
from collections.abc import Callable, Mapping

_UNSAFE = re.compile(r"[^A-Za-z0-9._-]+")


def safe(name: str) -> str:
    """A tag or name as part of a file name; the hangar keeps tags unique, case apart."""
    return _UNSAFE.sub("-", name).strip("-.") or "x"


ADDRESSES: Mapping[str, Callable[[str], str]] = {
    "hangar": lambda _: "index.html",
    "due": lambda _: "due.html",
    "stock": lambda _: "stock.html",
    "going-flying": lambda _: "going-flying.html",
    "radio": lambda _: "radio.html",
    "compare": lambda _: "compare.html",
    "find": lambda _: "find.html",
    "figure-sources": lambda _: "figure-sources.html",
    "store-log": lambda _: "store-log.html",
    "not-found": lambda _: "404.html",
    "programme": lambda name: f"programmes/{safe(name)}.html",
    "aircraft": lambda slug: f"aircraft/{slug}/index.html",
    "layout": lambda slug: f"aircraft/{slug}/layout.html",
    "set-up": lambda slug: f"aircraft/{slug}/set-up.html",
    "figures": lambda slug: f"aircraft/{slug}/figures.html",
    "logbook": lambda slug: f"aircraft/{slug}/logbook.html",
    "gains": lambda slug: f"aircraft/{slug}/gains.html",
    "timeline": lambda slug: f"aircraft/{slug}/timeline.html",
    "write-up": lambda slug: f"aircraft/{slug}/write-up.html",
    "bench-card": lambda slug: f"cards/{slug}-bench.html",
    "field-card": lambda slug: f"cards/{slug}-field.html",
    "pack-labels": lambda _: "cards/pack-labels.html",
    "item": lambda tag: f"items/{safe(tag)}.html",
    "style": lambda _: "style.css",
    "script": lambda _: "book.js",
    "search": lambda _: "search.js",
    "feed": lambda _: "feed.xml",
    "aircraft-feed": lambda slug: f"aircraft/{slug}/feed.xml",
    "calendar": lambda _: "calendar.ics",
    "hangar-json": lambda _: "hangar.json",
    "aircraft-json": lambda slug: f"aircraft/{slug}.json",
    "sitemap": lambda _: "sitemap.xml",
}


def address_of(kind: str, key: str = "") -> str:
    """The address of a page from the top of the site."""
    return ADDRESSES[kind](key)


def relative(from_address: str, to_address: str) -> str:
    """The link from one page to another."""
    here, there = from_address.split("/")[:-1], to_address.split("/")
    shared = 0
    while shared < min(len(here), len(there) - 1) and here[shared] == there[shared]:
        shared += 1
    return "/".join([*[".."] * (len(here) - shared), *there[shared:]])
