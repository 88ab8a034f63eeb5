"""Set-up sheet, cards and labels."""

import re

import pytest

from buildbook.pages import cards, first_flights, set_up
from buildbook.pages.cautions import CAUTIONS
from buildbook.pages.theme import Press, theme_folders


def html_of(reports, page):
    return Press(reports, theme_folders(None)).compose(page)


def test_the_sheet_has_what_is_to_do_first(owner):
    """Spin directions: three stations passed, the fourth never done, rear-right re-opened or ok."""
    stretches = {
        stretch.anchor: [step.name for step in stretch.steps]
        for stretch in set_up.stretches(owner, "sedge", owner.set_up_checks("sedge"))
    }

    assert ["spin directions"] == stretches["to-do"]
    step = next(set_up.stretches(owner, "sedge", owner.set_up_checks("sedge"))).steps[0]
    assert ("front-left", "ccw") in [(spot.where, spot.expected) for spot in step.spots]


def test_props_off_stands_before_the_first_step(owner, public):
    """SW1 before the first step with the propellers off, SW2 before the first flights."""
    for reports in (owner, public):
        html = html_of(reports, set_up.page(reports, "sedge"))
        assert html.index(CAUTIONS["SW1"].words[:30]) < html.index('class="step"')
        flights = html.index(first_flights.ROTORS[0].do)
        assert html.index(CAUTIONS["SW2"].words[:30]) < flights


def test_each_run_of_hands_on_steps_has_its_caution(demo_reports):
    """No step with propellers off follows one with propellers on without the caution."""
    for slug in set_up.keys(demo_reports):
        for stretch in set_up.page(demo_reports, slug).facts["stretches"]:
            off = False
            for step in stretch.steps:
                assert step.caution == (step.propellers_off and not off)
                off = step.propellers_off


def test_an_aircraft_being_built_has_a_sheet_too(demo_reports):
    """It raises no rows, but its checks are worked out for the sheet."""
    assert "clover" in set_up.keys(demo_reports)


@pytest.mark.parametrize("make", [cards.bench_card, cards.field_card])
def test_a_card_says_how_long_it_holds(owner, make):
    """To which day it is, and what voids it."""
    html = html_of(owner, make(owner, "sedge"))

    assert "Record to <time" in html
    assert re.search(r"Void after the next (flight|change)\.", html)


def test_the_bench_card_has_outputs_leads_and_the_caution(owner):
    """SW1 first, then each station in one row."""
    html = html_of(owner, cards.bench_card(owner, "sedge"))

    assert html.index("Take the propellers off") < html.index("Stations</caption>")
    row = '<th scope="row">front-right</th><td>cw</td><td>1</td><td>cw</td><td>M-2</td>'
    assert row in html
    assert "throttle, rudder, elevator, aileron" in html


def test_quarantine_is_told_before_health_on_labels_and_cards(owner):
    """The pack in quarantine comes first and has neither health nor a timer."""
    packs = cards.labels(owner, "").facts["packs"]
    html = html_of(owner, cards.field_card(owner, "sedge"))

    assert [("P-1", True, ""), ("P-2", False, "not measured")] == [
        (pack.tag, pack.quarantined, pack.health) for pack in packs
    ]
    line = re.search(r'<th scope="row">P-1</th>.*?</tr>', html, re.DOTALL)
    assert line is not None
    assert "quarantined" in line.group()
    assert "min" not in line.group()
    assert "QUARANTINE, do not use" in html_of(owner, cards.labels(owner, ""))


def test_a_code_leads_to_the_page_of_the_pack_where_there_is_an_address(open_changed, owner):
    """Else it says the tag, so that a label needs no site."""
    changed = {
        "hangar.yaml": "format: 1\nhangar: S\nas_of: 2026-06-30\naddress: https://h.example/\n"
    }
    reports = open_changed(changed)
    with_address = cards.labels(reports, "").facts["packs"][0].code
    without = cards.labels(owner, "").facts["packs"][0].code

    assert with_address.count("M") > without.count("M")
    assert "QR code of P-1" in with_address
