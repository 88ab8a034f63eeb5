"""What a row is about, and what all rows of a hangar are judged by."""

import datetime
from typing import NamedTuple

from buildbook.basis.place import Place
from buildbook.records.keeper import Keeper


class Subject(NamedTuple):
    """What a row is about: an aircraft, an item on it, or an item on none."""

    aircraft: str | None
    tag: str | None
    station: str | None
    place: Place


class Context(NamedTuple):
    """What all tasks of a hangar are judged by."""

    as_of: datetime.date
    keeper: Keeper
