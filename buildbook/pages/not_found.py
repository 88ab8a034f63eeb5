"""The page that a server shows where there is none. Its links are relative to the top."""

from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page
from buildbook.report.reports import Reports


def page(_reports: Reports, _key: str) -> Page:
    """Says so, and where to go on."""
    return Page(
        address=address_of("not-found"),
        template="not_found.html.j2",
        title="No page here",
        facts={},
        about="There is no page at this address.",
    )
