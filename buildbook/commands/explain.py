"""``buildbook explain WORD``: what a key, check, task, figure, state or trigger is."""

import argparse
import sys
from collections.abc import Iterator

import msgspec

from buildbook.commands.terminal.command_line import WrongUse, add_json
from buildbook.commands.terminal.screen import print_json, toned, wrapped
from buildbook.reporting.figures.known_figures import all_known_figures
from buildbook.words.vocabulary.glossary import everything, found, like
from buildbook.words.vocabulary.lists import Term

_MOST_PLACES = 6


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(
        "word",
        metavar="WORD",
        nargs="+",
        help="a key, entry, check, task, figure, state, trigger, layout; or a message",
    )
    add_json(parser)


def run(options: argparse.Namespace) -> int:
    """Print what the word is. WrongUse: nothing has that name."""
    text = " ".join(options.word)
    terms = everything(all_known_figures())
    asked = found(text, terms)
    if not asked:
        meant = like(text, terms)
        hint = f"did you mean {meant!r}?" if meant else "see buildbook schema --reference"
        raise WrongUse(f"nothing here is called {text[:60]!r}; {hint}")
    if options.json:
        print_json({"terms": [_shape(term) for term in asked]})
        return 0
    for number, term in enumerate(asked):
        if number:
            print()
        for line in _lines(term):
            print(line)
    return 0


def _shape(term: Term) -> dict[str, object]:
    facts: dict[str, object] = msgspec.structs.asdict(term)
    facts["details"] = [{"label": label, "text": text} for label, text in term.details]
    return facts


def _lines(term: Term) -> Iterator[str]:
    yield f"{toned(term.word, 'strong', sys.stdout)}  {term.kind}"
    if term.what:
        yield wrapped(term.what, indent="  ")
    if term.where:
        places = list(term.where[:_MOST_PLACES])
        if len(term.where) > _MOST_PLACES:
            places.append(f"and {len(term.where) - _MOST_PLACES} more")
        yield wrapped(f"in: {'; '.join(places)}", indent="  ", hanging="    ")
    for label, text in term.details:
        yield wrapped(f"{label}: {text}", indent="  ", hanging="    ")
