"""The figures of an aircraft or item, and the few that stand on its front page, one value each."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping

import msgspec

from buildbook.basis.place import Place
from buildbook.figures.answers import registry
from buildbook.figures.answers.propulsion.loads import LITTLE
from buildbook.figures.answers.propulsion.run_margins import is_too_thin
from buildbook.report.figure import Answers, CannotSay, Figure, least_share
from buildbook.report.figures.headlines import Headline, Headlines, Lack
from buildbook.report.figures.known_figures import Headline as Wanted
from buildbook.report.figures.known_figures import Pick
from buildbook.reporting.whole import Whole

MARGINS = ("motor_margin", "esc_margin", "battery_margin", "sensor_margin", "plug_margin")
"""Against ratings that a record gives; not those against what is usual."""


def headlines(whole: Whole, slug: str) -> Headlines:
    """Those declared for the front page that there are, or that lack something."""
    answers = whole.reports.figures_of_aircraft(slug)
    known = whole.reports.known_figures().figures
    wanted = [(one.headline, one.name) for one in known if one.headline is not None]
    wanted.sort(key=lambda pair: pair[0].place)
    found = (_headline(answers, name, headline) for headline, name in wanted)
    shown = tuple(_beside_usual(whole, slug, answers, one) for one in found if one is not None)
    missing = (one.missing for one in shown if one.missing is not None)
    return Headlines(
        shown=(*shown, *_scarce(answers), *_too_thin(answers)),
        lacks=lacks_of(missing),
    )


def _beside_usual(whole: Whole, slug: str, answers: Answers, shown: Headline) -> Headline:
    """Time and mass, with those on the pack of the most flights; the first of several."""
    if shown.name not in ("flight_time", "all_up_mass") or shown.figure is None:
        return shown
    usual = on_usual_pack(whole, slug, answers, shown.name)
    if usual is None or usual.of == shown.figure.of:
        return shown
    return msgspec.structs.replace(shown, usual=usual)


def on_usual_pack(whole: Whole, slug: str, answers: Answers, name: str) -> Figure | None:
    """A figure on the pack that flew most on it; None: it goes by no pack that did."""
    flights = whole.hangar.aircraft[slug].flights
    flown = Counter(tag for flight in flights for tag in flight.row.packs)
    found = [one for one in answers.figures if one.name == name and flown[one.of or ""]]
    return max(found, key=lambda one: flown[one.of or ""], default=None)


def _scarce(answers: Answers) -> Iterator[Headline]:
    """The least margin at full throttle, where so little is left that it must be told."""
    found = [one for one in answers.figures if one.name in MARGINS and one.value is not None]
    least = min(found, key=least_share, default=None)
    if least is not None and least_share(least) < LITTLE:
        yield Headline(name=least.name, figure=least)


def _too_thin(answers: Answers) -> Iterator[Headline]:
    """The worst run of wire that is so thin that it must be told."""
    found = [one for one in answers.figures if one.name == "wire_margin" and is_too_thin(one)]
    worst = min(found, key=lambda one: one.value or 0.0, default=None)
    if worst is not None:
        yield Headline(name=worst.name, figure=worst)


def lacks_of(missing: Iterable[CannotSay]) -> tuple[Lack, ...]:
    """Why there is no figure, each reason once with the names of all that wait for it."""
    found: dict[tuple[str, Place | None], list[str]] = {}
    for one in missing:
        found.setdefault((one.because, one.place), []).append(one.name)
    return tuple(
        Lack(because=because, place=place, names=tuple(names))
        for (because, place), names in found.items()
    )


def _headline(answers: Answers, name: str, wanted: Wanted) -> Headline | None:
    figures = tuple(figure for figure in answers.figures if figure.name == name)
    if wanted.of:
        figures = next(
            (same for of in wanted.of if (same := tuple(f for f in figures if f.of == of))), ()
        )
    if figures:
        return Headline(
            name=name,
            figure=_PICKS[wanted.pick](figures),
            among=len(figures),
            words=wanted.words if len(figures) > 1 else "",
        )
    missing = next((miss for miss in answers.cannot_say if miss.name == name), None)
    return Headline(name=name, figure=None, missing=missing) if missing else None


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


def figures_of_aircraft(whole: Whole, slug: str) -> Answers:
    """All figures of an aircraft."""
    return registry.figures_of_aircraft(whole.hangar, slug)


def figures_of_item(whole: Whole, tag: str) -> Answers:
    """All figures of an item."""
    return registry.figures_of_item(whole.hangar, tag)


def figure_names(_whole: Whole) -> tuple[str, ...]:
    """The names of all figures that an aircraft may have."""
    return tuple(spec.name for spec in registry.FIGURES if spec.is_of_aircraft)
