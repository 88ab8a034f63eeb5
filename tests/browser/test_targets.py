"""What a thumb has to find on a phone.

Main targets are 44 px high, for a glove (common practice, no source), all others 24 px each way
(WCAG 2.2, success criterion 2.5.8, here for links in sentences too).
"""

from pathlib import Path

import pytest

from . import probes
from .conftest import Looks
from .kinds import KINDS, at_width, fullest, told_by_each

SMALL = """() => [...document.querySelectorAll('.top li a, .turns a, .fold > summary, .ends a,'
  + ' .ways a, .neighbours a, .sieve input, .sieve select')]
  .filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 43.9)
  .map(e => `${e.textContent.trim().slice(0, 30)}: ${e.getBoundingClientRect().height}`)"""


@pytest.mark.parametrize("kind", KINDS)
def test_no_target_is_small_on_a_phone(looks: Looks, owner_site: Path, kind: str) -> None:
    """On every page: links, buttons, boxes and what unfolds, with what is folded open.

    Ways round, what unfolds, what turns the page, and boxes to type in are large, folds closed.
    """
    both = f"() => [...({SMALL})(), ...({probes.SMALL_TARGETS})()]"
    told = told_by_each(looks(390, 844), owner_site, kind, both)

    assert {} == {address: found for address, found in told.items() if found}


def test_a_small_target_is_told(looks: Looks) -> None:
    """A link as high as its letters is one; a tall one, and one that nobody sees, is none."""
    page = looks(390, 844)
    page.set_content(
        "<p style='font: 14px/20px sans-serif'><a href='#'>due</a>"
        " <a href='#' style='padding: 8px'>stock</a>"
        " <a href='#' style='display: none'>radio</a></p>"
    )

    assert ['p > a: "due", 23 by 16 px'] == page.evaluate(probes.SMALL_TARGETS)


# Of each strip: links whose words are cut, whether a sign says that there are more, and its height.
STRIPS = """() => [...document.querySelectorAll('.top nav, .turns')].map(nav => {
  const list = nav.querySelector('ul'), room = list.getBoundingClientRect();
  list.scrollTo({left: 0, behavior: 'instant'});
  const cut = () => [...nav.querySelectorAll('a')].filter(a => {
    const range = document.createRange();
    range.selectNodeContents(a);
    const b = range.getBoundingClientRect();
    const outside = b.right <= room.left + 1 || b.left >= room.right - 1;
    return !outside && (b.left < room.left - 1 || b.right > room.right + 1);
  }).map(a => a.textContent);
  const wide = list.scrollWidth > list.clientWidth + 1;
  const first = cut();
  list.scrollTo({left: list.scrollWidth, behavior: 'instant'});
  return {cut: [...first, ...cut()], high: room.height,
          silent: wide && !getComputedStyle(nav, '::after').content.includes('›')};
})"""


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "field-form-alone"])
def test_ways_round_show_whole_words(looks: Looks, owner_site: Path, kind: str) -> None:
    """A row of at most 50 px that is pushed aside; where there are more a sign says so."""
    page = looks(java_script_enabled=False)
    page.goto((owner_site / fullest(owner_site, kind)).as_uri())
    for width in (320, 390, 600):
        at_width(page, width, 844)
        strips = page.evaluate(STRIPS)

        assert strips
        assert [] == [one for one in strips if one["cut"] or one["silent"] or one["high"] > 50]


def test_all_pages_of_a_shared_build_are_in_sight_on_a_phone(
    looks: Looks, public_site: Path
) -> None:
    """Six words in two rows: none to push for, and the page still begins at its head."""
    page = looks(390, 844, java_script_enabled=False)
    page.goto((public_site / "aircraft/burdock/write-up.html").as_uri())
    ends = page.evaluate(
        "[...document.querySelectorAll('.turns li a')].map(a => a.getBoundingClientRect().right)"
    )

    assert 0 == page.evaluate("scrollY")
    assert 6 == len([end for end in ends if 0 < end <= 390])
