"""Words as a real browser sets them: none over another, none outside its drawing."""

import random
import re
from contextlib import contextmanager
from pathlib import Path

import pytest
from drawn_samples import RINGS, all_layouts, disc_centres, quad_wiring, ring_plan
from msgspec.structs import replace
from test_small_drawings import DRAWINGS
from test_trend_charts import CHARTS

import buildbook.drawings
from buildbook.drawings.balance import balance_drawing
from buildbook.drawings.layout.layout import layout_drawing, layout_portrait
from buildbook.drawings.layout.layout_faults import layout_faults
from buildbook.drawings.wiring.wiring import wiring_drawing
from buildbook.report.drawn.plans import BalancePlan, CgPlan, DrivePlan, LoadPlan
from tests.cut_rims import CUT_RIMS, WORDS_OVER_WORDS

CHROMIUM = Path("/usr/bin/chromium")
CSS = (Path(buildbook.drawings.__file__).parent / "drawings.css").read_text("utf-8")

# Boxes in units of each drawing. A line box holds the gap between lines too: a seventh is cut.
MEASURE = """() => [...document.querySelectorAll('svg')].map(svg => {
  const view = svg.viewBox.baseVal;
  const boxes = [...svg.querySelectorAll('text')].map(text => {
    const b = text.getBBox();
    return {text: text.textContent, l: b.x, r: b.x + b.width,
            t: b.y + b.height / 7, b: b.y + b.height * 6 / 7};
  });
  const out = boxes.filter(b => b.l < -0.5 || b.t < -0.5
                             || b.r > view.width + 0.5 || b.b > view.height + 0.5);
  return {out: out.map(b => b.text), wide: svg.getBoundingClientRect().width};
})"""


def sheet(drawings, family):
    """A page of all drawings at the narrowest width that they are made for."""
    figures = "".join(f"<figure>{drawing}</figure>" for drawing in drawings)
    look = f"body{{font-family:{family}}}figure{{width:288px;margin:0}}"
    return f"<!doctype html><meta charset=utf-8><title>x</title><style>{look}{CSS}</style>{figures}"


@contextmanager
def shown(html):
    """A page in Chromium as wide as a phone."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=str(CHROMIUM), args=["--no-sandbox", "--disable-gpu"]
        )
        page = browser.new_page(viewport={"width": 320, "height": 800})
        page.set_content(html)
        yield page
        browser.close()


def every_drawing():
    """Each kind of drawing once, layouts and portraits all."""
    layouts = all_layouts()
    planned = replace(layouts["quad-x"], diagonal_m=None, to_scale=False)
    drawings = [layout_drawing(plan, f"l-{name}") for name, plan in layouts.items()]
    drawings += [layout_portrait(plan, f"p-{name}") for name, plan in layouts.items()]
    drawings += [layout_drawing(planned, "planned"), wiring_drawing(quad_wiring(), "wiring")]
    drawings += [draw(f"s-{name}") for name, draw in DRAWINGS.items()]
    drawings += [draw(series, f"c-{name}") for name, (draw, series, _) in CHARTS.items()]
    return drawings


@pytest.mark.browser
@pytest.mark.skipif(not CHROMIUM.exists(), reason="needs Debian's Chromium")
@pytest.mark.parametrize("family", ["sans-serif", "'DejaVu Sans'", "'Liberation Sans'"])
def test_words_keep_clear_in_a_browser(family):
    """By getBBox in Chromium, in three fonts, at 288 px."""
    drawings = every_drawing()
    with shown(sheet(drawings, family)) as page:
        measured, met = page.evaluate(MEASURE), page.evaluate(WORDS_OVER_WORDS)

    assert [288] * len(drawings) == [round(one["wide"]) for one in measured]
    assert [] == [text for one in measured for text in one["out"]]
    assert [] == met


def generated_layouts(count):
    """Layouts of many sizes by a fixed seed, their discs clear of each other; balances too."""
    dice = random.Random(5)
    while count:
        name, diagonal = dice.choice(RINGS), dice.uniform(0.15, 1.2)
        plan = ring_plan(
            name,
            diagonal,
            diagonal * dice.uniform(0.1, 0.68),
            state=dice.choice(("planned", "checked", "read", "failed")),
            cg=CgPlan(forward_m=dice.uniform(-0.02, 0.02), words="weighed"),
        )
        if layout_faults(plan):
            continue
        count -= 1
        yield layout_drawing(plan, f"g-{count}")
        loads = tuple(
            LoadPlan(
                name=at.name,
                mass_kg=dice.uniform(0.01, 0.4),
                forward_m=at.forward_m,
                right_m=at.right_m,
                down_m=dice.uniform(-0.05, 0.05),
            )
            for at in plan.stations
        )
        middle = [
            LoadPlan(name=f"thing {n}", mass_kg=dice.uniform(0.01, 0.5), forward_m=0.0)
            for n in range(dice.randrange(5))
        ]
        yield balance_drawing(
            BalancePlan(aircraft="Any", loads=(*loads, *middle), cg_m=(0.0, 0.0, 0.0)),
            f"b-{count}",
        )


@pytest.mark.browser
@pytest.mark.skipif(not CHROMIUM.exists(), reason="needs Debian's Chromium")
def test_words_of_generated_drawings_keep_off_discs_and_each_other():
    """Forty layouts and their balances, measured by boxes in Chromium."""
    drawings = list(generated_layouts(40))
    with shown(sheet(drawings, "'DejaVu Sans'")) as page:
        measured, met = page.evaluate(MEASURE), page.evaluate(WORDS_OVER_WORDS)
        cut = page.evaluate(CUT_RIMS)

    assert 80 == len(measured)
    assert [] == cut
    assert [] == met
    assert [] == [text for one in measured for text in one["out"]]


@pytest.mark.browser
@pytest.mark.skipif(not CHROMIUM.exists(), reason="needs Debian's Chromium")
def test_words_over_a_rim_or_over_words_are_seen():
    """Twice the same word at the edge of a disc: the probes look at what is drawn."""
    drawing = str(layout_drawing(ring_plan("quad-x"), "seen"))
    x, y, r = disc_centres(drawing)[0]
    word = f'<text class="d-name" x="{x - r - 5}" y="{y}">odd word</text>'
    with shown(sheet([drawing.replace("</svg>", f"{word}{word}</svg>")], "sans-serif")) as page:
        cut, met = page.evaluate(CUT_RIMS), page.evaluate(WORDS_OVER_WORDS)

    title = "Layout of Sedge: quad-x, seen from above"
    assert [f"{title}: odd word"] * 2 == cut
    assert f"{title}: odd word / odd word" in met


@pytest.mark.browser
@pytest.mark.skipif(not CHROMIUM.exists(), reason="needs Debian's Chromium")
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_tallest_wiring_prints_on_one_page(paper):
    """Twelve ESCs and sixteen leads, the most that is drawn, fit one sheet of paper."""
    drives = tuple(DrivePlan(station=f"arm-{n}", output=n) for n in range(12))
    drawing = wiring_drawing(quad_wiring(drives=drives, leads=("lead",) * 16))
    page_of = f"<!doctype html><title>x</title><style>@page{{margin:15mm}}{CSS}</style>{drawing}"
    with shown(page_of) as page:
        printed = page.pdf(format=paper)

    assert drawing is not None
    assert 1 == len(re.findall(rb"/Type\s*/Page\b", printed))
