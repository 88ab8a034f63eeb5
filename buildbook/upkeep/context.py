"""What a row is about, and what all rows of a hangar are judged by."""

import datetime
from typing import NamedTuple

import msgspec

from buildbook.basis.place import Place
from buildbook.records.keeper import Keeper
from buildbook.report.upkeep.work import Because


class Subject(NamedTuple):
    """What a row is about: an aircraft, an item on it, or an item on none."""

    aircraft: str | None
    tag: str | None
    station: str | None
    place: Place

    def told(self, because: Because) -> Because:
        """Why, said of this subject."""
        return msgspec.structs.replace(because, tag=self.tag, station=self.station)


class Context(NamedTuple):
    """What all tasks of a hangar are judged by."""

    as_of: datetime.date
    keeper: Keeper
