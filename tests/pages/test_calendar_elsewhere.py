"""The calendar as a second library reads it: vobject, beside icalendar which writes it."""

import datetime
import warnings

import icalendar

from buildbook.pages.outputs import calendar

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import vobject


def test_two_libraries_read_the_same_events(demo_reports) -> None:
    """RFC 5545: the same names, days and ids, whoever reads the file."""
    text = calendar.sheet(demo_reports, "").text
    ours = {
        str(event["UID"]): (str(event["SUMMARY"]), event["DTSTART"].dt)
        for event in icalendar.Calendar.from_ical(text).walk("VEVENT")
    }
    theirs = {
        event.uid.value: (event.summary.value, event.dtstart.value)
        for event in vobject.readOne(text).vevent_list
    }

    assert ours == theirs
    assert len(ours) > 5
    assert all(isinstance(day, datetime.date) for _, day in theirs.values())


def test_lines_are_folded_as_the_standard_asks(demo_reports) -> None:
    """RFC 5545 section 3.1: CRLF ends, and at most 75 octets before them."""
    lines = calendar.sheet(demo_reports, "").text.encode().split(b"\r\n")

    assert lines[-1] == b""
    assert max(len(line) for line in lines) <= 75
    assert b"\n" not in b"".join(lines)
