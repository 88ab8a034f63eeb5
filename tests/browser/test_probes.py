"""The probes themselves: each finds the fault that it is made for, and none on a page in order."""

import pytest

from . import probes
from .conftest import Looks

IN_ORDER = (
    "<style>.u{position:absolute;width:1px;overflow:hidden;clip-path:inset(50%)}</style>"
    "<main><p>Two lines<br>of words <a href='#x'>and a link</a></p><p class='u'>For ears</p>"
    "<div style='overflow-x:auto'><table style='width:2000px'><tr><td>wide<td>table</table></div>"
    "<svg width='200' height='40'><text y='20'>drawn</text></svg></main>"
)
FAULTS = {
    "SIDEWAYS": "<p style='width:3000px'>long</p>",
    "OVERLAPS": "<p style='height:2px'>one</p><p style='margin:-10px 0 0'>other</p>",
    "CUT_OFF": "<p style='width:30px;overflow:hidden;white-space:nowrap'>many words</p>",
    "SMALL_TYPE": "<svg width='100' viewBox='0 0 200 20'><text y='9' font-size='16'>s</text></svg>",
    "HIDDEN": "<main><table style='display:none'><tr><td>gone</table></main>",
    "DEAD_CONTROLS": "<button>Sort</button>",
    "OFF_PAPER": "<div style='overflow:auto'><p style='width:3000px'>long</p></div>",
}
QUIET = [name for name in FAULTS if name != "OFF_PAPER"]  # paper does not scroll


@pytest.mark.parametrize("name", FAULTS)
def test_probe_finds_its_fault(looks: Looks, name: str) -> None:
    """A page with one fault."""
    page = looks()
    page.set_content(FAULTS[name])

    assert 1 <= len(page.evaluate(getattr(probes, name)))


@pytest.mark.parametrize("name", QUIET)
def test_probe_is_content_with_a_page_in_order(looks: Looks, name: str) -> None:
    """A page with a link, words for screen readers, a drawing and a table that scrolls."""
    page = looks()
    page.set_content(IN_ORDER)

    assert [] == page.evaluate(getattr(probes, name))


def test_words_in_the_margin_are_found(looks: Looks) -> None:
    """The page does not scroll, but its column is left."""
    page = looks()
    page.set_content("<main style='width:60px;white-space:nowrap'><p>A long line</main>")

    assert ['"A long line" in the margin (main > p)'] == page.evaluate(probes.SIDEWAYS)


def test_drawn_words_that_overlap_are_found(looks: Looks) -> None:
    """Labels of a drawing are words too."""
    page = looks()
    page.set_content("<svg><text y='20'>one label</text><text x='9' y='22'>another</text></svg>")

    assert ['"one label" over "another" (svg > text)'] == page.evaluate(probes.OVERLAPS)


def test_drawn_words_outside_their_drawing_are_found(looks: Looks) -> None:
    """A label that runs out at the right."""
    page = looks()
    page.set_content("<svg width='30' height='30'><text y='20'>a long label</text></svg>")

    assert page.evaluate(probes.CUT_OFF)[0].startswith('"a long label" by ')
