"""How many screens of a phone a page is: what it is opened for stands first, the rest is folded."""

from pathlib import Path

import pytest

from . import probes
from .conftest import Looks, on_paper
from .kinds import at_width, fullest, told_at_widths, told_by_each

WIDTH, HEIGHT = 390, 844
MOST_SCREENS = {
    "hangar": 4,
    "due": 4,
    "going-flying": 4,
    "aircraft": 6,
    "set-up": 6,
    "item": 6,
    "figures": 8,
    "stock": 5,
    "radio": 5,
    "find": 3,
    "compare": 5,
    "programme": 6,
    "gains": 5,
    "layout": 6,
    "figure-sources": 3,
}


@pytest.mark.parametrize("kind", MOST_SCREENS)
def test_a_page_is_a_few_screens_of_a_phone(looks: Looks, owner_site: Path, kind: str) -> None:
    """Each page of a kind, with what is folded left folded; scripts unfold what fell due since."""
    page = looks(WIDTH, HEIGHT, java_script_enabled=False)
    heights = told_by_each(page, owner_site, kind, "document.documentElement.scrollHeight")

    assert [] == [
        f"{address}: {height / HEIGHT:.1f}"
        for address, height in heights.items()
        if height > MOST_SCREENS[kind] * HEIGHT
    ]


# Panels that are in sight to their last line without moving the page.
IN_SIGHT = """() => [...document.querySelectorAll('.panel')]
  .filter(one => one.querySelector('.flown').getBoundingClientRect().bottom <= innerHeight)
  .map(one => one.querySelector('h3').innerText + ': ' + one.querySelector('.mark').innerText)"""


def test_the_front_page_begins_with_what_comes_first(looks: Looks, owner_site: Path) -> None:
    """One line with its link, the name of the hangar once, four aircraft on the first screen."""
    page = looks(WIDTH, HEIGHT, java_script_enabled=False)
    page.goto((owner_site / "index.html").as_uri())
    first = page.locator(".head .lede")
    named = page.get_by_text("Gorse End loft", exact=True).all()

    assert "First: Defect of F-31, Hogweed: Boom clamp at rear-left cracked through one ear" == (
        first.inner_text()
    )
    assert "aircraft/hogweed/index.html#work" == first.locator("a").first.get_attribute("href")
    assert ["P"] == [
        one.evaluate("e => e.closest('p, h1').tagName")
        for one in named
        if (one.bounding_box() or {"height": 0})["height"] > 1
    ]
    assert [
        "Hogweed: grounded",
        "Burdock: due soon",
        "Trefoil: due soon",
        "Thistledown: nothing open",
    ] == page.evaluate(IN_SIGHT)[:4]


def test_an_aircraft_page_has_what_to_do_before_its_portrait(
    looks: Looks, owner_site: Path
) -> None:
    """Of each with a job the first one is on the first screen of a phone; with none it is later."""
    page = looks(WIDTH, HEIGHT, java_script_enabled=False)
    told = told_by_each(
        page,
        owner_site,
        "aircraft",
        "() => { const job = document.querySelector('#work ~ * .job > p, #work ~ .jobs .job > p');"
        " return [[...document.querySelectorAll('h2')].slice(0, 2).map(one => one.innerText),"
        " job && job.getBoundingClientRect().bottom <= innerHeight]; }",
    )

    jobs_first = ["What to do next", "At a glance"]
    assert {
        "aircraft/burdock/index.html": [jobs_first, True],
        "aircraft/clover/index.html": [["What is missing", "At a glance"], None],
        "aircraft/hogweed/index.html": [jobs_first, True],
        "aircraft/thistledown/index.html": [["At a glance", "What is open"], None],
        "aircraft/trefoil/index.html": [jobs_first, True],
    } == told


@pytest.mark.parametrize("width", [320, WIDTH])
@pytest.mark.parametrize("kind", ["due", "stock"])
def test_all_packs_stand_on_one_screen(
    looks: Looks, owner_site: Path, kind: str, width: int
) -> None:
    """One table, worst first, a line each, whole; with nothing open no column says so."""
    page = looks(width, HEIGHT)
    page.goto((owner_site / fullest(owner_site, kind)).as_uri())
    table = page.locator("table.pack-lines")
    box = table.bounding_box()

    assert box is not None
    assert HEIGHT > box["height"]
    assert box["x"] + box["width"] <= width
    assert ["pack", "health", "charge"] == table.locator("thead th").all_inner_texts()
    assert "P-33" == table.locator("tbody th").first.inner_text()


@pytest.mark.parametrize("kind", ["stock", "aircraft", "going-flying"])
def test_rows_become_lines_on_a_phone(looks: Looks, owner_site: Path, kind: str) -> None:
    """A wide table scrolls nowhere, and each value stands beside the name of its column."""
    page = looks(WIDTH, HEIGHT)
    page.goto((owner_site / fullest(owner_site, kind)).as_uri())
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    sideways = page.evaluate(
        "[...document.querySelectorAll('.scroll:has(> .stacks)')]"
        ".filter(one => one.scrollWidth > one.clientWidth + 1).map(one => one.ariaLabel)"
    )
    nameless = page.evaluate(
        "[...document.querySelectorAll('.stacks td:not(:empty)')]"
        ".filter(one => getComputedStyle(one, '::before').content === 'none').length"
    )

    assert [] == sideways
    assert 0 == nameless
    assert [] == page.evaluate(probes.SIDEWAYS)


@pytest.mark.parametrize("kind", ["set-up", "figure-sources"])
def test_what_is_folded_lies_open_on_paper(looks: Looks, owner_site: Path, kind: str) -> None:
    """The set-up sheet is printed with the words of each step, formulas with their ranges."""
    page = looks()
    with on_paper(page, owner_site / fullest(owner_site, kind)):
        heights = page.evaluate(
            "[...document.querySelectorAll('.fold > .folded')]"
            ".map(one => one.checkVisibility({contentVisibilityAuto: true})"
            " ? one.getBoundingClientRect().height : 0)"
        )

    assert heights
    assert 0 < min(heights)


# Elements that end a section before another one and still draw a rule of their own.
STACKED_RULES = """() => [...document.querySelectorAll('.part:has(+ .part)')].flatMap(part => {
  const end = part.lastElementChild;
  const last = end.matches('.fold') ? end : end.matches('.scroll')
    ? [...end.querySelectorAll('tbody > tr:last-child, tbody > tr:last-child > *')]
    : end.lastElementChild && end.lastElementChild.matches('.fold') ? end.lastElementChild : [];
  return [last].flat().filter(e => parseFloat(getComputedStyle(e).borderBottomWidth))
    .map(e => part.getAttribute('aria-labelledby') + ' ' + e.localName);
})"""


@pytest.mark.parametrize("kind", ["figures", "compare", "aircraft", "item", "due"])
def test_a_section_ends_without_a_rule_before_that_of_the_next(
    looks: Looks, owner_site: Path, kind: str
) -> None:
    """One rule between sections, not two or three in a row."""
    page = looks()
    page.goto((owner_site / fullest(owner_site, kind)).as_uri())

    for width in (390, 1280):
        at_width(page, width)
        assert [] == page.evaluate(STACKED_RULES), width


@pytest.mark.parametrize("kind", ["aircraft", "going-flying", "item", "due"])
def test_what_is_folded_opens_below_one_rule(looks: Looks, owner_site: Path, kind: str) -> None:
    """A list that ends with a rule is not followed by a second one."""
    told = told_at_widths(
        looks(),
        owner_site,
        kind,
        "[...document.querySelectorAll(':is(.jobs, .ruled, .ticks, .scroll) + .fold')]"
        ".map(one => parseFloat(getComputedStyle(one).borderTopWidth))",
        (390, 1280),
    )

    assert {0} >= {rule for found in told.values() for rule in found}


def test_a_folded_list_ends_without_a_rule(looks: Looks, owner_site: Path) -> None:
    """What is folded, or the next section, has its own."""
    page = looks(WIDTH)
    page.goto((owner_site / "due.html").as_uri())
    ends = page.locator(".folded > .jobs:last-child > li:last-child")

    assert ["0px"] * ends.count() == ends.evaluate_all(
        "found => found.map(one => getComputedStyle(one).borderBottomWidth)"
    )
    assert 1 <= ends.count()


@pytest.mark.parametrize("width", [320, 390])
def test_flights_to_write_down_have_all_columns(looks: Looks, owner_site: Path, width: int) -> None:
    """What was noticed too, on the phone at the field."""
    told = told_by_each(
        looks(width),
        owner_site,
        "field-card",
        "[...document.querySelectorAll('.scroll:has(> .to-write)')]"
        ".map(one => [one.querySelectorAll('th[scope=col]').length,"
        " one.scrollWidth - one.clientWidth])",
    )

    assert [6, 0] in told["cards/burdock-field.html"]
    assert {0} == {over for found in told.values() for _, over in found}


def test_a_drawing_stays_beside_longer_facts(looks: Looks, owner_site: Path) -> None:
    """At 1280 px no empty column: the layout is in sight at the last figure of the aircraft."""
    page = looks(1280)
    page.goto((owner_site / "aircraft/thistledown/index.html").as_uri())
    page.locator(".two > .facts > dd").last.evaluate("e => e.scrollIntoView({block: 'end'})")
    box = page.locator(".two > .plate").bounding_box()

    assert box is not None
    assert 0 <= box["y"] + box["height"] <= 900
    assert box["height"] > 300


@pytest.mark.parametrize("width", [320, 390])
def test_packs_side_by_side_are_whole_on_a_phone(
    looks: Looks, owner_site: Path, width: int
) -> None:
    """Every column within its table, no cell of more than two lines (three at 320 px)."""
    page = looks(width)
    page.goto((owner_site / "compare.html").as_uri())
    found = page.evaluate(
        "() => [...document.querySelectorAll('.scroll:has(> .steady)')].map(e =>"
        " [e.scrollWidth - e.clientWidth, Math.max(...[...e.querySelectorAll('tbody td')]"
        ".map(td => { const r = document.createRange(); r.selectNodeContents(td.firstChild);"
        " return new Set([...r.getClientRects()].map(one => one.top)).size; }))])"
    )

    assert len(found) >= 2
    assert all(over <= 0 and lines <= (2 if width > 320 else 3) for over, lines in found), found


@pytest.mark.parametrize("width", [320, 390])
def test_a_count_of_crashes_takes_a_line(looks: Looks, owner_site: Path, width: int) -> None:
    """The seventh value stands beside its label, never below it in a row of its own."""
    page = looks(width)
    page.goto((owner_site / "compare.html").as_uri())
    heights = page.evaluate(
        "[...document.querySelectorAll('.scaled.stacks td:last-child')]"
        ".map(one => [one.dataset.label, one.getBoundingClientRect().height < 28])"
    )

    assert [["crashes", True]] * 4 == heights


def test_gain_sets_are_whole_on_a_phone(looks: Looks, owner_site: Path) -> None:
    """Five sets side by side, the last column too."""
    page = looks(390)
    told = told_by_each(
        page,
        owner_site,
        "gains",
        "[...document.querySelectorAll('.gains')].map(e =>"
        " [e.rows[0].cells.length, e.parentElement.scrollWidth - e.parentElement.clientWidth])",
    )

    assert [7, 0] in told["aircraft/burdock/gains.html"]
    assert {0} == {over for found in told.values() for _, over in found}


# Of each group of three figures: tops of the cells of its columns, and what ends past the table.
LEVEL = """() => [...document.querySelectorAll('.by-pack tbody')].map(group => {
  const edge = group.closest('table').parentElement.getBoundingClientRect().right;
  const columns = [...group.rows].map(row =>
    [...row.cells].slice(1).map(cell => Math.round(cell.getBoundingClientRect().top)));
  const past = [...group.querySelectorAll('td, th')].filter(cell => {
    const words = document.createRange();
    words.selectNodeContents(cell);
    return words.getBoundingClientRect().right > edge + 1;
  });
  const tags = [...group.rows[0].cells].slice(1).filter(cell =>
    getComputedStyle(cell, '::before').content !== 'none').length;
  return [new Set(columns.map(String)).size, columns[0].length - tags, past.length,
          new Set(columns[0]).size - columns[0].length];
})"""


@pytest.mark.parametrize("width", [320, 390])
def test_figures_of_packs_stand_level_on_a_phone(
    looks: Looks, owner_site: Path, width: int
) -> None:
    """A line for each pack with its tag, three figures beside each other, nothing cut."""
    told = told_by_each(looks(width), owner_site, "figures", LEVEL)
    groups = [group for found in told.values() for group in found]

    assert groups
    assert [[1, 0, 0, 0]] * len(groups) == groups


# Numbers at the end of a line whose unit begins the next, in the words that go with a value.
TORN = r"""() => {
  const torn = [];
  const places = '.value, .between, .num, time, .inset dd > .small, .scaled td';
  for (const place of document.querySelectorAll(places)) {
    if (!place.checkVisibility()) continue;
    const walk = document.createTreeWalker(place, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode())
      for (const found of node.data.matchAll(/\d [^\s\d(),.;]|(?:min|h) \d/g)) {
        const at = found.index + found[0].indexOf(' ');
        const box = (from) => {
          const range = document.createRange();
          range.setStart(node, from);
          range.setEnd(node, from + 1);
          return range.getBoundingClientRect();
        };
        if (box(at + 1).top > box(at - 1).top + 4) torn.push(node.data.trim());
      }
  }
  return torn;
}"""


@pytest.mark.parametrize("kind", ["aircraft", "figures", "gains", "write-up", "item", "compare"])
def test_no_number_leaves_its_unit(looks: Looks, owner_site: Path, kind: str) -> None:
    """A value and what stands in brackets after it go to the next line as a whole."""
    torn = told_at_widths(looks(), owner_site, kind, TORN, (390, 768, 1280))

    assert {} == {where: found for where, found in torn.items() if found}


@pytest.mark.parametrize("kind", ["aircraft", "set-up", "figures", "logbook", "gains", "layout"])
def test_ways_round_are_a_row_each_on_a_phone(looks: Looks, owner_site: Path, kind: str) -> None:
    """Two strips to push aside, each within its own line, before what the page is opened for."""
    page = looks(WIDTH, HEIGHT)
    page.goto((owner_site / fullest(owner_site, kind)).as_uri())
    strips = page.evaluate(
        "[...document.querySelectorAll('.top nav, .crumbs, .turns')]"
        ".filter(one => one.checkVisibility())"
        ".map(one => [one.ariaLabel.split(' ')[0],"
        " one.querySelectorAll('a').length > 5 && one.getBoundingClientRect().height <= 50])"
    )

    assert [["Hangar", True], ["Pages", True]] == strips
    assert [] == page.evaluate(probes.SIDEWAYS)


@pytest.mark.parametrize("width", [320, 390])
def test_timers_are_whole_on_a_phone(looks: Looks, owner_site: Path, width: int) -> None:
    """Five packs abreast, each under its tag; what the rows mean is read before."""
    page = looks(width)
    page.goto((owner_site / "going-flying.html").as_uri())
    told = page.evaluate("""() => [...document.querySelectorAll('.timers')].map(one =>
  [one.rows[0].cells.length - 1, one.scrollWidth - one.clientWidth])""")
    meant = page.get_by_text("Timers are for a pack at").bounding_box()
    first = page.locator(".timers").first.bounding_box()

    assert [[5, 0], [3, 0], [2, 0]] == told
    assert meant is not None
    assert first is not None
    assert meant["y"] + meant["height"] <= first["y"]


@pytest.mark.parametrize("kind", ["compare", "radio", "stock", "logbook", "timeline", "bench-card"])
def test_the_way_that_is_gone_is_in_sight(looks: Looks, owner_site: Path, kind: str) -> None:
    """The current page's own name stands in its strip on a phone, with a sign of those before."""
    page = looks(WIDTH, HEIGHT)
    page.goto((owner_site / fullest(owner_site, kind)).as_uri())
    told = page.evaluate("""() => {
  const here = [...document.querySelectorAll('.strip li [aria-current]')]
    .find(one => one.checkVisibility());
  const list = here.closest('ul').getBoundingClientRect(), box = here.getBoundingClientRect();
  return [box.left >= list.left - 1 && box.right <= list.right + 1,
          getComputedStyle(here.closest('.strip'), '::before').opacity];
}""")

    assert [True, "1"] == told


def test_a_strip_that_is_whole_has_no_sign_of_more(looks: Looks, public_site: Path) -> None:
    """The few ways of a visitor need no pushing aside."""
    page = looks(WIDTH, HEIGHT)
    page.goto((public_site / "aircraft/burdock/gains.html").as_uri())
    signs = page.evaluate(
        "[...document.querySelectorAll('.strip')].map(one =>"
        " [one.querySelector('ul').scrollWidth > one.querySelector('ul').clientWidth,"
        " getComputedStyle(one, '::before').opacity])"
    )

    assert [[False, "0"]] * 2 == signs


@pytest.mark.parametrize("kind", ["figures", "item"])
def test_workings_scroll_nowhere_on_a_phone(looks: Looks, owner_site: Path, kind: str) -> None:
    """Inputs are lines that wrap; a formula alone may be wider than the screen."""
    page = looks(WIDTH, HEIGHT)
    told = told_by_each(
        page,
        owner_site,
        kind,
        "() => { document.querySelectorAll('details').forEach(one => one.open = true);"
        " return [...document.querySelectorAll('.working *')].filter(one =>"
        " /auto|scroll/.test(getComputedStyle(one).overflowX) && !one.matches('.formula')"
        " && one.scrollWidth > one.clientWidth + 1).map(one => one.ariaLabel); }",
    )

    assert {} == {address: found for address, found in told.items() if found}


def test_what_a_pack_lands_at_is_never_cut(looks: Looks, owner_site: Path) -> None:
    """The packs of a field card scroll nowhere: all voltages, and what they are, are in sight."""
    widths = (320, 360, 384, 385, 390)
    told = told_at_widths(
        looks(),
        owner_site,
        "field-card",
        """() => {
  const box = document.querySelector('.field .scroll:has(.steady)');
  if (!box) return [0, [], 0];  // one that is being built is told to fly with nothing
  const edge = box.getBoundingClientRect().right;
  const seen = [...box.querySelectorAll('td, th')].filter(e => e.getClientRects().length);
  return [box.scrollWidth - box.clientWidth,
          seen.filter(e => e.getBoundingClientRect().right > edge + 1).map(e => e.innerText),
          seen.filter(e => e.innerText.endsWith('V')).length];
}""",
        widths,
    )

    assert [] == [where for where, (wide, cut, _) in told.items() if wide > 0 or cut]
    for width in widths:
        assert 0 < sum(volts for (_, at), (_, _, volts) in told.items() if at == width)


def test_the_words_of_a_build_stand_beside_its_picture(looks: Looks, public_site: Path) -> None:
    """At 1280 px promise, figures and ways fill a good part of the height of the picture."""
    page = looks(1280)
    page.goto((public_site / "aircraft/burdock/index.html").as_uri())
    picture = page.locator(".build-head > :first-child").bounding_box()
    words = page.locator(".build-head > .build-words").bounding_box()

    assert picture is not None
    assert words is not None
    assert 1 == page.locator(".build-words .promise").count() == page.locator(".promise").count()
    assert words["x"] > picture["x"] + picture["width"]
    assert 0.4 * picture["height"] < words["height"] < picture["height"]


def test_packs_stand_in_columns_of_one_width(looks: Looks, owner_site: Path) -> None:
    """At 320 px too, and no word of their health is wider than its column."""
    page = looks(320)
    page.goto((owner_site / "index.html").as_uri())
    told = page.evaluate("""() => [...document.querySelectorAll('.packs li')].map(li => [
  li.getBoundingClientRect().width,
  [...li.querySelectorAll('.mark')].every(m => m.scrollWidth <= li.clientWidth)])""")

    assert 1 == len({round(width) for width, _ in told})
    assert all(fits for _, fits in told)


@pytest.mark.parametrize("slug", ["burdock", "trefoil"])
def test_a_station_of_the_layout_is_two_lines_at_most(
    looks: Looks, owner_site: Path, slug: str
) -> None:
    """At 1280 px, beside the drawing."""
    page = looks(1280)
    page.goto((owner_site / f"aircraft/{slug}/layout.html").as_uri())
    cells = "[...document.querySelectorAll('.stations tbody tr > *')]"
    lines = page.evaluate(
        f"() => {cells}"
        """.map(c => {
  const range = document.createRange();
  range.selectNodeContents(c);
  return new Set([...range.getClientRects()].map(r => Math.round(r.top))).size;
})"""
    )

    assert lines
    assert 2 >= max(lines)


def test_a_drawing_of_a_story_is_dark_where_the_page_is(looks: Looks, public_site: Path) -> None:
    """Its paper is turned into that of the night; a photograph stays as it was taken."""
    told = {}
    for scheme in ("light", "dark"):
        page = looks(390, color_scheme=scheme)
        page.goto((public_site / "aircraft/burdock/write-up.html").as_uri())
        told[scheme] = page.evaluate("""() => [...document.querySelectorAll('.photos img')].map(
  i => [/\\.png$/.test(i.src), getComputedStyle(i).filter !== 'none'])""")

    assert {(True, False), (False, False)} == {tuple(one) for one in told["light"]}
    assert {(True, True), (False, False)} == {tuple(one) for one in told["dark"]}


@pytest.mark.parametrize(
    ("address", "what"),
    [("figure-sources.html", ".formula"), ("aircraft/burdock/gains.html", ".scroll")],
)
def test_formulas_and_gains_fit_a_small_phone(
    looks: Looks, owner_site: Path, address: str, what: str
) -> None:
    """At 320 px none has to be pushed aside, with all that is folded open."""
    page = looks(320)
    page.goto((owner_site / address).as_uri())
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    wide = page.evaluate(
        "what => [...document.querySelectorAll(what)].map(e => e.scrollWidth - e.clientWidth)",
        what,
    )

    assert wide
    assert 1 >= max(wide)


@pytest.mark.parametrize("address", ["due.html", "stock.html"])
def test_a_pack_of_the_list_is_two_lines_at_most(
    looks: Looks, owner_site: Path, address: str
) -> None:
    """On a phone: its health is the answer; that nothing is open says the whole list.

    What has fallen due since the record is told on lines of its own.
    """
    page = looks(WIDTH, HEIGHT)
    page.goto((owner_site / address).as_uri())
    rows = page.evaluate(
        """[...document.querySelectorAll('.pack-lines tbody tr')].map(r => {
  r.querySelectorAll('.since').forEach(one => one.remove());
  return r.offsetHeight;
})"""
    )

    assert rows
    assert 56 >= max(rows)


@pytest.mark.parametrize("width", [320, 390, 768, 960, 1280])
def test_no_timer_of_a_pack_is_out_of_sight(looks: Looks, owner_site: Path, width: int) -> None:
    """Five packs beside each other: the last of them, which may be the charged one, too."""
    told = told_by_each(
        looks(width),
        owner_site,
        "going-flying",
        "[...document.querySelectorAll('.timers')].map(one => one.scrollWidth - one.clientWidth)",
    )

    assert {0} == {over for found in told.values() for over in found}


@pytest.mark.parametrize("width", [768, 1280])
def test_the_page_one_is_on_is_marked_below_its_name(
    looks: Looks, owner_site: Path, width: int
) -> None:
    """Also where the ways round take two rows."""
    told = told_by_each(
        looks(width),
        owner_site,
        "aircraft",
        "[...document.querySelectorAll('.turns [aria-current]')]"
        ".map(one => one.getBoundingClientRect().height)",
    )

    assert told
    assert all(height < 45 for found in told.values() for height in found)


def test_stations_in_different_states_all_say_theirs(looks: Looks, owner_site: Path) -> None:
    """One failed among five that are good: it has its mark as they have."""
    page = looks()
    page.goto((owner_site / "aircraft/hogweed/set-up.html").as_uri())
    marks = page.evaluate(
        "[...document.querySelectorAll('#start-spread .spots > li')].map(one =>"
        " one.querySelector('.mark') && one.querySelector('.mark').textContent)"
    )

    assert ["ok"] * 4 + ["failed", "ok"] == marks
