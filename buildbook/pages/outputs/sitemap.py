"""``sitemap.xml``: every page by its whole address, where the keeper says where the site will live.

After the protocol of sitemaps.org, 0.9. No dates: the public may not be told exact days.
"""

from collections.abc import Iterable
from xml.sax.saxutils import escape

from buildbook.pages.addresses import address_of
from buildbook.pages.page import Sheet
from buildbook.report.reports import Reports

NAMESPACE = "http://www.sitemaps.org/schemas/sitemap/0.9"


def keys(reports: Reports) -> Iterable[str]:
    """There is one, where an address is set."""
    return ("",) if reports.hangar.ledger.keeper.address else ()


def sheet(reports: Reports, addresses: Iterable[str]) -> Sheet:
    """Those of the addresses that are pages; the one for what is not there is none."""
    home = (reports.hangar.ledger.keeper.address or "").rstrip("/")
    rows = [
        f"<url><loc>{escape(f'{home}/{address}')}</loc></url>"
        for address in addresses
        if address.endswith(".html") and address != address_of("not-found")
    ]
    head = f'<?xml version="1.0" encoding="UTF-8"?>\n<urlset xmlns="{NAMESPACE}">'
    return Sheet(address=address_of("sitemap"), text="\n".join([head, *rows, "</urlset>\n"]))
