"""Formulas of the page that tells where the figures come from."""

import io
from pathlib import Path

import pytest
from PIL import Image

from .conftest import Looks

# The strip of a root that stands before what is under it, in the middle of the screen.
ROOT_STRIP = """root => {
  root.scrollIntoView({block: 'center', behavior: 'instant'});
  const all = root.getBoundingClientRect(), under = root.firstElementChild.getBoundingClientRect();
  return {x: all.x, y: all.y, width: Math.max(under.x - all.x, 6), height: all.height};
}"""


def drawn(picture: bytes) -> list[bool]:
    """Whether ink stands in the upper, middle and lower third of a picture of light ground."""
    grey = Image.open(io.BytesIO(picture)).convert("L")
    third = grey.height / 3
    boxes = ((0, round(third * at), grey.width, round(third * (at + 1))) for at in range(3))
    return [grey.crop(box).getextrema()[0] < 110 for box in boxes]


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_a_root_reaches_down_to_the_last_line_under_it(
    looks: Looks, owner_site: Path, width: int
) -> None:
    """Its sign stands beside numerator and denominator, whatever fonts the reader has."""
    page = looks(width, color_scheme="light")
    page.goto((owner_site / "figure-sources.html").as_uri())
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    roots = page.locator("#stall_speed msqrt")

    assert 1 == roots.count()
    assert [True, True, True] == drawn(page.screenshot(clip=roots.first.evaluate(ROOT_STRIP)))


def test_the_name_of_a_figure_leads_to_its_formula(looks: Looks, owner_site: Path) -> None:
    """Though its topic is folded, and without a script."""
    page = looks(390, java_script_enabled=False)
    page.goto((owner_site / "figure-sources.html").as_uri())
    formula = page.locator("#stall_speed math").first

    assert not formula.is_visible()
    page.get_by_role("link", name="Stall speed", exact=True).click()
    assert formula.is_visible()
