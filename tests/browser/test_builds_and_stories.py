"""The front page of builds and a long story, on a phone and on a desk."""

from pathlib import Path

import pytest

from .conftest import Looks

ROWS = """() => [...document.querySelectorAll('.ways')].map(
  ways => new Set([...ways.children].map(way => way.getBoundingClientRect().top)).size)"""
OUT_OF_LINE = """() => [...document.querySelectorAll('.build')].map(build => {
  const words = build.querySelector('.build-words').getBoundingClientRect();
  const picture = build.querySelector('.build-picture svg').getBoundingClientRect();
  return [Math.round(words.left - picture.left), Math.round(picture.right - words.right)];
})"""
UP = """() => {
  scrollTo(0, document.body.scrollHeight / 2);
  const box = document.querySelector('a[href="#contents"]').getBoundingClientRect();
  return box.height >= 44 && box.top >= 0 && box.bottom <= innerHeight;
}"""


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_the_ways_into_a_build_stand_in_one_row(
    looks: Looks, public_site: Path, width: int
) -> None:
    """Story, parts and layout of each build; none is left alone on a row of its own."""
    page = looks(width, 844)
    page.goto((public_site / "index.html").as_uri())

    assert {1} == set(page.evaluate(ROWS))


@pytest.mark.parametrize("width", [320, 390])
def test_drawings_keep_to_the_margins_on_a_phone(
    looks: Looks, public_site: Path, width: int
) -> None:
    """Each begins and ends where the words below it do."""
    page = looks(width, 844)
    page.goto((public_site / "index.html").as_uri())

    assert {(0, 0)} == {tuple(one) for one in page.evaluate(OUT_OF_LINE)}


def test_the_way_up_to_the_contents_is_in_sight_within_a_long_story(
    looks: Looks, public_site: Path
) -> None:
    """On a phone it stays at the foot of the screen; on a desk the contents themselves stay."""
    page = looks(390, 844)
    page.goto((public_site / "aircraft/trefoil/write-up.html").as_uri())
    assert page.evaluate(UP)

    page.click('a[href="#contents"]')
    assert page.evaluate("document.getElementById('contents').getBoundingClientRect().top") < 44

    page = looks(1280, 844)
    page.goto((public_site / "aircraft/trefoil/write-up.html").as_uri())
    assert not page.is_visible('a[href="#contents"]')
