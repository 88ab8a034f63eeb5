"""Open a hangar for a command: find it, read it, fold it to a day. The only clock is here."""

import argparse
import datetime
import gc
import os
from pathlib import Path

import msgspec

from buildbook.basis.days import parse_day
from buildbook.basis.notation import NotationError
from buildbook.basis.place import Place
from buildbook.basis.problems import Problem, Problems
from buildbook.hangar.fold import fold
from buildbook.records.keeper import Keeper
from buildbook.records.read import read_hangar
from buildbook.records.yaml_nodes import collector_paused
from buildbook.report.state import Hangar
from buildbook.report.work import WorkList
from buildbook.upkeep.problems import problems_of
from buildbook.upkeep.work_list import work_list


class Opened(msgspec.Struct, frozen=True, kw_only=True):
    """A hangar on a day, and what is due then; None where hangar.yaml could not be read."""

    folder: Path
    hangar: Hangar | None
    work: WorkList | None
    problems: tuple[Problem, ...]

    @property
    def broken(self) -> bool:
        """Whether a problem stands, rather than warnings only."""
        return any(problem.severity == "problem" for problem in self.problems)


class WrongUse(Exception):
    """The command was called in a way that it doesn't take; exit status 2."""


def hangar_folder(given: str | None) -> Path:
    """The folder named, else the current one if it is a hangar, else its ``content/``."""
    if given is not None:
        return Path(given)
    here = Path()
    if not (here / "hangar.yaml").exists() and (here / "content" / "hangar.yaml").exists():
        return here / "content"
    return here


def open_hangar(options: argparse.Namespace) -> Opened:
    """Read and fold the hangar that the options name, as of the day that they name.

    All of it lives until the command ends, so the garbage collector is kept from walking it.
    """
    with collector_paused():
        opened = _open(options)
        gc.freeze()
        return opened


def _open(options: argparse.Namespace) -> Opened:
    folder = hangar_folder(options.hangar_word if options.hangar is None else options.hangar)
    reading = read_hangar(folder)
    if reading.ledger is None:
        told = tuple(Problems(reading.problems))
        return Opened(folder=folder, hangar=None, work=None, problems=told)
    today = _today()
    day, given = _day(options.as_of, reading.ledger.keeper, today)
    hangar = fold(reading.ledger, day)
    work = work_list(hangar)
    found = Problems(reading.problems)
    found.extend(hangar.problems)
    found.extend(problems_of(hangar, work))
    if not given:
        _warn_of_future(found, hangar, today)
    return Opened(folder=folder, hangar=hangar, work=work, problems=tuple(found))


def _today() -> datetime.date:
    """The day of the clock, or of ``SOURCE_DATE_EPOCH`` where a build fixes it."""
    fixed = os.environ.get("SOURCE_DATE_EPOCH", "").strip()
    if not fixed:
        return datetime.date.today()
    try:
        return datetime.datetime.fromtimestamp(int(fixed), tz=datetime.UTC).date()
    except (ValueError, OverflowError, OSError) as error:
        raise WrongUse(f"SOURCE_DATE_EPOCH is {fixed!r}, not a number of seconds") from error


def _day(asked: str | None, keeper: Keeper, today: datetime.date) -> tuple[datetime.date, bool]:
    """The day to show, and whether somebody named it."""
    if asked is not None:
        try:
            return parse_day(asked)[0], True
        except NotationError as error:
            hint = f"; {error.hint}" if error.hint else ""
            raise WrongUse(f"--as-of: {error.reason}{hint}") from error
    if keeper.as_of is not None:
        return keeper.as_of, True
    return today, False


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
