"""Pages on paper."""

import re
import zlib
from pathlib import Path

import pytest
from playwright.sync_api import Page

from . import probes
from .conftest import Looks, on_paper
from .kinds import CARDS, KINDS, PUBLIC_KINDS, at_width, fullest, pages_of

MM = 96 / 25.4
PAPERS = {"A4": 210, "Letter": 215.9}
MARGIN_MM = 14  # of @page in style.css, left and right
FULL_SIZE = 300 / 96  # Chromium writes a page at 300 dots to the inch, of 96 CSS pixels each

_STREAM = re.compile(rb"stream\r?\n(.*?)\r?\nendstream", re.DOTALL)
_SCALE = re.compile(
    rb"\S+ 0 0 -\S+ 0 \S+ cm\nq\n(\S+) \S+ (\S+) \S+ re\nW\* n\nq\n(\S+) 0 0 [\d.]+ (\S+) \S+ cm"
)
"""A picture at the head of a page has its size there, upside down, and no scale."""
_MARK_DOTS = 100  # the clip of a mark, where a page begins with one: its scale is not the page's


def sheets_of(printed: bytes) -> int:
    """How many pages a PDF has."""
    return len(re.findall(rb"/Type\s*/Page\b", printed))


def scales_of(printed: bytes) -> set[float]:
    """The scale of each page, as the first lines of its content say."""
    found = set()
    for stream in _STREAM.findall(printed):
        try:
            content = zlib.decompress(stream)
        except zlib.error:  # a font or picture that is kept another way
            continue
        scale = _SCALE.match(content)
        # A drawing at the head of a page has a scale of its own, and stands within its frame.
        if scale and float(scale[2]) > _MARK_DOTS and scale[1] == scale[4]:
            found.add(round(float(scale[3]), 3))
    return found


def test_a_page_that_is_too_wide_is_scaled(looks: Looks) -> None:
    """Chromium makes all of a page smaller when something sticks out: that is what we look for."""
    page = looks()
    page.set_content("<p>narrow</p>")
    assert {FULL_SIZE} == scales_of(page.pdf(format="A4"))

    page.set_content("<p style='width:900px'>wide</p>")
    (scale,) = scales_of(page.pdf(format="A4"))
    assert FULL_SIZE > scale


LEAST_TYPE_PT = 8
BLACK_ON_WHITE = ["rgb(255, 255, 255)", "rgb(0, 0, 0)"]


def faults_on_paper(page: Page) -> list[str]:
    """What is wrong with a page that is shown as it is printed, on all papers and at night."""
    faults = ["controls"] * page.locator("input:visible, select:visible").count()
    small = page.evaluate(_SMALL_ON_PAPER, LEAST_TYPE_PT * 96 / 72 - 0.05)
    faults += [f"small: {one}" for one in small]
    page.emulate_media(media="print", color_scheme="dark")
    colours = page.evaluate(_COLOURS)
    page.emulate_media(media="print", color_scheme="null")
    if colours != BLACK_ON_WHITE:
        faults.append(f"at night {colours}")
    for paper, wide_mm in PAPERS.items():
        at_width(page, round((wide_mm - 2 * MARGIN_MM) * MM))
        faults += [f"{paper}: {one}" for one in page.evaluate(probes.OFF_PAPER)]
    for paper in PAPERS:
        scales = scales_of(page.pdf(format=paper))
        if scales != {FULL_SIZE}:
            faults.append(f"{paper}: printed at {scales}")
    return faults


@pytest.mark.parametrize("kind", KINDS)
def test_paper_shows_the_whole_page(looks: Looks, owner_site: Path, kind: str) -> None:
    """Nothing sticks out at the side, so that the type has the size that it was given.

    A table that scrolls on the screen is within the margins, boxes to type in stay on the screen,
    no words outside drawings are smaller than 8 pt (common practice, no source), and for a reader
    in the dark the ink is black, with no ground printed.
    """
    page = looks()
    with on_paper(page, owner_site / fullest(owner_site, kind)):
        faults = faults_on_paper(page)

    assert "" == "\n".join(faults)


@pytest.mark.parametrize("kind", PUBLIC_KINDS)
def test_a_visitor_prints_the_whole_page(looks: Looks, public_site: Path, kind: str) -> None:
    """The same of what others see."""
    page = looks()
    with on_paper(page, public_site / fullest(public_site, kind)):
        faults = faults_on_paper(page)

    assert "" == "\n".join(faults)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", CARDS)
def test_each_card_is_one_sheet(looks: Looks, owner_site: Path, kind: str, paper: str) -> None:
    """Bench card, field card and labels of every aircraft: one page each."""
    page = looks()
    sheets = {}
    for address in pages_of(owner_site, kind):
        page.goto((owner_site / address).as_uri())
        sheets[address] = sheets_of(page.pdf(format=paper))

    assert dict.fromkeys(sheets, 1) == sheets


SHEETS = {
    "index.html": 1,
    "aircraft/burdock/index.html": 2,
    "aircraft/trefoil/index.html": 2,
    "aircraft/thistledown/index.html": 2,
    "aircraft/burdock/gains.html": 2,
}


@pytest.mark.parametrize("address", SHEETS)
def test_no_sheet_holds_the_foot_of_a_page_alone(
    looks: Looks, public_site: Path, address: str
) -> None:
    """As many sheets as the page needs: its picture beside its words, rows close together."""
    page = looks()
    page.goto((public_site / address).as_uri())

    assert SHEETS[address] == sheets_of(page.pdf(format="A4"))


OWNER_SHEETS = {
    "aircraft/burdock/index.html": 2,
    "aircraft/clover/index.html": 2,
    "aircraft/hogweed/index.html": 3,
    "aircraft/thistledown/index.html": 2,
    "aircraft/trefoil/index.html": 2,
    "aircraft/hogweed/set-up.html": 5,
    "stock.html": 3,
}


@pytest.mark.parametrize("paper", PAPERS)
def test_pages_to_take_along_fill_their_sheets(looks: Looks, owner_site: Path, paper: str) -> None:
    """An aircraft is on both sides of one sheet, unless much is open; nothing trails behind."""
    page = looks(java_script_enabled=False)
    sheets = {}
    for address in OWNER_SHEETS:
        page.goto((owner_site / address).as_uri())
        sheets[address] = sheets_of(page.pdf(format=paper))

    assert OWNER_SHEETS == sheets


def heads_left_behind(page: Page) -> list[str]:
    """Headings of parts that stand in a grid on paper: Chromium lets go of those at its foot."""
    found: list[str] = page.evaluate(
        "() => [...document.querySelectorAll('.part > h2')]"
        ".filter(one => getComputedStyle(one.parentElement).display !== 'block')"
        ".map(one => one.textContent)"
    )
    return found


def test_a_heading_keeps_with_what_follows_on_paper(looks: Looks, public_site: Path) -> None:
    """Of a timeline, whose months were left alone at the foot of a sheet."""
    page = looks()
    with on_paper(page, public_site / "aircraft/burdock/timeline.html"):
        found = heads_left_behind(page)

    assert [] == found


def test_what_leads_to_the_first_flights_keeps_with_them(looks: Looks, owner_site: Path) -> None:
    """Caution, state and the line above the steps: none is the last on a sheet."""
    page = looks()
    with on_paper(page, owner_site / "aircraft/burdock/set-up.html"):
        breaks = page.evaluate(
            "() => [...document.querySelectorAll('#flights, #flights + div > :not(details),"
            " #flights + div summary')].map(one => getComputedStyle(one).breakAfter)"
        )

    assert ["avoid"] * 4 == breaks


_COLOURS = """() => [getComputedStyle(document.documentElement).backgroundColor,
  getComputedStyle(document.querySelector('h1')).color]"""
_SMALL_ON_PAPER = """least => {
  const faults = new Set();
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const parent = node.parentElement;
    if (!node.data.trim() || parent.closest('svg, math, script, style')) continue;
    if (!parent.checkVisibility()) continue;
    const size = parseFloat(getComputedStyle(parent).fontSize);
    if (size < least) faults.add(`${parent.localName}.${parent.className} ${size}`);
  }
  return [...faults].slice(0, 8);
}"""


def test_the_field_form_on_paper_says_what_to_take_instead(looks: Looks, owner_site: Path) -> None:
    """No headings over nothing: the page's name and one line."""
    page = looks()
    said = {}
    for address in ("field-form.html", "field-form-alone.html"):
        with on_paper(page, owner_site / address):
            said[address] = page.locator("main").inner_text().split("\n")

    line = (
        "This form is filled in on a screen. On paper take the field card of the aircraft: "
        "it has lines for flights and a list to tick."
    )
    assert {name: ["Field form", line] for name in said} == {
        name: [words for words in lines if words] for name, lines in said.items()
    }


def test_labels_are_of_one_height_and_keep_their_days_whole(looks: Looks, owner_site: Path) -> None:
    """A sheet that is cut with a ruler: rows alike, no day broken in two."""
    page = looks(688)
    with on_paper(page, owner_site / "cards/pack-labels.html"):
        heights = page.evaluate(
            "() => [...document.querySelectorAll('.label')]"
            ".map(label => Math.round(label.getBoundingClientRect().height))"
        )
        lines = page.evaluate(
            "() => [...document.querySelectorAll('.label .of-day')]"
            ".map(day => day.getClientRects().length)"
        )

    assert len(heights) > 3
    assert 1 == len(set(heights))
    assert {1} == set(lines)


def test_a_heading_of_the_set_up_sheet_keeps_its_first_step(looks: Looks, owner_site: Path) -> None:
    """Blocks that avoid a break after them, from the heading to the step: a grid would let go."""
    page = looks()
    with on_paper(page, owner_site / fullest(owner_site, "set-up")):
        found = page.evaluate(
            "() => [...document.querySelectorAll('.part:has(> .steps)')].map(part => {"
            " const steps = part.querySelector('.steps'), kept = [part.querySelector('h2')];"
            " for (const e of steps.children) { if (e.matches('.step')) break; kept.push(e); }"
            " return [part, steps].map(e => getComputedStyle(e).display).concat("
            "  kept.map(e => getComputedStyle(e).breakAfter)); })"
        )

    assert len(found) > 2
    assert {"block"} == {shown for one in found for shown in one[:2]}
    assert {"avoid"} == {kept for one in found for kept in one[2:]}


def test_a_logbook_for_others_is_whole_on_paper(looks: Looks, public_site: Path) -> None:
    """Each entry is printed, those folded on a screen too, and no line that only opens a fold."""
    page = looks()
    with on_paper(page, public_site / fullest(public_site, "logbook")):
        folds, entries, seen = page.evaluate(
            """() => [document.querySelectorAll('.month summary').length,
              document.querySelectorAll('.entry').length,
              [...document.querySelectorAll('.month summary, .entry')]
                .filter(e => e.checkVisibility({contentVisibilityAuto: true}))
                .map(e => e.localName)]"""
        )

    assert 3 < folds
    assert ["li"] * entries == seen
