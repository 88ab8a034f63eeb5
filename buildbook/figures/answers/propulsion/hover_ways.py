"""The ways to what a hover takes: the bench, momentum theory, the constants of the motor."""

import math
from collections.abc import Callable, Mapping

import msgspec

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, from_figure, number
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.packs.packs import nominal
from buildbook.figures.answers.propulsion.air import density
from buildbook.figures.answers.propulsion.losses import (
    apart,
    esc_efficiency,
    interference,
    loss_notes,
    motor_efficiency,
    pair_notes,
    spread,
)
from buildbook.figures.answers.propulsion.rotors import (
    Blades,
    alike,
    bench_inputs,
    bench_notes,
    bench_of,
    blades_of,
    diameter,
    merit,
    motor_constants,
    motor_of,
    names_bench,
    not_off_bench,
    propeller_of,
)
from buildbook.figures.answers.working import Way, by_law, by_method
from buildbook.figures.laws.aero.hover import disk_area_m2, hover_power_w
from buildbook.figures.laws.aero.propeller import (
    propeller_power_w,
    shaft_torque_nm,
)
from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.propulsion.bench import bench_point
from buildbook.figures.laws.propulsion.motor import loaded_motor_current_a, loaded_motor_v
from buildbook.report.figure import Input, Name
from buildbook.report.state import ItemNow


class Need(msgspec.Struct, frozen=True):
    """What one hovering rotor takes. ``throttle`` None: the way does not tell."""

    power_w: float
    throttle: float | None


class Method(msgspec.Struct, frozen=True, kw_only=True):
    """A way to the hover: ``needs`` gives one need a kind of rotor from the keyed inputs."""

    key: str
    way: Way
    inputs: Mapping[str, Input]
    further: tuple[Input, ...]
    counts: tuple[int, ...]
    needs: Callable[[Mapping[str, float]], list[Need]]
    notes: tuple[str, ...]
    spread: tuple[float, float] = (1.0, 1.0)  # the least and most power, as shares of the stated
    aside: str | None = None  # why the bench table that is named does not tell it

    def total_w(self, **values: float) -> float:
        """Power of all rotors."""
        needs = self.needs(values)
        return math.fsum(
            need.power_w * count for need, count in zip(needs, self.counts, strict=True)
        )

    def amps(self, **values: float) -> float:
        """Current of all rotors from the pack."""
        return self.total_w(**values) / values["supply_v"]

    def throttle(self, **values: float) -> float:
        """The greatest throttle of any rotor. Lacking: the way does not tell."""
        throttles = [need.throttle for need in self.needs(values)]
        known = [one for one in throttles if one is not None]
        if len(known) < len(throttles):
            raise Lacking("momentum theory alone does not tell a throttle")
        return max(known)


def electrical(craft: Craft, pack: ItemNow) -> Method:
    """The best way to the power from the pack: bench, motor's constants, momentum theory."""
    return methods_of(craft, pack, ("bench", "motor constants", "momentum theory"))[0]


def methods_of(craft: Craft, pack: ItemNow, keys: tuple[str, ...]) -> list[Method]:
    """The ways that work here, best first. Lacking, ValueError: what the last of them lacks."""
    found: list[Method] = []
    refused: dict[str, Exception] = {}
    for key in keys:
        try:
            found.append(craft.once(f"{key} with {pack.tag}", WAYS[key], craft, pack))
        except (Lacking, ValueError) as why:
            refused[key] = why
    no_bench = refused.get("bench") if names_bench(craft) else None
    if not found:
        raise no_bench or refused[keys[-1]]
    if no_bench is not None:
        aside = not_off_bench(no_bench)
        found[0] = msgspec.structs.replace(found[0], aside=aside, notes=(aside, *found[0].notes))
    return found


def _common(craft: Craft, pack: ItemNow) -> dict[str, Input]:
    return {
        "mass_kg": from_figure(mass_with(craft, pack), Name("all-up mass", "with", pack.tag)),
        "density_kg_m3": density(craft),
        "supply_v": nominal(pack),
        **interference(craft),
    }


def _thrust(values: Mapping[str, float], rotors: int) -> float:
    """The thrust that a rotor apart gives at the power that each takes here, in N."""
    share = values["mass_kg"] * STANDARD_GRAVITY_M_S2 / rotors
    return apart(share, values)


def _by_bench(craft: Craft, pack: ItemNow) -> Method:
    groups = alike(craft)
    tables = [bench_of(craft, group.rotor) for group in groups]
    rotors = len(craft.rotors)

    def needs(values: Mapping[str, float]) -> list[Need]:
        thrust = _thrust(values, rotors)
        points = [
            bench_point(table, thrust, values["density_kg_m3"], values["supply_v"])
            for table in tables
        ]
        return [Need(point.power_w, point.throttle) for point in points]

    method = Method(
        key="bench",
        way=by_law("bench_point"),
        inputs=_common(craft, pack),
        further=bench_inputs(craft),
        counts=tuple(group.count for group in groups),
        needs=needs,
        notes=(*bench_notes(craft), *pair_notes(craft)),
        spread=spread(_common(craft, pack)),
    )
    return _proved(method)


def _by_momentum(craft: Craft, pack: ItemNow) -> Method:
    groups = alike(craft)
    inputs = _common(craft, pack)
    for index, group in enumerate(groups):
        propeller = propeller_of(craft, group.rotor)
        inputs[f"diameter_{index}"] = diameter(propeller)
        inputs[f"merit_{index}"] = merit(propeller)
        inputs[f"motor_efficiency_{index}"] = motor_efficiency(group.rotor)
        inputs[f"esc_efficiency_{index}"] = esc_efficiency(group.rotor)
    rotors = len(craft.rotors)

    def needs(values: Mapping[str, float]) -> list[Need]:
        thrust = _thrust(values, rotors)
        air = values["density_kg_m3"]
        return [
            Need(
                hover_power_w(
                    thrust,
                    disk_area_m2(values[f"diameter_{index}"]),
                    air,
                    values[f"merit_{index}"],
                )
                / (values[f"motor_efficiency_{index}"] * values[f"esc_efficiency_{index}"]),
                None,
            )
            for index in range(len(groups))
        ]

    law = by_law("coaxial_hover_power_w" if craft.coaxial else "hover_power_w")
    way = law.written(f"{law.formula}, over η_motor·η_ESC")
    method = Method(
        key="momentum theory",
        way=way,
        inputs=inputs,
        further=(),
        counts=tuple(group.count for group in groups),
        needs=needs,
        notes=(*loss_notes(inputs), *pair_notes(craft)),
        spread=spread(inputs),
    )
    return _proved(method)


def _by_constants(craft: Craft, pack: ItemNow) -> Method:
    groups = alike(craft)
    blades: list[Blades] = []
    inputs = _common(craft, pack)
    for index, group in enumerate(groups):
        motor, propeller = motor_of(craft, group.rotor), propeller_of(craft, group.rotor)
        inputs.update(motor_constants(motor, index))
        inputs[f"diameter_{index}"] = diameter(propeller)
        found = blades_of(craft, propeller, index)
        blades.append(found)
        inputs.update(found.inputs)
        inputs[f"esc_efficiency_{index}"] = esc_efficiency(group.rotor)
    rotors = len(craft.rotors)

    def need(values: Mapping[str, float], index: int) -> Need:
        thrust = _thrust(values, rotors)
        air, span = values["density_kg_m3"], values[f"diameter_{index}"]
        turning = blades[index].turning(thrust, air, span, values)
        _, power = blades[index].at(turning, values)
        shaft = propeller_power_w(power, air, turning, span)
        torque = shaft_torque_nm(shaft, turning)
        amps = loaded_motor_current_a(torque, values[f"kv_{index}"], values[f"idle_{index}"])
        volts = loaded_motor_v(turning, amps, values[f"kv_{index}"], values[f"ohm_{index}"])
        if volts > values["supply_v"]:
            raise ValueError(
                f"a hover takes {volts:.3g} V at the motor, the pack has {values['supply_v']:.3g}"
            )
        return Need(volts * amps / values[f"esc_efficiency_{index}"], volts / values["supply_v"])

    method = Method(
        key="motor constants",
        way=by_method(
            "C_T and C_P to speed and torque; I = Q/K_Q + I_0, U = n/K_V + I·R, P = U·I/η_ESC",
            "the propeller's coefficients and the equivalent circuit of the motor",
            "loaded_motor_current_a",
        ),
        inputs=inputs,
        further=tuple(one for each in blades for one in each.further),
        counts=tuple(group.count for group in groups),
        needs=lambda values: [need(values, index) for index in range(len(groups))],
        notes=(*loss_notes(inputs), *pair_notes(craft)),
        spread=spread(inputs),
    )
    return _proved(method)


def _proved(method: Method) -> Method:
    """The method, once it has given a power for its own inputs. ValueError: it refuses them."""
    method.total_w(**{key: number(given) for key, given in method.inputs.items()})
    return method


WAYS: Mapping[str, Callable[[Craft, ItemNow], Method]] = {
    "bench": _by_bench,
    "momentum theory": _by_momentum,
    "motor constants": _by_constants,
}
