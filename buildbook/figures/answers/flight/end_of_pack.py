"""The last minutes before the reserve: how far the pack sags, and where the stick stands then."""

from collections.abc import Iterator

import msgspec

from buildbook.basis import amounts
from buildbook.basis.units import FREEZING_K
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.advice import power_in_the_air
from buildbook.figures.answers.flight.cold import is_colder
from buildbook.figures.answers.flight.pack_in_flight import (
    IN_LOG,
    LOWEST_V,
    LoggedSag,
    flights_with_lowest,
    lowest_v,
    sag_in_log,
)
from buildbook.figures.answers.flight.under_load import BURST, at_field, worst_resistance
from buildbook.figures.answers.gathering import Lacking, number
from buildbook.figures.answers.packs.packs import (
    cutoff,
    resistance,
    resistance_at,
    rested,
    rested_at_reserve,
)
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.hover_ways import methods_of
from buildbook.figures.answers.propulsion.supply import (
    AT_A_VOLTAGE,
    AtReserve,
    TooLow,
    at_freezing,
    held_supply,
    leads,
    reserve_supply,
    without_supply,
)
from buildbook.figures.answers.spec import FigureSpec, hovering
from buildbook.figures.answers.working import (
    Answer,
    attempt,
    by_law,
    by_method,
    given_value,
    worked,
)
from buildbook.figures.laws.packs.battery import load_current_a, terminal_v
from buildbook.report.figure import Figure, Input
from buildbook.report.state import ItemNow

AT_FULL = by_method(
    "voltage lost, I·R, where the motors at full throttle take the voltage U_0 - I·R",
    AT_A_VOLTAGE,
    "terminal_v",
)
AT_END = by_method(
    "throttle of a hover at the voltage U_0 - I·R that the pack holds at the reserve",
    "as for the hover throttle; Ohm's law",
    "terminal_v",
)

AT_FREEZING_V = "left at 0 °C, V"


def pack_sag(craft: Craft) -> Iterator[Answer]:
    """Voltage lost under load at the reserve: as flown, and at full throttle."""
    for pack in craft.known_packs:
        yield attempt("pack_sag", f"{pack.tag}, in the air", _in_the_air, craft, pack)
        yield attempt("pack_sag", f"{pack.tag}, full throttle", _at_full, craft, pack)


def _in_the_air(craft: Craft, pack: ItemNow) -> Figure:
    """By the resistance, or as the log shows it: the greater of both, and the other beside it."""
    field_k = craft.keeper.field_temperature_k
    by_ohm, logged = _by_resistance(craft, pack, field_k), sag_in_log(craft, pack, field_k)
    sag_v = max(by_ohm.value or 0.0, 0.0 if logged is None else logged.sag_v)
    cold, frozen = _frozen_in_the_air(craft, pack, sag_v)
    if logged is None:
        return _beside(by_ohm, cold, frozen)
    other = {"by its resistance, V": by_ohm.value or 0.0, "by the log, V": logged.sag_v}
    if logged.sag_v <= (by_ohm.value or 0.0):
        words = f"the log shows {amounts.voltage(logged.sag_v)}, {logged.words}"
        return _beside(by_ohm, (*cold, words), {**frozen, **other})
    return _beside(_by_log(craft, pack, by_ohm, logged), cold, frozen)


def _beside(figure: Figure, words: tuple[str, ...], other: dict[str, float]) -> Figure:
    """The same with more in its verdict, and the values of that."""
    return msgspec.structs.replace(
        figure,
        verdict="; ".join((*((figure.verdict,) if figure.verdict else ()), *words)),
        other={**figure.other, **other},
        in_verdict=(*figure.in_verdict, *other),
    )


def _frozen_in_the_air(
    craft: Craft, pack: ItemNow, at_field_v: float
) -> tuple[tuple[str, ...], dict[str, float]]:
    """What is left under load at 0 °C, where the field is warmer. at_field_v: the sag there."""
    if not is_colder(craft):
        return (), {}
    logged = sag_in_log(craft, pack, FREEZING_K)
    try:
        by_ohm = _by_resistance(craft, pack, FREEZING_K).value or 0.0
    except ValueError:
        return ("at 0 °C it cannot give the power",), {}
    sag_v = max(by_ohm, 0.0 if logged is None else logged.sag_v)
    rested_v = number(rested_at_reserve(pack, craft.keeper))
    low, warm = rested_v - sag_v, rested_v - at_field_v
    return (f"at 0 °C {_newly_under(craft, pack, low, warm)}",), {AT_FREEZING_V: low}


def _by_log(craft: Craft, pack: ItemNow, by_ohm: Figure, logged: LoggedSag) -> Figure:
    """Where the log shows more than the resistance tells."""
    open_circuit = rested_at_reserve(pack, craft.keeper)
    low = number(open_circuit) - logged.sag_v
    theory = f"{amounts.voltage(by_ohm.value or 0.0)} by its resistance"
    return given_value(
        "pack_sag",
        logged.sag_v,
        unit="V",
        way=IN_LOG,
        of=by_ohm.of,
        about=by_ohm.about,
        load=by_ohm.load,
        inputs=(logged.given, open_circuit),
        basis=logged.given.basis,
        verdict=f"{_left_under_load(craft, pack, low)}; as the log shows, {logged.words}; {theory}",
        other={
            "under load, V": low,
            "by its resistance, V": by_ohm.value or 0.0,
            "by the log, V": logged.sag_v,
        },
        in_verdict=("under load, V", "by its resistance, V", "by the log, V"),
        notes=("a charger's reading leaves out what builds up over a minute of load",),
    )


def _left_under_load(craft: Craft, pack: ItemNow, low_v: float) -> str:
    left = f"{amounts.voltage(low_v)} left under load at the reserve"
    return "; ".join((left, *_under_cutoff(craft, pack, low_v)))


def _under_cutoff(craft: Craft, pack: ItemNow, low_v: float) -> tuple[str, ...]:
    """Said where that is less than the pack may be taken to."""
    cut = cutoff(craft.now, pack)
    return () if round(low_v, 2) >= round(cut.pack_v, 2) else (f"under {cut.words}",)


def _newly_under(craft: Craft, pack: ItemNow, low_v: float, warm_v: float) -> str:
    """The voltage at 0 °C, and whether that is under a cut-off above which it stood warm."""
    under = () if _under_cutoff(craft, pack, warm_v) else _under_cutoff(craft, pack, low_v)
    return ", ".join((amounts.voltage(low_v), *under))


def _by_resistance(craft: Craft, pack: ItemNow, at_k: float | None) -> Figure:
    """At the power in the air, which takes no more than full throttle does."""
    ohm = resistance_at(pack, at_k, "the field's ")
    try:
        most = _full_sag(craft, pack, ohm, "in the air")
    except (Lacking, ValueError):
        return _at_power(craft, pack, ohm)
    try:
        flown = _at_power(craft, pack, ohm)
    except ValueError:
        flown = most  # more than the pack can give
    if (flown.value or 0.0) < (most.value or 0.0):
        return flown
    low = number(rested_at_reserve(pack, craft.keeper)) - (most.value or 0.0)
    return _beside(most, (_left_under_load(craft, pack, low),), {"under load, V": low})


def _at_power(craft: Craft, pack: ItemNow, ohm: Input) -> Figure:
    inputs = {
        "open_circuit_v": rested_at_reserve(pack, craft.keeper),
        "resistance_ohm": ohm,
        "power_w": power_in_the_air(craft, pack),
    }

    def sag(open_circuit_v: float, resistance_ohm: float, power_w: float) -> float:
        amps = load_current_a(open_circuit_v, resistance_ohm, power_w)
        return open_circuit_v - terminal_v(open_circuit_v, resistance_ohm, amps)

    low = number(inputs["open_circuit_v"]) - sag(**{k: number(one) for k, one in inputs.items()})
    law, current = by_law("terminal_v"), by_law("load_current_a")
    return worked(
        "pack_sag",
        sag,
        inputs,
        unit="V",
        way=law.written(f"U_0 - U; {law.formula}; {current.formula}"),
        of=f"{pack.tag}, in the air",
        about=pack.tag,
        load="in the air",
        verdict=_left_under_load(craft, pack, low),
        other={"under load, V": low},
        in_verdict=("under load, V",),
    )


def _full_sag(craft: Craft, pack: ItemNow, ohm: Input, load: str, *, under: bool = False) -> Figure:
    """At full throttle with a resistance; under: if need be as far down as its law reaches."""
    full = full_throttle(craft, pack)
    known, notes = leads(craft)
    inputs = {
        "open_circuit_v": rested_at_reserve(pack, craft.keeper),
        "resistance_ohm": ohm,
        **known,
        **without_supply(full.inputs),
    }

    def sag(
        open_circuit_v: float, resistance_ohm: float, leads_ohm: float = 0.0, **values: float
    ) -> float:
        try:
            held = held_supply(full, open_circuit_v, resistance_ohm + leads_ohm, values)
        except TooLow as ended:
            if not under:
                raise
            held = ended.held
        return open_circuit_v - held.volts - leads_ohm * held.amps

    return worked(
        "pack_sag",
        sag,
        inputs,
        unit="V",
        way=AT_FULL,
        of=f"{pack.tag}, {load}",
        about=pack.tag,
        load=load,
        further=full.further,
        notes=(*notes, *full.asides),
    )


def _at_full(craft: Craft, pack: ItemNow) -> Figure:
    reached = reserve_supply(craft, pack)
    given, under = reached.worst.given, reached.under
    figure = _full_sag(craft, pack, given, "full throttle", under=under)
    words, other = _against_log(craft, pack, reached)
    cold, frozen = at_freezing(
        craft,
        pack,
        lambda then: then.plug_v,
        lambda low_v: _newly_under(craft, pack, low_v, reached.plug_v),
        AT_FREEZING_V,
    )
    figure = _beside(
        figure,
        (*words, *reached.worst.words, *cold),
        {"at its plug, V": reached.plug_v, **other, **frozen},
    )
    if under:  # what is lost is more, nobody knows how much
        figure = msgspec.structs.replace(
            figure, value=None, low=figure.value, level=None, sensitivity=()
        )
    burst = (BURST,) if reached.worst.logged else ()
    return msgspec.structs.replace(figure, notes=(*figure.notes, *burst))


def _against_log(
    craft: Craft, pack: ItemNow, reached: AtReserve
) -> tuple[tuple[str, ...], dict[str, float]]:
    """The prediction beside the lowest voltage that was read in flight."""
    low_v = reached.plug_v
    left = f"{reached.at_most(low_v, amounts.voltage)} left at the reserve{reached.how_far}"
    said = (left, *_under_cutoff(craft, pack, low_v))
    read = [lowest_v(flight) for flight in flights_with_lowest(craft, pack)]
    if not read:
        return (*said, "no 'lowest' was read in flight"), {}
    lowest = min(read)
    words = f"the lowest read in flight was {amounts.voltage(lowest)}"
    if round(lowest, 2) < round(low_v, 2):
        words = (
            f"{amounts.voltage(lowest)} was read: flown past the reserve, or more "
            "resistance than recorded"
        )
    return (*said, words), {LOWEST_V: lowest}


def throttle_at_end(craft: Craft, pack: ItemNow) -> Figure:
    """At the voltage that the most resistance leaves which is known of the pack."""
    best = methods_of(craft, pack, ("bench", "motor constants"))[0]
    worst = at_field(craft, pack)
    inputs = {
        **without_supply(best.inputs),
        "open_circuit_v": rested_at_reserve(pack, craft.keeper),
        "resistance_ohm": worst.given,
    }
    nominal = number(best.inputs["supply_v"])

    def throttle(open_circuit_v: float, resistance_ohm: float, **values: float) -> float:
        watts = best.total_w(**values, supply_v=nominal)
        amps = load_current_a(open_circuit_v, resistance_ohm, watts)
        return best.throttle(**values, supply_v=terminal_v(open_circuit_v, resistance_ohm, amps))

    given = {key: number(one) for key, one in inputs.items()}
    fresh_v, read = number(rested(pack, 1.0)), number(resistance(pack))
    fresh = throttle(**{**given, "open_circuit_v": fresh_v, "resistance_ohm": read})
    said, other = [f"{amounts.share(fresh)} on a fresh pack"], {"share on a fresh pack": fresh}
    if worst.logged is not None:
        by_reading = throttle(**{**given, "resistance_ohm": number(worst.by_reading)})
        other["share by its resistance"] = by_reading
        words = f"by {worst.by}, {worst.logged.words}"
        said.append(f"{words}; {amounts.share(by_reading)} by its resistance")
    if is_colder(craft):
        ohm = worst_resistance(craft, pack, FREEZING_K).ohm
        try:
            frozen = other["share at 0 °C"] = throttle(**{**given, "resistance_ohm": ohm})
            said.append(f"at 0 °C {amounts.share(frozen)}")
        except ValueError:
            said.append("at 0 °C it cannot give the power")
    return worked(
        "throttle_at_end",
        throttle,
        inputs,
        unit="ratio",
        way=AT_END,
        of=pack.tag,
        further=best.further,
        verdict="; ".join(said),
        other=other,
        in_verdict=tuple(other),
        notes=(*best.notes, *((BURST,) if worst.logged else ())),
    )


FIGURES = (
    FigureSpec(
        name="pack_sag",
        title="Sag of the pack",
        line="Voltage lost under load when the reserve is reached.",
        about=(
            "Voltage that a pack loses under load at the reserve, as flown and at full throttle, "
            "beside the lowest that was read in flight."
        ),
        topic="Time in the air",
        unit="V",
        shown="public",
        of_aircraft=pack_sag,
        laws=("terminal_v", "load_current_a"),
        methods=(AT_FULL, IN_LOG),
        held_by=(
            "tests/published/test_flight_battery.py",
            "tests/figures/answers/test_ends_of_pack.py",
        ),
    ),
    FigureSpec(
        name="throttle_at_end",
        title="Throttle at the end",
        line="Stick position in a hover with only the reserve left.",
        about=(
            "Hover throttle at the voltage that the pack holds when the reserve is reached, by its "
            "resistance or the sag in the log, whichever is more."
        ),
        topic="Time in the air",
        unit="ratio",
        worded="share",
        shown="public",
        asked_of=hovering,
        with_each_pack=throttle_at_end,
        laws=("bench_point",),
        methods=(AT_END,),
        held_by=("tests/figures/answers/test_ends_of_pack.py",),
    ),
)
