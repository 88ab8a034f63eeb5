"""How much of a life limit is used up, by one of its units."""

import datetime
from typing import NamedTuple

from buildbook.basis.place import Place
from buildbook.report.upkeep.pack_findings import ReadAtLimit
from buildbook.upkeep.counted.expected import Window

SOON = 0.9
"""A limit is due soon when this share of it is used."""


class Used(NamedTuple):
    """One unit of a limit. ``left`` is in the unit of the row; ``share`` 1 is all of it.

    found: the reading by which it was reached, where it is one of readings.
    """

    unit: str
    left: float
    share: float
    reached: bool
    soon: bool
    place: Place | None = None
    uid: str | None = None
    due_on: datetime.date | None = None
    expected: Window | None = None
    of: str | None = None
    found: ReadAtLimit | None = None
