"""Pages for hands on a keyboard."""

from pathlib import Path

import pytest

from .conftest import Looks
from .kinds import KINDS, pages_of, visit
from .probes import WATCH_FOCUS

MOST_STOPS = 260
# A page may put the focus into its only box; a walk starts before everything.
START_AT_THE_TOP = """() => {
  const top = document.createElement('span');
  top.tabIndex = -1;
  document.body.prepend(top);
  top.focus();
  top.remove();
}"""
STOPS = "() => document.querySelectorAll('a[href], button, input, select, summary').length"


@pytest.mark.parametrize("kind", KINDS)
def test_tab_reaches_everything_in_order(looks: Looks, owner_site: Path, kind: str) -> None:
    """Each stop is reached in the order of the page, can be told from the rest and is in view."""
    page = looks()
    for address in pages_of(owner_site, kind):  # the fullest that a walk does not take minutes for
        visit(page, owner_site / address)
        if page.evaluate(STOPS) <= MOST_STOPS:
            break
    page.evaluate(START_AT_THE_TOP)
    page.evaluate(WATCH_FOCUS)
    able = page.evaluate("window.able")
    for _ in range(min(able, MOST_STOPS) + 12):
        page.keyboard.press("Tab")
    walked = page.evaluate("window.walked")
    stops = [stop for stop in walked if stop["at"] >= 0]
    first_round = stops[: min(able, MOST_STOPS)]

    assert [*range(len(first_round))] == [stop["at"] for stop in first_round]
    assert min(able, MOST_STOPS) == len(first_round)
    assert "" == "\n".join([stop["named"] for stop in first_round if not stop["marked"]])
    assert "" == "\n".join([stop["named"] for stop in first_round if not stop["clear"]])


@pytest.mark.parametrize("kind", KINDS)
def test_skip_link_leads_to_the_page(looks: Looks, owner_site: Path, kind: str) -> None:
    """The first stop is a visible link over the ways round, and the next stop is in the page."""
    page = looks()
    visit(page, owner_site / pages_of(owner_site, kind)[0])
    page.evaluate(START_AT_THE_TOP)

    page.keyboard.press("Tab")
    skip = page.locator(":focus")
    assert "Skip to the page" == skip.inner_text()
    box = skip.bounding_box()
    assert box is not None
    assert box["x"] >= 0

    page.keyboard.press("Enter")
    assert "main" == page.evaluate("() => document.activeElement.localName")
    page.keyboard.press("Tab")
    assert page.evaluate(
        "() => !document.activeElement.closest('body > header, body > nav') || "
        "!document.querySelector('main a, main button')"
    )
