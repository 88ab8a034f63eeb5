"""Pages of a large hangar: they stay short, and what has no room is led to."""

import re

import pytest

from buildbook.pages import hangar
from buildbook.pages.stock import compare
from buildbook.pages.story import builds
from buildbook.pages.theme import Press, theme_folders
from buildbook.pages.work import due
from buildbook.report.figures.comparison import Compared, Comparison, Measure

SMALL = """\
aircraft: Rush {number}
kind: multirotor
layout: tri-y
status: flying
programme: few
stations: {{front-left: {{spin: ccw}}, front-right: {{spin: cw}}, rear: {{spin: cw}}}}
"""
AIRCRAFT, PACKS = 61, 25


@pytest.fixture
def many(open_changed):
    """Sixty-one aircraft that nobody has checked, and twenty-five packs."""
    packs = f"- {{tags: P-3..P-{PACKS}, spec: b-3s, acquired: 2026-01-01}}\n"
    aircraft = {
        f"aircraft/rush-{number}/aircraft.yaml": SMALL.format(number=number)
        for number in range(10, 10 + AIRCRAFT)
    }
    return open_changed({**aircraft, "parts/items/more.yaml": packs})


@pytest.fixture
def press(many):
    """What makes pages of it."""
    return Press(many, theme_folders(None))


def test_the_front_page_draws_what_was_flown_last_and_has_a_line_for_each(many, press):
    """By state, with hours and what comes first; grounded ones are not folded. Packs: the worst."""
    html = press.compose(hangar.page(many, ""))

    assert 1 == html.count('<div class="panel">')
    in_sight, _, folded = html.partition('<details class="fold">')
    lines = r"<li><span class=.mark [^\n]*index.html"
    assert [AIRCRAFT + 1, 1] == [len(re.findall(lines, part)) for part in (in_sight, folded)]
    assert AIRCRAFT + 1 == len(re.findall(lines + r"[^\n]*spin directions", in_sight))
    assert (
        '<a href="aircraft/rush-70/index.html">Rush 70</a><span class="soft">, tricopter, Y, '
        "not yet flown</span>; spin directions" in html
    )
    assert 8 == html.count('<svg class="bar"')
    assert '<a href="stock.html">17 more packs</a> in stock; these are the worst.' in html


def test_the_public_front_page_draws_twelve_and_has_a_line_for_each_of_the_rest(open_changed):
    """With sixty-one builds that are shared it stays under 150 kB, as every page."""
    wide = SMALL + "diagonal: 430 mm\nstory: {{promise: It flies and flies.}}\n"
    many = open_changed(
        {
            f"aircraft/rush-{number}/aircraft.yaml": wide.format(number=number)
            for number in range(10, 10 + AIRCRAFT)
        },
        "public",
    )
    html = Press(many, theme_folders(None)).compose(builds.page(many, ""))

    assert 12 == html.count('<article class="build"')
    assert AIRCRAFT + 1 - 12 == html.count('<li><a href="aircraft/')
    assert 150_000 > len(html)


def test_a_long_work_list_leads_to_the_page_of_each_aircraft(many, press):
    """One line each, for what is open and for what is in order."""
    html = press.compose(due.page(many, ""))

    first, _, _ = html.partition('<h2 id="now">')
    assert AIRCRAFT + 1 == first.count("index.html#work")
    assert (
        '<a href="aircraft/rush-34/index.html#work">Rush 34</a>: 1 job, spin directions first'
        in first
    )
    assert 50_000 > len(html)


def test_a_comparison_of_many_shows_those_used_most():
    """Eight rows in sight, the most used first, and 32 to unfold; ten are left out, and told."""
    rows = tuple(
        Compared(key=f"M-{at}", title="", where=None, measures=(Measure(float(at), at / 50),))
        for at in range(50)
    )
    found = compare.bench(Comparison(of="motors", columns=("run",), rows=rows))

    assert (8, 32, 10) == (len(found.rows), len(found.folded), found.left_out)
    assert ["M-49", "M-42", "M-41", "M-10"] == [
        rows[at].key for rows in (found.rows, found.folded) for at in (0, -1)
    ]


def test_a_comparison_of_few_keeps_its_order():
    """As in the hangar."""
    rows = tuple(
        Compared(key=key, title="", where=None, measures=(Measure(value, value),))
        for key, value in (("a", 0.2), ("b", 1.0))
    )
    found = compare.bench(Comparison(of="aircraft", columns=("flown",), rows=rows))

    assert (["a", "b"], 0) == ([row.key for row in found.rows], found.left_out)
