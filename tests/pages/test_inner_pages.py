"""Set-up sheet, cards and labels."""

import datetime
import re

from buildbook.pages import cards
from buildbook.pages.aircraft import set_up
from buildbook.pages.theme import Press, theme_folders
from buildbook.words.cautions import CAUTIONS
from buildbook.words.sheets.set_up import ROTORS


def html_of(reports, page):
    return Press(reports, theme_folders(None)).compose(page)


def test_the_sheet_is_in_the_order_of_doing(demo_reports):
    """Five stages; the fifth is flown. The order of a multirotor with all of them."""
    sheet = set_up.page(demo_reports, "hogweed").facts["stretches"]

    assert [
        "On the bench, no pack plugged in",
        "On the bench, a pack plugged in",
        "At the field, propellers still off",
        "Propellers on, pack out",
    ] == [stage.heading for stage in sheet]
    assert ["motor screws"] == [step.name for step in sheet[0].steps]
    assert [
        "receiver order",
        "receiver neutral",
        "stick sense",
        "mode switches",
        "low voltage alarm",
        "sensors answer",
        "accelerometer",
        "ESC throttle range",
        "arming",
        "throttle cut",
        "spin directions",
        "start spread",
        "correction sense",
        "failsafe",
    ] == [step.name for step in sheet[1].steps]
    assert ["propeller balance", "propeller fit", "weighing", "balance point"] == [
        step.name for step in sheet[3].steps
    ]


def step_of(reports, slug, name):
    sheet = set_up.page(reports, slug).facts["stretches"]
    return next(step for stage in sheet for step in stage.steps if step.name == name)


def test_a_step_that_failed_has_the_day_of_the_failure(demo_reports):
    """Passed in May, failed at one station in October: the failure is what it stands for."""
    step = step_of(demo_reports, "hogweed", "start spread")

    assert ("failed", datetime.date(2026, 10, 3)) == (step.state, step.on)
    assert ("ok", datetime.date(2026, 5, 24)) == (
        (arming := step_of(demo_reports, "hogweed", "arming")).state,
        arming.on,
    )


def test_a_step_shows_its_own_reading_of_an_entry_that_passed_several(demo_reports):
    """Six checks in one entry, with the readings of two of them."""
    last = {
        name: [spot.last for spot in step_of(demo_reports, "burdock", name).spots]
        for name in ("range", "low voltage alarm", "arming")
    }

    assert {
        "range": ["distance 60 paces"],
        "low voltage alarm": ["alarm 3.70 V a cell"],
        "arming": [""],
    } == last


OWN = """\
programme: few
checks:
  - {check: last-look, what: Look once more., propellers: on}
  - {check: bench-look, what: Look it over.}
  - {check: far-look, what: Look from afar., propellers: on, stage: field}
  - {check: flown-look, what: Look at it fly., propellers: on, stage: flight}
"""


def test_a_row_of_the_keeper_says_its_stage_or_stands_by_its_propellers(open_changed):
    """Off: with the pack plugged in, the more careful of the two. On: where they go on."""
    reports = open_changed({"programmes/few.yaml": OWN}, "owner")

    assert [
        ("plugged", ["bench look"]),
        ("field", ["far look"]),
        ("propellers-on", ["last look"]),
        ("flight", ["flown look"]),
    ] == [
        (stage.anchor, [step.name for step in stage.steps])
        for stage in set_up.stretches(reports, "sedge")
    ]


def test_a_step_says_what_to_expect_at_each_station(owner):
    """The spin as planned."""
    step = next(next(set_up.stretches(owner, "sedge")).steps)

    assert ("front-left", "ccw") in [(spot.where, spot.expected) for spot in step.spots]


def test_props_off_stands_before_the_first_step(owner, public):
    """SW1 before the first step with the propellers off, SW2 before the first flights."""
    for reports in (owner, public):
        html = html_of(reports, set_up.page(reports, "sedge"))
        assert html.index(CAUTIONS["SW1"].words[:30]) < html.index('class="fold step"')
        flights = html.index(ROTORS[0].do)
        assert html.index(CAUTIONS["SW2"].words[:30]) < flights


def test_each_run_of_hands_on_steps_has_its_caution(demo_reports):
    """Every step with propellers off stands below the caution and the line that stays in sight."""
    assert [*set_up.keys(demo_reports)]
    for slug in set_up.keys(demo_reports):
        html = html_of(demo_reports, set_up.page(demo_reports, slug))
        stretches = set_up.page(demo_reports, slug).facts["stretches"]
        off = [run for stretch in stretches for run in stretch.runs if run.off]
        for stretch in stretches:
            for run in stretch.runs:
                assert {bool(run.off)} == {step.propellers_off for step in run.steps}
        runs = re.findall(r'<div class="steps off">(.*?)<details', html, re.DOTALL)
        assert 2 < len(runs) == html.count('<div class="steps off">') == len(off)
        for before in runs:
            said = before.index(CAUTIONS["SW1"].words)
            assert said < before.index("<strong>Propellers off</strong> for step")


def test_propellers_are_said_once_a_stage_and_where_they_change(demo_reports):
    """Beside twenty steps in three lines; at a step only where they go on."""
    html = html_of(demo_reports, set_up.page(demo_reports, "burdock"))

    assert [" for step 1", " for steps 2 to 15", " for step 16", " for step 17"] == re.findall(
        "<strong>Propellers off</strong>([^<]*)<", html
    )
    assert [("propeller fit", "Propellers on.")] == changes_of(demo_reports, "burdock")
    assert 1 == html.count("<strong>Propellers on.</strong>")


def changes_of(reports, slug):
    steps = (step for stretch in set_up.stretches(reports, slug) for step in stretch.steps)
    return [(step.name, step.changes) for step in steps if step.changes]


def test_propellers_that_must_come_off_again_are_told_at_the_step(open_changed):
    """A keeper's check with the propellers on amid the others: off again, with the caution."""
    reports = open_changed({"programmes/few.yaml": PROGRAMME_WITH_A_CHANGE})
    html = html_of(reports, set_up.page(reports, "sedge"))

    assert [
        ("hover look", "Propellers on."),
        ("receiver order", "Propellers off again."),
    ] == changes_of(reports, "sedge")
    again = html.index("Propellers off again.")
    assert CAUTIONS["SW1"].words in html[html.index("Propellers on.") : again]


def test_an_aircraft_being_built_has_a_sheet_too(demo_reports):
    """It raises no rows, but its checks are worked out for the sheet."""
    assert "clover" in set_up.keys(demo_reports)


def test_a_label_says_since_when_a_pack_is_used(demo_reports):
    """P-01 was first charged on 10 May 2025; P-33 came used, so from when it was acquired."""
    lines = {pack.tag: pack for pack in cards.labels(demo_reports, "").facts["packs"]}

    assert ("10 February 2025", "10 May 2025") == (lines["P-01"].made, lines["P-01"].since)
    assert ("", "14 June 2025") == (lines["P-33"].made, lines["P-33"].since)


def test_a_repair_ends_with_one_stop(demo_reports):
    """The keeper's own words end a sentence already."""
    html = html_of(demo_reports, cards.bench_card(demo_reports, "burdock"))

    assert "Front propellers replaced.</p>" in html


def test_a_bench_card_says_how_long_it_holds(owner):
    """To which day it is, and what voids it."""
    html = html_of(owner, cards.bench_card(owner, "sedge"))

    assert "Record to <time" in html
    assert "Void after the next change." in html


def test_the_bench_card_of_a_grounded_aircraft_says_so_first(demo_reports):
    """With what was found; that of one which may go has no such line."""
    grounded = html_of(demo_reports, cards.bench_card(demo_reports, "hogweed"))
    words = "Grounded: boom clamp at rear-left cracked through one ear; full inspection: failed on "

    assert grounded.index(words) < grounded.index(CAUTIONS["SW1"].words)
    assert "verdict-line" not in html_of(demo_reports, cards.bench_card(demo_reports, "burdock"))


def test_the_bench_card_has_outputs_leads_and_the_caution(owner):
    """SW1 first, then each station in one row."""
    html = html_of(owner, cards.bench_card(owner, "sedge"))

    assert html.index("Take the propellers off") < html.index("Stations</caption>")
    row = (
        '<th scope="row">front-right</th><td data-label="spin">cw</td>'
        '<td data-label="output">1</td><td data-label="propeller">cw</td>'
        '<td data-label="motor">M-2</td>'
    )
    assert row in html
    assert "throttle, rudder, elevator, aileron" in html


def test_quarantine_is_told_first_on_labels_and_cards(owner):
    """The pack in quarantine comes first and has no timer; a label holds nothing that expires."""
    packs = cards.labels(owner, "").facts["packs"]
    html = html_of(owner, cards.field_card(owner, "sedge"))

    assert [("P-1", True), ("P-2", False)] == [(pack.tag, pack.quarantined) for pack in packs]
    assert "not measured" not in html_of(owner, cards.labels(owner, ""))
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


PROGRAMME_WITH_A_CHANGE = """\
programme: few
checks:
  - check: spin-directions
    what: Compare each direction with the layout.
  - check: hover-look
    what: Hold it down and look at the discs.
    stage: plugged
    propellers: on
  - check: receiver-order
    what: Move each stick.
"""
