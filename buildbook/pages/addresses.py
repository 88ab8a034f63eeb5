"""Where each page lives. All links are relative, so a site opens from any folder."""

from collections.abc import Callable, Mapping

from buildbook.basis.naming import file_name

_MARK = "~"  # stands in no name of the records
PART_MARK = _MARK
"""Between an aircraft and the part of its log in the key of a page."""


def _earlier_logbook(key: str) -> str:
    slug, _, part = key.partition(PART_MARK)
    return f"aircraft/{file_name(slug)}/logbook-{part}.html"


ADDRESSES: Mapping[str, Callable[[str], str]] = {
    "hangar": lambda _: "index.html",
    "due": lambda _: "due.html",
    "problems": lambda _: "problems.html",
    "stock": lambda _: "stock.html",
    "going-flying": lambda _: "going-flying.html",
    "field-form": lambda _: "field-form.html",
    "field-form-alone": lambda _: "field-form-alone.html",
    "radio": lambda _: "radio.html",
    "compare": lambda _: "compare.html",
    "find": lambda _: "find.html",
    "figure-sources": lambda _: "figure-sources.html",
    "store-log": lambda _: "store-log.html",
    "earlier-store-log": lambda part: f"store-log-{part}.html",
    "not-found": lambda _: "404.html",
    "programme": lambda name: f"programmes/{file_name(name)}.html",
    "aircraft": lambda slug: f"aircraft/{file_name(slug)}/index.html",
    "layout": lambda slug: f"aircraft/{file_name(slug)}/layout.html",
    "set-up": lambda slug: f"aircraft/{file_name(slug)}/set-up.html",
    "figures": lambda slug: f"aircraft/{file_name(slug)}/figures.html",
    "logbook": lambda slug: f"aircraft/{file_name(slug)}/logbook.html",
    "earlier-logbook": _earlier_logbook,
    "gains": lambda slug: f"aircraft/{file_name(slug)}/gains.html",
    "timeline": lambda slug: f"aircraft/{file_name(slug)}/timeline.html",
    "write-up": lambda slug: f"aircraft/{file_name(slug)}/write-up.html",
    "bench-card": lambda slug: f"cards/{file_name(slug)}-bench.html",
    "field-card": lambda slug: f"cards/{file_name(slug)}-field.html",
    "pack-labels": lambda _: "cards/pack-labels.html",
    "item": lambda tag: f"items/{file_name(tag)}.html",
    "style": lambda _: "style.css",
    "card-style": lambda _: "cards.css",
    "inner-style": lambda _: "inner.css",
    "story-style": lambda _: "stories.css",
    "form-style": lambda _: "field.css",
    "script": lambda _: "book.js",
    "form-script": lambda _: "field.js",
    "form-worker": lambda _: "field-worker.js",
    "search": lambda _: "search.js",
    "feed": lambda _: "feed.xml",
    "aircraft-feed": lambda slug: f"aircraft/{file_name(slug)}/feed.xml",
    "calendar": lambda _: "calendar.ics",
    "hangar-json": lambda _: "hangar.json",
    "aircraft-json": lambda slug: f"aircraft/{file_name(slug)}.json",
    "build-json": lambda slug: f"aircraft/{file_name(slug)}/build.json",
    "sitemap": lambda _: "sitemap.xml",
}


def address_of(kind: str, key: str = "") -> str:
    """The address of a page from the top of the site."""
    return ADDRESSES[kind](key)


_OF_PROGRAMME_PAGES = frozenset(("main", "checks", "tasks", "limits", "dropped"))


def row_anchor(name: str) -> str:
    """The anchor of a row on the page of its programme."""
    return f"row{_MARK}{name}" if name in _OF_PROGRAMME_PAGES else file_name(name)


def relative(from_address: str, to_address: str) -> str:
    """The link from one page to another."""
    here, there = from_address.split("/")[:-1], to_address.split("/")
    shared = 0
    while shared < min(len(here), len(there) - 1) and here[shared] == there[shared]:
        shared += 1
    return "/".join([*[".."] * (len(here) - shared), *there[shared:]])
