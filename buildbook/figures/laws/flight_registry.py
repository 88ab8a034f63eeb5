"""Every public law of the flight half, by the name of its function. Read it top to bottom.

It imports no numpy.
"""

import inspect
from collections.abc import Callable
from typing import Any

from buildbook.figures.laws.aero import atmosphere, hover, propeller, wing
from buildbook.figures.laws.airframe import allocation, balance, mass_classes
from buildbook.figures.laws.law import CUSTOM, DEFINITION, FAA_BALANCE, Law, Quantity
from buildbook.figures.laws.packs import battery, discharge, pack_transport
from buildbook.figures.laws.propulsion import bench, margins, motor, wire
from buildbook.figures.laws.quantities import INPUTS, SERIES, plain

Function = Callable[..., Any]

# Small things whose range reads better in a small unit, and how many of it make one of SI.
SAID_IN: dict[str, tuple[str, float]] = {
    "wire_area_m2": ("mm²", 1e6),
    "wire_diameter_m": ("mm", 1e3),
}


def parameter_quantities(function: Function) -> dict[str, Quantity]:
    """Symbol and unit of each parameter, in order. KeyError: a name that no table knows."""
    return {
        name: INPUTS[name].quantity if name in INPUTS else SERIES[name]
        for name in inspect.signature(function).parameters
    }


def valid_words(function: Function, further: str = "") -> str:
    """The accepted range of every number that the function takes, then further words."""
    ranges = []
    for name in inspect.signature(function).parameters:
        if name in INPUTS:
            row = INPUTS[name]
            unit, per_unit = SAID_IN.get(name, (row.unit, 1.0))
            least, most = plain(row.least * per_unit), plain(row.most * per_unit)
            ranges.append(f"{row.symbol} from {least} to {most} {unit}".rstrip())
    return "; ".join([*ranges, *([further] if further else [])])


def formula(function: Function, symbol: str, unit: str, source: str, further: str = "") -> Law:
    """Entry of a law whose text is derived from its code."""
    return Law(
        function=function,
        result=Quantity(symbol, unit),
        parameters=parameter_quantities(function),
        valid=valid_words(function, further),
        source=source,
    )


def method(
    function: Function, symbol: str, unit: str, source: str, words: str, further: str = ""
) -> Law:
    """Entry of a law that is no straight formula; `words` say how it comes to its result."""
    return Law(
        function=function,
        result=Quantity(symbol, unit),
        parameters=parameter_quantities(function),
        valid=valid_words(function, further),
        source=source,
        kind="method",
        method=words,
    )


ISA = "US Standard Atmosphere 1976 / ICAO Doc 7488"
DISK = "actuator disk theory; Leishman, Principles of Helicopter Aerodynamics, chapter 2"
UIUC = "Brandt and Selig, AIAA 2011-1255; Deters, Ananda and Selig, AIAA 2014-2151"
MACHINES = "equivalent circuit of the permanent-magnet motor; no-load current taken as constant"
BENCH = "the keeper's bench table; Cao and Strawson 2018 for the voltage corrections"
CIRCUIT = "Ohm's law"
COPPER = "ASTM B258; annealed copper, 100 % IACS"
HEATING = "IEC 60949, adiabatic heating, from memory"
LIFT = "lift equation; Anderson, Introduction to Flight"
HINGE = "any text on stability and control; McCormick, second-hand"
STATICS = "rigid-body statics; a rotor's torque turns the frame against its spin"
DU = "Du, Quan, Yang and Cai 2015, doi 10.2514/1.G000731"

FLIGHT: dict[str, Law] = {
    # air
    "isa_temperature_k": formula(atmosphere.isa_temperature_k, "T", "K", ISA),
    "isa_pressure_pa": formula(atmosphere.isa_pressure_pa, "p", "Pa", ISA),
    "air_density_kg_m3": formula(atmosphere.air_density_kg_m3, "ρ", "kg/m³", ISA, "dry air"),
    "density_altitude_m": formula(
        atmosphere.density_altitude_m, "H_ρ", "m", ISA, "ρ at least 0.3639 kg/m³"
    ),
    "pressure_altitude_m": formula(atmosphere.pressure_altitude_m, "H", "m", ISA),
    "speed_of_sound_m_s": formula(atmosphere.speed_of_sound_m_s, "a", "m/s", ISA),
    # mass and balance
    "balance_arm_m": method(
        balance.balance_arm_m, "x", "m", FAA_BALANCE, "sum of mass times arm over sum of mass"
    ),
    "centre_of_gravity_m": method(
        balance.centre_of_gravity_m,
        "r_G",
        "m",
        FAA_BALANCE,
        "sum of mass times place over sum of mass, for each axis",
    ),
    "chord_position": formula(balance.chord_position, "h", "", FAA_BALANCE),
    "ballast_kg": formula(balance.ballast_kg, "m_b", "kg", FAA_BALANCE),
    "shifted_item_arm_m": formula(balance.shifted_item_arm_m, "x_new", "m", FAA_BALANCE),
    "inertia_tensor_kg_m2": method(
        balance.inertia_tensor_kg_m2,
        "I",
        "kg·m²",
        "I = sum of m (r·r E - r rᵀ)",
        "point masses about their own centre of gravity",
    ),
    # hover
    "disk_area_m2": formula(hover.disk_area_m2, "A", "m²", "the circle"),
    "hover_thrust_n": formula(hover.hover_thrust_n, "F", "N", DEFINITION),
    "disk_loading_n_m2": formula(hover.disk_loading_n_m2, "q", "N/m²", DEFINITION),
    "ideal_hover_power_w": formula(hover.ideal_hover_power_w, "P_i", "W", DISK),
    "hover_power_w": formula(hover.hover_power_w, "P", "W", DISK),
    "coaxial_hover_power_w": formula(hover.coaxial_hover_power_w, "P", "W", DISK),
    "coaxial_thrust_n": formula(hover.coaxial_thrust_n, "F_p", "N", DISK),
    # propellers
    "propeller_thrust_n": formula(propeller.propeller_thrust_n, "F", "N", UIUC),
    "propeller_power_w": formula(propeller.propeller_power_w, "P", "W", UIUC),
    "shaft_torque_nm": formula(propeller.shaft_torque_nm, "Q", "N·m", "P = 2π n Q"),
    "rotation_for_thrust_rev_s": formula(
        propeller.rotation_for_thrust_rev_s, "n", "1/s", UIUC, "C_T constant"
    ),
    "figure_of_merit": formula(propeller.figure_of_merit, "M", "", DISK, "result at most 1"),
    "advance_ratio": formula(propeller.advance_ratio, "J", "", UIUC),
    "pitch_speed_m_s": formula(propeller.pitch_speed_m_s, "V_p", "m/s", DEFINITION),
    "yaw_arm_m": formula(propeller.yaw_arm_m, "k", "m", UIUC),
    "coefficients_at": method(
        propeller.coefficients_at,
        "C_T, C_P",
        "",
        UIUC,
        "on the line between the measured rows about the speed",
        "within the measured rows",
    ),
    "table_rotation_for_thrust_rev_s": method(
        propeller.table_rotation_for_thrust_rev_s,
        "n",
        "1/s",
        UIUC,
        "F = C_T(n)·ρ·n²·D⁴ with C_T on the line between rows, solved by bisection",
        "within the measured rows",
    ),
    "efficiency_at_power": method(
        propeller.efficiency_at_power,
        "η",
        "",
        UIUC,
        "J·C_T/C_P at the J = V/(n·D) at which C_P·ρ·n³·D⁵ is the power of the shaft",
        "within the measured rows",
    ),
    # motors
    "loaded_motor_current_a": formula(motor.loaded_motor_current_a, "I", "A", MACHINES),
    "loaded_motor_v": formula(motor.loaded_motor_v, "U", "V", MACHINES),
    "motor_efficiency": formula(
        motor.motor_efficiency, "η", "", MACHINES, "at full throttle; I above I_0, I·R below U"
    ),
    "full_throttle_rotation_rev_s": formula(
        motor.full_throttle_rotation_rev_s, "n", "1/s", MACHINES, "at standstill; I_0·R below U"
    ),
    "full_throttle_point": method(
        motor.full_throttle_point,
        "n, F, I, P",
        "",
        MACHINES,
        "motor and propeller solved together: the torque of the motor is the propeller's",
        "at standstill, constant coefficients; I_0·R below U",
    ),
    # bench
    "bench_table": method(
        bench.bench_table,
        "table",
        "",
        BENCH,
        "rows in order of throttle times their voltage, without those that do not rise",
    ),
    "bench_point": method(
        bench.bench_point,
        "throttle, P, I",
        "",
        BENCH,
        "on the line between rows in thrust; read at F·ρ_bench/ρ, power times ρ/ρ_bench; "
        "throttle times voltage kept",
        "within the rows; U within 0.75 to 1.35 of the bench's",
    ),
    "bench_full_throttle": method(
        bench.bench_full_throttle,
        "F, P, I",
        "",
        BENCH,
        "last row, times ρ/ρ_bench; thrust with the voltage to the power 1.65, power 2.5",
        "the rows reach full throttle; U within 0.75 to 1.35 of the bench's",
    ),
    # packs
    "open_circuit_cell_v": method(
        battery.open_circuit_cell_v, "U_c", "V", CUSTOM, "on the line between rows of the curve"
    ),
    "state_of_charge": method(
        battery.state_of_charge, "s", "", CUSTOM, "the curve of the chemistry, read backwards"
    ),
    "load_current_a": formula(battery.load_current_a, "I", "A", CIRCUIT, "4·R·P at most U_0²"),
    "terminal_v": formula(battery.terminal_v, "U", "V", CIRCUIT, "I·R at most U_0"),
    "pack_resistance_ohm": formula(battery.pack_resistance_ohm, "R", "Ω", CIRCUIT),
    "series_resistance_ohm": method(
        battery.series_resistance_ohm, "R", "Ω", CIRCUIT, "sum over the cells"
    ),
    "pack_energy_wh": formula(
        battery.pack_energy_wh, "E", "Wh", "49 CFR 173.185; passenger pages of FAA"
    ),
    "usable_energy_wh": formula(battery.usable_energy_wh, "E_u", "Wh", DEFINITION),
    "constant_power_discharge": method(
        discharge.constant_power_discharge,
        "t",
        "s",
        "dt = dQ/I at constant power; open-circuit curve of the chemistry: " + CUSTOM,
        "400 steps of equal charge from the start to the reserve, the cut-off under load or the "
        "greatest power, whichever comes first",
    ),
    "transport_band": method(
        pack_transport.transport_band,
        "band",
        "",
        "passenger pages of TSA and FAA, table of " + pack_transport.TABLE_WRITTEN,
        "looked up in the dated table; " + pack_transport.ADVICE,
    ),
    # wire
    "wire_area_m2": formula(wire.wire_area_m2, "A", "m²", "the circle"),
    "run_resistance_ohm": formula(wire.run_resistance_ohm, "R", "Ω", COPPER, "both conductors"),
    "run_drop_v": formula(wire.run_drop_v, "U", "V", CIRCUIT),
    "run_loss_w": formula(wire.run_loss_w, "P", "W", "Joule's law"),
    "current_density_a_m2": formula(wire.current_density_a_m2, "j", "A/m²", DEFINITION),
    "heating_s": formula(wire.heating_s, "t", "s", HEATING, "nothing cools it"),
    # wings and tips
    "wing_loading_kg_m2": formula(wing.wing_loading_kg_m2, "w", "kg/m²", DEFINITION),
    "stall_speed_m_s": formula(wing.stall_speed_m_s, "v_s", "m/s", LIFT, "level flight"),
    "hinge_moment_nm": formula(wing.hinge_moment_nm, "H", "N·m", HINGE),
    "servo_torque_nm": method(
        wing.servo_torque_nm,
        "T_s",
        "N·m",
        "statics of a plain pushrod",
        "H·r_s·cos σ/(r_h·cos δ), with r_s·sin σ = r_h·sin δ",
    ),
    "climb_rate_m_s": formula(wing.climb_rate_m_s, "w", "m/s", LIFT),
    "glide_power_w": formula(wing.glide_power_w, "P_l", "W", LIFT),
    "power_by_thrust_w": formula(
        wing.power_by_thrust_w, "P", "W", CUSTOM, "negative above the pitch speed: it brakes"
    ),
    "banked_stall_speed_m_s": formula(
        wing.banked_stall_speed_m_s, "v_sφ", "m/s", LIFT, "level turn"
    ),
    "tip_speed_m_s": formula(propeller.tip_speed_m_s, "v_t", "m/s", DEFINITION, "at most 1000 m/s"),
    "mach_number": formula(propeller.mach_number, "Ma", "", DEFINITION),
    # layouts
    "allocation_matrix": method(
        allocation.allocation_matrix,
        "B",
        "",
        STATICS,
        "a column [1, -y, x, s·k] for each rotor: thrust, roll, pitch, yaw",
    ),
    "allocation_rank": method(
        allocation.allocation_rank, "rank", "", STATICS, "rank of the allocation matrix"
    ),
    "spin_sum": method(allocation.spin_sum, "Σs", "", STATICS, "sum of the spins"),
    "spin_verdict": method(
        allocation.spin_verdict,
        "verdict",
        "",
        STATICS,
        "roll, pitch, yaw and height must all be controllable (rank 4) and the spins cancel",
    ),
    "demanded_thrusts_n": method(
        allocation.demanded_thrusts_n, "F_i", "N", STATICS, "F = Bᵀ·(B·Bᵀ)⁻¹·demand", "rank 4"
    ),
    "hover_thrust_shares": method(
        allocation.hover_thrust_shares,
        "f_i",
        "",
        STATICS,
        "least thrusts that hold the weight with no moment about the centre of gravity",
        "rank 4, no share below 0",
    ),
    "controllability_index": method(
        allocation.controllability_index,
        "ρ_c",
        "",
        DU,
        "signed distance from the hover to the edge of what the rotors can give; only its sign "
        "counts",
    ),
    "losses_held": method(
        allocation.losses_held, "held", "", DU, "controllability index of each loss above zero"
    ),
    # ratios
    "thrust_to_weight": formula(margins.thrust_to_weight, "τ", "", DEFINITION),
    "discharge_rate_c": formula(margins.discharge_rate_c, "c", "1/h", DEFINITION),
    "rated_current_a": formula(margins.rated_current_a, "I_max", "A", DEFINITION),
    "charge_current_a": formula(
        margins.charge_current_a, "I", "A", DEFINITION, "only a rate recorded for the pack"
    ),
    "current_margin": formula(margins.current_margin, "μ", "", DEFINITION),
    "power_margin": formula(margins.power_margin, "μ", "", DEFINITION),
    # masses
    "on_named_side": method(
        mass_classes.on_named_side, "side", "", "the rule of the row", "compared in whole mg"
    ),
    "mass_bands": method(
        mass_classes.mass_bands,
        "bands",
        "",
        "the rule of each row, table of " + mass_classes.TABLE_WRITTEN,
        "looked up in the dated table; " + mass_classes.ADVICE,
    ),
}
