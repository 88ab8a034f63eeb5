"""Dangers as warnings, each at the line where it was written: in the words of their rows."""

from collections.abc import Iterable

from buildbook.basis.problems import Problem, Problems
from buildbook.report.upkeep.findings import ReadOtherwise, WithoutLink, WrongHand
from buildbook.report.upkeep.work import Row


def with_dangers(problems: Iterable[Problem], rows: Iterable[Row]) -> tuple[Problem, ...]:
    """All of them by place. rows: those that are warnings as well."""
    return tuple(Problems((*problems, *map(_warning, rows))))


def _warning(row: Row) -> Problem:
    what = getattr(row.rule, "what", None)
    return Problem(
        f"{row.aircraft}: {_fault(row)}", row.place, "warning", hint=what, about=row.aircraft
    )


_AT_STATIONS = (WrongHand, ReadOtherwise)


def _fault(row: Row) -> str:
    """What is wrong, in one clause."""
    from buildbook.words.measures.days import EXACT  # all words of rows: only where one is told
    from buildbook.words.reasons import RUNS_ON, finding_words, row_words

    found = None if row.because is None else row.because.found
    if found is None:
        return row_words(row, EXACT)
    if isinstance(found, WithoutLink):
        return RUNS_ON
    words = finding_words(found, EXACT)
    return f"{row.station}: {words}" if row.station and isinstance(found, _AT_STATIONS) else words
