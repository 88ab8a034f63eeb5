"""What a hover takes: off the bench, else by momentum theory, beside the motor's constants."""

import math
from collections.abc import Callable, Iterator, Mapping

import msgspec

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, from_figure, number, of_spec
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.packs.packs import nominal
from buildbook.figures.answers.propulsion.air import density
from buildbook.figures.answers.propulsion.rotors import (
    alike,
    bench_inputs,
    bench_of,
    diameter,
    merit,
    motor_of,
    power_coefficient,
    propeller_of,
    thrust_coefficient,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Said, Way, attempt, by_law, by_method, worked
from buildbook.figures.laws.aero.hover import disk_area_m2, hover_power_w
from buildbook.figures.laws.aero.propeller import (
    propeller_power_w,
    rotation_for_thrust_rev_s,
    shaft_torque_nm,
)
from buildbook.figures.laws.constants import STANDARD_GRAVITY_M_S2
from buildbook.figures.laws.propulsion.bench import bench_point
from buildbook.figures.laws.propulsion.motor import loaded_motor_current_a, loaded_motor_v
from buildbook.report.figure import Figure, Input
from buildbook.report.known_figures import Headline
from buildbook.report.state import ItemNow

INTERFERENCE = math.sqrt(2)  # of rotors one above the other, no spacing: the upper bound
AT_SHAFT = "power at the shaft: what motor and ESC lose comes on top"
COAXIAL = (
    "rotors one above the other: taken as √2 times the power of two apart, the upper bound of "
    "their interference"
)
BENCH_AIR = "the bench table is taken to be of this propeller, in air of 1.225 kg/m³"


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


def hover_power(craft: Craft) -> Iterator[Said]:
    """Power of all motors in a hover, with the pack of the last flight."""
    if craft.hovers:
        yield attempt("hover_power", None, _with_last_pack, craft, hover_power_with)


def hover_current(craft: Craft) -> Iterator[Said]:
    """Current from the pack in a hover."""
    if craft.hovers:
        yield attempt("hover_current", None, _with_last_pack, craft, hover_current_with)


def hover_throttle(craft: Craft) -> Iterator[Said]:
    """Throttle in a hover."""
    if craft.hovers:
        yield attempt("hover_throttle", None, _with_last_pack, craft, _throttle)


def _with_last_pack(craft: Craft, work: Callable[[Craft, ItemNow], Figure]) -> Figure:
    return work(craft, craft.pack)


def hover_power_with(craft: Craft, pack: ItemNow) -> Figure:
    """Power of all motors in W in a hover with a pack; other ways beside it."""
    return craft.once(f"hover power with {pack.tag}", _power, craft, pack)


def hover_current_with(craft: Craft, pack: ItemNow) -> Figure:
    """Current in A from a pack in a hover with it."""
    return craft.once(f"hover current with {pack.tag}", _current, craft, pack)


def electrical(craft: Craft, pack: ItemNow) -> Method:
    """The best way to the power from the pack: bench, motor's constants, momentum theory."""
    return _methods(craft, pack, ("bench", "motor constants", "momentum theory"))[0]


def _methods(craft: Craft, pack: ItemNow, keys: tuple[str, ...]) -> list[Method]:
    """The ways that work here, best first. Lacking, ValueError: what the last of them lacks."""
    found: list[Method] = []
    refused: list[Exception] = []
    for key in keys:
        try:
            found.append(craft.once(f"{key} with {pack.tag}", WAYS[key], craft, pack))
        except (Lacking, ValueError) as why:
            refused.append(why)
    if not found:
        raise refused[-1]
    return found


def _power(craft: Craft, pack: ItemNow) -> Figure:
    methods = _methods(craft, pack, ("bench", "momentum theory", "motor constants"))
    best = methods[0]
    inputs = {key: given for key, given in best.inputs.items() if key in _used_for_power(best)}
    values = {key: number(given) for key, given in best.inputs.items()}
    fixed = {key: value for key, value in values.items() if key not in inputs}
    total = best.total_w(**values)
    return worked(
        "hover_power",
        lambda **given: best.total_w(**{**fixed, **given}),
        inputs,
        unit="W",
        way=best.way,
        further=best.further,
        notes=best.notes,
        other=_others(methods, total, "W"),
    )


def _used_for_power(method: Method) -> frozenset[str]:
    """Momentum theory does not ask for a voltage."""
    keys = frozenset(method.inputs)
    return keys - {"supply_v"} if method.key == "momentum theory" else keys


def _others(methods: list[Method], value: float, unit: str) -> dict[str, float]:
    """What the other ways give, and by what share they differ."""
    other: dict[str, float] = {}
    for method in methods[1:]:
        values = {key: number(given) for key, given in method.inputs.items()}
        found = method.total_w(**values)
        other[f"by {method.key}, {unit}"] = found
        other[f"by {method.key}, difference"] = found / value - 1
    return other


def _current(craft: Craft, pack: ItemNow) -> Figure:
    methods = _methods(craft, pack, ("bench", "motor constants", "momentum theory"))
    best = methods[0]
    words = best.way.formula.removeprefix("method: ")
    way = Way(
        formula=f"method: I = P / U, with P: {words}", source=best.way.source, law=best.way.law
    )
    return worked(
        "hover_current",
        best.amps,
        best.inputs,
        unit="A",
        way=way,
        further=best.further,
        notes=best.notes,
    )


def _throttle(craft: Craft, pack: ItemNow) -> Figure:
    try:
        best = _methods(craft, pack, ("bench", "motor constants"))[0]
    except (Lacking, ValueError) as refused:
        motor = craft.rotors[0].motor if craft.rotors else None
        place = craft.home if motor is None else motor.spec.place()
        raise Lacking(
            f"neither a bench table nor the motor's constants give it: {refused}",
            getattr(refused, "place", None) or place,
        ) from refused
    return worked(
        "hover_throttle",
        best.throttle,
        best.inputs,
        unit="ratio",
        way=best.way,
        further=best.further,
        notes=best.notes,
    )


def _common(craft: Craft, pack: ItemNow) -> dict[str, Input]:
    return {
        "mass_kg": from_figure(mass_with(craft, pack), f"all-up mass with {pack.tag}"),
        "density_kg_m3": density(craft),
        "supply_v": nominal(pack),
    }


def _factor(craft: Craft) -> float:
    return INTERFERENCE if craft.coaxial else 1.0


def _by_bench(craft: Craft, pack: ItemNow) -> Method:
    groups = alike(craft)
    tables = [bench_of(craft, motor_of(craft, group.rotor)) for group in groups]
    rotors, factor = len(craft.rotors), _factor(craft)

    def needs(values: Mapping[str, float]) -> list[Need]:
        thrust = values["mass_kg"] * STANDARD_GRAVITY_M_S2 / rotors
        points = [
            bench_point(table, thrust, values["density_kg_m3"], values["supply_v"])
            for table in tables
        ]
        return [Need(point.power_w * factor, point.throttle) for point in points]

    method = Method(
        key="bench",
        way=by_law("bench_point"),
        inputs=_common(craft, pack),
        further=bench_inputs(craft),
        counts=tuple(group.count for group in groups),
        needs=needs,
        notes=(BENCH_AIR, *((COAXIAL,) if craft.coaxial else ())),
    )
    return _proved(method)


def _by_momentum(craft: Craft, pack: ItemNow) -> Method:
    groups = alike(craft)
    inputs = _common(craft, pack)
    for index, group in enumerate(groups):
        propeller = propeller_of(craft, group.rotor)
        inputs[f"diameter_{index}"] = diameter(propeller)
        inputs[f"merit_{index}"] = merit(propeller)
    rotors, factor = len(craft.rotors), _factor(craft)

    def needs(values: Mapping[str, float]) -> list[Need]:
        thrust = values["mass_kg"] * STANDARD_GRAVITY_M_S2 / rotors
        air = values["density_kg_m3"]
        return [
            Need(
                factor
                * hover_power_w(
                    thrust,
                    disk_area_m2(values[f"diameter_{index}"]),
                    air,
                    values[f"merit_{index}"],
                ),
                None,
            )
            for index in range(len(groups))
        ]

    way = by_law("coaxial_hover_power_w" if craft.coaxial else "hover_power_w")
    method = Method(
        key="momentum theory",
        way=way,
        inputs=inputs,
        further=(),
        counts=tuple(group.count for group in groups),
        needs=needs,
        notes=(AT_SHAFT, *((COAXIAL,) if craft.coaxial else ())),
    )
    return _proved(method)


def _by_constants(craft: Craft, pack: ItemNow) -> Method:
    groups = alike(craft)
    inputs = _common(craft, pack)
    for index, group in enumerate(groups):
        motor, propeller = motor_of(craft, group.rotor), propeller_of(craft, group.rotor)
        spec = motor.spec
        inputs[f"kv_{index}"] = of_spec(motor, spec.kv_rpm_v, "kv", "kv", "rpm/V")
        inputs[f"ohm_{index}"] = of_spec(
            motor, spec.resistance_ohm, "resistance", "resistance", "Ω"
        )
        inputs[f"idle_{index}"] = of_spec(
            motor, spec.no_load_current_a, "no_load_current", "no-load current", "A"
        )
        inputs[f"diameter_{index}"] = diameter(propeller)
        inputs[f"thrust_{index}"] = thrust_coefficient(propeller)
        inputs[f"power_{index}"] = power_coefficient(propeller)
    rotors, factor = len(craft.rotors), _factor(craft)

    def need(values: Mapping[str, float], index: int) -> Need:
        thrust = values["mass_kg"] * STANDARD_GRAVITY_M_S2 / rotors
        air, span = values["density_kg_m3"], values[f"diameter_{index}"]
        turning = rotation_for_thrust_rev_s(thrust, values[f"thrust_{index}"], air, span)
        shaft = factor * propeller_power_w(values[f"power_{index}"], air, turning, span)
        torque = shaft_torque_nm(shaft, turning)
        amps = loaded_motor_current_a(torque, values[f"kv_{index}"], values[f"idle_{index}"])
        volts = loaded_motor_v(turning, amps, values[f"kv_{index}"], values[f"ohm_{index}"])
        if volts > values["supply_v"]:
            raise ValueError(
                f"a hover takes {volts:.3g} V at the motor, the pack has {values['supply_v']:.3g}"
            )
        return Need(volts * amps, volts / values["supply_v"])

    method = Method(
        key="motor constants",
        way=by_method(
            "C_T and C_P to speed and torque; I = Q/K_Q + I_0, U = n/K_V + I·R, P = U·I",
            "the propeller's coefficients and the equivalent circuit of the motor",
            "loaded_motor_current_a",
        ),
        inputs=inputs,
        further=(),
        counts=tuple(group.count for group in groups),
        needs=lambda values: [need(values, index) for index in range(len(groups))],
        notes=(
            "the ESC is taken as without loss",
            *((COAXIAL,) if craft.coaxial else ()),
        ),
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


FIGURES = (
    FigureSpec(
        name="hover_throttle",
        title="Hover throttle",
        line="Where the stick stands in a hover.",
        about="Throttle in a hover, off the bench or by the motor's constants.",
        topic="Thrust and hover",
        unit="ratio",
        worded="share",
        shown="public",
        of_aircraft=hover_throttle,
        laws=(
            "bench_point",
            "loaded_motor_v",
        ),
        held_by=(
            "tests/published/test_flight_propellers.py",
            "tests/published/test_flight_crosschecks.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
        headline=Headline(place=6),
    ),
    FigureSpec(
        name="hover_power",
        title="Hover power",
        line="Electrical power in a hover.",
        about="Power in a hover: off the bench, else by momentum theory; all ways side by side.",
        topic="Thrust and hover",
        unit="W",
        shown="public",
        of_aircraft=hover_power,
        laws=(
            "bench_point",
            "hover_power_w",
            "coaxial_hover_power_w",
            "loaded_motor_current_a",
        ),
        held_by=(
            "tests/published/test_flight_hover.py",
            "tests/figures/answers/test_small_quad.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
    ),
    FigureSpec(
        name="hover_current",
        title="Hover current",
        line="Current in a hover.",
        about="Current from the pack in a hover, at its nominal voltage.",
        topic="Thrust and hover",
        unit="A",
        shown="public",
        of_aircraft=hover_current,
        laws=(
            "bench_point",
            "hover_power_w",
        ),
        held_by=(
            "tests/published/test_flight_hover.py",
            "tests/figures/answers/test_small_quad.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
        headline=Headline(place=7),
    ),
)
