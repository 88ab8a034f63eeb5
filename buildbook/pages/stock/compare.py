"""Motors, packs and aircraft of the hangar side by side, each column on one scale."""

from collections.abc import Callable, Iterable, Iterator, Mapping

import msgspec

from buildbook.basis import amounts
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.charts import chart_of_hangar
from buildbook.pages.lapses import lapsing_of
from buildbook.pages.page import Page, crumbs
from buildbook.report.figures.comparison import Best, Column, Compared, Comparison, Measure
from buildbook.report.reports import Reports
from buildbook.report.state import Counters
from buildbook.words.filters import one_place
from buildbook.words.measures.intervals import flights_words, flown_words, least_words

MOST_ROWS, ROWS_OF_MANY = 40, 8
"""Of one table; of more, those that were used most. A long one shows the first few of them, the
rest is folded."""

_LONG: Mapping[str, int] = {"aircraft": 16, "packs": MOST_ROWS, "motors": MOST_ROWS}

_BARLESS: tuple[Column, ...] = ("crashes", "hard landings")
"""Counts so small that a bar says no more than the number."""

_USE: Mapping[str, Column] = {"aircraft": "flown", "packs": "cycles", "motors": "run"}


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """Subjects of which the same is told. cells: a measure of a column and its words."""

    keys: tuple[str, ...]
    title: str
    where: str | None
    cells: tuple[tuple[Column, Measure, str], ...]


class Bench(msgspec.Struct, frozen=True, kw_only=True):
    """A comparison as the page shows it. folded: the rest of a long one, used less. left_out: how
    many rows it has no room for. best: the first for each purpose, with its words."""

    of: str
    columns: tuple[Column, ...]
    rows: tuple[Compared, ...]
    folded: tuple[Compared, ...]
    left_out: int
    best: tuple[tuple[Best, str], ...]


def page(reports: Reports, _key: str) -> Page:
    """All comparisons that have at least two subjects."""
    return Page(
        address=address_of("compare"),
        template="compare.html.j2",
        title="Compare",
        crumbs=crumbs(reports),
        facts={
            "comparisons": tuple(bench(found) for found in reports.comparisons()),
            "use": _USE,
            "barless": _BARLESS,
            "lines_of": lines_of,
            "standing": reports.aircraft_standing,
            "lapsing": lapsing_of(reports, reports.hangar.aircraft),
            "flying": chart_of_hangar(reports),
        },
        about="Aircraft, packs and motors side by side, each column on one scale.",
    )


def bench(found: Comparison) -> Bench:
    """A comparison with as many rows as a page has room for: those that were used most."""
    rows = found.rows
    in_sight = len(rows)
    if len(rows) > _LONG[found.of]:
        in_sight = ROWS_OF_MANY
        at = found.columns.index(_USE[found.of])
        by_use = sorted(rows, key=lambda row: (-(row.measures[at].value or 0.0), row.key))
        rows = tuple(by_use[:MOST_ROWS])
    return Bench(
        of=found.of,
        columns=found.columns,
        rows=rows[:in_sight],
        folded=rows[in_sight:],
        left_out=len(found.rows) - len(rows),
        best=tuple(_best(found)),
    )


def _best(found: Comparison) -> Iterator[tuple[Best, str]]:
    """Which is first for what, with what stands in its column."""
    rows = {row.key: row for row in found.rows}
    for one in found.best:
        row = rows[one.keys[0]]
        measure = row.measures[found.columns.index(one.column)]
        yield one, measure_words(one.column, measure, row.counters)


def lines_of(bench: Bench, rows: Iterable[Compared]) -> tuple[tuple[Line, ...], tuple[str, ...]]:
    """Lines in the order of their first subjects, then subjects of which nothing is known yet."""
    by: dict[tuple[str, ...], list[Compared]] = {}
    empty: list[str] = []
    for row in rows:
        measures = zip(bench.columns, row.measures, strict=True)
        words = tuple(measure_words(column, one, row.counters) for column, one in measures)
        if not (any(one.value for one in row.measures) or row.counters.time_at_least):
            empty.append(row.key)
        else:
            alone = row.key if bench.of == "aircraft" else ""
            by.setdefault((alone, row.title, row.where or "", *words), []).append(row)
    lines = (
        Line(
            keys=tuple(row.key for row in found),
            title=found[0].title,
            where=found[0].where,
            cells=tuple(zip(bench.columns, found[0].measures, words, strict=True)),
        )
        for (_, _, _, *words), found in by.items()
    )
    return tuple(lines), tuple(empty)


def measure_words(column: Column, measure: Measure, counters: Counters) -> str:
    """A value of a column in words; a total of a life that is not known for sure says so."""
    if measure.value is None:
        return "cannot say"
    if column in _TIMES:
        sure = counters.duration_s or counters.time_at_least
        return flown_words(counters) if sure else "none"
    if column == "flights":
        return flights_words(counters)
    least = least_words(counters) if column == "cycles" else ""
    return f"{least}{_SAYS.get(column, _whole)(measure.value)}"


def _whole(value: float) -> str:
    return amounts.trimmed(value, 0)


def _two_places(value: float) -> str:
    return amounts.fixed(value, 2)


_SAYS: Mapping[Column, Callable[[float], str]] = {
    "all-up mass": amounts.mass,
    "thrust to weight": _two_places,
    "at the reserve": _two_places,
    "flight time": amounts.duration,
    "capacity, of rated": lambda share: f"{one_place(share * 100)} %",
    "cycles": one_place,
}
"""All others are counts."""

_TIMES: tuple[Column, ...] = ("flown", "run")
