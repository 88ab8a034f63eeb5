"""Full throttle standing still: thrust, current and speed of each rotor."""

import math
from collections.abc import Callable, Mapping

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft, Rotor
from buildbook.figures.answers.gathering import Lacking, number
from buildbook.figures.answers.packs.packs import nominal
from buildbook.figures.answers.propulsion.air import density
from buildbook.figures.answers.propulsion.losses import paired
from buildbook.figures.answers.propulsion.rotors import (
    Blades,
    alike,
    bench_inputs,
    bench_notes,
    bench_of,
    blades_of,
    diameter,
    motor_constants,
    motor_of,
    names_bench,
    not_off_bench,
    propeller_of,
)
from buildbook.figures.answers.working import Way, by_law
from buildbook.figures.laws.propulsion.bench import bench_full_throttle
from buildbook.figures.laws.propulsion.motor import MotorPoint, full_throttle_point
from buildbook.report.figure import Input
from buildbook.report.state import ItemNow

TURNS = 12  # of looking the coefficients up again; they change little with the speed


class Point(msgspec.Struct, frozen=True):
    """One rotor at full throttle. ``rotation_rev_s`` None: the bench did not read it."""

    thrust_n: float
    current_a: float
    rotation_rev_s: float | None


class Full(msgspec.Struct, frozen=True, kw_only=True):
    """All rotors at full throttle: ``points`` gives one point a kind of rotor. law: its key.
    pack: the tag of the pack that it is on.

    Where the values hold the interference of pairs, the thrusts are those of pairs; currents and
    speeds do not ask for it. asides: its notes but that on the voltage.
    """

    law: str
    pack: str
    inputs: Mapping[str, Input]
    further: tuple[Input, ...]
    counts: tuple[int, ...]
    kinds: tuple[Rotor, ...]
    points: Callable[[Mapping[str, float]], list[Point]]
    asides: tuple[str, ...]

    @property
    def notes(self) -> tuple[str, ...]:
        """Its notes, the last of them at which voltage it is."""
        return (*self.asides, self.at_nominal)

    @property
    def at_nominal(self) -> str:
        """At which voltage it is, in words."""
        volts = amounts.voltage(number(self.inputs["supply_v"]))
        return f"at {volts}, the nominal voltage of {self.pack}"

    @property
    def way(self) -> Way:
        """Its law in words; the work list, which asks for numbers only, loads no laws for it."""
        return by_law(self.law)

    def values(self) -> dict[str, float]:
        """The numbers of the inputs."""
        return {key: number(given) for key, given in self.inputs.items()}

    def thrust(self, **values: float) -> float:
        """Thrust of all rotors in N."""
        return self._sum(values, lambda point: point.thrust_n)

    def amps(self, **values: float) -> float:
        """Current of all rotors in A."""
        return self._sum(values, lambda point: point.current_a)

    def least_thrust(self, **values: float) -> float:
        """The least thrust of one rotor in N."""
        return min(point.thrust_n for point in self.points(values))

    def _sum(self, values: Mapping[str, float], read: Callable[[Point], float]) -> float:
        points = zip(self.points(values), self.counts, strict=True)
        return math.fsum(read(point) * count for point, count in points)


def full_throttle(craft: Craft, pack: ItemNow) -> Full:
    """Full throttle on a pack: off the bench, else motor and propeller solved together.

    Lacking, ValueError: neither works; the words name what both lack.
    """
    return craft.once(f"full throttle with {pack.tag}", _full, craft, pack)


def _full(craft: Craft, pack: ItemNow) -> Full:
    try:
        return _by_bench(craft, pack)
    except (Lacking, ValueError) as no_bench:
        try:
            full = _by_constants(craft, pack)
        except (Lacking, ValueError) as no_constants:
            both = list(dict.fromkeys((str(no_bench), str(no_constants))))
            raise Lacking(
                "; and without it: ".join(both),
                getattr(no_bench, "place", None) or getattr(no_constants, "place", None),
            ) from no_constants
        if not names_bench(craft):
            return full
        aside = not_off_bench(no_bench)
        return msgspec.structs.replace(full, asides=(aside, *full.asides))


def _common(craft: Craft, pack: ItemNow) -> dict[str, Input]:
    return {"density_kg_m3": density(craft), "supply_v": nominal(pack)}


def _by_bench(craft: Craft, pack: ItemNow) -> Full:
    groups = alike(craft)
    tables = [bench_of(craft, group.rotor) for group in groups]

    def points(values: Mapping[str, float]) -> list[Point]:
        found = []
        for table in tables:
            point = bench_full_throttle(table, values["density_kg_m3"], values["supply_v"])
            row = table.full
            thrust = paired(point.thrust_n, values)
            if row is None or row.rotation_rev_s is None:
                found.append(Point(thrust, point.current_a, None))
                continue
            # Thrust goes with the square of the speed and with the density.
            thinner = values["density_kg_m3"] / table.density_kg_m3
            faster = math.sqrt(point.thrust_n / (row.thrust_n * thinner))
            found.append(Point(thrust, point.current_a, row.rotation_rev_s * faster))
        return found

    return _proved(
        Full(
            law="bench_full_throttle",
            pack=pack.tag,
            inputs=_common(craft, pack),
            further=bench_inputs(craft),
            counts=tuple(group.count for group in groups),
            kinds=tuple(group.rotor for group in groups),
            points=points,
            asides=tuple(bench_notes(craft)),
        ),
    )


def _by_constants(craft: Craft, pack: ItemNow) -> Full:
    groups = alike(craft)
    inputs = _common(craft, pack)
    blades: list[Blades] = []
    for index, group in enumerate(groups):
        motor, propeller = motor_of(craft, group.rotor), propeller_of(craft, group.rotor)
        inputs.update(motor_constants(motor, index))
        found = blades_of(craft, propeller, index)
        blades.append(found)
        inputs.update(found.inputs)
        inputs[f"diameter_{index}"] = diameter(propeller)

    def point(values: Mapping[str, float], index: int) -> Point:
        found = _balanced(blades[index], values, index)
        return Point(paired(found.thrust_n, values), found.current_a, found.rotation_rev_s)

    return _proved(
        Full(
            law="full_throttle_point",
            pack=pack.tag,
            inputs=inputs,
            further=tuple(one for each in blades for one in each.further),
            counts=tuple(group.count for group in groups),
            kinds=tuple(group.rotor for group in groups),
            points=lambda values: [point(values, index) for index in range(len(groups))],
            asides=("ESC losses are ignored",),
        ),
    )


def _balanced(blades: Blades, values: Mapping[str, float], index: int) -> MotorPoint:
    """Motor and propeller in balance, with the coefficients of the speed that comes out.

    ValueError: that speed is outside of the table.
    """
    turning = blades.within(1.0)
    for _ in range(TURNS):
        thrust, power = blades.at(blades.within(turning), values)
        found = full_throttle_point(
            values["supply_v"],
            values[f"kv_{index}"],
            values[f"ohm_{index}"],
            values[f"idle_{index}"],
            thrust,
            power,
            values["density_kg_m3"],
            values[f"diameter_{index}"],
        )
        turning = found.rotation_rev_s
    if blades.within(turning) != turning:
        edge = blades.within(turning)
        raise ValueError(
            f"the table of the propeller must reach {amounts.rotation(turning * 60)}, got "
            f"{amounts.rotation(edge * 60)} at the end"
        )
    return found


def _proved(full: Full) -> Full:
    """The same, once it has given points for its own inputs."""
    full.points(full.values())
    return full
