"""Notices of makers and firmware writers: what they ask to be done to every part of a spec."""

import datetime

from buildbook.basis.counting import Interval
from buildbook.records.record import Record


class Notice(Record, frozen=True, kw_only=True):
    """One notice of a file of ``notices/``.

    specs: the kinds of part that it is about. issued: the day of this revision; what was done
    before that day doesn't count. every: how it comes round, where it is recurring. grounds:
    whether an open one keeps its carrier on the ground.
    """

    notice: str
    specs: tuple[str, ...]
    what: str
    issued: datetime.date
    revision: str | None = None
    source: str | None = None
    link: str | None = None
    every: Interval = Interval()
    grounds: bool = False
