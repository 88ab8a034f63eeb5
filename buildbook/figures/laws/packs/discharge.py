"""How long a pack holds a constant power, and which limit ends it."""

import math
from typing import Literal

import msgspec

from buildbook.figures.laws.numbers import all_interpolated, checked, interpolated
from buildbook.figures.laws.packs.battery import CellCurve, cell_curve, load_current_a

STEPS = 400  # of equal charge; halving them moves the time by less than 1 in 10,000

Ending = Literal["reserve", "cut-off", "power limit"]


class Discharge(msgspec.Struct, frozen=True):
    """A discharge at constant power from its start to the limit that ended it."""

    duration_s: float
    ended_by: Ending
    charge_used_ah: float
    mean_current_a: float
    end_voltage_v: float  # of the pack, under the load
    end_state_of_charge: float


def _lowest_state(
    curve: CellCurve, cell_power_w: float, cell_resistance_ohm: float, cutoff_cell_v: float
) -> tuple[float, Ending]:
    """The state of charge where the load pulls a cell to its cut-off or past its greatest power."""
    at_cutoff = cutoff_cell_v + cell_power_w * cell_resistance_ohm / cutoff_cell_v
    at_limit = 2 * math.sqrt(cell_power_w * cell_resistance_ohm)
    # Below half its open-circuit voltage a cell cannot hold the power at all.
    ending: Ending = "power limit" if at_limit / 2 > cutoff_cell_v else "cut-off"
    needed = at_limit if ending == "power limit" else at_cutoff
    if needed >= curve.volts[-1]:
        limit = "its greatest power" if ending == "power limit" else "the cut-off"
        raise ValueError(
            f"power_w must leave a full cell above {limit}: that takes {needed:.3f} V at rest, "
            f"the curve ends at {curve.volts[-1]:g} V"
        )
    if needed <= curve.volts[0]:
        return 0.0, ending
    return interpolated("cell_v", needed, curve.volts, curve.states), ending


@checked
def constant_power_discharge(
    chemistry: str,
    cells_in_series: int,
    capacity_ah: float,
    resistance_ohm: float,
    power_w: float,
    reserve_share: float,
    cutoff_cell_v: float,
    start_share: float = 1.0,
) -> Discharge:
    """Discharge of a pack at constant power in W until its reserve or a limit under load.

    capacity_ah: of the whole pack, as it is now; resistance_ohm: of the whole pack, with plug and
    leads where known; reserve_share: of the capacity, kept; cutoff_cell_v: under load;
    start_share: state of charge at the start. Steps of equal charge, the same on every machine.
    ValueError: a value out of range, the reserve is not below the start, or the load would end
    the flight at once. Source: dt = dQ/I with I of `load_current_a`, open-circuit curve of
    `open_circuit_cell_v`; resistance the same throughout.
    """
    curve = cell_curve(chemistry)
    if reserve_share >= start_share:
        raise ValueError(
            f"reserve_share must be below the start {start_share:g}, got {reserve_share:g}"
        )
    cell_power, cell_resistance = power_w / cells_in_series, resistance_ohm / cells_in_series
    lowest, limit = _lowest_state(curve, cell_power, cell_resistance, cutoff_cell_v)
    if lowest >= start_share:
        raise ValueError(
            f"power_w must leave the start above the {limit}: it is reached at {lowest:.3f} "
            f"of the charge, the start is {start_share:g}"
        )
    ended_by: Ending = limit if lowest > reserve_share else "reserve"
    end = max(lowest, reserve_share)
    step = (start_share - end) / STEPS
    states = [end + step * (index + 0.5) for index in range(STEPS)]
    cell_volts = all_interpolated("state_of_charge", states, curve.states, curve.volts)
    volts = [cells_in_series * cell_v for cell_v in cell_volts]
    load_current_a(min(volts), resistance_ohm, power_w)  # what it refuses, it refuses here
    inverse_currents = [
        1 / (2 * power_w / (v + math.sqrt(v**2 - 4 * resistance_ohm * power_w))) for v in volts
    ]
    hours = capacity_ah * step * math.fsum(inverse_currents)
    used = capacity_ah * (start_share - end)
    last_v = interpolated("state_of_charge", end, curve.states, curve.volts)
    last_current = (
        2
        * cell_power
        / (last_v + math.sqrt(max(0.0, last_v**2 - 4 * cell_resistance * cell_power)))
    )
    return Discharge(
        duration_s=hours * 3600,
        ended_by=ended_by,
        charge_used_ah=used,
        mean_current_a=used / hours,
        end_voltage_v=cells_in_series * (last_v - last_current * cell_resistance),
        end_state_of_charge=end,
    )
