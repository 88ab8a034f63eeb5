"""Main targets of a phone are 44 px high, for a thumb in a glove (common practice, no source)."""

from pathlib import Path

import pytest

from .conftest import Looks
from .kinds import KINDS, fullest, visit

SMALL = """() => [...document.querySelectorAll('.top li a, .turns li a, .fold > summary, .ends a,'
  + ' .ways a, .neighbours a, .sieve input, .sieve select')]
  .filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 43.9)
  .map(e => `${e.textContent.trim().slice(0, 30)}: ${e.getBoundingClientRect().height}`)"""


@pytest.mark.parametrize("kind", KINDS)
def test_main_targets_are_large_on_a_phone(looks: Looks, owner_site: Path, kind: str) -> None:
    """Ways round, what unfolds, what turns the page, and boxes to type in."""
    page = looks(390, 844)
    visit(page, owner_site / fullest(owner_site, kind))

    assert [] == page.evaluate(SMALL)
