"""Notices of makers and firmware writers: what they ask to be done to every part of a spec."""

import datetime
from typing import Annotated

from buildbook.basis.counting import Interval
from buildbook.records.declare import key
from buildbook.records.keys.quantities import Link, Name, SomeTexts
from buildbook.records.programmes import IntervalWritten
from buildbook.records.record import Record


class Notice(Record, frozen=True, kw_only=True):
    """One notice of a file of ``notices/``.

    specs: the kinds of part that it is about. issued: the day of this revision; what was done
    before that day doesn't count. every: how it comes round, where it is recurring. grounds:
    whether an open one keeps its carrier on the ground.
    """

    notice: Annotated[Name, key("Its number or name, unique in the hangar", "sb-7", shown="public")]
    specs: Annotated[
        SomeTexts,
        key("The kinds of part that it is about", "esc-30a", shown="public", written="spec"),
    ]
    issued: Annotated[datetime.date, key("Day of this revision", "2026-04-02", shown="public")]
    what: Annotated[
        str, key("What it asks for", "Look for a cracked joint at the lead.", shown="public")
    ]
    revision: Annotated[str | None, key("Which revision this is", "2", shown="public")] = None
    source: Annotated[str | None, key("Who issued it", "the maker", shown="public")] = None
    link: Annotated[
        Link | None,
        key("Where it can be read", "https://parts.example.org/sb-7", shown="public"),
    ] = None
    every: Annotated[
        IntervalWritten,
        key("How it recurs, if it does", "{flights: 50}", shown="public"),
    ] = Interval()
    grounds: Annotated[
        bool, key("Whether it grounds while it is open; false by default", "true", shown="public")
    ] = False
