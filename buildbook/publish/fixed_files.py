"""Files of a site that are no pages: styles, the script, and photographs, by address."""

from collections.abc import Mapping
from pathlib import Path

from buildbook.pages.addresses import address_of
from buildbook.pages.theme import more_style, script, stylesheet
from buildbook.report.reports import Reports


def fixed_files(
    reports: Reports, theme: tuple[Path, ...], photos: Mapping[str, bytes]
) -> Mapping[str, bytes]:
    """All of them. photos: bytes by address; only those that the audience may see are taken."""
    found = {
        address_of("style"): stylesheet(theme).encode("utf-8"),
        **{address: more_style(theme, address).encode("utf-8") for address in _more(reports)},
    }
    book = script(theme)
    if book is not None:
        found[address_of("script")] = book.encode("utf-8")
    shown = reports.pictures.values()
    addresses = {picture.address for picture in shown} | {one.small_address for one in shown}
    return found | {address: photos[address] for address in sorted(addresses & photos.keys())}


def _more(reports: Reports) -> tuple[str, ...]:
    """Styles that only some pages load; nobody else sees cards."""
    story = address_of("story-style")
    return (story,) if reports.is_public else (address_of("card-style"), story)
