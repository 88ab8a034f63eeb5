"""Where the figures come from: each with its formula, range, source, and the tests that hold it."""

from collections.abc import Iterable, Iterator

import msgspec
from markupsafe import Markup

from buildbook.audience.figures import OWNER_FIGURES
from buildbook.figures.answers.provenance import Provenance, Step, provenance
from buildbook.figures.formula import law_mathml
from buildbook.figures.laws.registry import LAWS
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page
from buildbook.report.reports import Reports
from buildbook.words.figures import TOPICS, meaning_of


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


def keys(_reports: Reports) -> Iterable[str]:
    """There is one."""
    return ("",)


def page(reports: Reports, _key: str) -> Page:
    """All figures that the program knows, whether this hangar has them or not."""
    return Page(
        address=address_of("figure-sources"),
        template="figure_sources.html.j2",
        title="Where the figures come from",
        crumbs=((address_of("hangar"), reports.hangar.ledger.keeper.hangar),),
        facts={"topics": tuple(topics(reports.is_public))},
        about="Formula, valid range, source and tests of every figure.",
    )


def topics(is_public: bool) -> Iterator[Topic]:
    """Figures by heading, as on the figures pages; those that only an owner sees are left out."""
    known = {row.name: row for row in provenance() if not (is_public and row.name in OWNER_FIGURES)}
    headed = {name for found in TOPICS.values() for name in found}
    headings = {heading: tuple(found) for heading, found in TOPICS.items()}
    headings["Other figures"] = tuple(name for name in known if name not in headed)
    for heading, names in headings.items():
        rows = tuple(_row(known[name]) for name in names if name in known)
        if rows:
            anchor = heading.lower().replace(" ", "-")
            yield Topic(heading=heading, anchor=anchor, rows=rows)


def _row(found: Provenance) -> Row:
    return Row(
        name=found.name,
        title=meaning_of(found.name).title,
        words=found.words,
        ways=tuple(_way(step) for step in found.steps),
        held_by=found.held_by,
    )


def _way(step: Step) -> Way:
    law = LAWS.get(step.law or "")
    by_formula = (
        law is not None and law.kind == "formula" and not step.formula.startswith("method:")
    )
    return Way(
        formula=Markup(law_mathml(law)) if law is not None and by_formula else None,
        method=step.formula.removeprefix("method:").strip(),
        source=step.source,
        valid=step.valid,
    )
