"""Pages for every reader: axe-core in three ways of looking."""

from pathlib import Path
from typing import Any

import axe_playwright_python
import pytest

from .conftest import Looks
from .kinds import KINDS, PUBLIC_KINDS, fullest, visit

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text("utf-8")
# target-size (WCAG 2.2, 2.5.8) is off until it is asked for.
RUN = """() => axe.run({exclude: []}, {rules: {'target-size': {enabled: true}},
                               resultTypes: ['violations']})
  .then(done => done.violations.flatMap(rule => rule.nodes.slice(0, 3).map(
    node => `${rule.id}: ${node.target.join(' ')}: ${node.failureSummary.slice(0, 200)}`)))"""
WAYS: dict[str, dict[str, Any]] = {
    "light": {"color_scheme": "light"},
    "dark": {"color_scheme": "dark"},
    "forced": {"forced_colors": "active"},
}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("way", WAYS)
def test_axe_finds_nothing(looks: Looks, owner_site: Path, kind: str, way: str) -> None:
    """axe-core with all its rules and that of target size: no violation."""
    page = looks(**WAYS[way])
    visit(page, owner_site / fullest(owner_site, kind))
    page.evaluate(AXE)

    assert "" == "\n".join(page.evaluate(RUN))


@pytest.mark.parametrize("kind", PUBLIC_KINDS)
def test_axe_finds_nothing_on_a_phone(looks: Looks, public_site: Path, kind: str) -> None:
    """The same at 320 px, on the public copy: what is wrapped and folded there is in order too."""
    page = looks(320)
    page.goto((public_site / fullest(public_site, kind)).as_uri())
    page.evaluate(AXE)

    assert "" == "\n".join(page.evaluate(RUN))
