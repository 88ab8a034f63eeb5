"""Drawings of the demo as a real browser sets them: words clear of discs, letters large enough."""

from pathlib import Path

import pytest

from .conftest import Looks
from .kinds import pages_of

# Texts that cut the rim of a disc; discs of a balance (`d-f-line`) hold no words at all.
CUT_RIMS = """() => [...document.querySelectorAll('svg.d')].flatMap(svg => {
  const discs = [...svg.querySelectorAll('circle[fill-opacity]')].map(c => ({
    x: c.cx.baseVal.value, y: c.cy.baseVal.value, r: c.r.baseVal.value,
    empty: c.classList.contains('d-f-line')}));
  return [...svg.querySelectorAll('text')].flatMap(text => {
    const b = text.getBBox(), cut = b.height / 5;
    const l = b.x, r = b.x + b.width, t = b.y + cut, d = b.y + b.height - cut;
    return discs.filter(disc => {
      const near = Math.hypot(disc.x - Math.min(Math.max(disc.x, l), r),
                              disc.y - Math.min(Math.max(disc.y, t), d));
      const far = Math.hypot(Math.max(Math.abs(l - disc.x), Math.abs(r - disc.x)),
                             Math.max(Math.abs(t - disc.y), Math.abs(d - disc.y)));
      return near < disc.r - 1 && (disc.empty || far > disc.r + 1);
    }).map(() => svg.querySelector('title').textContent + ': ' + text.textContent);
  });
})"""

# The smallest letters and the finest line of the drawings, in pixels of the screen.
FINEST = """() => {
  const found = {letters: Infinity, line: Infinity};
  for (const svg of document.querySelectorAll('.plate:not(.chart) > svg.d')) {
    const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
    for (const text of svg.querySelectorAll('.d-fact, .d-name'))
      found.letters = Math.min(found.letters, scale * parseFloat(getComputedStyle(text).fontSize));
    for (const shape of svg.querySelectorAll('[stroke-width]'))
      if (parseFloat(shape.getAttribute('stroke-width')) >= 0.6)
        found.line = Math.min(found.line, scale * parseFloat(shape.getAttribute('stroke-width')));
  }
  return found;
}"""


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_words_keep_off_the_discs_of_the_demo(looks: Looks, owner_site: Path, width: int) -> None:
    """On every aircraft's layout page: layout and balance."""
    page = looks(width)
    faults = []
    for address in pages_of(owner_site, "layout"):
        page.goto((owner_site / address).as_uri())
        faults += page.evaluate(CUT_RIMS)

    assert [] == faults


def test_a_phone_shows_drawings_as_legibly_as_a_desk(looks: Looks, owner_site: Path) -> None:
    """Letters no smaller than on the desk, and 13 px at least; lines no finer than 0.9 px."""
    found = {}
    for width in (390, 1280):
        page = looks(width)
        sizes = []
        for address in pages_of(owner_site, "layout"):
            page.goto((owner_site / address).as_uri())
            sizes.append(page.evaluate(FINEST))
        found[width] = {name: min(size[name] for size in sizes) for name in ("letters", "line")}

    assert found[390]["letters"] >= 13.0
    assert found[390]["letters"] >= found[1280]["letters"]
    assert found[390]["line"] >= 0.9
