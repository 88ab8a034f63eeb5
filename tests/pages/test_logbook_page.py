"""The logbook: every kind of entry told, corrections and voids struck through (R38, R44, R45).

R-numbers are rows of the record rules of this project, which name the law behind each.
"""

import datetime
import re

import pytest

from buildbook.pages.aircraft import logbook
from buildbook.pages.linking import Linker, Piece, plain
from buildbook.pages.page import each_aircraft
from buildbook.pages.theme import Press, theme_folders
from buildbook.words.logbook.entry_details import details_of, flight_lines, stations_of, tags_of
from tests.pages.sites import as_read

CORRECTED = {
    "aircraft/sedge/logbook.yaml": """\
- on: 2026-02-01
  fit: {front-left: {motor: M-1}}
- on: 2026-03-01
  id: F012
  flight: 6:00
  pack: P-1
- on: 2026-03-02
  id: F013
  flight: 5:00
- on: 2026-03-03
  id: C1
  corrects: F012
  set: {flight: 15:00}
  because: Stopwatch read wrong
- on: 2026-03-04
  id: C2
  corrects: C1
  set: {flight: 16:00}
  because: And again
- on: 2026-03-05
  voids: F013
  because: Written twice
- on: 2026-03-06
  note: <script>alert(1)</script> & "quotes"
  entered: 2026-05-01
"""
}


def html_of(reports, slug="sedge"):
    return as_read(Press(reports, theme_folders(None)).compose(logbook.page(reports, slug)))


def entry_of(html, anchor):
    found = re.search(rf'<li class="entry" id="{anchor}".*?</li>', html, re.DOTALL)
    assert found is not None, anchor
    return re.sub(r"\s+", " ", found.group())


def test_r44_the_first_words_stay_struck_through_beside_what_counts(open_changed):
    """6 min corrected to 15, then to 16: both stand, with both reasons and days."""
    told = entry_of(html_of(open_changed(CORRECTED)), "F012")

    assert '<del>6 min 00 s with <a class="tag" href="../../items/P-1.html">P-1</a></del>' in told
    assert '<ins>16 min 00 s with <a class="tag" href="../../items/P-1.html">P-1</a></ins>' in told
    assert (
        'Corrected on <a href="logbook.html#C1"><time datetime="2026-03-03">3 March 2026</time>'
        "</a>: Stopwatch read wrong" in told
    )
    assert '<time datetime="2026-03-04">4 March 2026</time></a>: And again' in told


def test_r45_a_voided_entry_stays_and_counts_nothing(open_changed):
    """It is struck through as a whole, and the running total passes it by."""
    html = html_of(open_changed(CORRECTED))

    assert "<p><del>5 min 00 s</del></p>" in entry_of(html, "F013")
    assert ": Written twice" in entry_of(html, "F013")
    assert "total" not in entry_of(html, "F013")
    assert "1 flight, 0.27 h flown" in html


def test_r38_the_running_total_stands_with_each_flight(owner):
    """After the second flying day: 1 h 15 min 50 s in eleven flights."""
    told = logbook.page(owner, "sedge").facts["months"][0].days
    totals = [one.total for day in told for one in day.told if one.total]

    assert ["1.3 h, 11 flights", "0.21 h, 2 flights"] == totals


def test_a_later_correction_is_told_of_as_such(open_changed):
    """As of a day before it the first words count, and the page says that there is more."""
    reports = open_changed(CORRECTED, day=datetime.date(2026, 3, 1))
    told = entry_of(html_of(reports), "F012")

    assert "corrected later" in told
    assert "16 min" not in told


def test_words_of_a_keeper_are_no_markup(open_changed):
    """A script in a note is text."""
    html = html_of(open_changed(CORRECTED))

    assert "<script>alert" not in html
    assert "&lt;script&gt;alert(1)&lt;/script&gt; &amp; &#34;quotes&#34;" in html


def test_r07_an_entry_written_late_says_so(open_changed):
    """Written 56 days after the work."""
    assert "entered 56 days later" in html_of(open_changed(CORRECTED))


def test_newest_day_first_and_the_order_of_work_within_a_day(owner):
    """What was done last is asked for most often; a day reads as a story."""
    months = logbook.page(owner, "sedge").facts["months"]

    assert ["June 2026", "February 2026"] == [month.words for month in months]
    february = months[1].days
    assert [3, 2, 1] == [day.on.day for day in february]
    assert ["inspection", "setting", "gain set"] == [one.kind for one in february[0].told]


def test_the_public_reads_months_and_opaque_anchors(public, public_press):
    """No day, no note, no place, no private reason; everything else is there."""
    html = as_read(public_press.compose(logbook.page(public, "sedge")))

    assert 'class="day"' not in html
    assert not re.search(r"\b\d{1,2} (February|June) 2026|2026-\d\d-\d\d", html)
    assert "secret" not in html
    assert ".yaml" not in html
    assert re.search(r'<li class="entry" id="e\d+"', html)
    assert "9 flights, 1 h 03 min 20 s with" in html


def test_every_anchor_stands_once(demo_reports, owner):
    """Entries of different files may have the same id; on the page they do not."""
    for reports in (demo_reports, owner):
        press = Press(reports, theme_folders(None))
        pages = [logbook.page(reports, slug) for slug in each_aircraft(reports)]
        pages += [logbook.store_page(reports, key) for key in logbook.store_keys(reports)]
        for page in pages:
            anchors = re.findall(r' id="([^"]+)"', press.compose(page))
            assert sorted(set(anchors)) == sorted(anchors), page.address


def test_the_store_log_begins_with_the_cautions_on_charging(owner, owner_press):
    """SW3 and SW4 stand before the first charge."""
    html = owner_press.compose(logbook.store_page(owner, ""))

    assert html.index("Set chemistry, cell count") < html.index('class="entry"')
    assert html.index("Smell, hiss, heat") < html.index('class="entry"')
    assert 'id="packs-2026-06-25-1"' in html


@pytest.mark.parametrize(
    ("at", "expected"),
    [
        ("fit", [("M-1 came out", "scrapped")]),
        ("charge", [("resistance by cell", "8.1, 8.3 mΩ"), ("temperature", "21 °C")]),
        ("weigh", [("scales", "front 300 g, rear 310 g")]),
        ("defect", [("item", "M-2"), ("severity", "can wait"), ("can wait until", "2026-07-01")]),
        ("alteration", [("receiver leads", "rudder, throttle"), ("mass", "+6 g")]),
        ("incident", [("severity", "light"), ("touched", "everything"), ("injury", "yes")]),
    ],
)
def test_details_of_each_kind(open_changed, at, expected):
    """What the one line leaves out is told as labels and words."""
    reports = open_changed(
        {
            "aircraft/sedge/logbook.yaml": """\
- on: 2026-02-01
  fit: {front-left: {motor: M-1}}
- on: 2026-02-02
  fit: {front-left: {motor: M-2}}
  instead_of: {M-1: scrapped}
- {on: 2026-02-03, weigh: 610 g, scales: {front: 300 g, rear: 310 g}}
- {on: 2026-02-04, defect: Rough, item: M-2, severity: defer, deferred_until: {on: 2026-07-01}}
- {on: 2026-02-05, alteration: Swapped, receiver: {order: [rudder, throttle]}, mass: 6 g}
- {on: 2026-02-06, incident: Nudged a post, severity: light, injury: true}
""",
            "stores/packs.yaml": """\
- {on: 2026-06-25, charge: P-2, resistance: [8.1 mΩ, 8.3 mΩ], temperature: 21 °C}
""",
        }
    )
    kinds = {
        type(line.entry).__name__.lower(): line.entry
        for line in (*reports.hangar.aircraft["sedge"].log, *reports.hangar.store_log)
    }
    told = details_of(kinds[at], datetime.date.isoformat)

    assert expected == [pair for pair in told if pair in expected]


def test_flights_of_a_day_are_told_one_by_one(owner):
    """Duration, pack, and a landing that was not the usual one."""
    flights = next(
        line.entry for line in owner.hangar.aircraft["sedge"].log if flight_lines(line.entry)
    )

    assert ("6 min 00 s, with P-1", "6 min 30 s, with P-2") == flight_lines(flights)
    assert ("P-1", "P-2") == tags_of(flights, owner.hangar.items)
    assert () == stations_of(flights)


def test_tags_in_a_text_become_links(owner):
    """Whole tags only, the longest first; the text comes out as it went in."""
    text = "M-1, not M-12 or XM-1; then P-1."
    pieces = Linker(owner).pieces(text)

    assert ["M-1", "P-1"] == [piece.tag for piece in pieces if piece.tag]
    assert text == plain(pieces)
    assert (Piece("nothing here"),) == Linker(owner).pieces("nothing here")


NOTED = {
    "aircraft/sedge/logbook.yaml": """\
- {on: 2026-03-01, id: a, flight: 6:00, note: calm, by: jon, checked_by: ida}
- {on: 2026-03-01, id: b, note: dropped}
- {on: 2026-03-01, id: c, note: kept}
- {on: 2026-03-02, id: d, corrects: a, set: {note: gusty, by: ida, checked_by: jon}, because: slip}
- {on: 2026-03-02, id: e, voids: b, because: twice}
- {on: 2026-03-01, id: g, flight: 6:00, note: calm too}
- {on: 2026-03-02, id: h, voids: g, because: twice}
- {on: 2026-03-02, id: f, corrects: c, set: {note: changed}, because: slip, note: of my own}
"""
}


def test_a_corrected_note_is_struck_through_like_the_rest(open_changed):
    """The note, who did it and who looked it over: as first written, and as it stands."""
    html = html_of(open_changed(NOTED))

    told = entry_of(html, "a")
    assert '<del>calm</del></p><p class="small said"><ins>gusty</ins>' in told
    assert "<span>by <del>jon</del> <ins>ida</ins></span>" in told
    assert "<span>checked by <del>ida</del> <ins>jon</ins></span>" in told
    assert "<del>Dropped</del>" in entry_of(html, "b")
    assert "<del>calm too</del></p><p" in entry_of(html, "g")
    assert "<del>Kept</del> <ins>Changed</ins>" in entry_of(html, "c")
    assert '<p class="small said">of my own</p>' in entry_of(html, "f")
