"""A long log on several pages: where it is cut, what each page is called, where an entry stands."""

import datetime

import pytest

from buildbook.pages import find
from buildbook.pages.aircraft import log_parts, logbook
from buildbook.pages.outputs import feeds
from buildbook.pages.theme import Press, theme_folders
from buildbook.records.entries import Note
from buildbook.report.history import LogLine


def log_of(days):
    """A log with a note on each of these days."""
    return tuple(
        LogLine(
            seq=at,
            entry=Note(
                log="a", aircraft="a", index=at, on=on, id=f"n{at}", file="a", line=1, words=""
            ),
            stands=None,
        )
        for at, on in enumerate(days)
    )


def days(count, first="2025-01-01", step=1):
    """So many days, ``step`` apart."""
    start = datetime.date.fromisoformat(first)
    return [start + datetime.timedelta(days=step * at) for at in range(count)]


def told(days):
    """Key, words and number of entries of each page of such a log."""
    return [(part.key, part.words, len(part.lines)) for part in log_parts.parts_of(log_of(days))]


def test_a_log_of_150_entries_stands_on_one_page():
    """Over two years, too; and so does an empty one."""
    assert [("", "", 150)] == told(days(150, "2025-10-01"))
    assert [("", "", 0)] == told([])


def test_a_longer_log_has_a_page_for_each_year():
    """The newest keeps the plain address."""
    assert [("", "2026", 59), ("2025", "2025", 92)] == told(days(151, "2025-10-01"))


def test_a_year_of_many_entries_is_cut_between_months_from_january_on():
    """Four months of 120 days, then 122, then the rest: what is older stays as it is."""
    parts = told(days(365))

    assert [
        ("", "September to December 2025", 122),
        ("2025-2", "May to August 2025", 123),
        ("2025-1", "January to April 2025", 120),
    ] == parts
    assert parts[1:] == told(days(400))[2:]


def test_a_month_of_many_entries_is_cut_between_days_and_a_day_anywhere():
    """100 a day on three days of May, 320 on one day of June."""
    on = [day for day in days(3, "2025-05-01") for _ in range(100)]
    on += days(320, "2025-06-05", 0)

    assert [
        ("", "June 2025, part 6", 20),
        ("2025-5", "June 2025, part 5", 150),
        ("2025-4", "June 2025, part 4", 150),
        ("2025-3", "May 2025, part 3", 100),
        ("2025-2", "May 2025, part 2", 100),
        ("2025-1", "May 2025, part 1", 100),
    ] == told(on)


@pytest.fixture
def long_log(open_changed):
    """200 notes of 2025 and one of 2026, in the logbook and in the store."""
    notes = "".join(
        f"- {{on: {on}, id: n{at}, note: Note {at}}}\n" for at, on in enumerate(days(200))
    )
    newest = "- {on: 2026-03-01, note: The newest}\n"
    inspections = "".join(
        f"- {{on: {on}, id: s{at}, charge: P-1}}\n" for at, on in enumerate(days(200))
    )
    return open_changed(
        {
            "aircraft/sedge/logbook.yaml": notes + newest,
            "stores/packs.yaml": inspections + "- {on: 2026-03-02, charge: P-1}\n",
        }
    )


def test_find_and_feed_lead_to_the_page_of_an_entry(long_log):
    """Each entry by its own page."""
    links = {one.words: one.link for one in find.everything(long_log)}

    assert "aircraft/sedge/logbook-2025-1.html#n3" == links["Sedge, 4 January 2025: Note 3"]
    assert "aircraft/sedge/logbook-2025-2.html#n199" == links["Sedge, 19 July 2025: Note 199"]
    assert "aircraft/sedge/logbook.html#2026-03-01-1" == links["Sedge, 1 March 2026: The newest"]
    assert "store-log-2025-1.html#packs-s0" == links["1 January 2025: Charged P-1"]
    assert "store-log.html#packs-2026-03-02-1" == links["2 March 2026: Charged P-1"]
    assert 'href="logbook-2025-2.html#n199"' in feeds.aircraft_feed(long_log, "sedge").text


def test_the_pages_of_a_log_lead_to_each_other(long_log):
    """Months by their page, the earlier and the later one at the end."""
    press = Press(long_log, theme_folders(None))
    newest = press.compose(logbook.page(long_log, "sedge"))
    middle = press.compose(logbook.earlier_page(long_log, "sedge~2025-2"))

    assert "201 entries. Here: 2026, 1 entry." in newest
    assert '<a href="#m-2026-03">Mar</a> ' in newest
    assert '<a href="logbook-2025-1.html#m-2025-04">Apr</a> ' in newest
    assert (
        '<a rel="prev" href="logbook-2025-2.html"><span class="soft">Earlier</span> '
        "May to July 2025</a>" in newest
    )
    assert 'rel="next"' not in newest
    assert "<h1>Logbook of Sedge, May to July 2025</h1>" in middle
    assert '<a rel="next" href="logbook.html"><span class="soft">Later</span> 2026</a>' in middle
    assert '<a rel="prev" href="logbook-2025-1.html">' in middle
    assert 80 == middle.count('<li class="entry"')


def test_every_part_is_a_page_of_the_site(long_log):
    """The store log for the owner alone."""
    assert ("sedge~2025-2", "sedge~2025-1") == log_parts.earlier_keys(long_log)
    assert ("2025-2", "2025-1") == log_parts.earlier_store_keys(long_log)
