"""Pages without scripts: nothing is lost but convenience."""

from pathlib import Path

import pytest

from . import probes
from .conftest import Looks
from .kinds import KINDS, fullest


@pytest.mark.parametrize("kind", KINDS)
def test_everything_is_there_without_scripts(looks: Looks, owner_site: Path, kind: str) -> None:
    """Tables, facts, lists and drawings are shown, and no control stands there for nothing."""
    page = looks(java_script_enabled=False)
    page.goto((owner_site / fullest(owner_site, kind)).as_uri())

    assert "" == "\n".join(page.evaluate(probes.HIDDEN))
    assert "" == "\n".join(page.evaluate(probes.DEAD_CONTROLS))


@pytest.mark.parametrize("kind", KINDS)
def test_scripts_take_no_words_away(looks: Looks, owner_site: Path, kind: str) -> None:
    """All words of the page without scripts are shown with scripts too, but days gone since."""
    words = "() => document.querySelector('main').innerText.split(/\\s+/)"
    address = (owner_site / fullest(owner_site, kind)).as_uri()
    without, with_scripts = looks(java_script_enabled=False), looks()
    without.goto(address)
    with_scripts.goto(address)
    for page in (without, with_scripts):
        page.evaluate("() => document.querySelectorAll('.ahead').forEach(days => days.remove())")

    assert set() == set(without.evaluate(words)) - set(with_scripts.evaluate(words))
