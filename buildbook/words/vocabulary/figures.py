"""What each figure is, how it is worked out, and from where: as a word, and all on a page."""

from collections.abc import Iterator

from buildbook.report.figures.known_figures import KnownFigure, KnownFigures, Step
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


def figures_page(known: KnownFigures) -> str:
    """Tables in Markdown by topic, in the order of the figures page; ends with a line break."""
    return "\n".join(_lines(known)) + "\n"


def _lines(known: KnownFigures) -> Iterator[str]:
    for topic, of_topic in known.topics().items():
        yield from (
            "",
            f"## {topic}",
            "",
            "| figure | what it is | how, and from where |",
            "|---|---|---|",
        )
        yield from map(_row, of_topic)


def _row(figure: KnownFigure) -> str:
    steps = "<br>".join(dict.fromkeys(map(_step, figure.steps))) or "as recorded"
    cells = (f"`{figure.name}`", figure.about or figure.line, steps)
    return "| " + " | ".join(" ".join(cell.replace("|", "\\|").split()) for cell in cells) + " |"


def _step(step: Step) -> str:
    how = step.method
    holds = f" Holds for {step.valid}." if step.valid else ""
    return f"{how} ({step.source}).{holds}" if step.source else f"{how}.{holds}"
