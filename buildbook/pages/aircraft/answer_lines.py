"""A figure of many subjects: a line for those of which the same is told."""

from collections.abc import Iterable, Iterator

import msgspec

from buildbook.pages.aircraft.working import ALL, Shown, gathered
from buildbook.report.figure import Basis, Figure
from buildbook.words.measures.figure_values import value_words


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """What is told of a subject: value, ends of the interval and its level, and the rest in words.

    value, low and high are empty where there are none.
    """

    value: str
    low: str
    high: str
    level: float | None
    basis: Basis
    verdict: str
    other: tuple[tuple[str, str], ...]


class AnswerLine(msgspec.Struct, frozen=True, kw_only=True):
    """Subjects of which the same is told."""

    subjects: tuple[str, ...]
    told: Told


def answer_lines(shown: Iterable[Shown]) -> Iterator[AnswerLine]:
    """In the order of their first subjects."""
    for subjects, told in gathered((one.figure.of or ALL, _told(one)) for one in shown):
        yield AnswerLine(subjects=subjects, told=told)


def _told(one: Shown) -> Told:
    figure = one.figure
    ranged = figure.low is not None and figure.high is not None
    return Told(
        value=_words(figure, figure.value),
        low=_words(figure, figure.low) if ranged else "",
        high=_words(figure, figure.high) if ranged else "",
        level=figure.level if ranged else None,
        basis=figure.basis,
        verdict=figure.verdict or "",
        other=one.other,
    )


def _words(figure: Figure, value: float | None) -> str:
    return "" if value is None else value_words(figure, value)
