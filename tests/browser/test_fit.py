"""Pages at three widths: a phone, a tablet, a desk."""

from pathlib import Path

import pytest
from playwright.sync_api import Page

from . import probes
from .conftest import Looks
from .kinds import KINDS, PUBLIC_KINDS, WIDTHS, both_ends, visit

pytestmark = pytest.mark.parametrize("kind", KINDS)


def found(page: Page, site: Path, kind: str, probe: str) -> list[str]:
    """Faults of the fullest and the emptiest page of a kind, each with its address."""
    faults = []
    for address in both_ends(site, kind):
        visit(page, site / address)
        faults += [f"{address}: {fault}" for fault in page.evaluate(probe)]
    return faults


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize(
    "probe", [probes.SIDEWAYS, probes.OVERLAPS, probes.CUT_OFF], ids=["width", "overlap", "cut off"]
)
def test_words_have_room(looks: Looks, owner_site: Path, kind: str, width: int, probe: str) -> None:
    """The page does not scroll sideways, no words lie over others, and none are cut off."""
    assert "" == "\n".join(found(looks(width), owner_site, kind, probe))


@pytest.mark.parametrize("width", WIDTHS[:1])
def test_public_pages_have_room_on_a_phone(
    looks: Looks, public_site: Path, kind: str, width: int
) -> None:
    """What is left out for the public leaves no page broken."""
    if kind not in PUBLIC_KINDS:
        pytest.skip("the owner's alone")
    page = looks(width)

    for probe in (probes.SIDEWAYS, probes.OVERLAPS, probes.CUT_OFF):
        assert "" == "\n".join(found(page, public_site, kind, probe))


@pytest.mark.parametrize("width", [320, 960])
def test_type_is_legible(looks: Looks, owner_site: Path, kind: str, width: int) -> None:
    """No words are smaller than 11 px, in drawings too (common practice, no source).

    At 960 px the headings take to the margin, and drawings have the least room on a desk.
    """
    assert "" == "\n".join(found(looks(width), owner_site, kind, probes.SMALL_TYPE))
