"""The few figures that stand on the front page of an aircraft, one value each.

Where a figure goes by pack, the one to plan with is shown: the heaviest mass, the shortest time.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Literal

import msgspec

from buildbook.basis.place import Place
from buildbook.report.figure import Answers, CannotSay, Figure

Pick = Literal["only", "most", "least low"]


class Wanted(msgspec.Struct, frozen=True, kw_only=True):
    """A figure by name and, where it has several subjects, those that are asked for, best first.

    words: said of the one picked from several packs.
    """

    name: str
    of: tuple[str | None, ...] = ()
    pick: Pick = "only"
    words: str = ""


class Headline(msgspec.Struct, frozen=True, kw_only=True):
    """A figure that is shown, or why there is none. among: how many it was picked from."""

    name: str
    figure: Figure | None
    missing: CannotSay | None = None
    among: int = 1
    words: str = ""


WANTED: tuple[Wanted, ...] = (
    Wanted(name="all_up_mass", pick="most", words="the heaviest"),
    Wanted(name="flight_time", pick="least low", words="the shortest"),
    Wanted(name="alarm_voltage", pick="most", words="the highest"),
    Wanted(name="flown_current", of=(None,)),
    Wanted(name="thrust_to_weight"),
    Wanted(name="hover_throttle"),
    Wanted(name="hover_current"),
    Wanted(name="wing_loading"),
    Wanted(name="stall_speed"),
    Wanted(name="balance", of=("mean chord", "forward")),
    Wanted(name="rotation_balance"),
    Wanted(name="start_spread"),
)
"""In this order; what an aircraft does not have is left out."""


def headlines(answers: Answers) -> tuple[Headline, ...]:
    """Those of ``WANTED`` that there are, or that lack something."""
    found = (_headline(answers, wanted) for wanted in WANTED)
    return tuple(one for one in found if one is not None)


Lack = tuple[str, Place | None, tuple[str, ...]]
"""What is missing, where to write it, and the names of the figures that wait for it."""


def lacking(told: Iterable[Headline]) -> tuple[Lack, ...]:
    """Why there is no figure, each reason once."""
    found: dict[tuple[str, Place | None], list[str]] = {}
    for one in told:
        if one.missing is not None:
            found.setdefault((one.missing.because, one.missing.place), []).append(one.name)
    return tuple((because, place, tuple(names)) for (because, place), names in found.items())


def _headline(answers: Answers, wanted: Wanted) -> Headline | None:
    figures = tuple(figure for figure in answers.figures if figure.name == wanted.name)
    if wanted.of:
        figures = next(
            (same for of in wanted.of if (same := tuple(f for f in figures if f.of == of))), ()
        )
    if figures:
        return Headline(
            name=wanted.name,
            figure=_PICKS[wanted.pick](figures),
            among=len(figures),
            words=wanted.words if len(figures) > 1 else "",
        )
    missing = next((miss for miss in answers.cannot_say if miss.name == wanted.name), None)
    return Headline(name=wanted.name, figure=None, missing=missing) if missing else None


def _most(figures: tuple[Figure, ...]) -> Figure:
    return max(figures, key=lambda figure: figure.value or 0.0)


def _least_low(figures: tuple[Figure, ...]) -> Figure:
    def low(figure: Figure) -> float:
        value = figure.value if figure.low is None else figure.low
        return float("inf") if value is None else value

    return min(figures, key=low)


def _first(figures: tuple[Figure, ...]) -> Figure:
    return figures[0]


_PICKS: Mapping[Pick, Callable[[tuple[Figure, ...]], Figure]] = {
    "only": _first,
    "most": _most,
    "least low": _least_low,
}
