"""Pages on paper."""

import re
from pathlib import Path

import pytest

from . import probes
from .conftest import Looks
from .kinds import CARDS, KINDS, fullest, pages_of

MM = 96 / 25.4
PAPERS = {"A4": 210, "Letter": 215.9}
MARGIN_MM = 14  # of @page in style.css, left and right


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", CARDS)
def test_each_card_is_one_sheet(looks: Looks, owner_site: Path, kind: str, paper: str) -> None:
    """Bench card, field card and labels of every aircraft: one page each."""
    page = looks()
    sheets = {}
    for address in pages_of(owner_site, kind):
        page.goto((owner_site / address).as_uri())
        sheets[address] = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper)))

    assert dict.fromkeys(sheets, 1) == sheets


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_wider_than_the_paper(
    looks: Looks, owner_site: Path, kind: str, paper: str
) -> None:
    """A table that scrolls on the screen can't on paper: all of it is within the margins."""
    page = looks(round((PAPERS[paper] - 2 * MARGIN_MM) * MM))
    page.emulate_media(media="print")
    page.goto((owner_site / fullest(owner_site, kind)).as_uri())
    faults = page.evaluate(probes.OFF_PAPER)
    page.emulate_media(media="null")

    assert "" == "\n".join(faults)
