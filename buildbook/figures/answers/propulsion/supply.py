"""The voltage that a pack holds at full throttle: what it gives and what the motors take agree."""

from collections.abc import Mapping
from typing import NamedTuple

import msgspec

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, from_figure, number
from buildbook.figures.answers.propulsion.full_throttle import Full
from buildbook.figures.answers.propulsion.wires.wiring import whole_way
from buildbook.figures.laws.packs.battery import terminal_v
from buildbook.report.figure import Input

HALVINGS = 40
NO_LEADS = "the leads are left out: not recorded"


class Held(NamedTuple):
    """Voltage of the pack in V and its current in A, at full throttle."""

    volts: float
    amps: float


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


def leads(craft: Craft) -> tuple[dict[str, Input], tuple[str, ...]]:
    """Resistance of the runs from pack to motor, as the whole current sees it, if recorded."""
    try:
        drop, amps = whole_way(craft, "full throttle")
    except (Lacking, ValueError):
        return {}, (NO_LEADS,)
    value = (drop.value or 0.0) / number(amps)
    given = from_figure(drop, "resistance of the leads")
    return {"leads_ohm": msgspec.structs.replace(given, value=value, unit="Ω")}, ()
