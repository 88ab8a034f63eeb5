"""All figures as Markdown: what each is, how it is worked out, and where that is from."""

from collections.abc import Iterator

from buildbook.report.figures.known_figures import KnownFigure, KnownFigures, Step


def figures_page(known: KnownFigures) -> str:
    """Tables by topic, in the order of the figures page; ends with a line break."""
    return "\n".join(_lines(known)) + "\n"


def _lines(known: KnownFigures) -> Iterator[str]:
    for topic, figures in known.topics().items():
        yield from (
            "",
            f"## {topic}",
            "",
            "| figure | what it is | how, and from where |",
            "|---|---|---|",
        )
        yield from map(_row, figures)


def _row(figure: KnownFigure) -> str:
    steps = "<br>".join(dict.fromkeys(map(_step, figure.steps))) or "as recorded"
    cells = (f"`{figure.name}`", figure.about or figure.line, steps)
    return "| " + " | ".join(" ".join(cell.replace("|", "\\|").split()) for cell in cells) + " |"


def _step(step: Step) -> str:
    how = step.method
    holds = f" Holds for {step.valid}." if step.valid else ""
    return f"{how} ({step.source}).{holds}" if step.source else f"{how}.{holds}"
