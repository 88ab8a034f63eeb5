"""A pack as a voltage behind a resistance, and how its voltage goes with its charge.

Source of the circuit: Ohm's law. The curves by chemistry are common practice, no source, for a
rested cell at room temperature; the published curve of one small polymer cell is beside them
as a check. None is the curve of the reader's own pack.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec

from buildbook.figures.laws.law import CUSTOM
from buildbook.figures.laws.numbers import checked, interpolated
from buildbook.figures.laws.quantities import within


class CellCurve(msgspec.Struct, frozen=True):
    """Rested voltage of a cell by state of charge: rising rows (share of 1, V), and its origin."""

    states: tuple[float, ...]
    volts: tuple[float, ...]
    nominal_v: float
    source: str


_TENTHS = (0.0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)

CELL_CURVES: dict[str, CellCurve] = {
    "LiPo": CellCurve(
        _TENTHS,
        (3.00, 3.58, 3.68, 3.73, 3.77, 3.79, 3.82, 3.86, 3.91, 3.98, 4.07, 4.18),
        3.7,
        CUSTOM,
    ),
    "LiHV": CellCurve(
        _TENTHS,
        (3.00, 3.58, 3.68, 3.74, 3.78, 3.82, 3.87, 3.93, 4.00, 4.09, 4.19, 4.33),
        3.8,
        CUSTOM,
    ),
    "LiIon": CellCurve(
        _TENTHS,
        (2.60, 3.05, 3.22, 3.40, 3.50, 3.57, 3.65, 3.75, 3.85, 3.95, 4.05, 4.18),
        3.6,
        CUSTOM,
    ),
    "LiFe": CellCurve(
        _TENTHS,
        (2.50, 3.00, 3.16, 3.22, 3.26, 3.28, 3.29, 3.30, 3.31, 3.32, 3.33, 3.40),
        3.3,
        CUSTOM,
    ),
    "NiMH": CellCurve(
        _TENTHS,
        (1.00, 1.15, 1.19, 1.22, 1.24, 1.25, 1.26, 1.27, 1.29, 1.31, 1.34, 1.40),
        1.2,
        CUSTOM,
    ),
}


def cell_curve(chemistry: str) -> CellCurve:
    """The curve of a chemistry. ValueError: 'chemistry must be one of LiPo, ..., got X'."""
    if chemistry not in CELL_CURVES:
        names = ", ".join(CELL_CURVES)
        raise ValueError(f"chemistry must be one of {names}, got {chemistry}")
    return CELL_CURVES[chemistry]


@checked
def open_circuit_cell_v(chemistry: str, state_of_charge: float) -> float:
    """Voltage in V of one rested cell at a state of charge from 0 to 1.

    ValueError: unknown chemistry, or a state outside 0 to 1. Source: common practice, no source.
    """
    curve = cell_curve(chemistry)
    return interpolated("state_of_charge", state_of_charge, curve.states, curve.volts)


@checked
def state_of_charge(chemistry: str, cell_v: float) -> float:
    """State of charge from 0 to 1 of a rested cell from its voltage in V.

    ValueError: unknown chemistry, or a voltage off the curve. Source: as `open_circuit_cell_v`.
    """
    curve = cell_curve(chemistry)
    return interpolated("cell_v", cell_v, curve.volts, curve.states)


@checked
def load_current_a(open_circuit_v: float, resistance_ohm: float, power_w: float) -> float:
    """Current in A at which a pack delivers the power in W.

    ValueError: a value out of range, or more power than the pack can give at any current.
    Source: the smaller root of P = I (U_0 - I R), written so that R = 0 needs no case of its own.
    """
    if 4 * resistance_ohm * power_w > open_circuit_v**2:
        limit = open_circuit_v**2 / (4 * resistance_ohm)
        raise ValueError(f"power_w must be at most {limit:g} from this pack, got {power_w:g}")
    return (
        2 * power_w / (open_circuit_v + math.sqrt(open_circuit_v**2 - 4 * resistance_ohm * power_w))
    )


@checked
def terminal_v(open_circuit_v: float, resistance_ohm: float, current_a: float) -> float:
    """Voltage in V at the plug under a current in A.

    ValueError: a value out of range, or the current is more than a short circuit gives.
    Source: Ohm's law.
    """
    if current_a * resistance_ohm > open_circuit_v:
        limit = open_circuit_v / resistance_ohm
        raise ValueError(f"current_a must be at most {limit:g} from this pack, got {current_a:g}")
    return open_circuit_v - current_a * resistance_ohm


@checked
def pack_resistance_ohm(
    cell_resistance_ohm: float, cells_in_series: int, cells_in_parallel: int
) -> float:
    """Resistance in Ω of a pack of equal cells. Source: Ohm's law."""
    return cells_in_series * cell_resistance_ohm / cells_in_parallel


@checked
def series_resistance_ohm(cell_resistances_ohm: Sequence[float]) -> float:
    """Resistance in Ω of n >= 1 cells in series, from a reading of each.

    ValueError: no cell, or a value out of range. Source: Ohm's law.
    """
    if not cell_resistances_ohm:
        raise ValueError("need the resistance of one cell or more, got none")
    for value in cell_resistances_ohm:
        within(cell_resistance_ohm=value)
    return math.fsum(cell_resistances_ohm)


@checked
def pack_energy_wh(capacity_ah: float, nominal_v: float) -> float:
    """Rated energy in Wh: rated charge times nominal voltage, not the charged voltage.

    Source: 49 CFR 173.185 and the passenger pages of FAA.
    """
    return capacity_ah * nominal_v


@checked
def usable_energy_wh(energy_wh: float, reserve_share: float) -> float:
    """Energy in Wh above a reserve, the voltage taken as even. Source: the definition."""
    return energy_wh * (1 - reserve_share)
