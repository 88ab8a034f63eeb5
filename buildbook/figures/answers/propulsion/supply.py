"""The voltage that a pack holds at full throttle: what it gives and what the motors take agree."""

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.pack_in_flight import LoggedSag, sag_in_log
from buildbook.figures.answers.gathering import Lacking, from_figure, number, worked_out
from buildbook.figures.answers.packs.packs import (
    least_resistance,
    nominal,
    resistance,
    resistance_at_field,
    rested,
    rested_at_reserve,
    rested_when_full,
)
from buildbook.figures.answers.propulsion.air import temperature
from buildbook.figures.answers.propulsion.full_throttle import Full, full_throttle
from buildbook.figures.answers.propulsion.loads import EQUAL, Load, loads, warned_of
from buildbook.figures.answers.propulsion.wires.wiring import whole_way
from buildbook.figures.laws.constants import HOT_COPPER_K
from buildbook.figures.laws.packs.battery import terminal_v
from buildbook.figures.laws.propulsion.wire import run_resistance_ohm
from buildbook.report.figure import FRESH_SHARE, Input
from buildbook.report.state import ItemNow

HALVINGS = 40
HALF = 0.5
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


class AtReserve(NamedTuple):
    """Full throttle when the reserve is reached: V at the plug of the pack, V at the motors, A.

    logged: the sag in the log, where that is more than the resistance tells.
    """

    plug_v: float
    motors_v: float
    amps: float
    logged: LoggedSag | None

    @property
    def left(self) -> str:
        """What is left of the pack's voltage, as everybody says it."""
        return f"{amounts.voltage(self.plug_v)} left"

    @property
    def volts(self) -> dict[str, float]:
        """Both voltages, as ``other`` of a figure has them."""
        return {"held at the reserve, V": self.plug_v, "at the motors then, V": self.motors_v}


def reserve_unknown(refused: ValueError) -> str:
    """Said where a law refuses what is held at the reserve."""
    return f"at the reserve not known: {refused}"


def held_supply(full: Full, open_circuit_v: float, ohm: float, values: Mapping[str, float]) -> Held:
    """Where U = U_0 - I(U)·R. ohm: pack and leads; values: the inputs of full throttle.

    ValueError: the law of full throttle refuses the voltage.
    """

    def amps(volts: float) -> float:
        return full.amps(**{**values, "supply_v": volts})

    # More voltage draws more current: so the answer lies between these two.
    low, high = terminal_v(open_circuit_v, ohm, amps(open_circuit_v)), open_circuit_v
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if terminal_v(open_circuit_v, ohm, amps(middle)) > middle:
            low = middle
        else:
            high = middle
    return Held(low, amps(low))


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

    By the resistance, at the field's temperature where that is colder, or by the sag in the log:
    full throttle takes no less than was flown. Lacking, ValueError: it cannot be told.
    """
    return craft.once(f"supply of {pack.tag} at the reserve", _at_reserve, craft, pack)


def _at_reserve(craft: Craft, pack: ItemNow) -> AtReserve:
    full, (known, _) = full_throttle(craft, pack), leads(craft)
    leads_ohm = sum(number(one) for one in known.values())
    rested_v = number(rested_at_reserve(pack, craft.keeper))
    ohm = number(resistance_at_field(pack, craft.keeper))
    held = held_supply(full, rested_v, ohm + leads_ohm, full.values())
    logged = sag_in_log(craft, pack)
    if logged is None or logged.sag_v <= ohm * held.amps:
        return AtReserve(rested_v - ohm * held.amps, held.volts, held.amps, None)
    plug_v = rested_v - logged.sag_v
    held = held_supply(full, plug_v, leads_ohm, full.values())
    return AtReserve(plug_v, held.volts, held.amps, logged)


def _supply(craft: Craft, pack: ItemNow, open_circuit: Input) -> Held:
    full = full_throttle(craft, pack)
    known, _ = leads(craft)
    ohm = number(resistance(pack)) + sum(number(one) for one in known.values())
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
