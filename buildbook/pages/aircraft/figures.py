"""All figures of an aircraft, with what it takes to argue with each: inputs, formula, source."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

import msgspec
from markupsafe import Markup

from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.charts import chart_of_prediction
from buildbook.pages.aircraft.working import (
    AnswerLine,
    Column,
    Named,
    Row,
    Shown,
    Worked,
    answer_lines,
    ways_of,
)
from buildbook.pages.page import Page, crumbs
from buildbook.report.figure import Answers, CannotSay, Figure, Input, Table, least_share
from buildbook.report.figures.headlines import Headline
from buildbook.report.figures.known_figures import LawFacts
from buildbook.report.reports import Reports
from buildbook.words.figures import (
    Meaning,
    aside_words,
    cell_words,
    column_words,
    meaning_of,
    moved_words,
)
from buildbook.words.measures.figure_values import value_words

_MARGINS = ("motor_margin", "esc_margin", "battery_margin")
_MARGIN_AFTER = ("hover_throttle", "hover_current")
_FLOWN_INSTEAD = {"hover_current": "flown_current"}
"""What theory says, and the figure of the log that is shown in its place where there is one."""

_ELSEWHERE = ("rotation_balance", "start_spread")
"""Seen at the bench: the set-up sheet tells them."""


class PackRow(msgspec.Struct, frozen=True, kw_only=True):
    """A figure of several packs: one cell for each pack, empty where it has none."""

    name: str
    title: str
    cells: tuple[str, ...]


class PackTable(msgspec.Struct, frozen=True, kw_only=True):
    """Figures that go by pack, packs as columns; same: those that are alike with each of them."""

    tags: tuple[str, ...]
    rows: tuple[PackRow, ...]
    same: tuple[PackRow, ...]


def summary(reports: Reports, slug: str) -> tuple[Headline, ...]:
    """Those of the front page, with the margin that is used up first."""
    return tuple(_summary(reports, slug))


def _summary(reports: Reports, slug: str) -> Iterator[Headline]:
    margin = _first_margin(reports.figures_of_aircraft(slug))
    shown = as_flown(reports.headlines(slug).shown)
    after = next((one for one in reversed(shown) if one.name in _MARGIN_AFTER), None)
    told = False
    for one in shown:
        again = told and margin is not None and one.name == margin.name  # so little that both tell
        if one.name not in _ELSEWHERE and not again:
            yield one
        if one is after and margin is not None:
            told = True
            yield margin


def as_flown(headlines: Sequence[Headline]) -> tuple[Headline, ...]:
    """Without what theory says of that which the log tells too."""
    known = {one.name for one in headlines if one.figure is not None}
    return tuple(one for one in headlines if _FLOWN_INSTEAD.get(one.name) not in known)


def _first_margin(answers: Answers) -> Headline | None:
    found = [
        (least_share(figure), _MARGINS.index(figure.name), figure)
        for figure in answers.figures
        if figure.name in _MARGINS and figure.value is not None
    ]
    if not found:
        return None
    least = min(found, key=lambda one: one[:2])[2]
    return Headline(name=least.name, figure=least)


def pack_table(reports: Reports, answers: Answers) -> PackTable | None:
    """What is told of two packs or more, side by side; None where nothing is."""
    by_name: dict[str, dict[str, Figure]] = {}
    for figure in answers.figures:
        item = reports.hangar.items.get(figure.of or "")
        if figure.of and item is not None and item.is_pack and figure.value is not None:
            by_name.setdefault(figure.name, {})[figure.of] = figure
    by_name = {name: found for name, found in by_name.items() if len(found) > 1}
    tags = tuple(sorted({tag for found in by_name.values() for tag in found}))
    rows = tuple(
        PackRow(
            name=name,
            title=meaning_of(reports, name).title,
            cells=tuple(_value(found.get(tag)) for tag in tags),
        )
        for name, found in by_name.items()
    )
    alike = tuple(row for row in rows if row.cells[0] and len(set(row.cells)) == 1)
    unlike = tuple(row for row in rows if row not in alike)
    return PackTable(tags=tags, rows=unlike, same=alike) if rows else None


def _value(figure: Figure | None) -> str:
    if figure is None or figure.value is None:
        return ""
    return value_words(figure, figure.value)


SHARED_BY = 2
"""An input of so many ways stands once, above all of them."""


class Entry(msgspec.Struct, frozen=True, kw_only=True):
    """All figures of one name, and those of it that nobody can say.

    many: it is told subject by subject. lines: those without a table. ways: how it was come by.
    notes: those that hold for all of its subjects.
    """

    name: str
    meaning: Meaning
    shown: tuple[Shown, ...]
    lines: tuple[AnswerLine, ...]
    ways: tuple[Worked, ...]
    missing: tuple[CannotSay, ...]
    many: bool
    notes: tuple[str, ...]


class Topic(msgspec.Struct, frozen=True, kw_only=True):
    """Figures under one heading."""

    heading: str
    anchor: str
    entries: tuple[Entry, ...]


def page(reports: Reports, slug: str) -> Page:
    """The figures of an aircraft."""
    name = reports.hangar.aircraft[slug].record.aircraft
    answers = reports.figures_of_aircraft(slug)
    by_topic = tuple(rows_once(topics(reports, answers)))
    return Page(
        address=address_of("figures", slug),
        template="figures.html.j2",
        title=f"Figures of {name}",
        crumbs=crumbs(reports, slug),
        facts={
            "slug": slug,
            "summary": summary(reports, slug),
            "packs": pack_table(reports, answers),
            "topics": by_topic,
            "shared": shared_inputs(by_topic),
            "nothing": not answers.figures,
            "flown": chart_of_prediction(reports, slug),
        },
        about=f"Every figure of {name} with its working, inputs and source.",
    )


def shared_inputs(topics: Iterable[Topic]) -> tuple[Input, ...]:
    """Inputs that several workings have in common, what most of them rest on first."""
    ways = (way for topic in topics for entry in topic.entries for way in entry.ways)
    found = Counter(given for way in ways for given in way.same)
    return tuple(given for given, times in found.most_common() if times >= SHARED_BY)


def rows_once(topics: Iterable[Topic]) -> Iterator[Topic]:
    """The same rows of inputs only at the first figure that has them."""
    known: dict[tuple[tuple[Column, ...], tuple[Row, ...]], Named] = {}

    def told(entry: Entry, way: Worked) -> Worked:
        here = Named(entry.name, entry.meaning.title)
        first = known.setdefault((way.columns, way.rows), here) if way.rows else here
        return way if first == here else msgspec.structs.replace(way, rows_of=first)

    for topic in topics:
        entries = (
            msgspec.structs.replace(entry, ways=tuple(told(entry, way) for way in entry.ways))
            for entry in topic.entries
        )
        yield msgspec.structs.replace(topic, entries=tuple(entries))


def topics(reports: Reports, answers: Answers) -> Iterator[Topic]:
    """Figures by heading, in the order of their declarations; unknown names at the end."""
    given = (
        *(figure.name for figure in answers.figures),
        *(missing.name for missing in answers.cannot_say),
    )
    names = tuple(dict.fromkeys(given))
    known = reports.known_figures()
    headings = {
        heading: tuple(each.name for each in found) for heading, found in known.topics().items()
    }
    headings["Other figures"] = tuple(name for name in names if known.get(name) is None)
    for heading, wanted in headings.items():
        entries = tuple(_entry(reports, name, answers) for name in wanted if name in names)
        if entries:
            anchor = heading.lower().replace(" ", "-")
            yield Topic(heading=heading, anchor=anchor, entries=entries)


def _entry(reports: Reports, name: str, answers: Answers) -> Entry:
    figures = tuple(figure for figure in answers.figures if figure.name == name)
    laws = reports.known_figures().laws
    shown = tuple(show(figure, laws.get(figure.law or "")) for figure in figures)
    notes = dict.fromkeys(note for figure in figures for note in figure.notes)
    held_by_all = tuple(n for n in notes if all(n in figure.notes for figure in figures))
    return Entry(
        name=name,
        meaning=meaning_of(reports, name),
        shown=shown,
        lines=tuple(answer_lines(one for one in shown if not one.rows)),
        ways=tuple(ways_of(shown, held_by_all)),
        missing=tuple(missing for missing in answers.cannot_say if missing.name == name),
        many=len(figures) > 1 or any(figure.of for figure in figures),
        notes=held_by_all,
    )


def show(figure: Figure, law: LawFacts | None = None) -> Shown:
    """A figure with its formula, tables and asides in words."""
    mathml = law.mathml if law and not figure.by_method else ""
    table = figure.table
    return Shown(
        figure=figure,
        inputs=tuple(_once(figure.inputs)),
        formula=Markup(mathml) if mathml else None,
        method=figure.formula,
        valid=law.valid if law else "",
        columns=tuple(column_words(column) for column in _columns(table)) if table else (),
        numeric=tuple(map(column_words, _numbers(table))) if table else (),
        rows=tuple(_rows(table)) if table else (),
        other=tuple(
            aside_words(name, value)
            for name, value in figure.other.items()
            if name not in figure.in_verdict
        ),
        moves=tuple(
            (found.input, moved_words(figure, found))
            for found in figure.sensitivity
            if abs(found.share_per_percent) >= 0.0005
        ),
    )


_SEEN = "seen"
"""A column that tells how a source was seen: the page of sources tells it, a figure does not."""


def _columns(table: Table) -> tuple[str, ...]:
    return tuple(column for column in table.columns if column != _SEEN)


def _numbers(table: Table) -> Iterator[str]:
    """Columns without words in them, which stand level by their last digits."""
    for index, column in enumerate(table.columns):
        if index and column != _SEEN and not any(isinstance(row[index], str) for row in table.rows):
            yield column


def _rows(table: Table) -> Iterator[tuple[str, ...]]:
    """The rows in words; those that differ by their place alone are one, with all its places."""
    columns = _columns(table)
    at = columns.index("at") if "at" in columns else None
    places: dict[tuple[str, ...], list[str]] = {}
    for row in table.rows:
        said = {
            column: cell_words(column, value)
            for column, value in zip(table.columns, row, strict=True)
        }
        rest = tuple(said[column] for column in columns if column != "at")
        if at is None:
            yield rest
        else:
            places.setdefault(rest, []).append(said["at"])
    for rest, found in places.items():
        yield (*rest[:at], ", ".join(found), *rest[at:])


def _once(inputs: Iterable[Input]) -> Iterator[Input]:
    """Each input once, though several ways of the figure use it."""
    seen: set[tuple[str, object]] = set()
    for given in inputs:
        if (given.name, given.value) not in seen:
            seen.add((given.name, given.value))
            yield given
