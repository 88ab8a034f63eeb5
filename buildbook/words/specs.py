"""What the sheet of a part says, as labels and words."""

from collections.abc import Callable, Iterator
from typing import Any

from buildbook.basis import amounts
from buildbook.records.parts import Spec

Row = tuple[str, str, str]
"""A label, its words, and the key in the file."""


def spec_rows(spec: Spec) -> Iterator[Row]:
    """What is recorded of a kind of part, in the order of a data sheet; nothing that is blank."""
    yield from _whole(spec)
    for label, key, field, say in _ROWS:
        value = getattr(spec, field)
        if value is not None:
            yield label, say(value), key


def _whole(spec: Spec) -> Iterator[Row]:
    if spec.size is not None:
        yield "size", spec.size.written, "size"
    if spec.cells is not None:
        cells = spec.cells
        most = cells.series_most if cells.series_most != cells.series else None
        yield "cells", amounts.cells(cells.series, most, cells.parallel), "cells"


def _plain(value: Any) -> str:
    return f"{value}"


_HANDS = {"cw": "clockwise, seen from above", "ccw": "counter-clockwise, seen from above"}

_ROWS: tuple[tuple[str, str, str, Callable[[Any], str]], ...] = (
    ("speed constant", "kv", "kv_rpm_v", amounts.speed_constant),
    ("resistance", "resistance", "resistance_ohm", amounts.resistance),
    ("no-load current", "no_load_current", "no_load_current_a", amounts.current),
    ("no-load current taken at", "no_load_voltage", "no_load_voltage_v", amounts.voltage),
    ("largest current", "max_current", "max_current_a", amounts.current),
    ("largest power", "max_power", "max_power_w", amounts.power),
    ("poles", "poles", "poles", _plain),
    ("continuous current", "continuous_current", "continuous_current_a", amounts.current),
    ("burst current", "burst_current", "burst_current_a", amounts.current),
    ("hand", "hand", "hand", lambda hand: _HANDS[hand]),
    ("blades", "blades", "blades", _plain),
    ("thrust coefficient", "thrust_coefficient", "thrust_coefficient", _plain),
    ("power coefficient", "power_coefficient", "power_coefficient", _plain),
    ("figure of merit", "figure_of_merit", "figure_of_merit", _plain),
    ("rated capacity", "capacity", "capacity_ah", amounts.charge),
    ("chemistry", "chemistry", "chemistry", _plain),
    ("discharge rating", "discharge_rate", "discharge_rate_c", amounts.discharge_rate),
    ("charge rating", "charge_rate", "charge_rate_c", amounts.discharge_rate),
    ("resistance of a cell", "cell_resistance", "cell_resistance_ohm", amounts.resistance),
    (
        "nominal voltage of a cell",
        "nominal_cell_voltage",
        "nominal_cell_voltage_v",
        amounts.voltage,
    ),
    ("cut-off of a cell", "cutoff_cell_voltage", "cutoff_cell_voltage_v", amounts.voltage),
    ("voltage", "voltage", "voltage_v", amounts.voltage),
    ("bench table", "bench", "bench", _plain),
)
