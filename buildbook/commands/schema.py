"""``buildbook schema``: the JSON Schema of the files, or their reference for people."""

import argparse

from buildbook.commands.terminal.screen import print_json
from buildbook.records.outputs.reference import reference
from buildbook.records.outputs.schema import schema
from buildbook.words.vocabulary.manual import manual


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(
        "--reference", action="store_true", help="the reference of the files, as Markdown"
    )


def run(options: argparse.Namespace) -> int:
    """Print it."""
    if options.reference:
        print(reference() + manual(), end="")
    else:
        print_json(schema())
    return 0
