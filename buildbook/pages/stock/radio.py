"""The transmitter: which memory is which aircraft, switches, reversals, failsafe."""

from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page, crumbs
from buildbook.report.reports import Reports


def page(reports: Reports, _key: str) -> Page:
    """All memories, by number."""
    found = reports.radio()
    return Page(
        address=address_of("radio"),
        template="radio.html.j2",
        title="Radio",
        crumbs=crumbs(reports),
        facts={"memories": found.memories, "modes": found.modes, "silent": found.silent},
        about="Memories of the transmitter by aircraft: switches, reversals, failsafe.",
    )
