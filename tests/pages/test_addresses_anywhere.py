"""Pages of awkward names can be written on any file system: no device of Windows, no two alike."""

import sys
from pathlib import PureWindowsPath

import pytest

from buildbook.pages.addresses import ADDRESSES, address_of

AWKWARD = (
    "con",
    "CON",
    "aux.old",
    "com1",
    "LPT9",
    "nul.html",
    "P-1",
    "p-1",
    "Ä-1",
    "ä-1",
    "ü",
    "u",
)


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
@pytest.mark.parametrize("kind", ADDRESSES)
def test_no_page_is_called_like_a_device(kind: str) -> None:
    """Held against the standard library's own list of such names."""
    pages = [PureWindowsPath(address_of(kind, name)) for name in AWKWARD]

    assert [] == [page for page in pages if any(_kept(part) for part in page.parts)]
    assert [] == [page for page in pages if {*str(page)} & {*'<>:"|?*'}]


def _kept(part: str) -> bool:
    if sys.version_info >= (3, 13):
        import ntpath

        return ntpath.isreserved(part)
    return PureWindowsPath(part).is_reserved()


@pytest.mark.parametrize("kind", ["item", "aircraft", "programme", "field-card", "build-json"])
def test_pages_of_names_that_differ_do_not_fall_together(kind: str) -> None:
    """Names that differ in capitals alone are refused in the records; all others stay apart."""
    apart = {name.casefold(): name for name in AWKWARD}.values()
    pages = [PureWindowsPath(address_of(kind, name)) for name in apart]

    assert len(pages) == len({str(page).casefold() for page in pages})
