"""How fast the tips of the propellers go, in a hover and at full throttle."""

import math
from collections.abc import Iterator

import msgspec

from buildbook.figures.answers.craft import Craft, Rotor
from buildbook.figures.answers.gathering import Lacking, declared, from_figure, number, worked_out
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.propulsion.air import density, temperature
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.losses import apart, interference
from buildbook.figures.answers.propulsion.rotors import (
    alike,
    blades_of,
    diameter,
    held_bench,
    motor_of,
    propeller_of,
)
from buildbook.figures.answers.spec import FigureSpec
from buildbook.figures.answers.working import Answer, Way, attempt, by_law, worked
from buildbook.figures.laws.aero.hover import hover_thrust_n
from buildbook.figures.laws.aero.propeller import mach_number, tip_speed_m_s
from buildbook.figures.laws.constants import SEA_LEVEL_DENSITY_KG_M3
from buildbook.figures.laws.law import CUSTOM
from buildbook.report.figure import Figure, Input

# Above this share of the speed of sound tips get loud and lose; common practice, no source.
LOUD, TOO_FAST = 0.6, 0.75


def tip_speed(craft: Craft) -> Iterator[Answer]:
    """Of the fastest rotor, in a hover where it can, and at full throttle."""
    for state in craft.loads:
        yield attempt("tip_speed", state, _tip_speed, craft, state)


def tip_mach(craft: Craft) -> Iterator[Answer]:
    """The same over the speed of sound."""
    for state in craft.loads:
        yield attempt("tip_mach", state, _tip_mach, craft, state)


def _tip_speed(craft: Craft, state: str) -> Figure:
    return craft.once(f"tip speed, {state}", _fastest, craft, state)


def _fastest(craft: Craft, state: str) -> Figure:
    figures = [_of_kind(craft, group.rotor, state) for group in alike(craft)]
    return max(figures, key=lambda figure: figure.value or 0.0)


def _of_kind(craft: Craft, rotor: Rotor, state: str) -> Figure:
    turning = _hover_rotation(craft, rotor) if state == "hover" else full_rotation(craft, rotor)
    span = diameter(propeller_of(craft, rotor))

    def speed(diameter_m: float, rotation_rpm: float) -> float:
        return tip_speed_m_s(diameter_m, rotation_rpm / 60)

    return worked(
        "tip_speed",
        speed,
        {"diameter_m": span, "rotation_rpm": turning},
        unit="m/s",
        way=by_law("tip_speed_m_s"),
        of=state,
        notes=("standing still",),
    )


def _hover_rotation(craft: Craft, rotor: Rotor) -> Input:
    """Speed in rpm in a hover: of the thrust coefficient, else of the nearest row of the bench."""
    mass = from_figure(mass_with(craft, craft.pack))
    pair = {key: number(given) for key, given in interference(craft).items()}
    thrust = apart(hover_thrust_n(number(mass), len(craft.rotors)), pair)
    propeller = propeller_of(craft, rotor)
    name = "speed in a hover"
    assumed = tuple(interference(craft).values())
    if propeller.spec.thrust_coefficient is not None or propeller.spec.table is not None:
        blades = blades_of(craft, propeller, 0)
        constants = {key: number(one) for key, one in blades.inputs.items()}
        turning = blades.turning(
            thrust, number(density(craft)), number(diameter(propeller)), constants
        )
        givens = (*blades.inputs.values(), *blades.further)
        return worked_out(name, turning * 60, "rpm", (*givens, mass, density(craft), *assumed))
    motor = motor_of(craft, rotor)
    found, _ = held_bench(craft, rotor) if motor.spec.bench is not None else (None, None)
    rows = [] if found is None else [row for row in found.kept if row.rotation_rpm]
    if not rows:
        raise Lacking(
            f"thrust coefficient of {propeller.spec.spec} is not recorded: write "
            "'thrust_coefficient' in its spec, or 'rpm' in the bench table of its motor",
            propeller.spec.place(),
        )
    # Thrust goes with the square of the speed and with the density.
    air = density(craft)
    on_bench = thrust * SEA_LEVEL_DENSITY_KG_M3 / number(air)
    row = min(rows, key=lambda one: abs((one.thrust_n or 0.0) - on_bench))
    rpm = (row.rotation_rpm or 0.0) * math.sqrt(on_bench / (row.thrust_n or on_bench))
    table = declared("bench table", rpm, "rpm", motor.spec.place("bench"))
    return worked_out(name, rpm, "rpm", (table, mass, air, *assumed))


def full_rotation(craft: Craft, rotor: Rotor, supply_v: float | None = None) -> Input:
    """Speed in rpm at full throttle, standing still. Lacking: nothing tells it.

    supply_v: at another voltage than the nominal one.
    """
    full = full_throttle(craft, craft.pack)
    values = full.values()
    points = full.points(values if supply_v is None else {**values, "supply_v": supply_v})
    spec = None if rotor.motor is None else rotor.motor.spec.spec
    for kind, point in zip(full.kinds, points, strict=True):
        if (None if kind.motor is None else kind.motor.spec.spec) == spec:
            if point.rotation_rev_s is None:
                break
            givens = (*full.further, *full.inputs.values())
            turning = point.rotation_rev_s * 60
            return worked_out("speed at full throttle", turning, "rpm", givens)
    raise Lacking(
        "the speed at full throttle is not known: write 'rpm' in the bench table",
        craft.home if rotor.motor is None else rotor.motor.spec.place("bench"),
    )


def _tip_mach(craft: Craft, state: str) -> Figure:
    speed = from_figure(_tip_speed(craft, state), f"tip speed, {state}")
    law, sound = by_law("mach_number"), by_law("speed_of_sound_m_s")
    figure = worked(
        "tip_mach",
        mach_number,
        {"speed_m_s": speed, "temperature_k": temperature(craft)},
        unit="ratio",
        way=Way(formula=f"{law.formula}; {sound.formula}", source=sound.source, law=law.law),
        of=state,
        notes=(f"loud above {LOUD}, lossy above {TOO_FAST}: {CUSTOM}",),
    )
    value = figure.value or 0.0
    verdict = "lossy" if value > TOO_FAST else "loud" if value > LOUD else "below the loud band"
    return msgspec.structs.replace(figure, verdict=verdict)


FIGURES = (
    FigureSpec(
        name="tip_speed",
        title="Tip speed",
        line="How fast the tips of the propellers move.",
        about="Speed of the propeller tips.",
        topic="Thrust and hover",
        unit="m/s",
        shown="public",
        of_aircraft=tip_speed,
        laws=("tip_speed_m_s",),
        held_by=(
            "tests/published/test_flight_wing.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
    ),
    FigureSpec(
        name="tip_mach",
        title="Tip speed against sound",
        line="The same as a share of the speed of sound.",
        about="Tip speed over the speed of sound.",
        topic="Thrust and hover",
        unit="ratio",
        shown="public",
        of_aircraft=tip_mach,
        laws=(
            "mach_number",
            "speed_of_sound_m_s",
        ),
        held_by=(
            "tests/published/test_flight_atmosphere.py",
            "tests/figures/answers/test_bench_and_wire.py",
        ),
    ),
)
