"""The figures of an aircraft or item."""

from buildbook.figures.answers import registry
from buildbook.report.figure import Answers
from buildbook.reporting.whole import Whole


def figures_of_aircraft(whole: Whole, slug: str) -> Answers:
    """All figures of an aircraft."""
    return registry.figures_of_aircraft(whole.hangar, slug)


def figures_of_item(whole: Whole, tag: str) -> Answers:
    """All figures of an item."""
    return registry.figures_of_item(whole.hangar, tag)


def figure_names(_whole: Whole) -> tuple[str, ...]:
    """The names of all figures that an aircraft may have."""
    return tuple(spec.name for spec in registry.FIGURES if spec.of_aircraft is not None)
