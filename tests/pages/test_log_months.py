"""A logbook for others: what happened leads, flights like any other are one line that opens."""

import re

from buildbook.drawings.charts.bars import strip
from buildbook.pages.aircraft import logbook
from buildbook.pages.aircraft.timeline_moments import moments_of_aircraft
from buildbook.pages.theme import Press, theme_folders
from tests.pages.sites import as_read

LOG = {
    "aircraft/sedge/logbook.yaml": """\
- {on: 2026-01-01, fit: {front-left: {motor: M-1}}}
- {on: 2026-01-02, flight: 2:00}
- {on: 2026-01-03, flights: [[6:00], [6:30]]}
- {on: 2026-02-03, flight: 6:00}
- {on: 2026-02-04, flight: 7:00}
- {on: 2026-02-05, inspection: screws, note: fine}
- {on: 2026-02-06, note: of my own}
- {on: 2026-02-07, id: F, flight: 5:00}
- {on: 2026-02-08, corrects: F, set: {flight: 5:30}, because: slip}
- {on: 2026-02-09, flight: 6:00, landing: crash}
- {on: 2026-02-10, inspection: screws, result: fail, findings: loose}
- {on: 2026-03-01, flight: 6:00}
"""
}


def months_of(reports):
    return logbook.page(reports, "sedge").facts["months"]


def test_plain_entries_in_a_row_are_one_line(open_changed):
    """The first and the longest flight, a corrected one, a crash and what failed stand open."""
    march, february, january = months_of(open_changed(LOG, "public"))

    assert ["", "2 flights, 0.21 h"] == [stretch.words for stretch in january.stretches]
    assert [
        ("1 flight, 0.10 h", ["flight"]),
        ("", ["flight"]),
        ("Screws: pass", ["inspection"]),
        ("", ["flight"]),
        ("1 correction", ["correction"]),
        ("", ["flight", "inspection"]),
    ] == [
        (stretch.words, [one.kind for day in stretch.days for one in day.told])
        for stretch in february.stretches
    ]
    assert ("", "4 flights, 0.41 h") == (march.flown, february.flown)
    (told,) = march.days[0].told
    without = "motor of front-right, motor of rear-left and motor of rear-right"
    # and so it stands open
    assert f"flown without {without}; while screws was open" == told.meanwhile


def test_an_owner_finds_all_of_it_open(open_changed):
    """One stretch a month, with its days; no sums above."""
    months = months_of(open_changed(LOG))
    assert months
    for month in months:
        assert [(month.days, "")] == [(one.days, one.words) for one in month.stretches]
        assert "" == month.flown


def test_flights_more_than_one_of_many_say_so(open_changed):
    """The first, the longest, and each hundredth with those that were carried over."""
    many = "- {on: 2026-04-01, flights: [" + ", ".join(["[4:00]"] * 98) + "]}\n"
    log = LOG["aircraft/sedge/logbook.yaml"] + many
    reports = open_changed({"aircraft/sedge/logbook.yaml": log}, "public")
    told = [one for month in months_of(reports) for day in month.days for one in day.told]

    assert {"First flight": 2, "Longest flight so far": 7, "Flight 100": 98 * 4} == {
        one.milestone: sum(row.duration_s for row in one.line.stands.rows) / 60
        for one in told
        if one.milestone
    }


def test_the_line_opens_to_its_entries(open_changed):
    """Words first, then bars that say the same to the eye alone; anchors stay on the page."""
    reports = open_changed(LOG, "public")
    html = as_read(Press(reports, theme_folders(None)).compose(logbook.page(reports, "sedge")))

    assert re.search(
        r'<details class="fold"><summary>2 flights, 0\.21 h <svg [^>]*aria-hidden="true">', html
    )
    assert "<p><strong>First flight.</strong> 2 min 00 s</p>" in html
    assert 11 == len(re.findall(r'<li class="entry" id="e\d+"', html))


def test_others_are_led_to_the_timeline_where_something_changed(open_changed):
    """After the motor was fitted, and nowhere else; an owner from every entry on."""
    pages = (logbook.page(open_changed(LOG, who), "sedge") for who in ("public", "owner"))

    assert [1, 12] == [len(page.facts["as_it_was"]) for page in pages]


def test_bars_stand_in_the_order_of_the_flights():
    """Half as long is half as high; a very short one is still seen."""
    assert 'd="M0 16v-8h4v8zM7 16v-16h4v16zM14 16v-1h4v1z"' in strip([300, 600, 1], 600)


def test_a_flight_into_the_reserve_is_not_praised_as_the_longest(open_changed):
    """As long as it was, on 2100 of 2200 mAh."""

    def longest(used):
        log = LOG["aircraft/sedge/logbook.yaml"] + (
            f"- {{on: 2026-04-01, flight: 9:00, pack: P-1, used: {used} mAh}}\n"
        )
        reports = open_changed({"aircraft/sedge/logbook.yaml": log})
        told = [one for month in months_of(reports) for day in month.days for one in day.told]
        return [one.milestone for one in told if "ongest" in one.milestone]

    assert ["Longest flight so far"] == longest(1500)
    assert [] == longest(2100)


OWN_BUSINESS = """\
- {on: 2026-01-01, fit: {front-left: {motor: M-1}}}
- {on: 2026-02-03, flight: 6:00, preflight: done}
- {on: 2026-02-04, flight: 6:00}
- {on: 2026-02-05, id: own, note: of my own}
- {on: 2026-02-06, corrects: own, set: {item: M-1}, because: slip}
- on: 2026-02-07
  defect: play at the hinge
  station: front-left
  severity: defer
  deferred_until: {on: 2026-08-01, flights: 20}
  inoperative: deactivated
  placard: not for strangers
"""


def test_what_is_the_keepers_business_is_not_in_a_public_log(open_changed):
    """No remark, nor that there is one; no list gone through; not how long a defect may wait."""
    changed = {"aircraft/sedge/logbook.yaml": OWN_BUSINESS}
    told = {
        audience: [
            (one.kind, one.now.details)
            for month in months_of(open_changed(changed, audience))
            for day in month.days
            for one in day.told
        ]
        for audience in ("owner", "public")
    }
    labels = {
        audience: {label for _, details in found for label, _ in details}
        for audience, found in told.items()
    }

    assert {"preflight", "severity", "can wait for", "inoperative", "placard"} <= labels["owner"]
    assert {"station"} == labels["public"]
    assert {"fit", "flight", "defect"} == {kind for kind, _ in told["public"]}
    assert {"fit", "flight", "defect", "note", "correction"} == {kind for kind, _ in told["owner"]}


def test_a_defect_that_is_open_is_no_state_of_a_public_timeline(open_changed):
    """The owner sees it stand until it is cleared; the logbook tells others what was found."""
    changed = {"aircraft/sedge/logbook.yaml": OWN_BUSINESS}
    shorts = {
        audience: [
            one.short for one in moments_of_aircraft(open_changed(changed, audience), "sedge")
        ]
        for audience in ("owner", "public")
    }

    assert "1 item fitted, 1 defect open" == shorts["owner"][-1]
    assert ["1 item fitted"] == shorts["public"]
