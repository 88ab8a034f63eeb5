"""The voltage that a pack holds at full throttle: what it gives and what the motors take agree."""

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

import msgspec

from buildbook.basis import amounts
from buildbook.basis.units import FREEZING_K
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import is_colder
from buildbook.figures.answers.flight.under_load import (
    Worst,
    at_field,
    worst_resistance,
)
from buildbook.figures.answers.gathering import Lacking, from_figure, number, worked_out
from buildbook.figures.answers.packs.packs import (
    least_resistance,
    nominal,
    rested,
    rested_at_reserve,
    rested_when_full,
)
from buildbook.figures.answers.propulsion.air import temperature
from buildbook.figures.answers.propulsion.full_throttle import Full, full_throttle
from buildbook.figures.answers.propulsion.loads import EQUAL, Load, loads, warned_of
from buildbook.figures.answers.propulsion.wiring import whole_way
from buildbook.figures.answers.working import rests_on
from buildbook.figures.laws.constants import HOT_COPPER_K
from buildbook.figures.laws.propulsion.wire import run_resistance_ohm
from buildbook.report.figure import FRESH_SHARE, Input
from buildbook.report.state import ItemNow

HALVINGS = 40
MOTORS_THEN = "at the motors then, V"
HALF = 0.5
CLOSE_V = 1e-6
AT_A_VOLTAGE = "Ohm's law; the current at a voltage: as for the thrust to weight"
"""Where the current at full throttle comes from."""
NO_LEADS = "the leads are left out: not recorded"
MOST_LOST = 0.1
"""Of the voltage. What leads lose above it must hide no rating. Common practice, no source."""
TOO_THIN = (
    "the leads are left out: so thin, they would lose more than "
    f"{amounts.share(MOST_LOST)} of the voltage"
)


class Held(NamedTuple):
    """Voltage of the pack in V and its current in A, at full throttle."""

    volts: float
    amps: float


TOO_LOW = "of so low a voltage bench table or constants tell nothing"


class TooLow(ValueError):
    """The pack holds less than the law of full throttle reaches; held: the lowest that it does."""

    def __init__(self, because: str, held: Held) -> None:
        super().__init__(because)
        self.held = held


class AtReserve(NamedTuple):
    """Full throttle when the reserve is reached: V at the plug of the pack, V at the motors, A.

    worst: the resistance that it is by. under: the voltages are the lowest that the law of full
    throttle reaches, and the pack holds less.
    """

    plug_v: float
    motors_v: float
    amps: float
    worst: Worst
    under: bool = False

    @property
    def left(self) -> str:
        """What is left of the pack's voltage, as everybody says it."""
        by = "" if self.worst.logged is None else f" by {self.worst.by}"
        return f"{self.at_most(self.plug_v, amounts.voltage)} left{by}{self.how_far}"

    @property
    def how_far(self) -> str:
        """Said once where voltages are no more than a limit."""
        return ", how far under is not known" if self.under else ""

    def at_most(self, value: float, say: Callable[[float], str]) -> str:
        """A voltage, or what it gives, in words; there is nothing under nothing."""
        return f"under {say(value)}" if self.under and value > 0 else say(value)

    @property
    def volts(self) -> dict[str, float]:
        """Both voltages, as ``other`` of a figure has them, if they are known."""
        return (
            {}
            if self.under
            else {"held at the reserve, V": self.plug_v, MOTORS_THEN: self.motors_v}
        )


def at_reserve_rests_on(craft: Craft, pack: ItemNow, held: AtReserve) -> tuple[str, ...]:
    """The note on what is assumed of the pack then, for a figure whose value is another."""
    given = (rested_at_reserve(pack, craft.keeper), held.worst.given)
    said = rests_on(given, stated=True, beside=pack.tag)
    return tuple(f"at the reserve it {one}" for one in said)


def reserve_unknown(refused: ValueError) -> str:
    """Said where a law refuses what is held at the reserve."""
    return f"at the reserve not known: {refused}"


def at_freezing(
    craft: Craft,
    pack: ItemNow,
    work: Callable[[AtReserve], float],
    say: Callable[[float], str],
    key: str,
) -> tuple[tuple[str, ...], dict[str, float]]:
    """What is left then at 0 °C, in words and under a key; nothing where the field is no warmer.

    Lacking: it cannot be told.
    """
    try:
        held = frozen_supply(craft, pack)
        if held is None:
            return (), {}
        value = work(held)
    except ValueError as refused:
        return (f"at 0 °C not known: {refused}",), {}
    return (f"at 0 °C {held.at_most(value, say)}",), {} if held.under else {key: value}


def held_supply(full: Full, open_circuit_v: float, ohm: float, values: Mapping[str, float]) -> Held:
    """Where U = U_0 - I(U)·R. ohm: pack and leads; values: the inputs of full throttle.

    ValueError: the law of full throttle refuses the voltage; TooLow: it is too low for it.
    """

    def amps(volts: float) -> float:
        return full.amps(**{**values, "supply_v": volts})

    # More voltage draws more current: so there is one answer between these two.
    low, high = 0.0, open_circuit_v
    ends: ValueError | None = None
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        try:
            more = open_circuit_v - ohm * amps(middle) > middle
        except ValueError as refused:  # so low the law does not reach: the answer may lie above
            ends, more = refused, True
        low, high = (middle, high) if more else (low, middle)
    held = Held(high, amps(high))
    if ends and open_circuit_v - ohm * held.amps < high - CLOSE_V:
        least = amounts.voltage(held.volts)
        raise TooLow(f"at full throttle it holds under {least}: {TOO_LOW}", held) from ends
    return held


def without_supply(inputs: Mapping[str, Input]) -> dict[str, Input]:
    """Inputs of a working whose voltage is worked out, so not given."""
    return {key: one for key, one in inputs.items() if key != "supply_v"}


def leads(craft: Craft) -> tuple[dict[str, Input], tuple[str, ...]]:
    """Resistance of the runs from pack to motor, as the whole current sees it, if recorded."""
    return craft.once("leads", _leads, craft)


def _leads(craft: Craft) -> tuple[dict[str, Input], tuple[str, ...]]:
    try:
        drop, amps = whole_way(craft, "full throttle")
    except (Lacking, ValueError):
        return {}, (NO_LEADS,)
    value = (drop.value or 0.0) / number(amps)
    given = from_figure(drop, "resistance of the leads")
    return {"leads_ohm": msgspec.structs.replace(given, value=value, unit="Ω")}, ()


def cold_leads(craft: Craft) -> tuple[dict[str, Input], tuple[str, ...]]:
    """The same while the copper is still as cold as the air."""
    known, notes = leads(craft)
    if not known:
        return known, notes
    drop, _ = whole_way(craft, "full throttle")
    if (drop.value or 0.0) > MOST_LOST * number(nominal(craft.pack)):
        return {}, (TOO_THIN,)
    air, hot = temperature(craft), known["leads_ohm"]
    cold_ohm, hot_ohm = (
        run_resistance_ohm(1, 1e-6, kelvin) for kelvin in (number(air), HOT_COPPER_K)
    )
    value = number(hot) * cold_ohm / hot_ohm
    cold = worked_out("resistance of the leads, as cold as the air", value, "Ω", (air,))
    return {"leads_ohm": msgspec.structs.replace(cold, place=hot.place)}, notes


def fresh_inputs(craft: Craft, pack: ItemNow) -> tuple[dict[str, Input], tuple[str, ...]]:
    """What gives the most current: the pack just charged and warm, the copper still cold."""
    known, notes = cold_leads(craft)
    pack_inputs = {
        "open_circuit_v": rested_when_full(pack),
        "resistance_ohm": least_resistance(pack),
    }
    return {**pack_inputs, **known}, notes


def fresh_supply(craft: Craft, pack: ItemNow) -> Held:
    """Full throttle on the pack when it is full. Lacking, ValueError: it cannot be told."""
    return craft.once(f"fresh supply of {pack.tag}", _fresh, craft, pack)


def _fresh(craft: Craft, pack: ItemNow) -> Held:
    full, (inputs, _) = full_throttle(craft, pack), fresh_inputs(craft, pack)
    open_circuit_v, *ohms = map(number, inputs.values())
    return held_supply(full, open_circuit_v, sum(ohms), full.values())


def reserve_supply(craft: Craft, pack: ItemNow) -> AtReserve:
    """Full throttle when the reserve is reached: the one voltage that all figures of it take.

    By the most resistance that is known of it, in the air of the field. Lacking, ValueError: it
    cannot be told.
    """
    worst = at_field(craft, pack)
    return craft.once(f"supply of {pack.tag} at the reserve", _at_reserve, craft, pack, worst)


def frozen_supply(craft: Craft, pack: ItemNow) -> AtReserve | None:
    """The same at freezing; None where the field is no warmer. Lacking, ValueError as above."""
    if not is_colder(craft):
        return None
    worst = worst_resistance(craft, pack, FREEZING_K)
    return craft.once(f"supply of {pack.tag} at freezing", _at_reserve, craft, pack, worst)


def _at_reserve(craft: Craft, pack: ItemNow, worst: Worst) -> AtReserve:
    full, (known, _) = full_throttle(craft, pack), leads(craft)
    leads_ohm = sum(number(one) for one in known.values())
    rested_v = number(rested_at_reserve(pack, craft.keeper))
    if worst.logged is not None:
        worst = _as_flown_at_least(full, worst, worst.logged.sag_v, rested_v, leads_ohm)
    try:
        held = held_supply(full, rested_v, worst.ohm + leads_ohm, full.values())
    except TooLow as ended:
        held = ended.held
        return AtReserve(
            held.volts + leads_ohm * held.amps, held.volts, held.amps, worst, under=True
        )
    return AtReserve(rested_v - worst.ohm * held.amps, held.volts, held.amps, worst)


def _as_flown_at_least(
    full: Full, worst: Worst, sag_v: float, rested_v: float, leads_ohm: float
) -> Worst:
    """The same, and so much that full throttle sags no less than was flown."""
    try:
        amps = held_supply(full, rested_v - sag_v, leads_ohm, full.values()).amps
    except ValueError:
        return worst
    more, given = sag_v / amps, worst.given
    if more <= worst.ohm:
        return worst
    further = f"{given.called.further}, at full throttle"
    name = msgspec.structs.replace(given.called, further=further)
    return worst._replace(given=msgspec.structs.replace(given, value=more, called=name))


def _supply(craft: Craft, pack: ItemNow, open_circuit: Input) -> Held:
    full = full_throttle(craft, pack)
    known, _ = leads(craft)
    ohm = at_field(craft, pack).ohm + sum(number(one) for one in known.values())
    return held_supply(full, number(open_circuit), ohm, full.values())


def half_supply(craft: Craft, pack: ItemNow) -> Held:
    """Full throttle on the pack at half its charge. Lacking, ValueError: it cannot be told."""
    return craft.once(f"supply of {pack.tag} at half", _supply, craft, pack, rested(pack, HALF))


def warned_fresh(
    craft: Craft, packs: Sequence[ItemNow], margin: float, asked: Callable[[Load], bool]
) -> tuple[tuple[str, ...], dict[str, float]]:
    """What is said of a margin at the nominal voltage: that with a full pack, if it is less."""
    found = [
        (one.margin, pack.tag) for pack in packs for one in fresh_loads(craft, pack) if asked(one)
    ]
    fresh, tag = min(found, default=(margin, ""))
    if fresh >= margin:
        return warned_of(margin), {}
    share, other = amounts.share(abs(fresh)), {FRESH_SHARE: fresh}
    if fresh < -EQUAL:
        return (f"with {tag} full {share} over its rating",), other
    return (f"with {tag} full {share} left", *warned_of(fresh)), other


def fresh_loads(craft: Craft, pack: ItemNow) -> tuple[Load, ...]:
    """All loads at full throttle on the pack when it is full; none where it cannot be told."""
    try:
        return loads(craft, pack, fresh_supply(craft, pack).volts)
    except (Lacking, ValueError):
        return ()
