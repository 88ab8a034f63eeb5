"""The one door to a hangar: read it, fold it to a day, and say what is wrong with it."""

import datetime
import hashlib
from collections.abc import Callable, Iterable
from contextlib import suppress
from functools import cached_property, partial
from pathlib import Path

import msgspec

from buildbook.basis.cache_folder import (
    DIGEST_SIZE,
    keep_under,
    name_for,
    recalled,
    state_of_program,
    usual_folder,
)
from buildbook.basis.collector import collector_paused
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems
from buildbook.hangar.fold import fold
from buildbook.records.ledger import Reading
from buildbook.records.reading.read import read_hangar
from buildbook.report.reports import Reports
from buildbook.report.state import Hangar
from buildbook.report.upkeep.work import Row, WorkList
from buildbook.reporting.registry import reports_of
from buildbook.reporting.upkeep.kept_standings import read_back, written
from buildbook.upkeep.hangar_context import HangarContext
from buildbook.upkeep.warnings.programme_faults import faults
from buildbook.upkeep.work_list import Untouched, work_list


class Opened:
    """The reports of a hangar as of a day; None where hangar.yaml could not be read.

    sure: the problems that were found on the way. warned, endangered: work out the warnings, and
    the rows that are warnings too; they take long, and not every command tells them. gathered:
    what its rows were made from.
    """

    def __init__(
        self,
        folder: Path,
        reports: Reports | None,
        sure: Problems,
        warned: Callable[[], Iterable[Problem]] = tuple,
        endangered: Callable[[], tuple[Row, ...]] = tuple,
        gathered: HangarContext | None = None,
    ) -> None:
        self.folder = folder
        self.reports = reports
        self.broken = sure.any_problem
        self._sure = sure
        self._warned = warned
        self._endangered = endangered
        self.gathered = gathered

    @cached_property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong with the records, warnings among it, but for ``dangers``."""
        return tuple(Problems((*self._sure, *self._warned())))

    @cached_property
    def dangers(self) -> tuple[Row, ...]:
        """Rows that are to be told as warnings too, in the words of rows."""
        return self._endangered()


def open_reports(folder: Path, asked: datetime.date | None, today: datetime.date) -> Opened:
    """Read and fold a hangar folder, as of the day asked for, else the keeper's, else today."""
    with collector_paused():
        cache = usual_folder()
        return open_reading(folder, read_hangar(folder, cache), asked, today, cache=cache)


def open_reading(
    folder: Path,
    reading: Reading,
    asked: datetime.date | None,
    today: datetime.date,
    *,
    each: bool = False,
    kept: Untouched | None = None,
    cache: Path | None = None,
) -> Opened:
    """The same for what was read already; ``folder`` is where it was read.

    each: warnings of long ago are told one by one, not as a count. kept: of the work list, what
    is known to stand as before. cache: the folder where what is judged is kept, None for none.
    """
    found = Problems(reading.problems)
    if reading.ledger is None:
        return Opened(folder, None, found)
    named = asked or reading.ledger.keeper.as_of
    hangar = fold(reading.ledger, named or today)
    found.extend(_without_consequences(hangar, reading.problems))
    found.extend(faults(hangar.ledger))
    if named is None:
        _warn_of_future(found, hangar, today)
    gathered = HangarContext(hangar)
    listed = partial(work_list, hangar, kept, gathered)
    if cache is not None and reading.digest:
        judged = _Judged(cache, folder, reading.digest, hangar.as_of)
        listed = partial(_listed_before, judged, hangar, gathered)
    reports = reports_of(hangar, listed=listed, gathered=gathered)
    warned = partial(_warned, reports, gathered, each)
    if cache is not None and reading.digest and not each:
        warned = partial(_warned_before, judged, warned)
    return Opened(folder, reports, found, warned, partial(_endangered, reports), gathered)


def _without_consequences(hangar: Hangar, read: Iterable[Problem]) -> list[Problem]:
    """What entries contradict, but for those that could not be read as they are written.

    A key that was not understood is told once, and not again by what its entry lacks without it.
    """
    broken = {
        (problem.place.file, line)
        for problem in read
        if problem.severity == "problem"
        for line in (problem.place.line, problem.begins)
    }
    if not broken:
        return list(hangar.problems)
    silent = {
        (entry.file, line)
        for entry in hangar.ledger.entries
        if any((entry.file, line) in broken for line in (entry.line, *entry.lines.values()))
        for line in (entry.line, *entry.lines.values())
    }
    return [
        problem
        for problem in hangar.problems
        if problem.severity != "problem" or (problem.place.file, problem.place.line) not in silent
    ]


def _warned(reports: Reports, gathered: HangarContext, each: bool) -> tuple[Problem, ...]:
    from buildbook.upkeep.warnings.problems import warnings_of  # only where they are told

    return warnings_of(reports.hangar, reports.work, each, gathered)


_HERE = Path(__file__).parent
_JUDGING = (_HERE, *(_HERE.with_name(room) for room in ("report", "hangar", "figures", "upkeep")))
"""The rooms that warnings are worked out in; the digest of a reading has those below them."""


class _Judged:
    """What was judged of a hangar on a day, in the cache folder. Each may rest on any file.

    read_to: the digest of all that was read.
    """

    def __init__(self, cache: Path, folder: Path, read_to: bytes, as_of: datetime.date) -> None:
        self._cache, self._folder = cache, folder
        self._read_to, self._as_of = read_to, as_of

    @cached_property
    def _digest(self) -> bytes:
        found_by = hashlib.blake2b(self._read_to, digest_size=DIGEST_SIZE)
        found_by.update(self._as_of.isoformat().encode())
        found_by.update(state_of_program(_JUDGING))
        return found_by.digest()

    def recalled(self, what: str) -> memoryview | None:
        """What an earlier command kept of that, if one did."""
        return recalled(self._cache, name_for(self._folder, what), self._digest)

    def keep(self, what: str, payload: bytes) -> None:
        """Keep it for the next command."""
        keep_under(self._cache, name_for(self._folder, what), self._digest, payload)


def _warned_before(
    judged: _Judged, judge: Callable[[], tuple[Problem, ...]]
) -> tuple[Problem, ...]:
    """The warnings as an earlier command kept them; else they are judged, and kept."""
    payload = judged.recalled(".warnings")
    if payload is not None:
        with suppress(msgspec.MsgspecError, ValueError, RecursionError):
            return msgspec.msgpack.decode(payload, type=tuple[Problem, ...])
    found = judge()
    with suppress(ValueError):  # a text that cannot be written is not kept
        judged.keep(".warnings", msgspec.msgpack.encode(found))
    return found


def _listed_before(judged: _Judged, hangar: Hangar, gathered: HangarContext) -> WorkList:
    """The work list, of what an earlier command kept; else it is worked out, and kept."""
    payload = judged.recalled(".standings")
    kept = None if payload is None else read_back(payload, hangar.as_of)
    work = work_list(hangar, kept, gathered)
    if kept is None and (data := written(work)) is not None:
        judged.keep(".standings", data)
    return work


def _endangered(reports: Reports) -> tuple[Row, ...]:
    from buildbook.upkeep.warnings.told_dangers import told_dangers  # only where they are told

    return told_dangers(reports.hangar, reports.work)


def _warn_of_future(found: Problems, hangar: Hangar, today: datetime.date) -> None:
    """An entry dated after today is left out; say so, for it may be a slip of the pen."""
    for entry in hangar.ledger.entries:
        if entry.on > today:
            found.warn(
                f"the entry is dated {entry.on.isoformat()}, after today ({today.isoformat()})",
                Place(entry.file, entry.line),
                hint="correct the day; until then the entry is left out",
                about=entry.aircraft,
            )
    ledger = hangar.ledger
    told: set[Place] = set()
    for item in ledger.items.values():
        if item.acquired is not None and item.acquired > today:
            place = item.place("acquired")
            if place not in told:
                told.add(place)
                found.warn(f"{item.tag} is acquired {item.acquired}, after today ({today})", place)
    for slug, aircraft in ledger.aircraft.items():
        if aircraft.in_service is not None and aircraft.in_service > today:
            found.warn(
                f"{slug} is in service from {aircraft.in_service}, after today ({today})",
                aircraft.place("in_service"),
                about=slug,
            )
