"""Options of several commands, the layout of their help, and what wrong use of them raises."""

import argparse

from buildbook.commands.terminal.screen import columns


def add_hangar(parser: argparse.ArgumentParser) -> None:
    """The hangar folder, as the last word or by name."""
    parser.add_argument(
        "hangar_word",
        nargs="?",
        metavar="HANGAR",
        help="the folder with hangar.yaml (default: here, else ./content)",
    )
    parser.add_argument("--hangar", dest="hangar", metavar="HANGAR", help="the same, by name")


def add_as_of(parser: argparse.ArgumentParser) -> None:
    """The day to show."""
    parser.add_argument(
        "--as-of", metavar="DAY", help="the day to show, such as 2026-03-01 (default: today)"
    )


def add_json(parser: argparse.ArgumentParser) -> None:
    """Facts for machines."""
    parser.add_argument("--json", action="store_true", help="print the facts as JSON")


class WrongUse(Exception):
    """The command was called in a way that it doesn't take; exit status 2."""


class Help(argparse.HelpFormatter):
    """One that is told the width: argparse would load ``shutil`` to ask for it, for each option."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=columns() - 2)


class HelpWithExamples(Help, argparse.RawDescriptionHelpFormatter):
    """The lines of the examples stay as they are."""
