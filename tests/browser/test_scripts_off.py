"""Pages without scripts: nothing is lost but convenience."""

import datetime
from pathlib import Path

import pytest

from . import probes
from .conftest import Looks
from .kinds import KINDS, fullest


@pytest.mark.parametrize("kind", KINDS)
def test_everything_is_there_without_scripts(looks: Looks, owner_site: Path, kind: str) -> None:
    """Tables, facts, lists and drawings are shown, and no control stands there for nothing.

    All words of the page without scripts are shown with them on the day it was made for.
    """
    words = "() => document.querySelector('main').innerText.split(/\\s+/)"
    address = (owner_site / fullest(owner_site, kind)).as_uri()
    without, with_scripts = looks(java_script_enabled=False), looks()
    with_scripts.clock.set_fixed_time(datetime.datetime(2026, 11, 20, 12, tzinfo=datetime.UTC))
    without.goto(address)
    with_scripts.goto(address)

    assert "" == "\n".join(without.evaluate(probes.HIDDEN))
    assert "" == "\n".join(without.evaluate(probes.DEAD_CONTROLS))
    assert set() == set(without.evaluate(words)) - set(with_scripts.evaluate(words))
