"""The program: which commands there are, and what they are given."""

import argparse
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from importlib import import_module
from typing import NamedTuple

from buildbook import __version__
from buildbook.commands.terminal.command_line import Help, HelpWithExamples, WrongUse
from buildbook.commands.terminal.screen import any_terminal, mute, wrapped

FINE, PROBLEMS, WRONG_USE, DUE = 0, 1, 2, 3

_Options = Callable[[argparse.ArgumentParser], None]


class Command(NamedTuple):
    """A command: its module has ``run(options) -> exit status`` and ``options(parser)``.

    examples: lines to type, shown below its help; a command may show its own instead.
    """

    module: str
    what: str
    examples: tuple[str, ...] = ()


COMMANDS: dict[str, Command] = {
    "begin": Command(
        "begin",
        "start a hangar in a new folder, or copy the demo hangar",
        (
            "buildbook begin my-hangar --name Tern --kind multirotor --layout quad-x",
            "buildbook begin my-hangar --name Kite --span 1400mm",
            "buildbook begin my-copy --demo",
        ),
    ),
    "check": Command(
        "check",
        "say what is wrong in the records, with file and line",
        (
            "buildbook check my-hangar",
            "buildbook check my-hangar --for public",
        ),
    ),
    "completion": Command(
        "completion",
        "print a script by which a shell completes commands and options",
        ("buildbook completion bash",),
    ),
    "due": Command(
        "due",
        "say what is due, stale or grounded, and why",
        (
            "buildbook due my-hangar --within 30d",
            "buildbook due my-hangar --aircraft trefoil --planned 12min",
        ),
    ),
    "enter": Command("enter", "write an entry into its log: flight, charge, check, defect, …"),
    "explain": Command(
        "explain",
        "say what a word of the files, figures or states means",
        (
            "buildbook explain stale_after",
            "buildbook explain spin-directions",
        ),
    ),
    "figures": Command(
        "figures",
        "work out the figures of an aircraft or an item",
        (
            "buildbook figures trefoil my-hangar",
            "buildbook figures P-02 my-hangar --as-of 2026-03-01",
        ),
    ),
    "preview": Command(
        "preview",
        "show the site in a browser while you write; pages follow the records",
        (
            "buildbook preview my-hangar",
            "buildbook preview my-hangar --for public --port 0",
        ),
    ),
    "render": Command(
        "render",
        "write the site",
        (
            "buildbook render my-hangar --into my-site",
            "buildbook render my-hangar --for public --into my-public-site",
        ),
    ),
    "schema": Command(
        "schema",
        "print the JSON Schema or the reference of the files",
        (
            "buildbook schema --reference",
            "buildbook schema",
        ),
    ),
}


class Stopped(BaseException):
    """The system asks the program to end; number: of the signal."""

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.number = number


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. 0 fine, 1 problems in the records, 2 wrong use, 3 something is due.

    128 and the number of the signal where the program was asked to end: 130 for Ctrl-C.
    """
    # Small arrays gain nothing from threads, and threads would fight the worker processes.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    any_terminal(sys.stdout, sys.stderr)
    words = list(sys.argv[1:] if arguments is None else arguments)
    try:
        with _stoppable():
            return _run(words)
    except KeyboardInterrupt:
        return _stopped(signal.SIGINT)
    except Stopped as stopped:
        return _stopped(stopped.number)


def _run(words: list[str]) -> int:
    name = next((word for word in words if not word.startswith("-")), None)
    parser = _parser(name)
    if name is not None and name not in COMMANDS:
        _refuse_entry(parser, name)
    try:
        options, more = parser.parse_known_args(words)
        if more:
            parser.error(f"unrecognized arguments: {' '.join(more)}{_of_entry(options, words)}")
    except SystemExit:  # help was printed
        with suppress(ValueError):
            try:
                sys.stdout.flush()
            except OSError:
                mute(sys.stdout)
        raise
    command = import_module(f"buildbook.commands.{COMMANDS[options.command].module}")
    try:
        status: int = command.run(options)
        sys.stdout.flush()
    except WrongUse as error:
        print(f"buildbook {options.command}: {error}", file=sys.stderr)
        return WRONG_USE
    except BrokenPipeError:  # the reader of a pipe has seen enough
        mute(sys.stdout)
        return FINE
    except OSError as error:  # a full disk behind standard output, a folder that goes away
        mute(sys.stdout)
        where = f": {error.filename}" if error.filename else ""
        reason = (error.strerror or str(error)).lower()
        print(f"buildbook {options.command}: {reason}{where}", file=sys.stderr)
        return WRONG_USE
    return status


def _refuse_entry(parser: argparse.ArgumentParser, name: str) -> None:
    """End with wrong use where the name is that of a kind of entry."""
    from buildbook.records.entries.kinds import KINDS  # only where no command is called so

    if name in KINDS:
        parser.error(f"{name!r} is not a command but a kind of entry: buildbook enter {name} …")


def _of_entry(options: argparse.Namespace, words: Sequence[str]) -> str:
    """``check sedge failsafe pass`` was meant as an entry."""
    meant = options.command == "check" and {*words} & {"pass", "fail"}
    return f"; to write a check: buildbook enter {' '.join(words)}" if meant else ""


@contextmanager
def _stoppable() -> Iterator[None]:
    """Raise Stopped where the system asks to end, so that what was begun is cleared away."""

    def stop(number: int, _frame: object) -> None:
        raise Stopped(number)

    names = ("SIGTERM", "SIGHUP")
    numbers = [getattr(signal, name) for name in names if hasattr(signal, name)]
    if threading.current_thread() is not threading.main_thread():
        numbers = []
    ours = [number for number in numbers if signal.getsignal(number) is signal.SIG_DFL]
    for number in ours:
        signal.signal(number, stop)
    try:
        yield
    finally:
        for number in ours:
            signal.signal(number, signal.SIG_DFL)


def _stopped(number: int) -> int:
    with suppress(KeyboardInterrupt, OSError):
        print("stopped", file=sys.stderr)
    return 128 + number


def _parser(name: str | None) -> argparse.ArgumentParser:
    """The parser of all commands; only the named one loads its module for its options."""
    parser = argparse.ArgumentParser(
        prog="buildbook",
        description="Keep the build documentation and maintenance records of model aircraft.",
        formatter_class=Help,
        epilog="Exit status: 0 fine, 1 problems in the records, 2 wrong use, 3 something is due.",
    )
    parser.add_argument("--version", action="version", version=f"buildbook {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for key, command in COMMANDS.items():
        described = f"{command.what[:1].upper()}{command.what[1:]}"
        sub = commands.add_parser(
            key, help=command.what, description=described, formatter_class=Help
        )
        if key == name:
            if command.examples:
                sub.formatter_class = HelpWithExamples
                sub.epilog = "\n".join(("examples:", *(f"  {line}" for line in command.examples)))
            import_module(f"buildbook.commands.{command.module}").options(sub)
            if sub.formatter_class is HelpWithExamples:
                sub.description = wrapped(described)
    return parser
