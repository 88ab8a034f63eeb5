"""The caution of the set-up sheet, which must not be missed at any of its steps."""

from pathlib import Path

import pytest

from .conftest import Looks, on_paper
from .kinds import told_by_each

# For each step that is done with the propellers off, brought to the middle of the screen: whether
# the line that says so is to be read there.
IN_SIGHT = """() => [...document.querySelectorAll('.off > .step')].map(step => {
  step.scrollIntoView({block: 'center'});
  const line = step.parentElement.querySelector('.off-line strong');
  const box = line.getBoundingClientRect(), middle = (box.top + box.bottom) / 2;
  const on_top = document.elementFromPoint(box.left + 5, middle);
  return line.innerText === 'Propellers off' && line.contains(on_top) && box.bottom < innerHeight;
})"""
BESIDE = """() => [...document.querySelectorAll('.off > .step')].map(
  step => parseFloat(getComputedStyle(step).borderLeftWidth))"""
TARGETS = """() => [...document.querySelectorAll('.off > .step')].map(step => {
  location.hash = step.id;
  const line = step.parentElement.querySelector('.off-line').getBoundingClientRect();
  return step.querySelector('h3').getBoundingClientRect().top >= line.bottom - 1;
})"""


@pytest.mark.parametrize("width", [320, 390, 768, 1280])
def test_propellers_off_is_in_sight_at_every_step(
    looks: Looks, owner_site: Path, width: int
) -> None:
    """However far down a stage one has come, without scripts, what stays on top says it."""
    page = looks(width, 700, java_script_enabled=False)
    told = told_by_each(page, owner_site, "set-up", IN_SIGHT)

    assert all(len(found) > 7 for found in told.values())
    assert {address: [True] * len(found) for address, found in told.items()} == told


def test_a_bar_beside_each_step_says_it_on_paper(looks: Looks, owner_site: Path) -> None:
    """A stage goes over several sheets, and its caution stands on the first of them alone."""
    page = looks()
    with on_paper(page, owner_site / "aircraft/hogweed/set-up.html"):
        widths = page.evaluate(BESIDE)

    assert len(widths) > 7
    assert min(widths) > 5


def test_the_line_hides_no_step_that_one_is_sent_to(looks: Looks, owner_site: Path) -> None:
    """A link to a step leaves room above it."""
    page = looks(390, 700)
    page.goto((owner_site / "aircraft/hogweed/set-up.html").as_uri())

    assert {True} == set(page.evaluate(TARGETS))
