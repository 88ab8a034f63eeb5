"""``buildbook begin FOLDER``: start a hangar."""

import argparse
from pathlib import Path

from buildbook.basis.amounts import count
from buildbook.commands.terminal.wrong_use import WrongUse
from buildbook.desk.begin import USUAL, CannotBegin, First, begin


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("folder", metavar="FOLDER", help="a new or empty folder")
    parser.add_argument("--demo", action="store_true", help="copy the demo hangar into it")
    parser.add_argument("--name", metavar="NAME", help="name of the first aircraft")
    parser.add_argument("--kind", choices=tuple(USUAL), help="kind of the first aircraft")
    parser.add_argument("--layout", metavar="LAYOUT", help="its layout, as in hexa-x")


def run(options: argparse.Namespace) -> int:
    """Begin, and say what to do next."""
    asked = {
        name: getattr(options, name)
        for name in ("name", "kind", "layout")
        if getattr(options, name) is not None
    }
    if options.demo and asked:
        raise WrongUse(f"--demo copies what is there; leave out --{next(iter(asked))}")
    try:
        files = begin(Path(options.folder), first=None if options.demo else First(**asked))
    except CannotBegin as error:
        raise WrongUse(str(error)) from error
    print(f"Wrote {count('file', files)} to {options.folder}.")
    if not options.demo:
        print("Left to you: which way each motor turns and which output drives it. One wrong line")
        print("throws an aircraft over as it takes off; aircraft.yaml says where they go.")
    print(f"Next: buildbook render {options.folder} --into {options.folder}-site")
    return 0
