"""What a rendered site is, read from its files: pages, their ids and links, their drawings."""

import re
from functools import cached_property
from html.parser import HTMLParser
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

# Attributes that make a browser ask for something, and those that lead a reader somewhere.
_ASKING = {"src", "poster", "data", "background"}
_ASKING_LINKS = {"stylesheet", "icon", "preload", "prefetch", "modulepreload", "preconnect"}


def as_read(html: str) -> str:
    """The same with plain spaces for those that hold a number to its unit."""
    return html.replace("\u00a0", " ")


class Link(NamedTuple):
    """A link or request of a page, as it is written."""

    page: str
    target: str
    asked_for: bool


class _Reader(HTMLParser):
    def __init__(self, address: str) -> None:
        super().__init__()
        self.address = address
        self.ids: list[str] = []
        self.links: list[Link] = []
        self.words: list[str] = []
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("script", "style"):
            self._silent += 1
        found = {name: value or "" for name, value in attrs}
        if "id" in found:
            self.ids.append(found["id"])
        for name, value in found.items():
            if name == "srcset":
                targets = [part.split()[0] for part in value.split(",")]
                self.links += [Link(self.address, target, True) for target in targets]
            elif name in _ASKING:
                self.links.append(Link(self.address, value, True))
            elif name in ("href", "xlink:href", "cite", "action"):
                asked = tag in ("image", "use") or (
                    tag == "link" and bool(set(found.get("rel", "").split()) & _ASKING_LINKS)
                )
                self.links.append(Link(self.address, value, asked))

    def handle_endtag(self, tag: str) -> None:
        if tag in ("script", "style"):
            self._silent -= 1

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self.words.append(data)


class Paper:
    """One HTML file."""

    def __init__(self, site: Path, path: Path) -> None:
        self.address = path.relative_to(site).as_posix()
        self.html = path.read_text("utf-8")
        reader = _Reader(self.address)
        reader.feed(self.html)
        reader.close()
        self.ids = tuple(reader.ids)
        self.links = tuple(reader.links)
        self.words = re.sub(r"\s+", " ", "".join(reader.words))

    @cached_property
    def drawings(self) -> tuple[str, ...]:
        """The SVG elements, as they are written."""
        return tuple(re.findall(r"<svg\b.*?</svg>", self.html, re.DOTALL))


class Site:
    """A folder of pages."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.papers = {
            paper.address: paper
            for paper in (Paper(folder, path) for path in sorted(folder.rglob("*.html")))
        }
        self.files = frozenset(
            path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()
        )

    def missing(self, link: Link) -> str:
        """What a link within the site lacks: a file, a place on the page; empty where nothing."""
        parts = urlsplit(link.target)
        if parts.scheme or parts.netloc:
            return ""
        base = (self.folder / link.page).parent
        path = (base / unquote(parts.path)).resolve() if parts.path else self.folder / link.page
        try:
            address = path.relative_to(self.folder.resolve()).as_posix()
        except ValueError:
            return "outside the site"
        if parts.path.startswith("/"):
            return "not relative"
        if address not in self.files:
            return "no such file"
        fragment = unquote(parts.fragment)
        if fragment and address in self.papers and fragment not in self.papers[address].ids:
            return "no such place"
        return ""
