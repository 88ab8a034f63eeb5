"""``buildbook begin FOLDER``: start a hangar."""

import argparse
from pathlib import Path

from buildbook.basis.saying import count
from buildbook.commands.opening import WrongUse
from buildbook.desk.begin import CannotBegin, begin


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("folder", metavar="FOLDER", help="a new or empty folder")
    parser.add_argument("--demo", action="store_true", help="copy the demo hangar into it")


def run(options: argparse.Namespace) -> int:
    """Begin, and say what to do next."""
    try:
        files = begin(Path(options.folder), demo=options.demo)
    except CannotBegin as error:
        raise WrongUse(str(error)) from error
    print(f"Wrote {count('file', files)} to {options.folder}.")
    print(f"Next: buildbook render {options.folder} --into {options.folder}-site")
    return 0
