"""Open a hangar for a command: find it, and name the day. The only clock is here."""

import argparse
import datetime
import os
import shlex
from pathlib import Path

from buildbook.basis.days import parse_day
from buildbook.basis.notation import NotationError
from buildbook.commands.terminal.command_line import WrongUse
from buildbook.records.reading.files import HANGAR
from buildbook.reporting.opening import Opened, open_reports

__all__ = ["GIVEN_TWICE", "Opened", "WrongUse", "day_of", "hangar_folder", "open_hangar", "today"]

GIVEN_TWICE = "the hangar is given twice; leave out HANGAR or --hangar"


def hangar_folder(given: str | None) -> Path:
    """The folder named, else the current one if it is a hangar, else its ``content/``."""
    if given is not None:
        return Path(given)
    here = Path()
    if not (here / "hangar.yaml").exists() and (here / "content" / "hangar.yaml").exists():
        return here / "content"
    return here


def named_hangar(options: argparse.Namespace) -> Path:
    """The hangar folder that the options name; it need not be there. WrongUse: it names two."""
    if options.hangar is not None and options.hangar_word is not None:
        raise WrongUse(GIVEN_TWICE)
    return hangar_folder(options.hangar_word if options.hangar is None else options.hangar)


def open_hangar(options: argparse.Namespace) -> Opened:
    """Open the hangar that the options name, as of the day that they name.

    WrongUse: there is none.
    """
    folder = named_hangar(options)
    opened = open_reports(folder, day_of(options), today())
    if is_none(opened):
        word: str | None = options.hangar_word
        if (
            word
            and "aircraft" in options
            and os.path.isdir(hangar_folder(None) / "aircraft" / word)
        ):
            raise WrongUse(f"{word} is an aircraft, not a hangar: write --aircraft {word}")
        raise no_hangar(opened)
    return opened


def is_none(opened: Opened) -> bool:
    """Whether the folder is no hangar; that is no fault of any record."""
    return opened.reports is None and not os.path.lexists(opened.folder / HANGAR)


def no_hangar(opened: Opened) -> WrongUse:
    """What is said of such a folder."""
    missing = opened.problems[0]
    return WrongUse(f"{missing.reason}; {missing.hint}")


def and_folder(folder: Path) -> str:
    """What stands behind a command that is told: the hangar, unless it is the current folder."""
    return "" if folder == Path() else f" {shlex.quote(str(folder))}"


def today() -> datetime.date:
    """The day of the clock, or of ``SOURCE_DATE_EPOCH`` where a build fixes it."""
    return clock().date()


def clock() -> datetime.datetime:
    """Day and time here, or those of ``SOURCE_DATE_EPOCH`` (UTC); neither names its zone."""
    fixed = os.environ.get("SOURCE_DATE_EPOCH", "").strip()
    if not fixed:
        return datetime.datetime.now()
    try:
        return datetime.datetime.fromtimestamp(int(fixed), tz=datetime.UTC).replace(tzinfo=None)
    except (ValueError, OverflowError, OSError) as error:
        raise WrongUse(f"SOURCE_DATE_EPOCH is {fixed!r}, not a number of seconds") from error


def day_of(options: argparse.Namespace) -> datetime.date | None:
    """The day that the options name, if they name one."""
    asked: str | None = options.as_of
    if asked is None:
        return None
    try:
        return parse_day(asked)[0]
    except NotationError as error:
        hint = f"; {error.hint}" if error.hint else ""
        raise WrongUse(f"--as-of: {error.reason}{hint}") from error
