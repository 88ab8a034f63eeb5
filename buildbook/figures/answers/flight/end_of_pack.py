"""The last minutes before the reserve: how far the pack sags, and where the stick stands then."""

from collections.abc import Iterator

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.advice import power_in_the_air
from buildbook.figures.answers.flight.pack_in_flight import (
    IN_LOG,
    LOWEST_V,
    LoggedSag,
    flights_with_lowest,
    lowest_v,
    sag_in_log,
)
from buildbook.figures.answers.gathering import number
from buildbook.figures.answers.packs.packs import (
    cutoff_v,
    resistance,
    resistance_at_field,
    rested,
    rested_at_reserve,
)
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.hover_ways import Method, methods_of
from buildbook.figures.answers.propulsion.supply import (
    AT_A_VOLTAGE,
    AtReserve,
    held_supply,
    leads,
    reserve_supply,
    without_supply,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import (
    Answer,
    attempt,
    attempt_each,
    attempt_packs,
    by_law,
    by_method,
    given_value,
    worked,
)
from buildbook.figures.laws.packs.battery import load_current_a, terminal_v
from buildbook.report.figure import Figure
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

AT_LOGGED_END = by_method(
    "where the log shows more sag: throttle of a hover at the rested voltage of the reserve less "
    "that sag",
    "as for the hover throttle",
)


def pack_sag(craft: Craft) -> Iterator[Answer]:
    """Voltage lost under load at the reserve: as flown, and at full throttle."""
    yield from attempt_each("pack_sag", _sags, craft)


def throttle_at_end(craft: Craft) -> Iterator[Answer]:
    """Throttle of a hover when the reserve is reached."""
    if craft.hovers:
        yield from attempt_packs("throttle_at_end", craft, _throttle)


def _sags(craft: Craft) -> Iterator[Answer]:
    for pack in craft.known_packs:
        yield attempt("pack_sag", f"{pack.tag}, in the air", _in_the_air, craft, pack)
        yield attempt("pack_sag", f"{pack.tag}, full throttle", _at_full, craft, pack)


def _in_the_air(craft: Craft, pack: ItemNow) -> Figure:
    """By the resistance, or as the log shows it: the greater of both, and the other beside it."""
    by_ohm = _by_resistance(craft, pack)
    logged = sag_in_log(craft, pack)
    if logged is None:
        return by_ohm
    other = {"by its resistance, V": by_ohm.value or 0.0, "by the log, V": logged.sag_v}
    if logged.sag_v <= (by_ohm.value or 0.0):
        words = f"{by_ohm.verdict}; the log shows {amounts.voltage(logged.sag_v)}, {logged.words}"
        return msgspec.structs.replace(
            by_ohm,
            verdict=words,
            other={**by_ohm.other, **other},
            in_verdict=(*by_ohm.in_verdict, *other),
        )
    return _by_log(craft, pack, by_ohm, logged)


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
        basis="measured",
        verdict=f"{_left_under_load(pack, low)}; as the log shows, {logged.words}; {theory}",
        other={
            "under load, V": low,
            "by its resistance, V": by_ohm.value or 0.0,
            "by the log, V": logged.sag_v,
        },
        in_verdict=("under load, V", "by its resistance, V", "by the log, V"),
        notes=("a charger's reading leaves out what builds up over a minute of load",),
    )


def _left_under_load(pack: ItemNow, low_v: float) -> str:
    return "; ".join(
        (f"{amounts.voltage(low_v)} left under load at the reserve", *_under_cutoff(pack, low_v))
    )


def _under_cutoff(pack: ItemNow, low_v: float) -> tuple[str, ...]:
    """Said where that is less than the pack may be taken to."""
    limit = cutoff_v(pack)
    if round(low_v, 2) >= round(limit, 2):
        return ()
    return (f"under its cut-off of {amounts.voltage(limit)}",)


def _by_resistance(craft: Craft, pack: ItemNow) -> Figure:
    inputs = {
        "open_circuit_v": rested_at_reserve(pack, craft.keeper),
        "resistance_ohm": resistance(pack),
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
        verdict=_left_under_load(pack, low),
        other={"under load, V": low},
        in_verdict=("under load, V",),
    )


def _at_full(craft: Craft, pack: ItemNow) -> Figure:
    full = full_throttle(craft, pack)
    known, notes = leads(craft)
    inputs = {
        "open_circuit_v": rested_at_reserve(pack, craft.keeper),
        "resistance_ohm": resistance_at_field(pack, craft.keeper),
        **known,
        **without_supply(full.inputs),
    }

    def sag(
        open_circuit_v: float, resistance_ohm: float, leads_ohm: float = 0.0, **values: float
    ) -> float:
        held = held_supply(full, open_circuit_v, resistance_ohm + leads_ohm, values)
        return resistance_ohm * held.amps

    reached = reserve_supply(craft, pack)
    verdict, other = _against_log(craft, pack, reached)
    by_ohm = worked(
        "pack_sag",
        sag,
        inputs,
        unit="V",
        way=AT_FULL,
        of=f"{pack.tag}, full throttle",
        about=pack.tag,
        load="full throttle",
        further=full.further,
        verdict=verdict,
        other={"at its plug, V": reached.plug_v, **other},
        in_verdict=("at its plug, V", *other),
        notes=(*notes, *full.asides),
    )
    return by_ohm if reached.logged is None else _by_log(craft, pack, by_ohm, reached.logged)


def _against_log(craft: Craft, pack: ItemNow, reached: AtReserve) -> tuple[str, dict[str, float]]:
    """The prediction beside the lowest voltage that was read in flight."""
    low_v, left = reached.plug_v, f"{reached.left} at the reserve"
    said = "; ".join((left, *_under_cutoff(pack, low_v)))
    read = [lowest_v(flight) for flight in flights_with_lowest(craft, pack)]
    if not read:
        return f"{said}; no 'lowest' was read in flight", {}
    lowest = min(read)
    other = {LOWEST_V: lowest}
    if round(lowest, 2) < round(low_v, 2):
        return (
            f"{said}; {amounts.voltage(lowest)} was read: flown past the reserve, or more "
            "resistance than recorded",
            other,
        )
    return f"{said}; the lowest read in flight was {amounts.voltage(lowest)}", other


def _throttle(craft: Craft, pack: ItemNow) -> Figure:
    """By the resistance, or at the voltage that the sag in the log leaves, where that is lower."""
    best = methods_of(craft, pack, ("bench", "motor constants"))[0]
    by_ohm, logged = _throttle_by_resistance(craft, pack, best), sag_in_log(craft, pack)
    if logged is None:
        return by_ohm
    inputs = {
        **without_supply(best.inputs),
        "open_circuit_v": rested_at_reserve(pack, craft.keeper),
        "sag_v": logged.given,
    }

    def throttle(open_circuit_v: float, sag_v: float, **values: float) -> float:
        return best.throttle(**values, supply_v=open_circuit_v - sag_v)

    at_end = throttle(**{key: number(one) for key, one in inputs.items()})
    if at_end <= (by_ohm.value or 0.0):
        return by_ohm
    by_its_own = {"share by its resistance": by_ohm.value or 0.0}
    words = f"at the sag in the log, {logged.words}; {amounts.share(by_ohm.value or 0.0)}"
    return worked(
        "throttle_at_end",
        throttle,
        inputs,
        unit="ratio",
        way=AT_LOGGED_END,
        of=pack.tag,
        further=best.further,
        verdict=f"{by_ohm.verdict}; {words} by its resistance",
        other={**by_ohm.other, **by_its_own},
        in_verdict=(*by_ohm.in_verdict, *by_its_own),
        notes=best.notes,
    )


def _throttle_by_resistance(craft: Craft, pack: ItemNow, best: Method) -> Figure:
    inputs = {
        **without_supply(best.inputs),
        "open_circuit_v": rested_at_reserve(pack, craft.keeper),
        "resistance_ohm": resistance(pack),
    }
    nominal = number(best.inputs["supply_v"])

    def throttle(open_circuit_v: float, resistance_ohm: float, **values: float) -> float:
        watts = best.total_w(**values, supply_v=nominal)
        amps = load_current_a(open_circuit_v, resistance_ohm, watts)
        return best.throttle(**values, supply_v=terminal_v(open_circuit_v, resistance_ohm, amps))

    given = {key: number(one) for key, one in inputs.items()}
    fresh = throttle(**{**given, "open_circuit_v": number(rested(pack, 1.0))})
    return worked(
        "throttle_at_end",
        throttle,
        inputs,
        unit="ratio",
        way=AT_END,
        of=pack.tag,
        further=best.further,
        verdict=f"{amounts.share(fresh)} on a fresh pack",
        other={"share on a fresh pack": fresh},
        in_verdict=("share on a fresh pack",),
        notes=best.notes,
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
        of_aircraft=throttle_at_end,
        laws=("bench_point",),
        methods=(AT_END, AT_LOGGED_END),
        held_by=("tests/figures/answers/test_ends_of_pack.py",),
    ),
)
