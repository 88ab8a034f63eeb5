"""The figures as words of their own: what each is, how it is worked out, and from where."""

from collections.abc import Iterator

from buildbook.report.figures.known_figures import KnownFigure, KnownFigures
from buildbook.words.vocabulary.term import Term


def figures(known: KnownFigures) -> Iterator[Term]:
    """One term a figure, in the order of the figures page."""
    yield from map(_figure, known.figures)


def _figure(figure: KnownFigure) -> Term:
    details = [("title", figure.title), ("topic", figure.topic)]
    for step in figure.steps:
        details.append(("method", step.method))
        details.append(("source", step.source))
        if step.valid:
            details.append(("holds for", step.valid))
    return Term(
        word=figure.name,
        kind="figure",
        what=figure.about or figure.line,
        where=("buildbook figures NAME, and the figures page of an aircraft or item",),
        details=tuple(details),
    )
