"""What to plan with beside the ordinary flight: a pack at freezing, a payload as it was flown.

Both scale the low end that is planned with anyway, so whatever shortened that shortens these.
"""

from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import Cold, cold_at_field
from buildbook.figures.answers.flight.few_flights import few_watts, is_by_few
from buildbook.figures.answers.flight.flight_time import carried_in, time_with
from buildbook.figures.answers.flight.prediction import (
    Lasting,
    ended_words,
    lasting,
    least_share,
    low_end_notes,
    to_reserve,
    unflown_most,
)
from buildbook.figures.answers.flight.rates import fit, flown_watts, glides, lately
from buildbook.figures.answers.flight.under_load import power_draw
from buildbook.figures.answers.gathering import Lacking, number
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.packs.packs import usable_ah
from buildbook.figures.answers.working import LEVEL
from buildbook.figures.laws.law import CUSTOM
from buildbook.hangar.time_in_service import LEAST_FITTED
from buildbook.report.history import FlightDone
from buildbook.report.state import ItemNow

LIKE_KG = 0.02  # payloads so near to the heaviest, as a share of it, are the same one
HOVER_POWER = 1.5  # power of a hover goes with the thrust to it: momentum theory


class Loaded(NamedTuple):
    """The heaviest payload flown of late, in kg, its flights, and what it does to the power.

    times_power: of the power that the ordinary time is planned at. hovers: a wing flies level.
    """

    kg: float
    flights: tuple[FlightDone, ...]
    times_power: float
    hovers: bool = True

    @property
    def words(self) -> str:
        """How it is named: ``with 140 g``."""
        return f"with {amounts.mass(self.kg)}"

    @property
    def note(self) -> str:
        """What its plan rests on."""
        flown = amounts.count("flight", len(self.flights))
        takes = "a hover" if self.hovers else "level flight"
        return (
            f"{self.words}: {amounts.fixed(self.times_power, 2)} times the power, as {takes} takes "
            f"it with the mass to the power 1.5, or what {flown} with it used, whichever is shorter"
        )


def loaded(craft: Craft, pack: ItemNow) -> Loaded | None:
    """Of what was flown with more than its ordinary time is planned with.

    A wing at one angle flies level with the weight to the power 1.5 as well. None of a glider: its
    motor takes what it takes, whatever it carries.
    """
    if glides(craft):
        return None
    flights = [one for one in craft.now.flights if one.payload_kg]
    flights = list(lately(craft, flights))
    if not flights:
        return None
    most = max(one.payload_kg or 0.0 for one in flights)
    like = tuple(one for one in flights if (one.payload_kg or 0.0) >= most * (1 - LIKE_KG))
    bare = mass_with(craft, pack).value or 0.0
    planned = bare + carried_in(craft, pack, time_with(craft, pack))
    if most <= planned - bare or planned <= 0:
        return None
    times = ((bare + most) / planned) ** HOVER_POWER
    return Loaded(most, like, times, hovers=craft.hovers)


def time_words(seconds: float) -> str:
    """A time to plan with; of a pack that cannot give the power, that."""
    return amounts.duration(seconds) if seconds > 0 else "not at all"


def freezing_note(cold: Cold) -> str:
    """What a time at freezing rests on."""
    lost = amounts.share(1 - cold.capacity_share)
    times = amounts.fixed(cold.resistance_times, 1)
    return (
        f"at 0 °C: {lost} of the capacity lost at most, half a per cent a degree: {CUSTOM}; "
        f"{times} times the resistance at most: from memory"
    )


def planned_s(
    craft: Craft, pack: ItemNow, cold: Cold | None = None, load: Loaded | None = None
) -> float:
    """The low end in s with a colder pack, a payload, or both.

    cold: None is the field, as in the ordinary time. Lacking, ValueError: no time is known.
    """
    time, at_field = time_with(craft, pack), cold_at_field(craft, pack)
    times, watts = 1.0 if load is None else load.times_power, _planned_w(craft, pack)
    before = _lasts(craft, pack, watts, 1.0, at_field)
    after = _lasts(craft, pack, watts, times, cold or at_field)
    found = (time.low or 0.0) * least_share(after, before)
    if load is None:
        return found
    whole = (1 / times,) * 2 if watts is None else to_reserve(craft, pack, watts * times)
    return min(found, _as_used_s(craft, pack, load.flights) * least_share(after, whole))


def _lasts(
    craft: Craft, pack: ItemNow, watts: float | None, times: float, cold: Cold | None
) -> Lasting:
    """At so many times a power; where none is known, the share of the charge that is left."""
    if watts is None:
        left = (cold.capacity_share if cold else 1.0) / times
        return left, left
    return lasting(craft, pack, watts * times, cold)


def ended_in(
    craft: Craft, pack: ItemNow, cold: Cold | None, load: Loaded | None = None
) -> str | None:
    """What ends such a flight before the reserve, in words; None where nothing does."""
    watts, air = _planned_w(craft, pack), cold or cold_at_field(craft, pack)
    if watts is None:
        return None
    watts *= 1.0 if load is None else load.times_power
    if not low_end_notes(craft, pack, watts, air):
        return None
    return ended_words(craft, pack, watts, air)


def _planned_w(craft: Craft, pack: ItemNow) -> float | None:
    """The power that the low end is planned at; None where the pack's own curve is not known."""
    try:
        time = time_with(craft, pack)
        if is_by_few(time):
            watts = few_watts(pack, time)
        elif time.basis == "fitted":
            watts = number(flown_watts(craft, pack))
        else:
            watts = number(power_draw(craft, pack)) * unflown_most(craft, pack)
        return watts if min(to_reserve(craft, pack, watts)) > 0 else None
    except (Lacking, ValueError):
        return None


def _as_used_s(craft: Craft, pack: ItemNow, flights: tuple[FlightDone, ...]) -> float:
    """Time in s by what flights with it used: the low end of a fit, of few the most that one did.

    Infinite where none says what it used.
    """
    from buildbook.figures.laws.statistics.robust import forecast_time

    used = tuple(one for one in flights if one.row.used_ah and one.motor_s > 0)
    flown_ah = usable_ah(craft.keeper, pack)
    if len(used) >= LEAST_FITTED:
        return forecast_time(fit(craft, used), flown_ah, level=LEVEL).low or 0.0
    each = (flown_ah / (one.row.used_ah or 1.0) * one.motor_s for one in used)
    return min(each, default=float("inf"))
