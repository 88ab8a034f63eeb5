"""Motors, packs and aircraft of the hangar side by side, each column on one scale."""

from collections.abc import Callable, Mapping

import msgspec

from buildbook.basis import amounts
from buildbook.pages.addresses import address_of
from buildbook.pages.aircraft.charts import chart_of_hangar
from buildbook.pages.page import Page, crumbs
from buildbook.report.figures.comparison import Column, Compared, Comparison, Measure
from buildbook.report.reports import Reports
from buildbook.report.state import Counters
from buildbook.words.measures.time_in_service import flights_words, flown_words, least_words

MOST_ROWS, ROWS_OF_MANY = 40, 8
"""Of one table; of more, those that were used most. A long one shows the first few of them, the
rest is folded."""

_LONG: Mapping[str, int] = {"aircraft": 16, "packs": MOST_ROWS, "motors": MOST_ROWS}

_BARLESS: tuple[Column, ...] = ("crashes", "hard landings")
"""Counts so small that a bar says no more than the number."""

_USE: Mapping[str, Column] = {"aircraft": "flown", "packs": "cycles", "motors": "run"}


class Bench(msgspec.Struct, frozen=True, kw_only=True):
    """A comparison as the page shows it. folded: the rest of a long one, used less. left_out: how
    many rows it has no room for."""

    of: str
    columns: tuple[Column, ...]
    rows: tuple[Compared, ...]
    folded: tuple[Compared, ...]
    left_out: int


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
            "measure_words": measure_words,
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
    )


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


def _one_place(value: float) -> str:
    return amounts.fixed(value, 1)


def _two_places(value: float) -> str:
    return amounts.fixed(value, 2)


_SAYS: Mapping[Column, Callable[[float], str]] = {
    "all-up mass": amounts.mass,
    "thrust to weight": _two_places,
    "flight time": amounts.duration,
    "capacity, of rated": amounts.share,
    "cycles": _one_place,
}
"""All others are counts."""

_TIMES: tuple[Column, ...] = ("flown", "run")
