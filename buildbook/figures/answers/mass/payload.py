"""What it may carry on top of what it weighs, and what time to plan with then."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import cold_at_field
from buildbook.figures.answers.flight.flight_time import carried_in, is_flown, time_with
from buildbook.figures.answers.flight.prediction import discharge_with, shortest, unflown_most
from buildbook.figures.answers.gathering import (
    Lacking,
    declared,
    default,
    from_figure,
    number,
    worked_out,
)
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.packs.packs import rested_at_reserve
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.hover_ways import electrical
from buildbook.figures.answers.propulsion.losses import interference, pair_notes
from buildbook.figures.answers.propulsion.supply import (
    AtReserve,
    at_freezing,
    at_reserve_rests_on,
    reserve_supply,
    reserve_unknown,
)
from buildbook.figures.answers.spec import FigureSpec, hovering
from buildbook.figures.answers.working import by_method, worked
from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.law import CUSTOM
from buildbook.report.figure import Figure, Input, Name
from buildbook.report.state import ItemNow

WANTED = 2.0  # thrust over weight that most builders keep. Common practice, no source.
PAYLOAD = by_method(
    "F/(τ·g) - m: thrust F at full throttle, wanted thrust to weight τ, all-up mass m",
    "the definition; F: as for the thrust to weight",
    "thrust_to_weight",
)

BELOW_LIMIT = by_method("m_max - m: your own maximum mass less the all-up mass", "addition")


def _wanted(craft: Craft) -> Input:
    bounds = craft.now.bounds
    place = craft.where("bounds")
    name = "wanted thrust to weight"
    if bounds is not None and bounds.thrust_to_weight is not None:
        return declared(name, bounds.thrust_to_weight, "ratio", place)
    words = f"{CUSTOM}; 'thrust_to_weight' under 'bounds' replaces it"
    return default(name, WANTED, "ratio", words, place)


def payload(craft: Craft, pack: ItemNow) -> Figure:
    """The mass that may be added, for each pack."""
    full = full_throttle(craft, pack)
    mass = from_figure(mass_with(craft, pack), Name("all-up mass", "with", pack.tag))
    wanted = _wanted(craft)

    def spare(mass_kg: float, thrust_to_weight: float, **values: float) -> float:
        return full.thrust(**values) / (thrust_to_weight * STANDARD_GRAVITY_M_S2) - mass_kg

    inputs = {"mass_kg": mass, "thrust_to_weight": wanted, **full.inputs, **interference(craft)}
    by_thrust = spare(**{key: number(one) for key, one in inputs.items()})
    words = f"to a thrust to weight of {amounts.significant(number(wanted), 3)}"
    limit = _limit(craft)
    by_limit = float("inf") if limit is None else number(limit) - number(mass)
    limited, value = by_limit < by_thrust, min(by_limit, by_thrust)
    left = _at_reserve(craft, pack, inputs, spare) if value > 0 else _Left((), {})
    first = left.supply is not None and left.kg < value
    other: dict[str, float] = {}
    if limited or first:
        other["by the thrust to weight, kg"] = by_thrust
    said = (words, *left.words)
    if first and left.supply is not None:
        volts = amounts.voltage(number(full.inputs["supply_v"]))
        held, *cold = left.held
        at_reserve = f"{left.most}at the reserve, {words}, {held}"
        said = (at_reserve, *cold, f"{_grams(by_thrust)} at {volts}")
        if limited:
            said = (*said, f"{1000 * by_limit:.0f} g to your own mass limit")
            other["by your own limit, kg"] = by_limit
        value, inputs = left.kg, {**inputs, "supply_v": left.supply}
    elif limited:
        said = ("to your own mass limit", f"{1000 * by_thrust:.0f} g {words}", *left.words)
        value = by_limit
    by_mass = limit if limited and not first else None
    unknown = first and left.most
    spare_kg = None if unknown else value
    then, times = _then(craft, pack, number(mass), spare_kg, limited=by_mass is not None)
    other |= {**left.other, **times}
    figure = worked(
        "payload",
        spare if by_mass is None else _below,
        inputs if by_mass is None else {"mass_kg": mass, "max_mass_kg": by_mass},
        unit="kg",
        way=PAYLOAD if by_mass is None else BELOW_LIMIT,
        of=pack.tag,
        further=full.further if by_mass is None else (),
        verdict="; ".join((*said, *then)),
        other=other,
        in_verdict=tuple(other) if "plan with it, s" in times else (),
        notes=(
            *(full.asides if first else full.notes),
            *pair_notes(craft),
            *(() if first else left.assumed),
        ),
    )
    # What the pack holds at most would promise more than it lifts.
    return msgspec.structs.replace(figure, value=None, sensitivity=()) if unknown else figure


class _Left(NamedTuple):
    """What the thrust still allows at the reserve, in kg and words.

    held: the voltage left, in words, and what is left at 0 °C; supply: the voltage of the motors,
    None where it is not known. at_most: the pack holds less than that, and nobody knows how much
    less. assumed: the note on what it rests on.
    """

    words: tuple[str, ...]
    other: Mapping[str, float]
    kg: float = 0.0
    held: tuple[str, ...] = ()
    supply: Input | None = None
    at_most: bool = False
    assumed: tuple[str, ...] = ()

    @property
    def most(self) -> str:
        """Said before ``at the reserve`` of what is no more than a limit."""
        return f"under {_grams(self.kg)} " if self.at_most and self.kg > 0 else ""


def _at_reserve(
    craft: Craft, pack: ItemNow, inputs: Mapping[str, Input], spare: Callable[..., float]
) -> _Left:
    """What the thrust still allows when the reserve is reached; nothing where it is not known."""
    values = {key: number(one) for key, one in inputs.items()}

    def spare_at(held: AtReserve) -> float:
        return spare(**values | {"supply_v": held.motors_v})

    try:
        held = reserve_supply(craft, pack)
        left = spare_at(held)
    except Lacking:
        return _Left((), {})
    except ValueError as refused:
        return _Left((reserve_unknown(refused),), {})
    given = (rested_at_reserve(pack, craft.keeper), held.worst.given)
    supply = worked_out("voltage at the motors at the reserve", held.motors_v, "V", given)
    cold, frozen = at_freezing(craft, pack, spare_at, _grams, "at the reserve at 0 °C, kg")
    known = {} if held.under else {"at the reserve, kg": left}
    words = f"{held.at_most(left, _grams)} at the reserve, {held.left}"
    return _Left(
        words=(words, *cold),
        other={**known, **frozen, **held.volts},
        kg=left,
        held=(held.left, *cold),
        supply=supply,
        at_most=held.under,
        assumed=at_reserve_rests_on(craft, pack, held),
    )


def _grams(spare_kg: float) -> str:
    return f"{1000 * spare_kg:.0f} g" if spare_kg > 0 else "nothing"


def _limit(craft: Craft) -> Input | None:
    """The keeper's greatest mass, where one is written."""
    bounds = craft.now.bounds
    if bounds is None or bounds.max_mass_kg is None:
        return None
    place = craft.where("bounds")
    return declared("maximum mass", bounds.max_mass_kg, "kg", place)


def _below(mass_kg: float, max_mass_kg: float) -> float:
    return max_mass_kg - mass_kg


class _Times(NamedTuple):
    """Seconds in the air at a mass: in the middle, and the low end, which is planned with."""

    middle_s: float
    low_s: float


def _then(
    craft: Craft, pack: ItemNow, mass_kg: float, spare_kg: float | None, *, limited: bool
) -> tuple[tuple[str, ...], dict[str, float]]:
    """Time to plan with, with and without it; limited: it is what the keeper's own limit leaves.

    spare_kg None: nobody knows how much may be added, so nothing is said.
    """
    if spare_kg is None:
        return (), {}
    if spare_kg <= 0:
        return ("nothing to spare",), {}
    without, loaded, by = _times(craft, pack, mass_kg, mass_kg + spare_kg)
    other = {"hover without it, s": without.middle_s, "plan without it, s": without.low_s}
    if isinstance(loaded, Exception):
        return (f"how long it flies then is not known: {loaded}",), other
    words = (
        f"plan with {amounts.duration(loaded.low_s)} with it, "
        f"{amounts.duration(without.low_s)} without, {by}"
    )
    key = "hover at your own limit, s" if limited else "hover with it, s"
    return (words,), {**other, key: loaded.middle_s, "plan with it, s": loaded.low_s}


def _times(
    craft: Craft, pack: ItemNow, mass_kg: float, loaded_kg: float
) -> tuple[_Times, _Times | Exception, str]:
    """Seconds at both masses, and by what: as flown where the log tells the draw, else by theory.

    The draw of the log grows with the mass to the power 1.5, as that of a hover (momentum theory:
    P goes with T to the power 1.5).
    """
    flown = time_with(craft, pack)
    low_s = flown.low or 0.0
    if is_flown(flown) and flown.value:
        with_kg = mass_kg + carried_in(craft, pack, flown)
        shares = [(with_kg / kg) ** 1.5 for kg in (mass_kg, loaded_kg)]
        without, loaded = (_Times(flown.value * share, low_s * share) for share in shares)
        return without, loaded, "as flown"
    method = electrical(craft, pack)
    values = {key: number(one) for key, one in method.inputs.items()}
    most, cold = unflown_most(craft, pack), cold_at_field(craft, pack)
    bare_w = method.total_w(**values)
    without = _Times(discharge_with(craft, pack, bare_w).duration_s, low_s)
    try:
        watts = method.total_w(**{**values, "mass_kg": loaded_kg})
        middle_s = discharge_with(craft, pack, watts).duration_s
        bare_s = shortest(craft, pack, bare_w * most, cold)
        share = shortest(craft, pack, watts * most, cold) / bare_s if bare_s > 0 else 0.0
        return without, _Times(middle_s, low_s * share), "by theory"
    except (Lacking, ValueError) as refused:
        return without, refused, "by theory"


FIGURES = (
    FigureSpec(
        name="payload",
        title="Payload",
        line="What may be added to it, by thrust or your own mass limit.",
        about=(
            "Mass that may be added until the wanted thrust to weight, with the reserve left, or "
            "the keeper's own limit is reached, and the time to plan with, with and without it."
        ),
        topic="Mass and balance",
        unit="kg",
        worded="grams",
        shown="public",
        asked_of=hovering,
        with_each_pack=payload,
        laws=("bench_full_throttle", "full_throttle_point"),
        methods=(PAYLOAD, BELOW_LIMIT),
        held_by=("tests/figures/answers/test_trim_and_turns.py",),
    ),
)
