"""``buildbook schema``: the JSON Schema of the files, or pages for people: keys, figures."""

import argparse

from buildbook.commands.terminal.command_line import WrongUse
from buildbook.commands.terminal.screen import print_json
from buildbook.records.outputs.reference import reference
from buildbook.records.outputs.schema import schema
from buildbook.reporting.figures.known_figures import all_known_figures
from buildbook.words.vocabulary.glossary import figures_page
from buildbook.words.vocabulary.manual import manual


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(
        "--reference", action="store_true", help="the reference of the files, as Markdown"
    )
    parser.add_argument(
        "--figures", action="store_true", help="all figures and where each is from, as Markdown"
    )


def run(options: argparse.Namespace) -> int:
    """Print it."""
    if options.reference and options.figures:
        raise WrongUse("--reference and --figures are two pages; ask for one at a time")
    if options.figures:
        print(figures_page(all_known_figures()), end="")
    elif options.reference:
        print(reference() + manual(), end="")
    else:
        print_json(schema())
    return 0
