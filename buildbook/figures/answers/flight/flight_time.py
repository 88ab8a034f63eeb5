"""How long a pack lasts: simulated, and from ten flights on as it was flown.

Before that, from the first flight with a charge on, the shorter of log and theory is planned with:
a log that is known to be short must not be overruled by a theory that rests on defaults. Likewise
where ten flights are only there with those from before motor, propeller or mass changed. One to
three flights make no rate: the highest draw of them stands for the log, of a multirotor never
without a theory; an aeroplane has none.
"""

import math
from collections.abc import Iterator

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.aloft import ALOFT, time_aloft
from buildbook.figures.answers.flight.cold import Cold, cold_at_field, cold_notes
from buildbook.figures.answers.flight.few_flights import (
    FEW,
    few_flights,
    few_time,
    few_watts,
    few_words,
    is_by_few,
)
from buildbook.figures.answers.flight.pack_in_flight import (
    cut_short,
    longest_beside,
    longest_kept_s,
    why_short,
)
from buildbook.figures.answers.flight.prediction import (
    lasting,
    least_share,
    low_end_notes,
    reserve_words,
    simulated,
    simulated_at,
    simulated_s,
    to_reserve,
    worst_in,
)
from buildbook.figures.answers.flight.rates import (
    ENOUGH,
    SINCE_CHANGE,
    TIME,
    before_change,
    carried_kg,
    fitted_time,
    flights_with_charge,
    flown_watts,
    glides,
    since_the_change,
)
from buildbook.figures.answers.flight.under_load import power_draw
from buildbook.figures.answers.gathering import Lacking, number
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.packs.packs import nominal, resistance, usable_ah
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, attempt_packs, rests_on
from buildbook.hangar.packs.limits import takes
from buildbook.hangar.time_in_service import LEAST_FITTED
from buildbook.report.figure import Figure, Input
from buildbook.report.figures.known_figures import Headline
from buildbook.report.state import ItemNow

MOST_OF_THEORY = 1.5
"""Where a hover by theory takes so many times what was drawn, the log is not believed: flying ahead
takes less, but not a third less. Common practice, no source."""
TOO_LITTLE = "the log draws over a third less than a hover takes: is 'used' right?"


def time_with(craft: Craft, pack: ItemNow) -> Figure:
    """The flight time in s with a pack; its low end is what to plan with."""
    return craft.once(f"flight time with {pack.tag}", _time_with, craft, pack)


def refuse_unfit(craft: Craft, pack: ItemNow) -> None:
    """Lacking: it is not to be flown on this aircraft, by its cells or by the mass with it."""
    for here in craft.now.items():
        part = craft.hangar.items.get(here.tag)
        if part is not None and not takes(part.spec, pack.spec):
            series = amounts.cells(pack.spec.cells.series if pack.spec.cells else 0)
            words = f"{pack.tag} is {series}, and {part.tag} does not take that"
            raise Lacking(words, part.spec.place("cells"))
    most_kg = craft.now.bounds.max_mass_kg if craft.now.bounds else None
    if most_kg is None or not craft.weighed.believed:
        return  # what was never weighed is to be weighed first
    if round((mass_with(craft, pack).value or 0.0) - most_kg, 6) > 0:
        words = f"{pack.tag} takes it over the mass limit of {amounts.mass(most_kg)}"
        raise Lacking(words, craft.where("bounds"))


def motor_endurance(craft: Craft) -> Iterator[Answer]:
    """How long a pack drives an aeroplane whose flights say how long the motor ran."""
    if craft.now.record.kind == "aeroplane" and glides(craft):
        yield from attempt_packs("motor_endurance", craft, _endurance)


def flight_time(craft: Craft, pack: ItemNow) -> Figure:
    """The time until the reserve, for each pack."""
    refuse_unfit(craft, pack)
    if glides(craft):
        return time_aloft(craft, pack, _endurance(craft, pack))
    return time_with(craft, pack)


def _endurance(craft: Craft, pack: ItemNow) -> Figure:
    """What its timer is set by: of a glider the time of the motor."""
    figure = time_with(craft, pack)
    longest_s = longest_kept_s(craft, pack, flights_with_charge(craft, pack), by_motor=True)
    return msgspec.structs.replace(
        figure,
        name="motor_endurance",
        other={**figure.other, **longest_beside(longest_s, by_motor=True)},
    )


def _time_with(craft: Craft, pack: ItemNow) -> Figure:
    """By log or theory, and no longer than a flight that stood at its cut-off allows."""
    figure = _log_or_theory(craft, pack)
    cut = cut_short(craft, pack, figure)
    if cut is figure:
        return figure
    return msgspec.structs.replace(cut, verdict=_with_basis(craft, pack, cut))


def _log_or_theory(craft: Craft, pack: ItemNow) -> Figure:
    """From ten flights on as flown. Before that whichever of log and theory plans less time."""
    flights = flights_with_charge(craft, pack)
    flown = None if len(flights) < LEAST_FITTED else _flown(craft, pack)
    told = flown is not None and len(flights) >= ENOUGH and not before_change(craft, flights)
    if flown is not None and told and not _hardly_drawn(craft, pack, flown):
        return flown
    try:
        theory = simulated(craft, pack)
    except (Lacking, ValueError):
        if flown is None and craft.hovers:
            raise
        few = _by_few(craft, pack)  # of an aeroplane there is no theory
        alone = few if flown is None else (flown, *few)
        if not alone:
            raise
        return min(alone, key=_low_s)
    by_log = (*(() if flown is None else (flown,)), *_by_few(craft, pack))
    least = min(by_log, key=_low_s, default=theory)
    if _low_s(least) < _low_s(theory):
        return least
    return msgspec.structs.replace(
        theory,
        verdict=_with_basis(craft, pack, theory),
        notes=(*theory.notes, *((TOO_LITTLE,) if told else ())),
        other=_flown_beside(craft, pack, theory),
    )


def _hardly_drawn(craft: Craft, pack: ItemNow, flown: Figure) -> bool:
    """Whether the log draws so much less than a hover by theory that it may be mistyped."""
    if not craft.hovers:
        return False
    flown_a = usable_ah(craft.keeper, pack) * 3600 / (flown.value or math.inf)
    try:
        hover_w = number(power_draw(craft, pack))
        return hover_w > MOST_OF_THEORY * flown_a * number(nominal(pack))
    except (Lacking, ValueError):
        return False


def _low_s(figure: Figure) -> float:
    return figure.low or 0.0


def _with_basis(craft: Craft, pack: ItemNow, figure: Figure) -> str:
    return "; ".join((_planned(craft, pack, figure), *planned_by(craft, pack, figure)))


def planned_by(craft: Craft, pack: ItemNow, time: Figure) -> tuple[str, ...]:
    """What a time to plan with rests on, where it is no rate fitted to the log."""
    if time.basis == "fitted":
        return ()
    return (few_words(craft, pack, time) if is_by_few(time) else so_far(craft, pack),)


def is_flown(time: Figure) -> bool:
    """Whether a time to plan with is by the log, by a rate or by the draw of few flights."""
    return time.basis == "fitted" or is_by_few(time)


def carried_in(craft: Craft, pack: ItemNow, time: Figure) -> float:
    """The middle payload in kg of the flights that a time is by; by theory there is none."""
    if is_by_few(time):
        return carried_kg(few_flights(craft, pack))
    return carried_kg(flights_with_charge(craft, pack)) if time.basis == "fitted" else 0.0


def _by_few(craft: Craft, pack: ItemNow) -> tuple[Figure, ...]:
    """By the highest draw of few flights, where they are few."""
    time = few_time(craft, pack)
    if time is None:
        return ()
    time = _in_the_cold(craft, pack, time, few_watts(pack, time))
    return (msgspec.structs.replace(time, verdict=_with_basis(craft, pack, time)),)


def _flown(craft: Craft, pack: ItemNow) -> Figure:
    fitted = _in_the_cold(craft, pack, fitted_time(craft, pack, "flight_time", pack.tag))
    beside, at = _theory_beside(craft, pack, fitted), simulated_at(craft, pack)
    return msgspec.structs.replace(
        fitted,
        other=beside,
        verdict=_planned(craft, pack, fitted),
        notes=(
            *fitted.notes,
            reserve_words(craft),
            *((f"simulated for a pack{at}",) if beside and at else ()),
        ),
    )


def _in_the_cold(craft: Craft, pack: ItemNow, fitted: Figure, watts: float | None = None) -> Figure:
    """A time by the log, with the low end that a pack as cold as the field leaves.

    watts: the power that it is planned at; None: as fitted to the log.
    """
    cold, notes = cold_at_field(craft, pack), cold_notes(craft, pack)
    if fitted.low is None:
        return msgspec.structs.replace(fitted, notes=(*fitted.notes, *notes))
    share, ended, counted = _share_left(craft, pack, cold, watts)
    known = rests_on(fitted.inputs, stated=fitted.basis == "fitted")
    inputs = (*fitted.inputs, *(cold.inputs if cold else ()), *counted)
    weakest = rests_on(inputs, stated=True, beside=fitted.about or fitted.of or "")
    return msgspec.structs.replace(
        fitted,
        low=fitted.low * share,
        level=fitted.level if share == 1 else None,
        inputs=inputs,
        notes=(*weakest, *fitted.notes[len(known) :], *notes, *ended),
    )


def _share_left(
    craft: Craft, pack: ItemNow, cold: Cold | None, watts: float | None
) -> tuple[float, tuple[str, ...], tuple[Input, ...]]:
    """The time in that air over that down to the reserve, at the power as flown; what ends it.

    And the resistance that it is by.

    A rate by the log knows charge alone: where the voltage ends a flight sooner, that shortens it.
    """
    try:
        watts = number(flown_watts(craft, pack)) if watts is None else watts
        ended = low_end_notes(craft, pack, watts, cold)
        if cold is None and not ended:
            return 1.0, (), ()
        left = lasting(craft, pack, watts, cold)
        worst = worst_in(craft, pack, cold)
        by = worst.given if worst.logged else resistance(pack)  # what cold adds is named apart
        return least_share(left, to_reserve(craft, pack, watts)), ended, (by,)
    except (Lacking, ValueError):
        return cold.capacity_share if cold else 1.0, (), ()


def so_far(craft: Craft, pack: ItemNow) -> str:
    """What is said of a time that theory gives."""
    flights = flights_with_charge(craft, pack)
    if before_change(craft, flights):
        after = len(since_the_change(craft, flights))
        return f"{amounts.count('flight', after)} {SINCE_CHANGE}"
    return f"{amounts.count('flight', len(flights))} so far" if flights else "not yet flown"


def _planned(craft: Craft, pack: ItemNow, figure: Figure) -> str:
    """The headline; a pack that is set aside says that instead."""
    if pack.state.state != "serviceable":
        return f"{pack.tag} is {pack.state.state}"
    return "; ".join(
        (f"plan with {amounts.duration(figure.low or 0.0)}", *why_short(craft, pack, figure))
    )


def _theory_beside(craft: Craft, pack: ItemNow, fitted: Figure) -> dict[str, float]:
    """By the theory of a hover; of a wing there is none but what the log itself says."""
    if not craft.hovers:
        return {}
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
            "flown; before that the shorter of both. Its low end is the one to plan with. Of a "
            "glider the time in the air that its motor's time makes."
        ),
        topic="Time in the air",
        unit="s",
        shown="public",
        with_each_pack=flight_time,
        laws=(
            "constant_power_discharge",
            "load_current_a",
            "open_circuit_cell_v",
        ),
        methods=(TIME, FEW, ALOFT),
        held_by=(
            "tests/published/test_flight_battery.py",
            "tests/figures/answers/test_small_quad.py",
            "tests/figures/answers/test_log_and_packs.py",
            "tests/figures/answers/test_few_flights.py",
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
