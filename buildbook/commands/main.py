"""The program: which commands there are, and what they are given."""

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from typing import NamedTuple

from buildbook import __version__
from buildbook.commands.opening import WrongUse

FINE, PROBLEMS, WRONG_USE, DUE = 0, 1, 2, 3

_Options = Callable[[argparse.ArgumentParser], None]


class Command(NamedTuple):
    """A command: its module has ``run(options) -> exit status`` and ``options(parser)``."""

    module: str
    what: str


COMMANDS: dict[str, Command] = {
    "begin": Command("begin", "start a hangar in a new folder, or copy the demo hangar"),
    "check": Command("check", "say what is wrong in the records, with file and line"),
    "due": Command("due", "say what is due, stale or grounded, and why"),
    "figures": Command("figures", "work out the figures of an aircraft or an item"),
    "render": Command("render", "write the site"),
    "schema": Command("schema", "print the JSON Schema or the reference of the files"),
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. 0 fine, 1 problems in the records, 2 wrong use, 3 something is due."""
    # Small arrays gain nothing from threads, and threads would fight the worker processes.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    words = list(sys.argv[1:] if arguments is None else arguments)
    name = next((word for word in words if not word.startswith("-")), None)
    options = _parser(name).parse_args(words)
    command = import_module(f"buildbook.commands.{COMMANDS[options.command].module}")
    try:
        status: int = command.run(options)
        sys.stdout.flush()
    except WrongUse as error:
        print(f"buildbook {options.command}: {error}", file=sys.stderr)
        return WRONG_USE
    except BrokenPipeError:  # the reader of a pipe has seen enough
        sys.stderr.close()
        return FINE
    except KeyboardInterrupt:
        print("stopped; nothing was written", file=sys.stderr)
        return 130
    return status


def _parser(name: str | None) -> argparse.ArgumentParser:
    """The parser of all commands; only the named one loads its module for its options."""
    parser = argparse.ArgumentParser(
        prog="buildbook",
        description="Keep the build documentation and maintenance records of model aircraft.",
        epilog="Exit status: 0 fine, 1 problems in the records, 2 wrong use, 3 something is due.",
    )
    parser.add_argument("--version", action="version", version=f"buildbook {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for key, command in COMMANDS.items():
        sub = commands.add_parser(key, help=command.what, description=command.what.capitalize())
        if key == name:
            import_module(f"buildbook.commands.{command.module}").options(sub)
    return parser
