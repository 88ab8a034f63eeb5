"""What is known of every figure: its name, what it means, the laws and tests behind it."""

from buildbook.figures.answers.registry import FIGURES
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Way, by_law
from buildbook.figures.formula import law_mathml
from buildbook.figures.laws.registry import LAWS
from buildbook.report.figures.known_figures import KnownFigure, KnownFigures, LawFacts, Step
from buildbook.reporting.whole import Whole


def known_figures(_whole: Whole) -> KnownFigures:
    """All figures that the program knows, whether this hangar has them or not."""
    return all_known_figures()


def all_known_figures() -> KnownFigures:
    """The same without a hangar."""
    return KnownFigures(
        figures=tuple(_known(spec) for spec in FIGURES),
        laws={key: LawFacts(mathml=_mathml(key), valid=law.valid) for key, law in LAWS.items()},
    )


def _known(spec: FigureSpec) -> KnownFigure:
    ways = (*(by_law(key) for key in spec.laws), *spec.methods)
    return KnownFigure(
        name=spec.name,
        title=spec.title,
        line=spec.line,
        about=spec.about,
        topic=spec.topic,
        shown=spec.shown,
        headline=spec.headline,
        steps=tuple(_step(way) for way in ways),
        held_by=spec.held_by,
    )


def _step(way: Way) -> Step:
    return Step(
        method=way.formula,
        mathml=_mathml(way.law) if way.law is not None and not way.by_method else "",
        source=way.source,
        valid="" if way.law is None else LAWS[way.law].valid,
    )


def _mathml(key: str) -> str:
    law = LAWS[key]
    return law_mathml(law) if law.kind == "formula" else ""
