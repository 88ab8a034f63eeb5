"""Drawings of the demo as a real browser sets them: words clear of discs, letters large enough."""

from pathlib import Path

import pytest

from tests.cut_rims import CUT_RIMS, WORDS_OVER_WORDS

from .conftest import Looks, on_paper
from .kinds import told_at_widths, told_by_each
from .test_print import sheets_of

# The smallest letters and the finest line of the drawings, in pixels of the screen.
FINEST = """() => {
  const found = {letters: Infinity, line: Infinity};
  for (const svg of document.querySelectorAll('.plate:not(.chart) > svg.d')) {
    const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
    for (const text of svg.querySelectorAll('.d-fact, .d-name'))
      found.letters = Math.min(found.letters, scale * parseFloat(getComputedStyle(text).fontSize));
    for (const shape of svg.querySelectorAll('[stroke-width], .d-disc')) {
      const width = parseFloat(getComputedStyle(shape).strokeWidth);
      if (width >= 0.6) found.line = Math.min(found.line, scale * width);
    }
  }
  return found;
}"""


def test_words_keep_off_the_discs_of_the_demo(looks: Looks, owner_site: Path) -> None:
    """On every aircraft's layout page: layout and balance."""
    told = told_at_widths(looks(), owner_site, "layout", CUT_RIMS, (320, 390, 1280))

    assert {} == {where: faults for where, faults in told.items() if faults}


def test_a_phone_shows_drawings_as_legibly_as_a_desk(looks: Looks, owner_site: Path) -> None:
    """Letters no smaller than on the desk, and 13 px at least; lines no finer than 0.9 px."""
    found = {}
    for width in (390, 1280):
        sizes = told_by_each(looks(width), owner_site, "layout", FINEST).values()
        found[width] = {name: min(size[name] for size in sizes) for name in ("letters", "line")}

    assert found[390]["letters"] >= 13.0
    assert found[390]["letters"] >= found[1280]["letters"]
    assert found[390]["line"] >= 0.9


def test_words_of_a_balance_keep_off_each_other(looks: Looks, owner_site: Path) -> None:
    """The length of the scale, the words of the centre of gravity, the numbers of the loads."""
    told = told_at_widths(looks(), owner_site, "layout", WORDS_OVER_WORDS, (320, 390, 1280))
    faults = [(where, fault) for where, found in told.items() for fault in found]

    assert [] == [one for one in faults if one[1].startswith("Balance of")]


BESIDE = """() => [...document.querySelectorAll('.pair .plate, .drawn > *')]
  .map(one => Math.round(one.getBoundingClientRect().left))"""


def test_a_desk_and_paper_show_drawings_side_by_side(looks: Looks, public_site: Path) -> None:
    """No empty half: wiring beside balance, the stations beside the layout; two sheets of paper."""
    page = looks(1280)
    for slug in ("burdock", "hogweed", "thistledown", "trefoil"):
        address = public_site / f"aircraft/{slug}/layout.html"
        page.goto(address.as_uri())
        places = page.evaluate(BESIDE)

        assert places[0] == places[2], slug
        assert places[0] < min(places[1], places[3]) - 400, slug
        assert sheets_of(page.pdf(format="A4")) == 2, slug
        with on_paper(page, address):
            left, right, *_ = page.evaluate(BESIDE)
        assert left < right, slug


# The largest letters of drawings and charts on their plates, in pixels of the screen.
LARGEST = """() => Math.max(0, ...[...document.querySelectorAll('.plate > svg.d')].map(svg => {
  const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
  return Math.max(0, ...[...svg.querySelectorAll('text:not(.d-mark)')]
    .map(text => scale * parseFloat(getComputedStyle(text).fontSize)));
}))"""
DRAWN = ("aircraft", "layout", "timeline", "item", "compare", "gains")


def test_letters_of_a_drawing_are_no_larger_than_the_words_around_it(
    looks: Looks, owner_site: Path
) -> None:
    """Those of the text are 16 px, of a caption 14: the letters lie between 11 and 16."""
    widths, page = (768, 1280), looks()
    sizes: dict[tuple[str, int], float] = {}
    for kind in DRAWN:
        sizes |= told_at_widths(page, owner_site, kind, LARGEST, widths)

    for width in widths:
        drawn = [size for (_, at), size in sizes.items() if size and at == width]
        assert len(drawn) > 20
        assert 11 <= min(drawn)
        assert max(drawn) < 16


# What a drawing leaves to the facts beside it, where there are any, in widths of a letter.
FACTS_BESIDE = """() => [...document.querySelectorAll('.plate + .facts dd, .drawn .facts dd')]
  .map(one => one.getBoundingClientRect().width / parseFloat(getComputedStyle(one).fontSize))"""


@pytest.mark.parametrize("kind", ["aircraft", "layout"])
def test_facts_beside_a_drawing_have_room(looks: Looks, owner_site: Path, kind: str) -> None:
    """A sentence is no column of two words: some 12 letters of an em at least."""
    widths = (768, 960, 1280)
    told = told_at_widths(looks(), owner_site, kind, FACTS_BESIDE, widths)

    for width in widths:
        rooms = [room for (_, at), found in told.items() if at == width for room in found]
        assert rooms
        assert 12 <= min(rooms)
