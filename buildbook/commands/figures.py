"""``buildbook figures NAME``: the figures of an aircraft or an item."""

import argparse
import datetime
import sys
from pathlib import Path

from buildbook.basis import amounts
from buildbook.basis.nearest import did_you_mean
from buildbook.commands.opening import WrongUse, named_hangar, open_hangar
from buildbook.commands.terminal.command_line import add_as_of, add_hangar, add_json
from buildbook.commands.terminal.screen import print_json, print_problems, toned, wrapped
from buildbook.records.ledger import named_aircraft
from buildbook.records.reading.files import HANGAR
from buildbook.report.figure import Answers, Figure
from buildbook.report.reports import Reports
from buildbook.report.state import Hangar
from buildbook.reporting.figures.headlines import lacks_of
from buildbook.words.figures import basis_words, table_lines
from buildbook.words.for_machines import figures_shape
from buildbook.words.measures.figure_values import day_words, interval_words, value_words
from buildbook.words.upkeep.check import with_dangers


def options(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("name", metavar="NAME", help="an aircraft, or the tag of an item")
    add_hangar(parser)
    add_as_of(parser)
    add_json(parser)


def run(options: argparse.Namespace) -> int:
    """Print the figures; 1 where the records have a problem."""
    _wants_a_name(options)
    opened = open_hangar(options)
    if opened.reports is None or opened.broken:
        print_problems(with_dangers(opened.problems, opened.dangers))
    if opened.reports is None:
        return 1
    hangar = opened.reports.hangar
    subject, answers = _answers(opened.reports, options.name)
    if options.json:
        shape = figures_shape(answers, subject, hangar.as_of, datetime.date.isoformat)
        print_json(shape)
    else:
        _print(options.name, hangar, answers)
    return 1 if opened.broken else 0


def _wants_a_name(options: argparse.Namespace) -> None:
    """WrongUse: the one word given is a hangar, and no aircraft of the hangar here."""
    folder = Path(options.name)
    if options.hangar_word is not None or not (folder / HANGAR).is_file():
        return
    if (named_hangar(options) / "aircraft" / options.name).is_dir():
        return
    aircraft = sorted(path.name for path in (folder / "aircraft").glob("*/"))
    example = aircraft[0] if aircraft else "NAME"
    raise WrongUse(
        f"{options.name!r} is a hangar; of which aircraft or item? "
        f"as in buildbook figures {example} {options.name}"
    )


def _answers(reports: Reports, name: str) -> tuple[dict[str, str], Answers]:
    hangar = reports.hangar
    if name in hangar.aircraft:
        return {"aircraft": name}, reports.figures_of_aircraft(name)
    if name in hangar.items:
        return {"item": name}, reports.figures_of_item(name)
    slug = named_aircraft(name, hangar.ledger)
    if slug is not None:
        return {"aircraft": slug}, reports.figures_of_aircraft(slug)
    hint = did_you_mean(name, [*hangar.aircraft, *hangar.items])
    raise WrongUse(f"no aircraft or item is called {name!r}" + (f"; {hint}" if hint else ""))


def _print(name: str, hangar: Hangar, answers: Answers) -> None:
    out = sys.stdout
    print(toned(f"Figures of {name}, record to {amounts.day(hangar.as_of)}", "strong", out))
    for figure in answers.figures:
        print(wrapped(_line(figure), indent="  ", hanging="      "))
        if figure.value is None and figure.table is not None:
            for line in table_lines(figure.table):
                print(wrapped(line, indent="      ", hanging="        "))
        for note in figure.notes:
            print(toned(wrapped(note, indent="      "), "soft", out))
    if answers.cannot_say:
        print(toned("Cannot say", "strong", out))
    for lack in lacks_of(answers.cannot_say):
        where = f" @ {lack.place}" if lack.place else ""
        names = list(dict.fromkeys(lack.names))
        waiting = names[0] if len(names) == 1 else f"{amounts.count('figure', len(names))} wait"
        print(wrapped(f"{waiting}: {lack.because}{where}", indent="  ", hanging="      "))
        if len(names) > 1:
            print(toned(wrapped(", ".join(names), indent="      "), "soft", out))


def _line(figure: Figure) -> str:
    said = figure.verdict or ""
    if figure.value is not None:
        value = day_words(figure, figure.day) if figure.day else value_words(figure, figure.value)
        said = said if "value" in figure.in_verdict else value + (f" ({said})" if said else "")
    if figure.value is not None and figure.low is not None and figure.high is not None:
        said += f", {interval_words(figure)}"
        if figure.level is not None:
            said += f" at {amounts.share(figure.level)}"
    if figure.table is not None and not said:
        said = amounts.count("row", len(figure.table.rows))
    return f"{_subject(figure)}: {said} [{basis_words(figure.basis)}]"


def _subject(said: Figure) -> str:
    """The name, and what it is about where there are several."""
    return f"{said.name}, {said.of}" if said.of else said.name
