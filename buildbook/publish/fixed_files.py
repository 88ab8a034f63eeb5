"""Files of a site that are no pages: styles, the script, and photographs, by address."""

from collections.abc import Mapping
from pathlib import Path

from buildbook.pages.addresses import address_of
from buildbook.pages.theme import more_script, more_style, script, stylesheet
from buildbook.report.reports import Reports


def fixed_files(
    reports: Reports, theme: tuple[Path, ...], photos: Mapping[str, bytes]
) -> Mapping[str, bytes]:
    """All of them. photos: bytes by address; only those that the audience may see are taken."""
    found = {
        address_of("style"): stylesheet(theme).encode("utf-8"),
        **{address: more_style(theme, address).encode("utf-8") for address in _more(reports)},
    }
    if not reports.is_public:
        found |= {
            address: more_script(theme, address).encode("utf-8")
            for address in (address_of("form-script"), address_of("form-worker"))
        }
    book = script(theme)
    if book is not None:
        found[address_of("script")] = book.encode("utf-8")
    shown = reports.pictures.values()
    addresses = {picture.address for picture in shown} | {one.small_address for one in shown}
    return found | {address: photos[address] for address in sorted(addresses & photos.keys())}


def _more(reports: Reports) -> tuple[str, ...]:
    """Styles that only some pages load; nobody else sees cards or the form for the field."""
    kinds = ("story-style",) if reports.is_public else ("card-style", "form-style", "story-style")
    return tuple(map(address_of, kinds))
