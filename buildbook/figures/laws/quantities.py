"""The quantities that laws take: symbol, unit and accepted range, one row a parameter name.

A range says where the laws may be asked, not what is usual on a model: full-size aircraft of the
published examples fit in. Outside it a law refuses; it never extrapolates.
"""

from decimal import Decimal

import msgspec

from buildbook.basis.amounts import NO_BREAK
from buildbook.figures.laws.law import Quantity


class Input(msgspec.Struct, frozen=True):
    """Symbol and unit of a parameter, and the closed range that laws accept for it."""

    symbol: str
    unit: str
    least: float
    most: float

    @property
    def quantity(self) -> Quantity:
        """Symbol and unit alone, as a law's registry entry holds them."""
        return Quantity(self.symbol, self.unit)


INPUTS: dict[str, Input] = {
    # air
    "pressure_altitude_m": Input("H", "m", -1000.0, 11000.0),
    "elevation_m": Input("z", "m", -500.0, 9000.0),
    "altimeter_setting_pa": Input("S", "Pa", 85000.0, 110000.0),
    "temperature_k": Input("T", "K", 200.0, 340.0),
    "density_kg_m3": Input("ρ", "kg/m³", 0.3, 2.0),
    # mass and balance
    "mass_kg": Input("m", "kg", 1e-4, 1e5),
    "item_mass_kg": Input("m_i", "kg", 1e-5, 1e5),
    "part_kg": Input("m_i", "kg", 0.0, 1e5),
    "arm_m": Input("x", "m", -100.0, 100.0),
    "wanted_arm_m": Input("x_w", "m", -100.0, 100.0),
    "item_arm_m": Input("x_i", "m", -100.0, 100.0),
    "ballast_arm_m": Input("x_b", "m", -100.0, 100.0),
    "leading_edge_m": Input("x_LE", "m", -100.0, 100.0),
    "mean_chord_m": Input("c", "m", 1e-3, 100.0),
    # rotors
    "rotors": Input("N", "", 1, 100),
    "thrust_n": Input("F", "N", 1e-4, 1e6),
    "lift_n": Input("F", "N", 1e-4, 1e6),
    "disk_area_m2": Input("A", "m²", 1e-5, 1000.0),
    "figure_of_merit": Input("M", "", 0.01, 1.0),
    "interference": Input("κ", "", 1.0, 1.5),
    "diameter_m": Input("D", "m", 0.005, 30.0),
    "pitch_m": Input("p", "m", 0.001, 10.0),
    "rotation_rev_s": Input("n", "1/s", 0.1, 5000.0),
    "thrust_coefficient": Input("C_T", "", 1e-4, 1.0),
    "power_coefficient": Input("C_P", "", 1e-4, 1.0),
    "advance_ratio": Input("J", "", 0.0, 3.0),
    "shaft_power_w": Input("P", "W", 1e-6, 1e8),
    "airspeed_m_s": Input("V", "m/s", 0.0, 200.0),
    "tip_speed_m_s": Input("v_t", "m/s", 0.0, 1000.0),
    "speed_m_s": Input("v", "m/s", 0.0, 1000.0),
    "yaw_arm_m": Input("k", "m", 1e-5, 10.0),
    "roll_nm": Input("L", "N·m", -1e5, 1e5),
    "pitch_nm": Input("M", "N·m", -1e5, 1e5),
    "yaw_nm": Input("N", "N·m", -1e5, 1e5),
    "weight_n": Input("W", "N", 1e-4, 1e6),
    "max_thrust_n": Input("F_max", "N", 1e-4, 1e6),
    # motors
    "supply_v": Input("U", "V", 0.1, 250.0),
    "kv_rpm_per_v": Input("K_V", "rpm/V", 1.0, 1e5),
    "winding_resistance_ohm": Input("R", "Ω", 1e-4, 100.0),
    "no_load_current_a": Input("I_0", "A", 0.0, 100.0),
    "torque_nm": Input("Q", "N·m", 0.0, 1e4),
    "motor_current_a": Input("I", "A", 0.0, 2000.0),
    # batteries
    "open_circuit_v": Input("U_0", "V", 0.1, 250.0),
    "resistance_ohm": Input("R", "Ω", 0.0, 100.0),
    "cell_resistance_ohm": Input("R_c", "Ω", 0.0, 10.0),
    "power_w": Input("P", "W", 1e-3, 1e6),
    "current_a": Input("I", "A", 0.0, 2000.0),
    "capacity_ah": Input("C", "Ah", 1e-3, 1000.0),
    "nominal_v": Input("U_n", "V", 0.5, 250.0),
    "energy_wh": Input("E", "Wh", 1e-3, 1e5),
    "reserve_share": Input("r", "", 0.0, 0.95),
    "state_of_charge": Input("s", "", 0.0, 1.0),
    "start_share": Input("s_0", "", 0.01, 1.0),
    "cell_v": Input("U_c", "V", 0.5, 5.0),
    "cutoff_cell_v": Input("U_min", "V", 0.5, 5.0),
    "cells_in_series": Input("N_s", "", 1, 48),
    "cells_in_parallel": Input("N_p", "", 1, 100),
    # wire
    "wire_diameter_m": Input("d", "m", 5e-5, 0.02),
    "wire_area_m2": Input("A", "m²", 1e-9, 3e-4),
    "wire_temperature_k": Input("T", "K", 200.0, 480.0),
    "cold_k": Input("T_1", "K", 200.0, 480.0),
    "hot_k": Input("T_2", "K", 200.0, 600.0),
    "one_way_length_m": Input("l", "m", 0.0, 100.0),
    # wings
    "wing_area_m2": Input("S", "m²", 1e-4, 1000.0),
    "max_lift_coefficient": Input("C_Lmax", "", 0.1, 5.0),
    "level_stall_speed_m_s": Input("v_s", "m/s", 0.0, 300.0),
    "useful_power_w": Input("P", "W", 0.0, 1e6),
    "level_power_w": Input("P_l", "W", 0.0, 1e6),
    "pitch_speed_m_s": Input("v_p", "m/s", 0.01, 1000.0),
    "glide_ratio": Input("ε", "", 0.5, 100.0),
    "surface_chord_m": Input("c", "m", 0.001, 5.0),
    "surface_length_m": Input("l", "m", 0.001, 20.0),
    "hinge_coefficient": Input("C_h", "", 0.0, 2.0),
    "hinge_moment_nm": Input("H", "N·m", 0.0, 1e4),
    "servo_arm_m": Input("r_s", "m", 0.001, 1.0),
    "horn_m": Input("r_h", "m", 0.001, 1.0),
    "deflection_rad": Input("δ", "rad", 0.0, 1.5),
    "bank_rad": Input("φ", "rad", -1.5, 1.5),
    # ratings and shares
    "rating_a": Input("I_max", "A", 1e-3, 1e4),
    "rating_w": Input("P_max", "W", 1e-3, 1e6),
    "discharge_rate_c": Input("c", "1/h", 0.01, 1000.0),
    "charge_rate_c": Input("c", "1/h", 0.01, 100.0),
}


def plain(value: float) -> str:
    """Six digits that count without a power of ten: `0.00001`, `1000`, `1 000 000`.

    Beyond ten digits on either side of the point the power of ten stays.
    """
    if value != 0 and not 1e-10 <= abs(value) < 1e10:
        return f"{value:g}"
    apart = "," if abs(value) >= 10_000 else ""  # four digits are easily read as they are
    return f"{Decimal(f'{value:.6g}'):{apart}f}".replace(",", NO_BREAK)


def within(**values: float) -> None:
    """Refuse any value that is outside the range of its name in INPUTS.

    ValueError: 'mass_kg must be from 0.0001 to 100 000, got 0'; NaN is outside every range.
    """
    for name, value in values.items():
        row = INPUTS[name]
        if not row.least <= value <= row.most:
            least, most = plain(row.least), plain(row.most)
            raise ValueError(f"{name} must be from {least} to {most}, got {plain(value)}")


def each_within(name: str, values: tuple[float, ...]) -> None:
    """Refuse a series in which any value is outside the range of `name`; errors as `within`."""
    for value in values:
        within(**{name: value})


# Steps that a formula names because it uses them more than once.
INTERMEDIATES: dict[str, Quantity] = {
    "back_v_s": Quantity("b", "V·s"),
    "driving_v": Quantity("U_d", "V"),
}

# Parameters of methods that are no single number of INPUTS: series, places, tables and names.
SERIES: dict[str, Quantity] = {
    "masses_kg": Quantity("m_i", "kg"),
    "arms_m": Quantity("x_i", "m"),
    "positions_m": Quantity("r_i", "m"),
    "centre_of_gravity_m": Quantity("r_G", "m"),
    "spins": Quantity("s_i", ""),
    "lost": Quantity("j", ""),
    "rotations_rev_s": Quantity("n_i", "1/s"),
    "advance_ratios": Quantity("J_i", ""),
    "thrust_coefficients": Quantity("C_Ti", ""),
    "power_coefficients": Quantity("C_Pi", ""),
    "cell_resistances_ohm": Quantity("R_i", "Ω"),
    "chemistry": Quantity("chemistry", ""),
    "jurisdiction": Quantity("jurisdiction", ""),
    "threshold": Quantity("threshold", ""),
    "rows": Quantity("rows", ""),
    "table": Quantity("table", ""),
}
