"""Programmes by name, each resolved once."""

import datetime
from collections.abc import Mapping

from buildbook.records.programmes import Programme
from buildbook.report.upkeep.programme import Resolved
from buildbook.upkeep.programmes.programme import resolve


class Programmes:
    """The programmes of one hangar as they are on a day."""

    def __init__(self, programmes: Mapping[str, Programme], as_of: datetime.date) -> None:
        self._programmes = programmes
        self._as_of = as_of
        self._resolved: dict[str, Resolved | None] = {}

    def named(self, name: str | None) -> Resolved | None:
        """The programme of that name with its bases laid under it; None: there is none."""
        if name is None:
            return None
        if name not in self._resolved:
            self._resolved[name] = resolve(self._programmes, name, as_of=self._as_of)
        return self._resolved[name]
