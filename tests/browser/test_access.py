"""Pages for every reader: axe-core in light, in the dark and in forced colours."""

from pathlib import Path
from typing import Any

import axe_playwright_python
import pytest
from playwright.sync_api import Page

from .conftest import Looks
from .kinds import KINDS, PUBLIC_KINDS, at_width, fullest, visit

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text("utf-8")
# target-size (WCAG 2.2, 2.5.8) is off until it is asked for.
_ALL_RULES = "rules: {'target-size': {enabled: true}}"
_COLOUR_RULES = {"color-contrast": "[data-look]", "link-in-text-block": "a[href][data-look]"}


def _run(rules: str) -> str:
    return f"""() => axe.run({{exclude: []}}, {{{rules}, resultTypes: ['violations']}})
  .then(done => done.violations.flatMap(rule => rule.nodes.slice(0, 3).map(
    node => `${{rule.id}}: ${{node.target.join(' ')}}: ${{node.failureSummary.slice(0, 200)}}`)))"""


RUN = _run(_ALL_RULES)
_RUN_COLOURS = _run(f"runOnly: {list(_COLOUR_RULES)}")

# What has the same ink, type and grounds has the same contrast: a few of each such look are judged
# where colours alone differ from a page that was judged whole. A first one may stand where axe
# cannot tell, so more than one.
_MARK_LOOKS = """rules => {
  axe.configure({rules: Object.entries(rules).map(([id, selector]) => ({id, selector}))});
  document.querySelectorAll('[data-look]').forEach(e => e.removeAttribute('data-look'));
  const nothing = 'rgba(0, 0, 0, 0),none,1,none,normal';
  const grounds = new Map(), looks = new Map();
  const ground = e => {
    if (e && !grounds.has(e)) {
      const s = getComputedStyle(e);
      const own = [s.backgroundColor, s.backgroundImage, s.opacity, s.filter,
        s.mixBlendMode].join();
      grounds.set(e, ground(e.parentElement) + (own === nothing ? '' : own + '/'));
    }
    return e ? grounds.get(e) : '';
  };
  for (const e of document.querySelectorAll('body, body *')) {
    const written = [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim());
    if (!written && !e.matches('input, select, textarea, button')) continue;
    if (!e.checkVisibility()) continue;
    const s = getComputedStyle(e), around = getComputedStyle(e.parentElement);
    const look = [e.localName === 'a', s.color, s.fontSize, s.fontWeight, s.textShadow,
      s.textDecoration, around.color, ground(e)].join();
    looks.set(look, (looks.get(look) || 0) + 1);
    if (looks.get(look) <= 3) e.setAttribute('data-look', '');
  }
  return looks.size;
}"""


def found_in_colours(page: Page, **ways: Any) -> list[str]:
    """What axe finds wrong in other colours on a page that it is on already."""
    page.emulate_media(**ways)
    try:
        assert 1 < page.evaluate(_MARK_LOOKS, _COLOUR_RULES)
        return [f"{ways}: {fault}" for fault in page.evaluate(_RUN_COLOURS)]
    finally:
        page.emulate_media(**dict.fromkeys(ways, "null"))


@pytest.mark.parametrize("kind", KINDS)
def test_axe_finds_nothing(looks: Looks, owner_site: Path, kind: str) -> None:
    """All its rules and that of target size; in the dark and in forced colours those of colour."""
    page = looks()
    visit(page, owner_site / fullest(owner_site, kind))
    page.evaluate(AXE)
    faults = page.evaluate(RUN)
    faults += found_in_colours(page, color_scheme="dark")
    faults += found_in_colours(page, forced_colors="active")

    assert "" == "\n".join(faults)


@pytest.mark.parametrize("kind", PUBLIC_KINDS)
def test_axe_finds_nothing_for_a_visitor(looks: Looks, public_site: Path, kind: str) -> None:
    """At 320 px, what is wrapped and folded there too; at night on a phone and on a desk."""
    page = looks(320)
    page.goto((public_site / fullest(public_site, kind)).as_uri())
    page.evaluate(AXE)
    faults = page.evaluate(RUN)
    for width in (390, 1280):
        at_width(page, width)
        faults += found_in_colours(page, color_scheme="dark")

    assert "" == "\n".join(faults)
