"""Timeline, set-up sheet, cards and labels."""

import calendar
import datetime
import re

import pytest

from buildbook.hangar.fold import fold
from buildbook.pages import cards, first_flights, set_up, timeline
from buildbook.pages.cautions import CAUTIONS
from buildbook.pages.theme import Press, theme_folders
from buildbook.pages.timeline_plan import timeline_plan


def html_of(view, page):
    return Press(view, theme_folders(None)).compose(page)


MOVED = {
    "aircraft/sedge/logbook.yaml": """\
- on: 2026-02-01
  fit: {front-left: {motor: M-1, esc: E-1}}
- {on: 2026-02-03, setting: {start_throttle: 12 %}}
- {on: 2026-02-03, gains: soft, values: {roll: {p: 38}}}
- {on: 2026-03-01, flight: 10:00, pack: P-1}
- {on: 2026-03-04, id: rattle, defect: Rattles <badly>, severity: note}
- on: 2026-04-10
  fit: {front-left: {motor: M-2}}
  instead_of: {M-1: serviceable}
- {on: 2026-04-11, setting: {start_throttle: 14 %}}
- {on: 2026-04-12, cleared: rattle}
- {on: 2026-04-20, incident: Hit a gate, severity: hard, touched: [front-left]}
- {on: 2026-04-21, repair: New skid}
"""
}


def test_how_it_was_at_the_end_of_each_month(open_changed):
    """What sat where, what was in force, what was open, what had been flown."""
    april, march, february = timeline.moments(open_changed(MOVED), "sedge")

    assert (("esc", ("E-1",)), ("motor", ("M-1",))) == february.stations[0].parts
    assert (("esc", ("E-1",)), ("motor", ("M-2",))) == april.stations[0].parts
    assert (("start throttle", "12 %"),) == march.settings
    assert (("start throttle", "14 %"),) == april.settings
    assert ["soft"] * 3 == [april.gains, march.gains, february.gains]
    assert (0, 1, 0) == tuple(len(moment.defects) for moment in (february, march, april))
    assert ("", "0.17 h, 1 flight") == (february.flown, march.flown)


def test_a_timeline_agrees_with_the_fold_of_that_day(demo_view):
    """At the end of each month the demo is as folding the log to that day says."""
    ledger = demo_view.hangar.ledger
    for moment in timeline.moments(demo_view, "burdock")[1:6]:
        year, month = (int(part) for part in moment.anchor[2:].split("-"))
        day = datetime.date(year, month, calendar.monthrange(year, month)[1])
        then = fold(ledger, day).aircraft["burdock"]
        fitted = {(one.station, one.tag) for one in then.items()}

        assert fitted == {
            (station.name, tag)
            for station in moment.stations
            for _, tags in station.parts
            for tag in tags
        }
        assert then.gains == moment.gains


def test_events_of_the_timeline_have_days_only_where_days_are_shared(open_changed):
    """Crash and repair are marked; the public gets the month."""
    owner = timeline_plan(open_changed(MOVED), "sedge")
    public = timeline_plan(open_changed(MOVED, "public"), "sedge")

    assert owner is not None
    assert public is not None
    assert [("crash", 20), ("repair", 21)] == [(one.kind, one.day) for one in owner.events]
    assert [("crash", None), ("repair", None)] == [(one.kind, one.day) for one in public.events]
    assert "gate" not in str(public.events)


def test_the_sheet_has_what_is_to_do_first(owner):
    """Spin directions: three stations passed, the fourth never done, rear-right re-opened or ok."""
    stretches = {
        stretch.anchor: [step.name for step in stretch.steps]
        for stretch in set_up.stretches(owner, "sedge", set_up._rows(owner, "sedge"))
    }

    assert ["spin directions"] == stretches["to-do"]
    step = next(set_up.stretches(owner, "sedge", set_up._rows(owner, "sedge"))).steps[0]
    assert ("front-left", "ccw") in [(spot.where, spot.expected) for spot in step.spots]


def test_props_off_stands_before_the_first_step(owner, public):
    """SW1 before the first step with the propellers off, SW2 before the first flights."""
    for view in (owner, public):
        html = html_of(view, set_up.page(view, "sedge"))
        assert html.index(CAUTIONS["SW1"].words[:30]) < html.index('class="step"')
        flights = html.index(first_flights.ROTORS[0].do)
        assert html.index(CAUTIONS["SW2"].words[:30]) < flights


def test_each_run_of_hands_on_steps_has_its_caution(demo_view):
    """No step with propellers off follows one with propellers on without the caution."""
    for slug in set_up.keys(demo_view):
        for stretch in set_up.page(demo_view, slug).facts["stretches"]:
            off = False
            for step in stretch.steps:
                assert step.caution == (step.propellers_off and not off)
                off = step.propellers_off


def test_an_aircraft_being_built_has_a_sheet_too(demo_view):
    """It raises no rows, but its checks are worked out for the sheet."""
    assert "clover" in set_up.keys(demo_view)


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
    view = open_changed(changed)
    with_address = cards.labels(view, "").facts["packs"][0].code
    without = cards.labels(owner, "").facts["packs"][0].code

    assert with_address.count("M") > without.count("M")
    assert "QR code of P-1" in with_address
