"""Feeds (RFC 4287), the calendar (RFC 5545), and what can be found."""

import datetime
import json
import re
import xml.etree.ElementTree as ET

import icalendar
import msgspec

from buildbook.pages import find
from buildbook.pages.outputs import calendar, feeds
from buildbook.pages.theme import Press, theme_folders

ATOM = {"a": "http://www.w3.org/2005/Atom"}
MOMENT = re.compile(r"\d{4}-\d\d-\d\dT00:00:00Z")
WITH_ADDRESS = {
    "hangar.yaml": """\
format: 1
hangar: Sedge & bank
as_of: 2026-06-30
programme: few
address: https://h.example/book/
"""
}


def feed_of(sheet):
    return ET.fromstring(sheet.text.encode())


def texts(feed, path):
    return [found.text for found in feed.findall(path, ATOM)]


def test_a_feed_has_what_the_standard_asks_for(owner):
    """RFC 4287 sections 4.1.1 and 4.1.2: id, title, updated and author; ids differ."""
    feed = feed_of(feeds.hangar_feed(owner, ""))

    assert ["Sedge bank"] == texts(feed, "a:title")
    assert ["Sedge bank"] == texts(feed, "a:author/a:name")
    assert ["2026-06-22T00:00:00Z"] == texts(feed, "a:updated")
    ids = texts(feed, "a:entry/a:id")
    assert len(set(ids)) == len(ids) == len(owner.hangar.aircraft["sedge"].log)
    assert all(MOMENT.fullmatch(moment) for moment in texts(feed, "a:entry/a:updated"))
    assert "9 flights, 1 h 03 min 20 s with P-1 and P-2" in texts(feed, "a:entry/a:summary")


def test_links_are_relative_without_an_address_and_absolute_with_one(owner, open_changed):
    """A feed from a memory stick still leads to its pages."""
    near = feed_of(feeds.aircraft_feed(owner, "sedge"))
    far = feed_of(feeds.aircraft_feed(open_changed(WITH_ADDRESS), "sedge"))

    assert "logbook.html#2026-06-22-1" == near.find("a:entry/a:link", ATOM).get("href")
    assert "https://h.example/book/aircraft/sedge/logbook.html#2026-06-22-1" == far.find(
        "a:entry/a:link", ATOM
    ).get("href")
    assert [] == near.findall("a:link[@rel='self']", ATOM)
    assert 1 == len(far.findall("a:link[@rel='self']", ATOM))


def test_a_public_feed_tells_months(public):
    """One entry a month, how much was done in it, and the first of the month for its moment."""
    feed = feed_of(feeds.aircraft_feed(public, "sedge"))

    assert ["Sedge in June 2026", "Sedge in February 2026"] == texts(feed, "a:entry/a:title")
    assert ["11 flights, 1.3 h; 1 alteration"] == texts(feed, "a:entry/a:summary")[:1]
    assert ["2026-06-01T00:00:00Z", "2026-02-01T00:00:00Z"] == texts(feed, "a:entry/a:updated")


def test_ids_of_a_feed_do_not_change_when_an_entry_is_added(open_changed):
    """A reader is not shown the old ones again."""
    log = "- {on: 2026-06-20, flight: 6:00}\n- {on: 2026-06-20, flight: 7:00}\n"
    longer = log + "- {on: 2026-06-25, note: One more}\n"
    for audience in ("owner", "public"):
        before, after = (
            set(texts(feed_of(feeds.aircraft_feed(reports, "sedge")), "a:entry/a:id"))
            for reports in (
                open_changed({"aircraft/sedge/logbook.yaml": log}, audience),
                open_changed({"aircraft/sedge/logbook.yaml": longer}, audience),
            )
        )
        assert before <= after


def test_the_calendar_can_be_read_back(demo_reports):
    """All-day events with the day of the row, a stamp of the day of the record, one uid each."""
    text = calendar.sheet(demo_reports, "").text
    events = icalendar.Calendar.from_ical(text).walk("VEVENT")
    spares = ("M-05", "M-06", "M-16", "M-17")  # their bearings wait until they are fitted
    dated = [
        row
        for row in demo_reports.work.rows
        if row.due_on and row.state != "not applicable" and row.tag not in spares
    ]

    assert sorted(row.due_on for row in dated) == [event.decoded("dtstart") for event in events]
    assert len(dated) == len({str(event["uid"]) for event in events})
    for event in events:
        length = event.decoded("dtend") - event.decoded("dtstart")
        assert datetime.timedelta(days=1) == length
        assert datetime.datetime(2026, 11, 20, tzinfo=datetime.UTC) == event.decoded("dtstamp")
    lines = text.encode().split(b"\r\n")
    assert max(len(line) for line in lines) <= 75
    assert b"\n" not in b"".join(lines)


def test_a_row_keeps_its_uid_when_its_day_moves(demo_reports):
    """An inspection moves the event, it does not leave a second one behind."""
    row = next(row for row in demo_reports.work.rows if row.due_on)
    moved = msgspec.structs.replace(row, due_on=datetime.date(2030, 1, 1), state="ok")

    assert calendar.uid_of("x", row) == calendar.uid_of("x", moved)
    assert calendar.uid_of("x", row) != calendar.uid_of("y", row)


def test_there_is_no_calendar_where_days_are_not_shared(owner, public):
    """A calendar of months would be a lie or a leak."""
    assert ("",) == calendar.keys(owner)
    assert () == calendar.keys(public)


def test_everything_can_be_found(owner):
    """Aircraft, parts, settings, gain sets and entries, each with its address."""
    found = {(one.kind, one.words, one.link) for one in find.everything(owner)}

    assert ("aircraft", "Sedge", "aircraft/sedge/index.html") in found
    assert ("motor", "M-1, 2213 motor", "items/M-1.html") in found
    assert (
        "setting",
        "Sedge: start throttle 12 %",
        "aircraft/sedge/logbook.html#2026-02-03-2",
    ) in found
    assert ("gain set", "Sedge: soft", "aircraft/sedge/gains.html") in found
    assert (
        "state",
        "26 June 2026: P-1 quarantined: swollen corner",
        "store-log.html#packs-2026-06-26-1",
    ) in found


def test_the_index_is_data_and_nothing_else(open_changed):
    """Markup in a note cannot leave the string that it stands in."""
    reports = open_changed(
        {"aircraft/sedge/logbook.yaml": "- {on: 2026-02-01, note: '</script><b> x'}\n"}
    )
    text = find.sheet(reports, "").text

    assert "<" not in text
    assert "\u2028" not in text
    rows = json.loads(text.removeprefix("var bookIndex=").removesuffix(";\n"))
    assert ["</script><b> x"] == [words[-14:] for kind, words, _ in rows if kind == "note"]


def test_the_register_is_complete_without_a_script(owner):
    """Every aircraft and item is linked from the page itself."""
    html = Press(owner, theme_folders(None)).compose(find.page(owner, ""))

    for tag in owner.hangar.items:
        assert f'href="items/{tag}.html"' in html
    assert 'href="aircraft/rush/index.html"' in html


def test_the_public_finds_no_private_words(public):
    """Neither notes nor reasons nor days."""
    text = find.sheet(public, "").text

    assert "secret" not in text
    assert "swollen" not in text
    assert not re.search(r"2026-\d\d-\d\d|\b\d{1,2} June 2026", text)
