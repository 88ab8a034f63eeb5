"""What a visitor sees: a phone by day and at night, a desk at night, and paper."""

from pathlib import Path

import pytest

from . import probes
from .conftest import Looks, on_paper
from .kinds import PUBLIC_KINDS, fullest
from .test_access import AXE, RUN
from .test_print import FULL_SIZE, MARGIN_MM, MM, PAPERS, printed_at_night, scales_of

pytestmark = pytest.mark.parametrize("kind", PUBLIC_KINDS)

LEAST_ON_PAPER_PX = 8 * 96 / 72  # 8 pt
SMALLEST = """() => Math.min(...[...document.querySelectorAll('main *')]
  .filter(e => [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()) && e.checkVisibility()
               && !e.closest('svg, math, sup'))
  .map(e => parseFloat(getComputedStyle(e).fontSize)))"""


def test_words_have_room_on_a_phone(looks: Looks, public_site: Path, kind: str) -> None:
    """390 px: nothing scrolls sideways, lies over something, is cut off, or is too small."""
    page = looks(390, 844)
    page.goto((public_site / fullest(public_site, kind)).as_uri())

    for probe in (probes.SIDEWAYS, probes.OVERLAPS, probes.CUT_OFF, probes.SMALL_TYPE):
        assert "" == "\n".join(page.evaluate(probe))


@pytest.mark.parametrize("width", [390, 1280])
def test_axe_finds_nothing_at_night(looks: Looks, public_site: Path, kind: str, width: int) -> None:
    """Dark colours have the contrast that light ones have."""
    page = looks(width, color_scheme="dark")
    page.goto((public_site / fullest(public_site, kind)).as_uri())
    page.evaluate(AXE)

    assert "" == "\n".join(page.evaluate(RUN))


@pytest.mark.parametrize("paper", PAPERS)
def test_paper_shows_all_of_it_in_full_size(
    looks: Looks, public_site: Path, kind: str, paper: str
) -> None:
    """Nothing is wider than the paper, and no words are smaller than 8 pt."""
    page = looks(round((PAPERS[paper] - 2 * MARGIN_MM) * MM))
    with on_paper(page, public_site / fullest(public_site, kind)):
        faults, smallest = page.evaluate(probes.OFF_PAPER), page.evaluate(SMALLEST)

    assert "" == "\n".join(faults)
    assert LEAST_ON_PAPER_PX - 0.05 <= smallest
    assert {FULL_SIZE} == scales_of(page.pdf(format=paper))


def test_paper_is_white_at_night(looks: Looks, public_site: Path, kind: str) -> None:
    """The ink is black, whatever the reader's screen looks like."""
    colours = printed_at_night(looks(), public_site / fullest(public_site, kind))

    assert ["rgb(255, 255, 255)", "rgb(0, 0, 0)"] == colours
