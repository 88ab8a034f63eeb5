"""What is wrong in the records, on a site that was written all the same."""

from collections.abc import Iterable

from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page, crumbs
from buildbook.report.reports import Reports


def keys(reports: Reports) -> Iterable[str]:
    """One, where the site was written in spite of problems."""
    return ("",) if reports.despite else ()


def page(reports: Reports, _key: str) -> Page:
    """Each problem with its place and its hint."""
    return Page(
        address=address_of("problems"),
        template="problems.html.j2",
        title="Problems in the records",
        crumbs=crumbs(reports),
        facts={"problems": reports.despite},
        about="What could not be read, and what contradicts itself.",
    )
