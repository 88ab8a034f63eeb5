"""All figures, in the order in which they are shown: one declaration each, beside its answer."""

from collections.abc import Iterator

from buildbook.figures.answers.craft import Craft, Part
from buildbook.figures.answers.flight import advice, climb, end_of_pack, flight_time, flown
from buildbook.figures.answers.log import cost, drift, failures, wear
from buildbook.figures.answers.mass import balance, budget, loading, payload, rules, trim
from buildbook.figures.answers.packs import energy, health, life, use
from buildbook.figures.answers.propulsion import (
    air,
    hover,
    margins,
    peak,
    run_margins,
    servos,
    thrust,
    tips,
    wiring,
)
from buildbook.figures.answers.setup import gains, layout, readings
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer
from buildbook.report.figure import Answers, CannotSay, Figure
from buildbook.report.state import Hangar

FIGURES: tuple[FigureSpec, ...] = (
    *budget.FIGURES,
    *balance.FIGURES,
    *rules.FIGURES,
    *trim.FIGURES,
    *loading.FIGURES,
    *payload.FIGURES,
    *flight_time.FIGURES,
    *flown.FIGURES,
    *advice.FIGURES,
    *end_of_pack.FIGURES,
    *climb.FIGURES,
    *thrust.FIGURES,
    *hover.FIGURES,
    *tips.FIGURES,
    *air.FIGURES,
    *peak.FIGURES,
    *margins.FIGURES,
    *run_margins.FIGURES,
    *servos.FIGURES,
    *wiring.FIGURES,
    *layout.FIGURES,
    *gains.FIGURES,
    *readings.FIGURES,
    *energy.FIGURES,
    *use.FIGURES,
    *health.FIGURES,
    *life.FIGURES,
    *wear.FIGURES,
    *drift.FIGURES,
    *failures.FIGURES,
    *cost.FIGURES,
)


def figures_of_aircraft(hangar: Hangar, slug: str) -> Answers:
    """All figures of an aircraft, in the order of ``FIGURES``. KeyError: no such aircraft."""
    craft = Craft(hangar, slug)
    return _sorted(said for spec in FIGURES for said in spec.answers_of_aircraft(craft))


def figures_of_item(hangar: Hangar, tag: str) -> Answers:
    """All figures of an item, in the order of ``FIGURES``. KeyError: no such item."""
    part = Part(hangar, hangar.items[tag])
    return _sorted(said for spec in FIGURES for said in spec.answers_of_item(part))


def _sorted(all_said: Iterator[Answer]) -> Answers:
    figures: list[Figure] = []
    cannot: list[CannotSay] = []
    for said in all_said:
        if isinstance(said, Figure):
            figures.append(said)
        else:
            cannot.append(said)
    return Answers(figures=tuple(figures), cannot_say=tuple(cannot))
