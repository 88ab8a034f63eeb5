"""A propeller by its coefficients: two constants of its spec, or a measured table."""

from collections.abc import Mapping, Sequence

import msgspec

from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking
from buildbook.figures.answers.propulsion.rotors import power_coefficient, thrust_coefficient
from buildbook.figures.laws.aero.propeller import (
    coefficients_at,
    rotation_for_thrust_rev_s,
    table_rotation_for_thrust_rev_s,
)
from buildbook.records.ledger import BenchRow, BenchTable
from buildbook.report.figure import Input, Name
from buildbook.report.state import ItemNow


class Rows(msgspec.Struct, frozen=True):
    """Measured rows: over rev/s at standstill, or over the advance ratio; rising, n >= 2."""

    over: tuple[float, ...]
    thrust: tuple[float, ...]
    power: tuple[float, ...]


class Blades(msgspec.Struct, frozen=True, kw_only=True):
    """The coefficients of a propeller at standstill.

    inputs: constants, by keys with the index of its rotor; none where a table stands for them.
    """

    index: int
    inputs: Mapping[str, Input]
    further: tuple[Input, ...]
    rows: Rows | None

    def turning(
        self, thrust_n: float, density_kg_m3: float, span_m: float, values: Mapping[str, float]
    ) -> float:
        """Rev/s for a thrust. ValueError: outside of the table."""
        if self.rows is not None:
            return table_rotation_for_thrust_rev_s(
                thrust_n, density_kg_m3, span_m, self.rows.over, self.rows.thrust
            )
        coefficient = values[f"thrust_{self.index}"]
        return rotation_for_thrust_rev_s(thrust_n, coefficient, density_kg_m3, span_m)

    def at(self, turning_rev_s: float, values: Mapping[str, float]) -> tuple[float, float]:
        """C_T and C_P at a speed. ValueError: outside of the table."""
        if self.rows is None:
            return values[f"thrust_{self.index}"], values[f"power_{self.index}"]
        return coefficients_at(turning_rev_s, self.rows.over, self.rows.thrust, self.rows.power)

    def within(self, turning_rev_s: float) -> float:
        """The nearest speed that the table has."""
        if self.rows is None:
            return turning_rev_s
        return min(max(turning_rev_s, self.rows.over[0]), self.rows.over[-1])


def blades_of(craft: Craft, propeller: ItemNow, index: int) -> Blades:
    """Constants of the spec first, else its table. Lacking: it has neither."""
    spec = propeller.spec
    if spec.thrust_coefficient is None and spec.table is not None:
        rows = _static(written_table(craft, propeller))
        if rows is None:
            raise Lacking(
                f"{_file(propeller)} has no two rows of rpm, CT and CP at standstill",
                Place(_file(propeller), 1),
            )
        return Blades(index=index, inputs={}, further=(table_input(propeller),), rows=rows)
    return Blades(
        index=index,
        inputs={
            f"thrust_{index}": thrust_coefficient(propeller),
            f"power_{index}": power_coefficient(propeller),
        },
        further=(),
        rows=None,
    )


def table_input(propeller: ItemNow) -> Input:
    """By the name of its file, at the line of the spec that names it."""
    return Input(
        called=Name(f"coefficients of {propeller.spec.spec}"),
        value=_file(propeller),
        unit="",
        basis="measured",
        place=propeller.spec.place("table"),
    )


def written_table(craft: Craft, propeller: ItemNow) -> BenchTable:
    """The table that the spec names. Lacking: none, or it isn't there."""
    name = propeller.spec.table
    table = None if name is None else craft.hangar.ledger.bench.get(name)
    if table is None:
        raise Lacking(
            f"no table of {propeller.spec.spec}: write 'table' in its spec", propeller.spec.place()
        )
    return table


def in_flight(table: BenchTable) -> Rows | None:
    """Rows over the advance ratio; None: fewer than two."""
    found = [
        (row.advance_ratio, row.thrust_coefficient, row.power_coefficient)
        for row in table.rows
        if row.advance_ratio is not None
        and row.thrust_coefficient is not None
        and row.power_coefficient is not None
    ]
    return _rising(found)


def _static(table: BenchTable) -> Rows | None:
    return _rising([one for row in table.rows if (one := _standing(row)) is not None])


def _standing(row: BenchRow) -> tuple[float, float, float] | None:
    if row.rotation_rpm is None or row.thrust_coefficient is None or row.power_coefficient is None:
        return None
    if row.advance_ratio not in (None, 0.0):
        return None
    return row.rotation_rpm / 60, row.thrust_coefficient, row.power_coefficient


def _rising(found: Sequence[tuple[float, float, float]]) -> Rows | None:
    once = {one[0]: one for one in sorted(found)}
    if len(once) < 2:
        return None
    over, thrust, power = zip(*once.values(), strict=True)
    return Rows(over, thrust, power)


def _file(propeller: ItemNow) -> str:
    return f"bench/{propeller.spec.table}"
