"""The layout of ``--help``, as wide as the terminal."""

import argparse

from buildbook.commands.terminal.screen import columns


class Help(argparse.HelpFormatter):
    """One that is told the width: argparse would load ``shutil`` to ask for it, for each option."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=columns() - 2)


class HelpWithExamples(Help, argparse.RawDescriptionHelpFormatter):
    """The lines of the examples stay as they are."""
