"""How fast an aeroplane climbs with its motor, and how fast its propeller would screw ahead."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from functools import partial
from itertools import pairwise

from buildbook.basis import amounts
from buildbook.figures.answers.craft import NO_STATION, Craft, Rotor
from buildbook.figures.answers.flight.rates import flown_watts, glides
from buildbook.figures.answers.flight.under_load import at_field
from buildbook.figures.answers.gathering import (
    Lacking,
    default,
    from_figure,
    in_per_cent,
    number,
    of_spec,
    worked_out,
)
from buildbook.figures.answers.mass.budget import mass_with
from buildbook.figures.answers.mass.loading import stall_speed
from buildbook.figures.answers.packs.packs import nominal, rested
from buildbook.figures.answers.propulsion.air import density
from buildbook.figures.answers.propulsion.full_throttle import full_throttle
from buildbook.figures.answers.propulsion.losses import (
    ESC_EFFICIENCY_RANGE,
    MOTOR_EFFICIENCY_RANGE,
    esc_efficiency,
    interference,
    motor_efficiency,
)
from buildbook.figures.answers.propulsion.rotors import (
    diameter,
    in_flight,
    propeller_of,
    table_input,
    written_table,
)
from buildbook.figures.answers.propulsion.supply import HALF, half_supply, without_supply
from buildbook.figures.answers.propulsion.tips import full_rotation
from buildbook.figures.answers.spec import FigureSpec, winged
from buildbook.figures.answers.working import Way, by_law, worked
from buildbook.figures.laws.aero.propeller import efficiency_at_power, pitch_speed_m_s
from buildbook.figures.laws.aero.wing import climb_rate_m_s, glide_power_w, power_by_thrust_w
from buildbook.figures.laws.law import CUSTOM
from buildbook.figures.laws.packs.battery import terminal_v
from buildbook.figures.laws.propulsion.motor import motor_efficiency as by_constants
from buildbook.report.figure import Figure, Input, Name
from buildbook.report.state import ItemNow

PROPELLER_EFFICIENCY, PROPELLER_RANGE = 0.55, (0.40, 0.70)
GLIDE_RATIO, GLIDE_RANGE = 10.0, (6.0, 16.0)
OVER_STALL, OVER_RANGE = 1.4, (1.2, 1.7)
STEPS = 10  # of the range of speeds, in search of its ends


def _range(span: tuple[float, float], share: bool) -> str:
    low, high = (f"{100 * end:.0f} %" if share else f"{end:g}" for end in span)
    return f"{low} to {high}; {CUSTOM}"


Fanned = Callable[[float, float, float], float]
"""Useful over shaft power of the propeller: of shaft power in W, airspeed in m/s, and a default."""


def _fan(craft: Craft, rotor: Rotor) -> tuple[Fanned, tuple[Input, ...]]:
    """Off the measured table where it has rows in flight, else the default."""
    if rotor.propeller is None or rotor.propeller.spec.table is None:
        return lambda _shaft, _speed, usual: usual, ()
    rows = in_flight(written_table(craft, rotor.propeller))
    if rows is None or rows.over[0] <= 0:
        return lambda _shaft, _speed, usual: usual, ()
    air, span = density(craft), diameter(rotor.propeller)

    def measured(shaft_w: float, speed_m_s: float, _usual: float) -> float:
        return efficiency_at_power(
            shaft_w, speed_m_s, number(air), number(span), rows.over, rows.thrust, rows.power
        )

    return measured, (table_input(rotor.propeller), air, span)


def _of_motor(craft: Craft, rotor: Rotor, power: Input) -> Input:
    """Its efficiency: of its spec, else by its constants at the current as flown, or a default."""
    spec = None if rotor.motor is None else rotor.motor.spec
    if spec is None or rotor.motor is None or spec.efficiency_share is not None:
        return motor_efficiency(rotor)
    if spec.resistance_ohm is None or spec.no_load_current_a is None:
        return motor_efficiency(rotor)
    volts = _climb_v(craft)
    ohm = of_spec(rotor.motor, spec.resistance_ohm, "resistance", "resistance", "Ω")
    idle = of_spec(rotor.motor, spec.no_load_current_a, "no_load_current", "no-load current", "A")
    value = by_constants(number(volts), number(power) / number(volts), number(ohm), number(idle))
    # The voltage moves it so little that it does not make it a default.
    givens = (flown_watts(craft, craft.pack), ohm, idle)
    return in_per_cent(worked_out(f"efficiency of {spec.spec}", value, "ratio", givens))


def _climb_v(craft: Craft) -> Input:
    """The voltage in V that the pack holds at half its charge, under the current as flown."""
    pack = craft.pack
    flown = flown_watts(craft, pack)
    amps = number(flown) / number(nominal(pack))
    givens = (rested(pack, HALF), at_field(craft, pack).given, flown)
    value = terminal_v(number(givens[0]), number(givens[1]), amps)
    return worked_out(Name("voltage", "of", pack.tag, "in the climb"), value, "V", givens)


def _power(craft: Craft) -> Input:
    """The power in W as flown, at that voltage."""
    flown, volts = flown_watts(craft, craft.pack), _climb_v(craft)
    amps = number(flown) / number(nominal(craft.pack))
    return worked_out("power at half charge", amps * number(volts), "W", (flown, volts))


def _climb_inputs(craft: Craft, rotor: Rotor, pack: ItemNow) -> dict[str, Input]:
    """All but what the propeller makes of it."""
    power = _power(craft)
    return {
        "power_w": power,
        "mass_kg": from_figure(mass_with(craft, pack), Name("all-up mass", "with", pack.tag)),
        "stall_m_s": from_figure(stall_speed(craft), "stall speed"),
        "motor": _of_motor(craft, rotor, power),
        "esc": esc_efficiency(rotor),
        "glide": default("glide ratio", GLIDE_RATIO, "ratio", _range(GLIDE_RANGE, share=False)),
        "over": default(
            "speed over the stall speed", OVER_STALL, "ratio", _range(OVER_RANGE, share=False)
        ),
    }


def climb_rate(craft: Craft) -> Figure:
    """Rate of climb at the power that the log shows while the motor runs."""
    if not craft.rotors:
        raise Lacking(NO_STATION, craft.home)
    if not glides(craft):
        raise Lacking(
            "the log does not say how long the motor ran: write 'motor_run' in the flights",
            craft.home,
        )
    rotor, pack = craft.rotors[0], craft.pack
    fan, table = _fan(craft, rotor)
    inputs = _climb_inputs(craft, rotor, pack)
    if not table:
        inputs["propeller"] = in_per_cent(
            default(
                "efficiency of the propeller in flight",
                PROPELLER_EFFICIENCY,
                "ratio",
                _range(PROPELLER_RANGE, share=True),
            )
        )

    inputs |= _thrust_inputs(craft, measured=bool(table))
    climb = partial(climb_m_s, fan)
    least, most = _ends(climb, inputs)
    return worked(
        "climb_rate",
        climb,
        inputs,
        unit="m/s",
        way=_way(inputs, measured=bool(table)),
        further=table,
        low=least,
        high=most,
        notes=(
            "at the current drawn in flight, at half charge: the pack holds "
            f"{amounts.voltage(number(_climb_v(craft)))} under it",
            *_held_back(climb, inputs),
            "low and high: all defaults at their worst and at their best together; their ranges: "
            + CUSTOM,
        ),
    )


def climb_m_s(
    fan: Fanned,
    *,
    power_w: float,
    mass_kg: float,
    stall_m_s: float,
    motor: float,
    esc: float,
    glide: float,
    over: float,
    propeller: float = 0.0,
    thrust_n: float | None = None,
    pitch_m_s: float | None = None,
) -> float:
    """Of the lesser of power and thrust; never more than the speed at which it flies."""
    shaft, speed = power_w * motor * esc, over * stall_m_s
    useful = shaft * fan(shaft, speed, propeller)
    if thrust_n is not None:
        by_thrust = thrust_n * speed
        if pitch_m_s is not None:
            by_thrust = power_by_thrust_w(thrust_n, speed, pitch_m_s)
        useful = min(useful, max(0.0, by_thrust))
    level = glide_power_w(mass_kg, speed, glide)
    return min(speed, climb_rate_m_s(useful, level, mass_kg))


def _thrust_inputs(craft: Craft, *, measured: bool) -> dict[str, Input]:
    """The thrust standing still, and the speed at which it ends; none of what is not known.

    At the voltage that the pack holds at half its charge under the current of full throttle.

    measured: rows in flight tell where it ends, and no straight line.
    """
    try:
        full, volts = full_throttle(craft, craft.pack), half_supply(craft, craft.pack).volts
        pair = {key: number(one) for key, one in interference(craft).items()}
        thrust = full.thrust(**{**full.values(), "supply_v": volts}, **pair)
    except (Lacking, ValueError):
        return {}
    held = (rested(craft.pack, HALF), at_field(craft, craft.pack).given)
    givens = (*full.further, *without_supply(full.inputs).values(), *held)
    found = {"thrust_n": worked_out("thrust standing still", thrust, "N", givens)}
    if not measured:
        with suppress(Lacking, ValueError):
            found["pitch_m_s"] = from_figure(pitch_speed(craft, volts), "pitch speed")
    return found


def _way(inputs: Mapping[str, Input], *, measured: bool) -> Way:
    law = by_law("climb_rate_m_s")
    formulas = [law.formula, by_law("glide_power_w").formula]
    if measured:
        formulas.append(by_law("efficiency_at_power").formula)
    if "pitch_m_s" in inputs:
        formulas.append(f"at most {by_law('power_by_thrust_w').formula}")
    elif "thrust_n" in inputs:
        formulas.append("P at most the thrust standing still times v")
    return law.written("; ".join((*formulas, "w at most v")))


def _held_back(climb: Callable[..., float], inputs: Mapping[str, Input]) -> Iterator[str]:
    """What holds the climb below what the power alone would give."""
    values = {key: number(one) for key, one in inputs.items()}
    speed = values["over"] * values["stall_m_s"]
    if "thrust_n" not in values:
        yield "the thrust standing still is not known: held to the speed of flight alone"
    elif climb(**values) < climb(**_without_thrust(values)):
        line = f", taken to fall by a straight line to nothing at the pitch speed: {CUSTOM}"
        yield f"held back by the thrust{line if 'pitch_m_s' in values else ''}"
    if climb(**values) >= speed:
        yield "no faster than it flies: straight up"


def _without_thrust(values: Mapping[str, float]) -> dict[str, float]:
    return {key: one for key, one in values.items() if key not in ("thrust_n", "pitch_m_s")}


def _ends(
    climb: Callable[..., float], inputs: Mapping[str, Input]
) -> tuple[float | None, float | None]:
    """All defaults at their worst, and at their best, at any usual speed over the stall speed.

    Which speed is the worst depends on whether power or thrust holds it back. None where the
    table of the propeller does not reach so far.
    """
    spans = {
        "propeller": PROPELLER_RANGE,
        "glide": GLIDE_RANGE,
        "motor": MOTOR_EFFICIENCY_RANGE,
        "esc": ESC_EFFICIENCY_RANGE,
    }
    values = {key: number(one) for key, one in inputs.items()}
    assumed = [key for key in spans if key in inputs and inputs[key].basis == "default"]
    slow, fast = OVER_RANGE
    speeds = [slow + (fast - slow) * step / STEPS for step in range(STEPS + 1)]
    found: list[float | None] = []
    for end, pick in enumerate((min, max)):
        at_end = {**values, **{key: spans[key][end] for key in assumed}}
        try:
            found.append(pick(climb(**{**at_end, "over": over}) for over in speeds))
        except ValueError:
            found.append(None)
    return found[0], found[1]


def pitch_speed(craft: Craft, supply_v: float | None = None) -> Figure:
    """At the nominal voltage, or another."""
    if not craft.rotors:
        raise Lacking(NO_STATION, craft.home)
    rotor = craft.rotors[0]
    propeller = propeller_of(craft, rotor)
    size = propeller.spec.size
    pitch = of_spec(propeller, None if size is None else size.pitch_m, "size", "pitch", "m")

    def speed(rotation_rpm: float, pitch_m: float) -> float:
        return pitch_speed_m_s(rotation_rpm / 60, pitch_m)

    turning = full_rotation(craft, rotor, supply_v)
    other = _end_of_thrust(craft, propeller, number(turning) / 60)
    return worked(
        "pitch_speed",
        speed,
        {"rotation_rpm": turning, "pitch_m": pitch},
        unit="m/s",
        way=by_law("pitch_speed_m_s"),
        further=(table_input(propeller),) if other else (),
        other=other,
        notes=("at full throttle standing still; in the air it turns faster",),
    )


def _end_of_thrust(craft: Craft, propeller: ItemNow, turning_rev_s: float) -> dict[str, float]:
    """The speed at which a measured propeller gives no more thrust, at that speed of turning."""
    if propeller.spec.table is None:
        return {}
    rows = in_flight(written_table(craft, propeller))
    if rows is None:
        return {}
    across = number(diameter(propeller)) * turning_rev_s
    for (low, high), (more, less) in zip(pairwise(rows.over), pairwise(rows.thrust), strict=True):
        if more > 0 >= less:
            ratio = low + (high - low) * more / (more - less)
            return {"thrust ends at, m/s": ratio * across}
    return {"thrust still at, m/s": rows.over[-1] * across}


FIGURES = (
    FigureSpec(
        name="climb_rate",
        title="Rate of climb",
        line="With the motor running, at the power of the log.",
        about=(
            "Rate of climb at the power that the log shows while the motor runs, with what level "
            "flight takes, as far as the thrust goes."
        ),
        topic="Time in the air",
        unit="m/s",
        shown="public",
        asked_of=winged,
        of_aircraft=climb_rate,
        laws=(
            "climb_rate_m_s",
            "glide_power_w",
            "power_by_thrust_w",
            "efficiency_at_power",
            "motor_efficiency",
        ),
        held_by=(
            "tests/published/test_flight_wing.py",
            "tests/published/test_flight_propellers.py",
            "tests/figures/answers/test_trim_and_turns.py",
        ),
    ),
    FigureSpec(
        name="pitch_speed",
        title="Pitch speed",
        line="Pitch times speed of turning, at full throttle.",
        about="The speed at which the propeller would screw itself ahead without slip.",
        topic="Thrust and hover",
        unit="m/s",
        shown="public",
        asked_of=winged,
        of_aircraft=pitch_speed,
        laws=("pitch_speed_m_s",),
        held_by=(
            "tests/published/test_flight_wing.py",
            "tests/figures/answers/test_propeller_tables.py",
            "tests/figures/answers/test_trim_and_turns.py",
        ),
    ),
)
