"""The page that a server shows where there is none. Its links are relative to the top."""

from collections.abc import Iterable

from buildbook.audience.view import View
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page


def keys(_view: View) -> Iterable[str]:
    """There is one."""
    return ("",)


def page(_view: View, _key: str) -> Page:
    """Says so, and where to go on."""
    return Page(
        address=address_of("not-found"),
        template="not_found.html.j2",
        title="No page here",
        facts={},
        about="There is no page at this address.",
    )
