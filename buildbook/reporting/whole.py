"""The whole truth that reports are worked out from."""

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from buildbook.report.entry_anchors import EntryName
from buildbook.report.reports import Reports
from buildbook.report.state import Hangar
from buildbook.report.upkeep.flown import Silence
from buildbook.report.upkeep.work import WorkList
from buildbook.upkeep.hangar_context import HangarContext
from buildbook.upkeep.programme import Programmes
from buildbook.upkeep.work_list import work_list

if TYPE_CHECKING:
    from buildbook.report.upkeep.flown import RecordDoubt
    from buildbook.upkeep.warnings.past_limits import PastLimit

_SILENCE_DAYS = 365  # a season left out is nothing to speak of; common practice, no source


class Whole:
    """A folded hangar, its work list, and the other reports of the same hangar."""

    reports: Reports

    def __init__(
        self,
        hangar: Hangar,
        like: "Whole | None" = None,
        listed: Callable[[], WorkList] | None = None,
        gathered: HangarContext | None = None,
    ) -> None:
        self.hangar = hangar
        self.gathered = gathered or HangarContext(hangar)
        self._like = like
        self._listed = listed

    @cached_property
    def work(self) -> WorkList:
        """The work list, of which not every command tells."""
        if self._like is not None:
            return self._like.work
        return (
            work_list(self.hangar, None, self.gathered) if self._listed is None else self._listed()
        )

    @cached_property
    def past_limits(self) -> tuple["PastLimit", ...]:
        """Limits of all the hangar that were flown past."""
        from buildbook.upkeep.warnings.past_limits import past_limits  # only logbooks ask

        return tuple(past_limits(self.hangar, self.work))

    @cached_property
    def doubts(self) -> Mapping[str, tuple["RecordDoubt", ...]]:
        """What is doubted in the records, by the aircraft or item that it is about."""
        from buildbook.reporting.upkeep.doubts import record_doubts  # only the owner's pages ask

        return record_doubts(self.hangar, self.work, self.gathered)

    @property
    def programmes(self) -> Programmes:
        """The programmes on the day."""
        return self.gathered.programmes


def hangar(whole: Whole) -> Hangar:
    """The hangar on the day."""
    return whole.hangar


def work(whole: Whole) -> WorkList:
    """All that is stale, due, grounded or fine."""
    return whole.work


def doubts_about(whole: Whole, name: str) -> tuple["RecordDoubt", ...]:
    """What is doubted in the records of one aircraft or item."""
    return whole.doubts.get(name, ())


def entry_named(whole: Whole, slug: str, written: str) -> EntryName | None:
    """The name of the entry of a logbook that has the id ``written``, of any day."""
    for entry in whole.hangar.ledger.entries:
        if entry.aircraft == slug and entry.id == written:
            return EntryName(entry.uid)
    return None


def silence(whole: Whole) -> Silence | None:
    """The day of the last entry, where more than a year has gone by since."""
    as_of = whole.hangar.as_of
    last = max((one.on for one in whole.hangar.ledger.entries if one.on <= as_of), default=None)
    if last is None or (as_of - last).days <= _SILENCE_DAYS:
        return None
    return Silence(last, (as_of - last).days)
