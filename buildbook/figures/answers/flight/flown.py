"""What the log says: current and time as flown, by pack and by gain set, with an interval."""

from collections.abc import Iterator, Sequence

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.flight_time import refuse_unfit
from buildbook.figures.answers.flight.pack_in_flight import (
    cut_short,
    longest_beside,
    longest_kept_s,
    why_short,
)
from buildbook.figures.answers.flight.prediction import simulated_at, simulated_s
from buildbook.figures.answers.flight.rates import (
    FIT,
    TIME,
    comparable,
    fitted_time,
    flights_with_charge,
    flown_alike,
    glides,
    number_of,
    rate_figure,
)
from buildbook.figures.answers.gathering import Lacking
from buildbook.figures.answers.propulsion.hover import hover_current_with
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt
from buildbook.report.figure import HOVER_A, Figure
from buildbook.report.figures.known_figures import Headline
from buildbook.report.history import FlightDone
from buildbook.report.state import ItemNow


def flown_current(craft: Craft) -> Iterator[Answer]:
    """Current as flown: all of the newest flights, then by pack, then by gain set."""
    everything = craft.now.flights
    alike = flown_alike(craft, everything)
    yield attempt("flown_current", None, _of_all, craft)
    for pack in craft.packs:
        own = [flight for flight in everything if pack.tag in flight.row.packs]
        flights = comparable(craft, own)
        if flights:
            yield attempt("flown_current", pack.tag, rate_figure, craft, flights, own, pack.tag)
    for gains in craft.now.gain_sets:
        own = [flight for flight in alike if flight.gains == gains]
        flights, of = comparable(craft, own), f"gains {gains}"
        if flights:
            yield attempt("flown_current", of, _of_gains, craft, flights, own, of)


def _of_all(craft: Craft) -> Figure:
    flights, among = flights_with_charge(craft), flown_alike(craft, craft.now.flights)
    return _beside_hover(craft, rate_figure(craft, flights, among, None))


def _of_gains(
    craft: Craft, flights: Sequence[FlightDone], among: Sequence[FlightDone], of: str
) -> Figure:
    return rate_figure(craft, flights, among, of, of_gains=True)


def _beside_hover(craft: Craft, figure: Figure) -> Figure:
    """With the current of a hover, and by how much the log differs from it."""

    if not craft.hovers:
        return figure
    try:
        hover = number_of(hover_current_with(craft, craft.pack))
    except (Lacking, ValueError):
        return figure
    beside = {
        HOVER_A: hover,
        "hover by theory, difference": hover / number_of(figure) - 1,
    }
    return msgspec.structs.replace(figure, other={**figure.other, **beside})


def flown_time(craft: Craft) -> Iterator[Answer]:
    """Time until the reserve as flown, by pack, against what was predicted."""
    if glides(craft):
        return  # motor_endurance says it
    for pack in craft.known_packs:
        yield attempt("flown_time", pack.tag, _time, craft, pack)


def _time(craft: Craft, pack: ItemNow) -> Figure:
    """By the charge used, and no longer than a flight that stood at its cut-off allows."""
    refuse_unfit(craft, pack)
    figure = cut_short(craft, pack, fitted_time(craft, pack, "flown_time", pack.tag))
    longest = longest_kept_s(craft, pack, flights_with_charge(craft, pack))
    other = longest_beside(longest)
    predicted, words = _predicted(craft, pack), why_short(craft, pack, figure)
    beside = {}
    if predicted:
        beside = {
            "predicted, s": predicted,
            "predicted against flown": predicted / number_of(figure) - 1,
        }
        against = _against(predicted, number_of(figure), simulated_at(craft, pack))
        words = (against, *words)
    return msgspec.structs.replace(
        figure,
        other={**figure.other, **other, **beside},
        verdict="; ".join(words) or None,
        in_verdict=(*figure.in_verdict, *beside),
    )


def _against(predicted_s: float, flown_s: float, at: str) -> str:
    """The prediction beside what was flown. at: its warmth, in words."""
    off = round((predicted_s / flown_s - 1) * 100)
    words = f"{abs(off)} % {'more' if off > 0 else 'less'}" if off else "the same"
    return f"predicted{at}: {amounts.duration(predicted_s)}, {words}"


def _predicted(craft: Craft, pack: ItemNow) -> float | None:
    """By the theory of a hover; of a wing there is none but what the log itself says."""
    if not craft.hovers:
        return None
    try:
        return simulated_s(craft, pack)
    except (Lacking, ValueError):
        return None


FIGURES = (
    FigureSpec(
        name="flown_time",
        title="Flown time",
        line="The same, fitted to what was flown, with prediction.",
        about="Time until the reserve as flown, against what was predicted.",
        topic="Time in the air",
        unit="s",
        shown="public",
        of_aircraft=flown_time,
        methods=(TIME,),
        held_by=("tests/figures/answers/test_log_and_packs.py",),
    ),
    FigureSpec(
        name="flown_current",
        title="Flown current",
        line="What it draws in the air, fitted to the log.",
        about="Current as flown, by pack and by gain set.",
        topic="Time in the air",
        unit="A",
        shown="public",
        of_aircraft=flown_current,
        methods=(FIT,),
        held_by=(
            "tests/figures/answers/test_log_and_packs.py",
            "tests/figures/answers/test_changes.py",
        ),
        headline=Headline(place=5, of=(None,)),
    ),
)
