"""``buildbook check``: what is wrong in the records."""

import argparse
import json
import sys

from buildbook.basis.saying import count
from buildbook.commands.choices import add_as_of, add_hangar, add_json, settle_hangar
from buildbook.commands.opening import open_hangar
from buildbook.commands.screen import tell_problems
from buildbook.pages.shapes import problems_shape


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    add_hangar(parser)
    add_as_of(parser)
    add_json(parser)


def run(options: argparse.Namespace) -> int:
    """Print the problems; 1 where one stands."""
    settle_hangar(options)
    opened = open_hangar(options)
    if options.json:
        print(json.dumps(problems_shape(opened.problems), ensure_ascii=False, indent=2))
        return 1 if opened.broken else 0
    tell_problems(opened.problems, sys.stdout)
    if opened.hangar is not None and not opened.broken:
        ledger = opened.hangar.ledger
        read = ", ".join(
            (
                count("aircraft", len(ledger.aircraft)),
                count("item", len(ledger.items)),
                count("entry", len(ledger.entries)),
            )
        )
        print(f"Read {read}: no problems.")
    return 1 if opened.broken else 0
