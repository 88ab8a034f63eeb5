"""Propellers and motors of the rotors as inputs of laws, and their bench tables."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

import msgspec

from buildbook.basis.place import Place
from buildbook.figures.answers.craft import NO_STATION, Craft, Rotor
from buildbook.figures.answers.gathering import Lacking, declared, default, of_spec
from buildbook.figures.laws.aero.propeller import (
    coefficients_at,
    figure_of_merit,
    rotation_for_thrust_rev_s,
    table_rotation_for_thrust_rev_s,
)
from buildbook.figures.laws.law import CUSTOM
from buildbook.records import ledger
from buildbook.records.ledger import BenchRow
from buildbook.report.figure import Input, Name
from buildbook.report.state import ItemNow

if TYPE_CHECKING:
    from buildbook.figures.answers.propulsion.bench.plausible import Held, Limits
    from buildbook.figures.laws.propulsion.bench import BenchTable

# Share of the ideal power in the shaft power of a hovering model propeller where nothing is known
# of it. Common practice, no source; the measured propellers of Brandt and Selig 2011 that the
# tests hold have 0.43 to 0.73.
FIGURE_OF_MERIT = 0.6
# Torque over thrust as a share of the diameter: of a 10x4.7 at 6528 rpm, Brandt and Selig 2011.
YAW_ARM_SHARE = 0.065
BENCH_AIR = "the bench table is taken to be of this propeller, in air of 1.225 kg/m³"


class Alike(msgspec.Struct, frozen=True):
    """Rotors with one kind of motor and one kind of propeller; the first stands for them."""

    rotor: Rotor
    count: int


def alike(craft: Craft) -> tuple[Alike, ...]:
    """The rotors, those with the same motor and propeller together. Lacking: there is none."""
    counted: dict[tuple[str | None, str | None], list[Rotor]] = {}
    for rotor in craft.rotors:
        motor = None if rotor.motor is None else rotor.motor.spec.spec
        propeller = None if rotor.propeller is None else _size_of(rotor.propeller)
        counted.setdefault((motor, propeller), []).append(rotor)
    if not counted:
        raise Lacking(f"{NO_STATION} in aircraft.yaml", craft.home)
    return tuple(Alike(rotors[0], len(rotors)) for rotors in counted.values())


def _size_of(propeller: ItemNow) -> str:
    """What makes propellers alike, whichever hand they have."""
    spec = propeller.spec
    size = None if spec.size is None else (spec.size.diameter_m, spec.size.pitch_m)
    return repr(
        (size, spec.thrust_coefficient, spec.power_coefficient, spec.figure_of_merit, spec.blades)
    )


def motor_of(craft: Craft, rotor: Rotor) -> ItemNow:
    """The motor of a rotor. Lacking: none is fitted."""
    return _fitted(craft, rotor, rotor.motor, "motor")


def motor_constants(motor: ItemNow, index: int) -> dict[str, Input]:
    """The constants of one of several kinds of motor. Lacking: its spec has not all of them."""
    spec = motor.spec
    return {
        f"kv_{index}": of_spec(motor, spec.kv_rpm_v, "kv", "kv", "rpm/V"),
        f"ohm_{index}": of_spec(motor, spec.resistance_ohm, "resistance", "resistance", "Ω"),
        f"idle_{index}": of_spec(
            motor, spec.no_load_current_a, "no_load_current", "no-load current", "A"
        ),
    }


def propeller_of(craft: Craft, rotor: Rotor) -> ItemNow:
    """The propeller of a rotor. Lacking: none is fitted."""
    return _fitted(craft, rotor, rotor.propeller, "propeller")


def esc_of(craft: Craft, rotor: Rotor) -> ItemNow:
    """The ESC of a rotor. Lacking: none is fitted."""
    return _fitted(craft, rotor, rotor.esc, "esc")


def _fitted(craft: Craft, rotor: Rotor, item: ItemNow | None, kind: str) -> ItemNow:
    if item is None:
        raise Lacking(
            f"no {kind} is fitted at {rotor.station}: write it as 'fit' once it is on",
            craft.where(f"stations.{rotor.station}"),
        )
    return item


def diameter(propeller: ItemNow) -> Input:
    """Diameter in m. Lacking: the spec has no size."""
    size = propeller.spec.size
    metres = None if size is None else size.diameter_m
    return of_spec(propeller, metres, "size", "diameter", "m")


def thrust_coefficient(propeller: ItemNow) -> Input:
    """C_T at standstill. Lacking: the spec has none."""
    value = propeller.spec.thrust_coefficient
    return of_spec(propeller, value, "thrust_coefficient", "thrust coefficient", "ratio")


def power_coefficient(propeller: ItemNow) -> Input:
    """C_P at standstill. Lacking: the spec has none."""
    value = propeller.spec.power_coefficient
    return of_spec(propeller, value, "power_coefficient", "power coefficient", "ratio")


def merit(propeller: ItemNow) -> Input:
    """Figure of merit: of the spec, else of its coefficients, else the default."""
    spec, name = propeller.spec, f"figure of merit of {propeller.spec.spec}"
    if spec.figure_of_merit is not None:
        return declared(name, spec.figure_of_merit, "ratio", spec.place("figure_of_merit"))
    if spec.thrust_coefficient is not None and spec.power_coefficient is not None:
        value = figure_of_merit(spec.thrust_coefficient, spec.power_coefficient)
        return declared(name, value, "ratio", spec.place("thrust_coefficient"))
    return default(name, FIGURE_OF_MERIT, "ratio", CUSTOM, spec.place())


def yaw_arm(craft: Craft) -> Input:
    """Torque over thrust in m: of the coefficients of the first propeller, else by its diameter."""
    propeller = propeller_of(craft, craft.rotors[0])
    span = diameter(propeller)
    metres = span.value if isinstance(span.value, float) else 0.0
    spec = propeller.spec
    if spec.thrust_coefficient is not None and spec.power_coefficient is not None:
        from buildbook.figures.laws.aero.propeller import yaw_arm_m

        value = yaw_arm_m(spec.thrust_coefficient, spec.power_coefficient, metres)
        return declared("yaw arm", value, "m", spec.place("thrust_coefficient"))
    words = "a measured 10x4.7 propeller, Brandt and Selig 2011"
    return default("yaw arm", YAW_ARM_SHARE * metres, "m", words, spec.place())


def written_bench(craft: Craft, motor: ItemNow) -> ledger.BenchTable:
    """The bench file that the spec of a motor names. Lacking: none, or it isn't there."""
    name = motor.spec.bench
    if name is None:
        raise Lacking(
            f"no bench table of {motor.spec.spec}: write 'bench' in its spec", motor.spec.place()
        )
    table = craft.hangar.ledger.bench.get(name)
    if table is None:
        raise Lacking(
            f"the bench table {name} is not there: put it into bench/", motor.spec.place("bench")
        )
    return table


def bench_of(craft: Craft, rotor: Rotor) -> BenchTable:
    """The bench table of a rotor made ready. Lacking: there is none that serves, and why."""
    found, limits = held_bench(craft, rotor)
    if found.ready is None:
        from buildbook.figures.answers.propulsion.bench.words import place_of, whole_words

        table = written_bench(craft, motor_of(craft, rotor))
        raise Lacking(whole_words(table, found, limits), place_of(found))
    return found.ready


def held_bench(craft: Craft, rotor: Rotor) -> tuple[Held, Limits]:
    """The bench table of a rotor held against its propeller and motor. Lacking: none."""
    motor, size = motor_of(craft, rotor), None
    if rotor.propeller is not None and rotor.propeller.spec.size is not None:
        size = rotor.propeller.spec.size.diameter_m
    return craft.once(f"bench of {motor.spec.spec} with {size}", _held, craft, motor, size)


def _held(craft: Craft, motor: ItemNow, size_m: float | None) -> tuple[Held, Limits]:
    spec, table = motor.spec, written_bench(craft, motor)
    # They take long to load, and few hangars have a table.
    from buildbook.figures.answers.propulsion.bench.plausible import Limits, held

    limits = Limits(size_m, spec.max_current_a, spec.max_power_w)
    return held(table, limits), limits


def names_bench(craft: Craft) -> bool:
    """Whether any motor has a bench table, whether it serves or not."""
    return any(one.motor is not None and one.motor.spec.bench is not None for one in craft.rotors)


def not_off_bench(why: Exception) -> str:
    """Said where a table is written, and another way is taken."""
    return f"not off the bench: {why}"


def bench_notes(craft: Craft) -> tuple[str, ...]:
    """Which rows are left out and why, and what is taken of the bench."""
    from buildbook.figures.answers.propulsion.bench.words import groups, left_out_words

    words: list[str] = []
    for group in alike(craft):
        found, limits = held_bench(craft, group.rotor)
        table = written_bench(craft, motor_of(craft, group.rotor))
        words += [left_out_words(table, one, limits) for one in groups(found.left_out)]
    return (*dict.fromkeys(words), BENCH_AIR)


def bench_inputs(craft: Craft) -> tuple[Input, ...]:
    """The bench files of all rotors, and the air that is taken for them."""
    found = {}
    for group in alike(craft):
        motor = motor_of(craft, group.rotor)
        table = written_bench(craft, motor)
        found[table.file] = Input(
            called=Name(f"bench table of {motor.spec.spec}"),
            value=table.file,
            unit="",
            basis="measured",
            place=motor.spec.place("bench"),
        )
    return tuple(found.values())


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


def written_table(craft: Craft, propeller: ItemNow) -> ledger.BenchTable:
    """The table that the spec names. Lacking: none, or it isn't there."""
    name = propeller.spec.table
    table = None if name is None else craft.hangar.ledger.bench.get(name)
    if table is None:
        raise Lacking(
            f"no table of {propeller.spec.spec}: write 'table' in its spec", propeller.spec.place()
        )
    return table


def in_flight(table: ledger.BenchTable) -> Rows | None:
    """Rows over the advance ratio; None: fewer than two."""
    found = [
        (row.advance_ratio, row.thrust_coefficient, row.power_coefficient)
        for row in table.rows
        if row.advance_ratio is not None
        and row.thrust_coefficient is not None
        and row.power_coefficient is not None
    ]
    return _rising(found)


def _static(table: ledger.BenchTable) -> Rows | None:
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
