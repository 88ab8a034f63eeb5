"""Where the figures come from: each with its formula, range, source, and the tests that hold it."""

from collections.abc import Iterator

import msgspec
from markupsafe import Markup

from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page, crumbs
from buildbook.report.figures.known_figures import KnownFigure, KnownFigures, Step
from buildbook.report.reports import Reports


class Way(msgspec.Struct, frozen=True, kw_only=True):
    """One step of a figure: a formula as MathML, or a method in words."""

    formula: Markup | None
    method: str
    source: str
    valid: str


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """A figure and all that stands behind it."""

    name: str
    title: str
    words: str
    ways: tuple[Way, ...]
    held_by: tuple[str, ...]


class Topic(msgspec.Struct, frozen=True, kw_only=True):
    """Figures under one heading."""

    heading: str
    anchor: str
    rows: tuple[Row, ...]


def page(reports: Reports, _key: str) -> Page:
    """All figures that the program knows, whether this hangar has them or not."""
    return Page(
        address=address_of("figure-sources"),
        template="figure_sources.html.j2",
        title="Where the figures come from",
        crumbs=crumbs(reports),
        facts={"topics": tuple(topics(reports.known_figures()))},
        about="Formula, valid range, source and tests of every figure.",
    )


def topics(known: KnownFigures) -> Iterator[Topic]:
    """Figures by heading, as on the figures pages."""
    for heading, figures in known.topics().items():
        yield Topic(
            heading=heading,
            anchor=heading.lower().replace(" ", "-"),
            rows=tuple(_row(figure) for figure in figures),
        )


def _row(known: KnownFigure) -> Row:
    return Row(
        name=known.name,
        title=known.title,
        words=known.about,
        ways=tuple(_way(step) for step in known.steps),
        held_by=known.held_by,
    )


def _way(step: Step) -> Way:
    return Way(
        formula=Markup(step.mathml) if step.mathml else None,
        method=step.method,
        source=step.source,
        valid=step.valid,
    )
