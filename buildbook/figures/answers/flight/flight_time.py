"""How long a pack lasts: simulated, and from ten flights on as it was flown.

Between four and ten flights the shorter of both is planned with: a log that is known to be short
must not be overruled by a theory that rests on defaults. Likewise where ten flights are only there
with those from before motor, propeller or mass changed.
"""

from collections.abc import Iterator

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.aloft import ALOFT, time_aloft
from buildbook.figures.answers.flight.cold import Cold, cold_at_field, cold_notes
from buildbook.figures.answers.flight.cut_short import cut_short, why_short
from buildbook.figures.answers.flight.prediction import (
    discharge_with,
    reserve_words,
    shortest,
    simulated,
    simulated_s,
)
from buildbook.figures.answers.flight.rates import (
    ENOUGH,
    LEAST,
    TIME,
    before_change,
    fitted_time,
    flights_with_charge,
    flown_watts,
    glides,
    since_the_change,
)
from buildbook.figures.answers.gathering import Lacking, number
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt_packs, rests_on
from buildbook.report.figure import Figure
from buildbook.report.figures.known_figures import Headline
from buildbook.report.state import ItemNow


def flight_time(craft: Craft) -> Iterator[Answer]:
    """The time until the reserve, for each pack."""
    yield from attempt_packs("flight_time", craft, _in_the_air)


def time_with(craft: Craft, pack: ItemNow) -> Figure:
    """The flight time in s with a pack; its low end is what to plan with."""
    return craft.once(f"flight time with {pack.tag}", _time_with, craft, pack)


def motor_endurance(craft: Craft) -> Iterator[Answer]:
    """How long a pack drives an aeroplane whose flights say how long the motor ran."""
    if craft.now.record.kind == "aeroplane" and glides(craft):
        yield from attempt_packs("motor_endurance", craft, _endurance)


def _in_the_air(craft: Craft, pack: ItemNow) -> Figure:
    if glides(craft):
        return time_aloft(craft, pack, _endurance(craft, pack))
    return time_with(craft, pack)


def _endurance(craft: Craft, pack: ItemNow) -> Figure:
    fitted = _in_the_cold(craft, pack, fitted_time(craft, pack, "motor_endurance", pack.tag))
    figure = cut_short(craft, pack, fitted)
    runs = [one.motor_s for one in flights_with_charge(craft) if pack.tag in one.row.packs]
    other = {"longest motor run, s": max(runs)} if runs else {}
    return msgspec.structs.replace(
        figure,
        verdict=_planned(figure, pack),
        other={**figure.other, **other},
        notes=(*figure.notes, reserve_words(craft)),
    )


def _time_with(craft: Craft, pack: ItemNow) -> Figure:
    """By log or theory, and no longer than a flight that stood at its cut-off allows."""
    figure = _log_or_theory(craft, pack)
    cut = cut_short(craft, pack, figure)
    if cut is figure:
        return figure
    more = () if figure.basis == "fitted" else (so_far(craft),)
    return msgspec.structs.replace(cut, verdict="; ".join((_planned(cut, pack), *more)))


def _log_or_theory(craft: Craft, pack: ItemNow) -> Figure:
    """From ten flights on as flown. Before that whichever of log and theory plans less time."""
    flights = flights_with_charge(craft)
    flown = None if len(flights) < LEAST else _flown(craft, pack)
    if flown is not None and len(flights) >= ENOUGH and not before_change(craft, flights):
        return flown
    try:
        theory = simulated(craft, pack)
    except (Lacking, ValueError):
        if flown is None:
            raise
        return flown
    if flown is not None and (flown.low or 0.0) < (theory.low or 0.0):
        return flown
    return msgspec.structs.replace(
        theory,
        verdict=f"{_planned(theory, pack)}; {so_far(craft)}",
        other=_flown_beside(craft, pack, theory),
    )


def _flown(craft: Craft, pack: ItemNow) -> Figure:
    fitted = _in_the_cold(craft, pack, fitted_time(craft, pack, "flight_time", pack.tag))
    return msgspec.structs.replace(
        fitted,
        other=_theory_beside(craft, pack, fitted),
        verdict=_planned(fitted, pack),
        notes=(*fitted.notes, reserve_words(craft)),
    )


def _in_the_cold(craft: Craft, pack: ItemNow, fitted: Figure) -> Figure:
    """A time by the log, with the low end that a pack as cold as the field leaves."""
    cold, notes = cold_at_field(craft, pack), cold_notes(craft, pack)
    if cold is None or fitted.low is None:
        return msgspec.structs.replace(fitted, notes=(*fitted.notes, *notes))
    known = rests_on(fitted.inputs, stated=True)
    inputs = (*fitted.inputs, *cold.inputs)
    return msgspec.structs.replace(
        fitted,
        low=fitted.low * _share_left(craft, pack, cold),
        level=None,
        inputs=inputs,
        notes=(*rests_on(inputs, stated=True), *fitted.notes[len(known) :], *notes),
    )


def _share_left(craft: Craft, pack: ItemNow, cold: Cold) -> float:
    """The time of a cold pack over that of one as it was read, at the power as flown."""
    try:
        watts = number(flown_watts(craft))
        return shortest(craft, pack, watts, cold) / discharge_with(craft, pack, watts).duration_s
    except (Lacking, ValueError):
        return cold.capacity_share


def so_far(craft: Craft) -> str:
    """What is said of a time that theory gives."""
    flights = flights_with_charge(craft)
    if before_change(craft, flights):
        after = len(since_the_change(craft, flights))
        return f"{amounts.count('flight', after)} since motor, propeller or mass changed"
    return f"{amounts.count('flight', len(flights))} so far" if flights else "not yet flown"


def _planned(figure: Figure, pack: ItemNow) -> str:
    """The headline; a pack that is set aside says that instead."""
    if pack.state.state != "serviceable":
        return f"{pack.tag} is {pack.state.state}"
    return "; ".join((f"plan with {amounts.duration(figure.low or 0.0)}", *why_short(figure)))


def _theory_beside(craft: Craft, pack: ItemNow, fitted: Figure) -> dict[str, float]:
    try:
        theory = simulated_s(craft, pack)
    except (Lacking, ValueError):
        return {}
    if not fitted.value:
        return {}
    return {"simulated, s": theory, "simulated, difference": theory / fitted.value - 1}


def _flown_beside(craft: Craft, pack: ItemNow, simulation: Figure) -> dict[str, float]:
    """As flown so far, where a rate can be fitted at all."""
    try:
        flown = fitted_time(craft, pack, "flight_time", pack.tag).value
    except (Lacking, ValueError):
        return {}
    if flown is None or not simulation.value:
        return {}
    return {"as flown so far, s": flown, "as flown, difference": flown / simulation.value - 1}


FIGURES = (
    FigureSpec(
        name="flight_time",
        title="Flight time",
        line="Down to the reserve, by pack; plan with the low end.",
        about=(
            "Time until the reserve: simulated at constant power, from ten flights on as "
            "flown. Its low end is the one to plan with. Of a glider the time in the air that its "
            "motor's time makes."
        ),
        topic="Time in the air",
        unit="s",
        shown="public",
        of_aircraft=flight_time,
        laws=(
            "constant_power_discharge",
            "load_current_a",
            "open_circuit_cell_v",
        ),
        methods=(TIME, ALOFT),
        held_by=(
            "tests/published/test_flight_battery.py",
            "tests/figures/answers/test_small_quad.py",
            "tests/figures/answers/test_log_and_packs.py",
            "tests/figures/answers/test_motor_time.py",
        ),
        headline=Headline(place=2, pick="least low", words="shortest flight"),
    ),
    FigureSpec(
        name="motor_endurance",
        title="Motor endurance",
        line="How long a pack drives it, by pack; plan with the low end.",
        about=(
            "Time until the reserve with the motor running, fitted to the motor times of the log."
        ),
        topic="Time in the air",
        unit="s",
        shown="public",
        of_aircraft=motor_endurance,
        methods=(TIME,),
        held_by=("tests/figures/answers/test_motor_time.py",),
        headline=Headline(place=3, pick="least low", words="shortest"),
    ),
)
