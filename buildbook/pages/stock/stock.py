"""What is on no aircraft: parts by kind, size, hand and state; and all packs."""

from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page, crumbs
from buildbook.report.packs.health import worst_first
from buildbook.report.reports import Reports
from buildbook.words.measures.intervals import lasted_words


def page(reports: Reports, _key: str) -> Page:
    """The drawer and the packs."""
    packs, stock = reports.packs(), reports.stock()
    return Page(
        address=address_of("stock"),
        template="stock.html.j2",
        title="Stock",
        crumbs=crumbs(reports),
        facts={
            "drawers": stock.drawers,
            "packs": packs,
            "at_hand": worst_first(packs),
            "lives": stock.past_lives,
            "lasted": lasted_words,
            "quarantined": any(line.standing == "quarantined" for line in packs),
        },
        about="Parts on no aircraft, by kind, size, hand and state; and the packs.",
    )


def radio_page(reports: Reports, _key: str) -> Page:
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
