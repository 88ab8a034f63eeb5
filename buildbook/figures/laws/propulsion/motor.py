"""The direct-current model of a brushless motor, alone and together with its propeller.

Three constants: speed constant, winding resistance, no-load current (taken as constant).
Source: the equivalent circuit of the permanent-magnet motor, any text on electrical machines.
The no-load loss is a constant current here; at speeds far from where it was read it is off.
"""

import math

import msgspec

from buildbook.figures.laws.aero.propeller import propeller_power_w, propeller_thrust_n
from buildbook.figures.laws.constants import SECONDS_PER_MINUTE
from buildbook.figures.laws.numbers import checked


@checked
def loaded_motor_current_a(
    torque_nm: float, kv_rpm_per_v: float, no_load_current_a: float
) -> float:
    """Current in A that the motor needs to give the torque in N·m. Source: I = Q/K_Q + I_0."""
    return 2 * math.pi * kv_rpm_per_v * torque_nm / SECONDS_PER_MINUTE + no_load_current_a


@checked
def loaded_motor_v(
    rotation_rev_s: float,
    motor_current_a: float,
    kv_rpm_per_v: float,
    winding_resistance_ohm: float,
) -> float:
    """Mean voltage in V that the motor needs to turn at the speed with the current in A.

    Over the pack's voltage it is the throttle. ValueError: a value out of range.
    Source: U = n/K_V + I R.
    """
    return (
        SECONDS_PER_MINUTE * rotation_rev_s / kv_rpm_per_v
        + motor_current_a * winding_resistance_ohm
    )


@checked
def motor_efficiency(
    supply_v: float,
    motor_current_a: float,
    winding_resistance_ohm: float,
    no_load_current_a: float,
) -> float:
    """Share of the power that a motor takes, at full throttle, which reaches the shaft.

    ValueError: a value out of range, or a current that is none of a motor that drives something.
    Source: (U - I R)(I - I_0) over U I.
    """
    if not no_load_current_a < motor_current_a < supply_v / winding_resistance_ohm:
        raise ValueError(
            f"motor_current_a must be above the {no_load_current_a:g} without load, and below that "
            f"of a motor held fast, got {motor_current_a:g}"
        )
    return (
        (supply_v - motor_current_a * winding_resistance_ohm)
        * (motor_current_a - no_load_current_a)
        / (supply_v * motor_current_a)
    )


@checked
def full_throttle_rotation_rev_s(
    supply_v: float,
    kv_rpm_per_v: float,
    winding_resistance_ohm: float,
    no_load_current_a: float,
    power_coefficient: float,
    density_kg_m3: float,
    diameter_m: float,
) -> float:
    """Speed in rev/s at which motor and propeller are in balance at full throttle, standing still.

    supply_v: at the motor. The resistances of pack, wire and controller, seen by one motor, may be
    added to the winding's when supply_v is the open-circuit voltage.
    ValueError: a value out of range, or the no-load current alone is more than can flow.
    Source: K_Q (I - I_0) = C_P ρ n² D⁵/(2π) with I = (U - n/K_V)/R, a quadratic in n.
    """
    driving_v = supply_v - no_load_current_a * winding_resistance_ohm
    if driving_v <= 0:
        limit = supply_v / winding_resistance_ohm
        raise ValueError(f"no_load_current_a must be below {limit:g}, got {no_load_current_a:g}")
    back_v_s = SECONDS_PER_MINUTE / kv_rpm_per_v
    load_v_s2 = (
        power_coefficient * density_kg_m3 * diameter_m**5 * winding_resistance_ohm / back_v_s
    )
    return 2 * driving_v / (back_v_s + math.sqrt(back_v_s**2 + 4 * load_v_s2 * driving_v))


class MotorPoint(msgspec.Struct, frozen=True):
    """Motor and propeller in balance. All values for one motor."""

    rotation_rev_s: float
    thrust_n: float
    current_a: float
    shaft_power_w: float
    efficiency: float  # shaft over electrical power


@checked
def full_throttle_point(
    supply_v: float,
    kv_rpm_per_v: float,
    winding_resistance_ohm: float,
    no_load_current_a: float,
    thrust_coefficient: float,
    power_coefficient: float,
    density_kg_m3: float,
    diameter_m: float,
) -> MotorPoint:
    """Full-throttle point at standstill: speed, thrust, current, powers of one motor.

    Units, errors and source: `full_throttle_rotation_rev_s`; the coefficients are constants.
    """
    rotation = full_throttle_rotation_rev_s(
        supply_v,
        kv_rpm_per_v,
        winding_resistance_ohm,
        no_load_current_a,
        power_coefficient,
        density_kg_m3,
        diameter_m,
    )
    thrust = propeller_thrust_n(thrust_coefficient, density_kg_m3, rotation, diameter_m)
    shaft = propeller_power_w(power_coefficient, density_kg_m3, rotation, diameter_m)
    current = (supply_v - SECONDS_PER_MINUTE * rotation / kv_rpm_per_v) / winding_resistance_ohm
    return MotorPoint(
        rotation_rev_s=rotation,
        thrust_n=thrust,
        current_a=current,
        shaft_power_w=shaft,
        efficiency=shaft / (supply_v * current),
    )
