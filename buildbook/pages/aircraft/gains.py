"""Gain sets side by side: what differs, what was flown on each, what was thought of it."""

from collections.abc import Iterable, Iterator

import msgspec

from buildbook.basis import amounts
from buildbook.drawings.charts.bars import gain_bars
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page, crumbs
from buildbook.report.figure import Answers
from buildbook.report.figures.gains import GainCell
from buildbook.report.reports import Reports
from buildbook.words.figures import cell_words, column_words

BELONGS = "These gains belong to this aircraft and its controller; check yours."
"""Said wherever a gain set is shown."""


class Changes(msgspec.Struct, frozen=True, kw_only=True):
    """The set in force against another. words: which set that is, what differs; rows: only terms
    that differ, as all others stand side by side above."""

    against: str
    words: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def keys(reports: Reports) -> Iterable[str]:
    """Each aircraft that has a gain set."""
    return tuple(slug for slug, found in reports.hangar.aircraft.items() if found.gain_sets)


def page(reports: Reports, slug: str) -> Page:
    """The gain sets of an aircraft."""
    name = reports.hangar.aircraft[slug].record.aircraft
    found = reports.gains(slug)
    answers = reports.figures_of_aircraft(slug)
    return Page(
        address=address_of("gains", slug),
        template="gains.html.j2",
        title=f"Gains of {name}",
        crumbs=crumbs(reports, slug),
        facts={
            "slug": slug,
            "sets": found.sets,
            "terms": found.terms,
            "gain_words": gain_words,
            "change_words": change_words,
            "in_force": found.in_force,
            "bars": gain_bars(found.drawn, "gains") if found.drawn else None,
            "changes": tuple(_changes(answers)),
            "belongs": BELONGS,
        },
        about=f"The gain sets of {name} side by side, and what was flown on each.",
    )


def _changes(answers: Answers) -> Iterator[Changes]:
    for figure in answers.figures:
        if figure.name == "gain_changes" and figure.table is not None:
            columns = figure.table.columns
            yield Changes(
                against=figure.of or "",
                words=figure.verdict or "",
                columns=tuple(map(column_words, columns)),
                rows=tuple(
                    tuple(map(cell_words, columns, row))  # each cell by the name of its column
                    for row in figure.table.rows
                    if row[-1] != 0
                ),
            )


def gain_words(cell: GainCell) -> str:
    """A value of a set."""
    return amounts.trimmed(cell.value, 4)


def change_words(cell: GainCell) -> str:
    """How a value differs from that of the other set: ``9.5 more``; nothing where it does not."""
    if not cell.change:
        return ""
    return f"{amounts.trimmed(abs(cell.change), 4)} {'more' if cell.change > 0 else 'less'}"
