"""Thrust over weight and power over mass, at full throttle standing still."""

from collections.abc import Callable

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, from_figure, number
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.losses import interference, pair_notes
from buildbook.figures.answers.propulsion.supply import (
    MOTORS_THEN,
    at_freezing,
    at_reserve_rests_on,
    reserve_supply,
    reserve_unknown,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Way, by_law, by_method, worked
from buildbook.figures.laws.propulsion.margins import thrust_to_weight as ratio_of
from buildbook.report.figure import RATIO_AT_RESERVE, Figure, Name
from buildbook.report.figures.known_figures import Headline
from buildbook.report.state import ItemNow

POWER_OVER_MASS = by_method(
    "current of all rotors at full throttle, times the voltage, over the all-up mass",
    "the definition; the current: as for the thrust to weight",
)


def _holds_least(craft: Craft) -> ItemNow:
    """The pack with the least thrust to weight at the reserve; where none tells, the last flown.

    Of one that holds too little for the law of full throttle less is left than of any other.
    """

    def left(pack: ItemNow) -> tuple[bool, float]:
        try:
            held = reserve_supply(craft, pack)
            full = full_throttle(craft, pack)
            mass_kg = mass_with(craft, pack).value or 0.0
            given = {key: number(one) for key, one in interference(craft).items()}
            values = {**full.values(), **given, "supply_v": held.motors_v}
            return not held.under, ratio_of(full.thrust(**values), mass_kg)
        except Lacking:
            return True, float("inf")
        except ValueError:
            return False, float("-inf")

    last = craft.pack
    return min((last, *(one for one in craft.known_packs if one is not last)), key=left)


def thrust_to_weight(craft: Craft) -> Figure:
    """Full-throttle static thrust over weight, with the pack that leaves least at the reserve."""
    pack = _holds_least(craft)
    full = full_throttle(craft, pack)
    mass = from_figure(mass_with(craft, pack), Name("all-up mass", "with", pack.tag))

    def ratio(mass_kg: float, **values: float) -> float:
        return ratio_of(full.thrust(**values), mass_kg)

    pair = interference(craft)
    values = {**full.values(), **{key: number(one) for key, one in pair.items()}}
    words, other, assumed = _at_reserve(
        craft, pack, lambda volts: ratio(**{**values, "mass_kg": number(mass), "supply_v": volts})
    )
    law = by_law("thrust_to_weight")
    way = Way(
        formula=f"{law.formula}; F: {full.way.formula}",
        source=f"{law.source}; F: {full.way.source}",
        law=law.law,
    )
    return worked(
        "thrust_to_weight",
        ratio,
        {"mass_kg": mass, **full.inputs, **pair},
        unit="ratio",
        way=way,
        further=full.further,
        notes=(*full.notes, *pair_notes(craft), *assumed),
        verdict="; ".join((f"with {pack.tag}", *words)),
        other={"thrust, N": full.thrust(**values), **other},
        in_verdict=tuple(key for key in other if key != MOTORS_THEN),
    )


def _at_reserve(
    craft: Craft, pack: ItemNow, ratio: Callable[[float], float]
) -> tuple[tuple[str, ...], dict[str, float], tuple[str, ...]]:
    """The same by the voltage left when the reserve is reached; nothing where nobody knows it.

    In words, under keys, and the note on what it rests on.
    """
    try:
        held = reserve_supply(craft, pack)
        left = ratio(held.motors_v)
    except Lacking:
        return (), {}, ()
    except ValueError as refused:
        return (reserve_unknown(refused),), {}, ()
    words = f"{held.at_most(left, _three)} at the reserve, {held.left}"
    cold, frozen = at_freezing(
        craft, pack, lambda then: ratio(then.motors_v), _three, "at the reserve at 0 °C"
    )
    known = {} if held.under else {RATIO_AT_RESERVE: left}
    assumed = at_reserve_rests_on(craft, pack, held)
    return (words, *cold), {**known, **frozen, **held.volts}, assumed


def _three(ratio: float) -> str:
    return amounts.significant(ratio, 3)


def specific_power(craft: Craft) -> Figure:
    """Electrical power at full throttle over mass, with the pack of the last flight."""
    pack = craft.pack
    full = full_throttle(craft, pack)
    mass = from_figure(mass_with(craft, pack), Name("all-up mass", "with", pack.tag))

    def power_over_mass(mass_kg: float, supply_v: float, **values: float) -> float:
        return full.amps(supply_v=supply_v, **values) * supply_v / mass_kg

    return worked(
        "specific_power",
        power_over_mass,
        {"mass_kg": mass, **full.inputs},
        unit="W/kg",
        way=POWER_OVER_MASS,
        further=full.further,
        notes=full.notes,
    )


FIGURES = (
    FigureSpec(
        name="thrust_to_weight",
        title="Thrust to weight",
        line="At full throttle, standing still.",
        about="Static thrust at full throttle over the weight.",
        topic="Thrust and hover",
        unit="ratio",
        shown="public",
        of_aircraft=thrust_to_weight,
        laws=(
            "thrust_to_weight",
            "bench_full_throttle",
            "full_throttle_point",
        ),
        held_by=(
            "tests/published/test_flight_hover.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
        headline=Headline(place=6),
    ),
    FigureSpec(
        name="specific_power",
        title="Power to mass",
        line="Electrical, at full throttle, standing still.",
        about="Electrical power at full throttle over the all-up mass.",
        topic="Thrust and hover",
        unit="W/kg",
        shown="public",
        of_aircraft=specific_power,
        laws=("bench_full_throttle", "full_throttle_point"),
        methods=(POWER_OVER_MASS,),
        held_by=("tests/figures/answers/test_bench_and_wire.py",),
    ),
)
