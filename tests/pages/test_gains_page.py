"""Gain sets side by side."""

import re

import pytest

from buildbook.pages.aircraft import gains
from buildbook.pages.theme import Press, theme_folders

SETS = {
    "aircraft/sedge/logbook.yaml": """\
- {on: 2026-02-01, gains: soft, values: {roll: {p: 38, i: 21}, yaw: {p: 60}}, because: First guess}
- {on: 2026-02-02, flights: [[5:00, P-1, 700 mAh], [5:00, P-1, 700 mAh]]}
- {on: 2026-02-03, gains: hard, from: soft, values: {roll: {p: 47.5, i: 21}}, because: Nods}
- {on: 2026-02-04, flight: 4:00, pack: P-1}
- {on: 2026-02-04, verdict: {hard: Shakes. <b>No.</b>}}
- {on: 2026-02-05, gains: soft, because: Back again}
- {on: 2026-02-06, flight: 6:00, pack: P-1}
"""
}


@pytest.fixture
def reports(open_changed):
    """An aircraft with two sets, the first one in force again."""
    return open_changed(SETS)


def test_differences_are_marked_in_word_and_shape(reports):
    """Each set is told against the one it was made from."""
    found = reports.gains("sedge")
    cells = {(term.axis, term.term): term.cells[1] for term in found.terms if term.cells[1]}
    changed = cells["roll", "p"]

    assert {"soft": None, "hard": "soft"} == {one.gains.name: one.against for one in found.sets}
    assert ("47.5", "9.5 more") == (gains.gain_words(changed), gains.change_words(changed))
    assert 0 == cells["roll", "i"].change
    assert 0 == cells["yaw", "p"].change


def test_what_was_flown_on_each(reports):
    """A set that came back into force keeps both of its times."""
    shown = gains.page(reports, "sedge").facts["sets"]

    assert [("soft", True, 3, 960.0, 2), ("hard", False, 1, 240.0, 1)] == [
        (one.gains.name, one.in_force, one.flights, one.duration_s, len(one.periods))
        for one in shown
    ]


def test_the_set_in_force_stands_against_the_one_before(reports):
    """Term by term, and no term against another term of the same set."""
    html = Press(reports, theme_folders(None)).compose(gains.page(reports, "sedge"))

    assert "Against <strong>hard</strong>, the set in force before it: 1 of 3 terms differ." in html
    assert [("axis", "term", "in force", "against", "change")] == [
        one.columns for one in gains.page(reports, "sedge").facts["changes"]
    ]
    assert [(("roll", "p", "38", "47.5", "-9.5"),)] == [
        one.rows for one in gains.page(reports, "sedge").facts["changes"]
    ]
    assert "Ratio" not in html


def test_the_page_cautions_before_the_numbers(reports):
    """SW2, and whose gains these are, stand before the table; words of the keeper are no markup."""
    html = Press(reports, theme_folders(None)).compose(gains.page(reports, "sedge"))

    table = html.index("Gain sets side by side")
    assert html.index("Fly first low, short and alone") < table
    assert (
        html.index("These gains belong to this aircraft and its controller; check yours.") < table
    )
    assert '<span aria-hidden="true">▲</span> 9.5 more' in html
    assert "Shakes. &lt;b&gt;No.&lt;/b&gt;" in html


def test_the_public_reads_gains_without_reasons(open_changed):
    """Sets and verdicts are public, reasons are not."""
    reports = open_changed(SETS, "public")
    html = Press(reports, theme_folders(None)).compose(gains.page(reports, "sedge"))

    assert "47.5" in html
    assert "Nods" not in html
    assert "Shakes." in html
    assert "check yours" in html


def test_whose_they_are_is_said_in_full():
    """The words of the page rules of this project."""
    words = "These gains belong to this aircraft and its controller; check yours."
    assert words == gains.BELONGS


def test_only_aircraft_with_gains_have_the_page(reports):
    """An aeroplane without a controller has none."""
    assert ("sedge",) == gains.keys(reports)


def test_what_a_set_drew_is_one_sentence(demo_public):
    """Value, interval and basis of one unit, then what else is said of it; a month stands once."""
    press = Press(demo_public, theme_folders(None))
    html = press.compose(gains.page(demo_public, "burdock"))
    text = " ".join(re.sub("<[^>]*>", "", html).split())

    assert "It drew 8.6 A (8.5 A to 8.6 A, 95 %) from the log, 143 mAh a minute." in text
    assert "1 flight, 0.07 h: June 2025." in text
    assert "May 2026 to May 2026" not in text
