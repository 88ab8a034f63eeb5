"""Pages on a phone, a tablet and a desk."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

from . import probes
from .conftest import Looks
from .kinds import KINDS, PUBLIC_KINDS, at_width, both_ends, visit

ROOM = (probes.SIDEWAYS, probes.OVERLAPS, probes.CUT_OFF)
LEGIBLE = (probes.SMALL_TYPE,)
# At 960 px the headings take to the margin, and drawings have the least room on a desk.
WIDTHS = {320: ROOM + LEGIBLE, 768: ROOM, 960: LEGIBLE, 1280: ROOM}
PUBLIC_WIDTHS = {320: ROOM, 390: ROOM + LEGIBLE}


def found(page: Page, file: Path, widths: dict[int, tuple[str, ...]]) -> Iterator[str]:
    """Faults of a page that is loaded once and made narrow and wide: its scripts ask no width."""
    visit(page, file)
    for width, asked in widths.items():
        at_width(page, width)
        for probe in asked:
            yield from (f"{file.name} at {width} px: {fault}" for fault in page.evaluate(probe))


@pytest.mark.parametrize("kind", KINDS)
def test_words_have_room(looks: Looks, owner_site: Path, kind: str) -> None:
    """The page does not scroll sideways, no words lie over others, none are cut off or too small.

    Smaller than 11 px, in drawings too, is too small (common practice, no source).
    """
    page, faults = looks(), []
    for address in both_ends(owner_site, kind):
        faults += found(page, owner_site / address, WIDTHS)

    assert "" == "\n".join(faults)


@pytest.mark.parametrize("kind", PUBLIC_KINDS)
def test_public_pages_have_room_on_a_phone(looks: Looks, public_site: Path, kind: str) -> None:
    """What is left out for the public leaves no page broken."""
    page, faults = looks(), []
    for address in both_ends(public_site, kind):
        faults += found(page, public_site / address, PUBLIC_WIDTHS)

    assert "" == "\n".join(faults)
