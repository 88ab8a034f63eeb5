"""Which page stands for each kind of page: the registry decides, so a new kind is looked at too."""

from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from buildbook.pages.addresses import PART_MARK, address_of
from buildbook.pages.site import SITE

ANY = "ANY"
FORM_STANDS = "#field ul.kept, html:not(:has(div#field))"  # a set-up sheet has a heading `field`

_TWO_PARTS = {"earlier-logbook": f"{ANY}{PART_MARK}{ANY}"}  # keys that are no single name


def pattern_of(kind: str) -> str:
    """The addresses of a kind as a pattern of file names."""
    return address_of(kind, _TWO_PARTS.get(kind, ANY)).replace(ANY, "*")


_PAGES = (kind for kind in SITE if pattern_of(kind).endswith(".html"))
KINDS = tuple(kind for kind in _PAGES if kind != "problems")  # the demo has none
PUBLIC_KINDS = tuple(kind for kind in KINDS if SITE[kind].of == "everybody")
CARDS = tuple(kind for kind in KINDS if pattern_of(kind).startswith("cards/"))


def pages_of(site: Path, kind: str) -> tuple[str, ...]:
    """Addresses of all pages of a kind, the fullest first."""
    found = site.glob(pattern_of(kind))
    addresses = ((-path.stat().st_size, path.relative_to(site).as_posix()) for path in found)
    return tuple(address for _, address in sorted(addresses))


def visit(page: Page, file: Path) -> None:
    """Open a page; the field form stands on it only once the browser can keep things for it."""
    page.goto(file.as_uri())
    there(page)


def there(page: Page) -> None:
    """Wait for the field form, where the page has one."""
    page.locator(FORM_STANDS).wait_for(state="attached")


def at_width(page: Page, width: int, height: int = 900) -> None:
    """Make the page that is open narrow or wide; no script of ours asks how wide it is."""
    page.set_viewport_size({"width": width, "height": height})
    assert width == page.evaluate("innerWidth")


def told_by_each(page: Page, site: Path, kind: str, script: str) -> dict[str, Any]:
    """What a script says on each page of a kind, by its address."""
    told = {}
    for address in pages_of(site, kind):
        visit(page, site / address)
        told[address] = page.evaluate(script)
    return told


def told_at_widths(
    page: Page, site: Path, kind: str, script: str, widths: tuple[int, ...]
) -> dict[tuple[str, int], Any]:
    """The same for each width, each page loaded once, by address and width."""
    told = {}
    for address in pages_of(site, kind):
        visit(page, site / address)
        for width in widths:
            at_width(page, width)
            told[address, width] = page.evaluate(script)
    return told


def fullest(site: Path, kind: str) -> str:
    """The page of a kind that holds most."""
    return pages_of(site, kind)[0]


def both_ends(site: Path, kind: str) -> tuple[str, ...]:
    """The page that holds most and the one that holds least: what is missing must look well too."""
    pages = pages_of(site, kind)
    return tuple(dict.fromkeys((pages[0], pages[-1])))
