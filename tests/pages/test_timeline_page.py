"""The timeline of an aircraft: what changed, and how it was after each entry."""

import pytest

from buildbook.drawings.charts.timeline import timeline_table
from buildbook.hangar.fold import fold
from buildbook.pages.aircraft import logbook, timeline
from buildbook.pages.aircraft.timeline_moments import moment_anchors, moments_of_aircraft
from buildbook.pages.linking import plain
from buildbook.pages.page import each_logged
from buildbook.pages.theme import Press, theme_folders

MOST_BYTES = 120_000


def html_of(reports, page):
    return Press(reports, theme_folders(None)).compose(page)


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


def told(moment):
    """Rows of a moment as text: ``Front-left: motor M-2 (before: M-1), ESC E-1``."""
    return [
        f"{row.label}: "
        + ", ".join(
            f"{'-' if part.gone else '+' if part.changed else ''}{plain(part.words)}"
            + (f" ({plain(part.remark)})" if part.remark else "")
            for part in row.parts
        )
        for row in moment.rows
    ]


def test_each_change_tells_the_whole_state_and_what_is_new_in_it(open_changed):
    """A small log, entry by entry; flight, incident and repair left the aircraft as it was."""
    found = list(moments_of_aircraft(open_changed(MOVED), "sedge"))

    assert [
        ["Status: flying", "Gain set: none", "Front-left: +ESC E-1, +motor M-1 (new)"],
        [
            "Status: flying",
            "Gain set: none",
            "Front-left: ESC E-1, motor M-1",
            "Start throttle: +12 % (new)",
        ],
        [
            "Status: flying",
            "Gain set: +soft (before: none)",
            "Front-left: ESC E-1, motor M-1",
            "Start throttle: 12 %",
        ],
        [
            "Status: flying",
            "Gain set: soft",
            "Front-left: ESC E-1, motor M-1",
            "Start throttle: 12 %",
            "Open defects: +Rattles <badly> (new)",
        ],
        [
            "Status: flying",
            "Gain set: soft",
            "Front-left: ESC E-1, +motor M-2 (before: M-1)",
            "Start throttle: 12 %",
            "Open defects: Rattles <badly>",
        ],
        [
            "Status: flying",
            "Gain set: soft",
            "Front-left: ESC E-1, motor M-2",
            "Start throttle: +14 % (before: 12 %)",
            "Open defects: Rattles <badly>",
        ],
        [
            "Status: flying",
            "Gain set: soft",
            "Front-left: ESC E-1, motor M-2",
            "Start throttle: 14 %",
            "Open defects: -Rattles <badly> (cleared)",
        ],
    ] == [told(moment) for moment in found]
    assert "2 items fitted, gain set soft, 1 defect open" == found[3].short
    assert ["", "", "", *["0.17 h, 1 flight"] * 4] == [moment.flown for moment in found]


ALTERED = {
    "aircraft/sedge/logbook.yaml": """\
- on: 2026-02-01
  fit: {front-left: {esc: E-1, motor: M-1}, rear-left: {esc: E-4}}
- {on: 2026-02-02, firmware: {E-1: 1.2, M-5: 9.9}}
- {on: 2026-02-03, firmware: {M-4: 0.1}}
- {on: 2026-02-04, state: {E-4: quarantined}}
- {on: 2026-02-05, alteration: Longer legs, status: stored}
- {on: 2026-02-06, remove: [E-4]}
- {on: 2026-02-07, alteration: Shorter legs}
"""
}


def test_a_part_that_stays_quarantined_reads_so(open_changed):
    """Set serviceable without a reason it stays in quarantine, for `check` and for the timeline."""
    log = """\
- on: 2026-02-01
  fit: {front-left: {motor: M-1}}
- {on: 2026-02-02, state: {M-1: quarantined}, because: rough}
- {on: 2026-02-03, state: {M-1: serviceable}}
- {on: 2026-02-04, setting: {start_throttle: 12 %}}
"""
    *_, last = moments_of_aircraft(open_changed({"aircraft/sedge/logbook.yaml": log}), "sedge")

    assert "Front-left: motor M-1 quarantined" in told(last)


def test_firmware_state_and_status_of_what_is_fitted_are_told(open_changed):
    """Firmware of what lies in the drawer changes nothing here; a part taken out is struck."""
    found = list(moments_of_aircraft(open_changed(ALTERED), "sedge"))

    assert [
        [
            "Status: flying",
            "Front-left: +ESC E-1 version 1.2 (before: E-1), motor M-1",
            "Rear-left: ESC E-4",
        ],
        [
            "Status: flying",
            "Front-left: ESC E-1 version 1.2, motor M-1",
            "Rear-left: +ESC E-4 quarantined (before: E-4)",
        ],
        [
            "Status: +stored (before: flying)",
            "Front-left: ESC E-1 version 1.2, motor M-1",
            "Rear-left: ESC E-4 quarantined",
            "Alterations: +1 so far, the last: Longer legs (new)",
        ],
        [
            "Status: stored",
            "Front-left: ESC E-1 version 1.2, motor M-1",
            "Rear-left: -ESC E-4 quarantined (taken out)",
            "Alterations: 1 so far, the last: Longer legs",
        ],
        [
            "Status: stored",
            "Front-left: ESC E-1 version 1.2, motor M-1",
            "Alterations: +2 so far, the last: Shorter legs (new)",
        ],
    ] == [[row for row in told(moment) if "Gain set" not in row] for moment in found[1:]]


@pytest.mark.parametrize("audience", ["owner", "public"])
def test_an_entry_that_changed_nothing_leads_to_the_change_before_it(open_changed, audience):
    """Each entry of the logbook has a link to its moment, and the moment is on the timeline.

    One of the three that changed nothing is there for what was open while it was flown. To others
    those that changed something alone lead there.
    """
    reports = open_changed(MOVED, audience)
    names = [reports.entry_anchor(name) for name in moment_anchors(reports, "sedge")]
    leads = list(moment_anchors(reports, "sedge").values())
    book = html_of(reports, logbook.page(reports, "sedge"))
    line = html_of(reports, timeline.page(reports, "sedge"))

    assert 10 == len(names)
    led = {"owner": [0, 1, 2, 2, 4, 5, 6, 7, 7, 7], "public": [0, 1, 2, 2, 2, 5, 6, 6, 6, 6]}
    assert led[audience] == [names.index(lead.removeprefix("after-")) for lead in leads]
    for lead in leads:
        assert f'href="timeline.html#{lead}"' in book
        assert 1 == line.count(f'id="{lead}"')
    assert {"owner": 10, "public": 5}[audience] == book.count("as it was then</a>")
    assert {"owner": 3, "public": 5}[audience] == line.count("as it was then</a>")
    assert 1 == line.count('<details class="as-it-was" open>')


def test_before_the_first_change_there_is_nowhere_to_lead(open_changed):
    """A flight before anything was written as fitted has no moment."""
    flown = {"aircraft/sedge/logbook.yaml": "- {on: 2026-02-01, flight: 5:00}\n"}

    assert {} == moment_anchors(open_changed(flown), "sedge")


def test_the_public_reads_the_same_changes_with_months_and_opaque_names(open_changed):
    """But for defects: what stood open when is the keeper's own."""
    reports = open_changed(MOVED, "public")
    found = list(moments_of_aircraft(reports, "sedge"))
    html = html_of(reports, timeline.page(reports, "sedge"))

    assert found
    assert [] == [row for moment in found for row in moment.rows if row.group == "defects"]
    assert all(moment.anchor.startswith("after-e") for moment in found)
    assert "Rattles" not in html
    assert "2026-04-1" not in html
    assert "11 April" not in html


def test_the_last_moment_of_a_day_is_the_fold_of_that_day(demo_reports):
    """Every day of the demo on which something changed: parts, states, firmware, gains, defects."""
    ledger = demo_reports.hangar.ledger
    days = 0
    for slug in each_logged(demo_reports):
        last = {moment.line.entry.on: moment for moment in moments_of_aircraft(demo_reports, slug)}
        for on, moment in last.items():
            hangar = fold(ledger, on)
            assert stated(hangar, slug) == left_standing(moment)
            days += 1
    assert 20 <= days


def left_standing(moment):
    """Rows of a moment as sets of words, without what is gone."""
    return {
        (row.group, row.label.lower(), plain(part.words))
        for row in moment.rows
        for part in row.parts
        if not part.gone and row.group != "altered"
    }


def stated(hangar, slug):
    """The same, told from a folded hangar."""
    now = hangar.aircraft[slug]

    def said(tag):
        item = hangar.items[tag]
        state = "" if item.state.state == "serviceable" else f" {item.state.state}"
        return f"{tag}{state}{f' version {item.firmware}' if item.firmware else ''}"

    grounded = any(one.open and one.defect.severity == "grounds" for one in now.defects)
    found = {
        ("status", "status", f"{now.status}{', grounded by an open defect' if grounded else ''}"),
        ("gains", "gain set", now.gains or "none"),
    }
    for station, kinds in now.fitted.items():
        for kind, slot in kinds.items():
            tags = [said(fitted.tag) for fitted in slot]
            words = " and ".join(part for part in (", ".join(tags[:-1]), tags[-1]) if part)
            found.add(
                (
                    "stations",
                    station,
                    f"{'ESC' if kind == 'esc' else kind.replace('_', ' ')} {words}",
                )
            )
    for (of, name), setting in now.settings.items():
        label = f"{name.replace('_', ' ')}{f' of {of}' if of else ''}"
        found.add(("settings", label.lower(), setting.value))
    for defect in now.defects:
        if defect.open:
            found.add(("defects", "open defects", defect.defect.words))
    return found


def test_the_fullest_timeline_stays_light(demo_reports):
    """A state for each change, and yet a page for a field phone."""
    pages = {
        slug: len(html_of(demo_reports, timeline.page(demo_reports, slug)).encode())
        for slug in each_logged(demo_reports)
    }

    assert {} == {slug: size for slug, size in pages.items() if size > MOST_BYTES}


def test_events_of_the_timeline_have_days_only_where_days_are_shared(open_changed):
    """Crash and repair are marked; the public gets the month."""
    owner = open_changed(MOVED).timeline("sedge")
    public = open_changed(MOVED, "public").timeline("sedge")

    assert owner is not None
    assert public is not None
    assert [("crash", 20), ("repair", 21)] == [(one.kind, one.day) for one in owner.events]
    assert [("crash", None), ("repair", None)] == [(one.kind, one.day) for one in public.events]
    assert "gate" not in str(public.events)


def test_hard_landings_stand_on_the_timeline(open_changed):
    """One of a flight, and a light incident with its words; a crash is another kind."""
    landed = """\
- {on: 2026-03-01, flight: 10:00, pack: P-1, landing: hard}
- {on: 2026-04-20, incident: Into the hedge at walking pace, severity: light}
- {on: 2026-05-20, incident: Hit a gate, severity: hard}
"""
    plan = open_changed({"aircraft/sedge/logbook.yaml": landed}).timeline("sedge")

    assert plan is not None
    assert [
        ("Mar 2026", "1", "0.2 h", "hard landing"),
        ("Apr 2026", "0", "0.0 h", "hard landing: Into the hedge at walking pace"),
        ("May 2026", "0", "0.0 h", "crash: Hit a gate"),
    ] == list(timeline_table(plan)[1])


def test_beside_an_open_defect_nobody_reads_that_it_flies(demo_reports, demo_public):
    """Its owner reads that it is grounded, the public no state at all."""
    kept = list(moments_of_aircraft(demo_reports, "hogweed"))
    shared = list(moments_of_aircraft(demo_public, "hogweed"))

    before, newest = (told(moment)[0] for moment in kept[-2:])
    assert "Status: +flying, grounded by an open defect (before: flying)" == newest
    assert "Status: flying" == before
    assert [] == [row for moment in shared for row in told(moment) if "flying" in row]
    html = html_of(demo_public, timeline.page(demo_public, "hogweed"))
    assert "cracked through one ear" in html
    assert "flying" not in html[html.index("<main") :]


def test_a_deferred_defect_grounds_nothing(demo_reports):
    """It flies until its limit."""
    *_, newest = moments_of_aircraft(demo_reports, "trefoil")

    assert "Status: flying" == told(newest)[0]
