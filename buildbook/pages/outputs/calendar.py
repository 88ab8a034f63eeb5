"""What is due as a calendar (RFC 5545): one all-day event for each row that has a day.

Where days are not shared there is no calendar: a calendar of months would be a lie or a leak.
"""

import datetime
import uuid
from collections.abc import Iterable

import icalendar

from buildbook.pages.addresses import address_of
from buildbook.pages.page import Sheet
from buildbook.report.reports import Reports
from buildbook.report.upkeep.work import Row
from buildbook.words.cautions import CAUTIONS
from buildbook.words.reasons import row_title

_MADE_BY = "-//buildbook//what is due//EN"
_ROWS = uuid.uuid5(uuid.NAMESPACE_URL, "buildbook rows of upkeep")


def keys(reports: Reports) -> Iterable[str]:
    """One, where exact days may be shown."""
    return ("",) if reports.exact_days else ()


def sheet(reports: Reports, _key: str) -> Sheet:
    """The calendar of the hangar."""
    keeper = reports.hangar.ledger.keeper
    calendar = icalendar.Calendar()
    calendar.add("prodid", _MADE_BY)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", f"Due at {keeper.hangar}")
    on = reports.hangar.as_of
    stamp = datetime.datetime(on.year, on.month, on.day, tzinfo=datetime.UTC)
    for row in reports.dated_work():
        calendar.add_component(_event(reports, row, stamp))
    return Sheet(address=address_of("calendar"), text=calendar.to_ical().decode("utf-8"))


def uid_of(hangar: str, row: Row) -> str:
    """The same for a row in every render: what the row is about, not when it falls due."""
    return str(uuid.uuid5(uuid.uuid5(_ROWS, hangar), "|".join(one or "" for one in row.key)))


def _caution(name: str) -> str:
    return f"{CAUTIONS[name].heading}. {CAUTIONS[name].words}"


def _event(reports: Reports, row: Row, stamp: datetime.datetime) -> icalendar.Event:
    assert row.due_on is not None  # rows without are left out above
    aircraft = reports.hangar.aircraft.get(row.aircraft or "")
    subject = f"{aircraft.record.aircraft}: " if aircraft else ""
    event = icalendar.Event()
    event.add("uid", uid_of(reports.hangar.ledger.keeper.hangar, row))
    event.add("dtstamp", stamp)
    event.add("dtstart", row.due_on)
    event.add("dtend", row.due_on + datetime.timedelta(days=1))
    event.add("summary", f"{subject}{row_title(row)}")
    what = getattr(row.rule, "what", None) or ""
    hands_on = what and getattr(row.rule, "propellers", None) == "off"
    words = (_caution("SW1") if hands_on else "", what, _caution("SW7"))
    event.add("description", "\n\n".join(word for word in words if word))
    event.add("transp", "TRANSPARENT")
    home = reports.hangar.ledger.keeper.address
    if home:
        event.add("url", f"{home.rstrip('/')}/{address_of('due')}")
    return event
