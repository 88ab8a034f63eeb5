"""Where the figures come from: what each is in a sentence, its laws, and the tests that hold it."""

from collections.abc import Mapping

import msgspec

from buildbook.figures.answers.flight import advice, rates
from buildbook.figures.answers.log import cost, drift, failures, wear
from buildbook.figures.answers.mass import budget as mass
from buildbook.figures.answers.packs import health as pack_health
from buildbook.figures.answers.packs import life as pack_life
from buildbook.figures.answers.packs import use as pack_use
from buildbook.figures.answers.setup import gains
from buildbook.figures.answers.setup import readings as setup
from buildbook.figures.answers.working import Way, by_law
from buildbook.figures.laws.registry import LAWS

AIR = "tests/published/test_flight_atmosphere.py"
BALANCE = "tests/published/test_flight_balance.py"
HOVER = "tests/published/test_flight_hover.py"
PROPELLERS = "tests/published/test_flight_propellers.py"
PACKS = "tests/published/test_flight_battery.py"
WIRE = "tests/published/test_flight_wire.py"
WING = "tests/published/test_flight_wing.py"
LAYOUTS = "tests/published/test_flight_layouts.py"
MASSES = "tests/published/test_flight_mass_classes.py"
AGEING = "tests/published/test_upkeep_batteries.py"
LIFE = "tests/published/test_upkeep_end_of_life_figure.py"
TRENDS = "tests/published/test_upkeep_trends.py"
CHARTS = "tests/published/test_upkeep_charts.py"
COUNTS = "tests/published/test_upkeep_reliability.py"
CYCLES = "tests/published/test_upkeep_cycles.py"
FLIGHTS = "tests/published/test_upkeep_flights.py"
QUAD = "tests/figures/answers/test_small_quad.py"
BENCH = "tests/figures/answers/test_bench_and_wire.py"
WEIGHED = "tests/figures/answers/test_weighed.py"
LOG = "tests/figures/answers/test_log_and_packs.py"


class Origin(msgspec.Struct, frozen=True, kw_only=True):
    """What stands behind a name: keys of the registry of laws, methods in words, tests."""

    words: str
    laws: tuple[str, ...] = ()
    methods: tuple[Way, ...] = ()
    held_by: tuple[str, ...] = ()


class Provenance(msgspec.Struct, frozen=True, kw_only=True):
    """A row of the page: the steps of the figure in order, and the tests that hold it."""

    name: str
    words: str
    steps: tuple["Step", ...]
    held_by: tuple[str, ...]


class Step(msgspec.Struct, frozen=True, kw_only=True):
    """A law or method: formula as text, source, valid range, and the law's key for MathML."""

    formula: str
    source: str
    valid: str = ""
    law: str | None = None


ORIGINS: Mapping[str, Origin] = {
    "all_up_mass": Origin(
        words="Mass as flown, for each pack: the last weighing with what changed since, else the "
        "sum of the parts.",
        methods=(mass.WEIGHED, mass.CORRECTED, mass.SUMMED),
        held_by=(QUAD, WEIGHED),
    ),
    "mass_budget": Origin(
        words="Every part with its mass and share, and what the parts do not account for.",
        methods=(mass.SUMMED,),
        held_by=(QUAD, WEIGHED),
    ),
    "balance": Origin(
        words="Centre of gravity, for a wing as a share of its mean chord, and the inertia about "
        "three axes.",
        laws=("centre_of_gravity_m", "chord_position", "inertia_tensor_kg_m2"),
        held_by=(BALANCE, QUAD, WEIGHED),
    ),
    "disk_loading": Origin(
        words="Hover thrust of a rotor over the area that it sweeps.",
        laws=("disk_loading_n_m2", "hover_thrust_n", "disk_area_m2"),
        held_by=(HOVER, QUAD),
    ),
    "wing_loading": Origin(
        words="Weight over wing area.", laws=("wing_loading_kg_m2",), held_by=(WING, WEIGHED)
    ),
    "stall_speed": Origin(
        words="The speed below which the wing stalls in level flight.",
        laws=("stall_speed_m_s",),
        held_by=(WING, WEIGHED),
    ),
    "air_density": Origin(
        words="Density of the air at the field, or on the day of a flight.",
        laws=("air_density_kg_m3",),
        held_by=(AIR, QUAD),
    ),
    "density_altitude": Origin(
        words="The height in the standard atmosphere with air as thin.",
        laws=("density_altitude_m",),
        held_by=(AIR, QUAD),
    ),
    "thrust_to_weight": Origin(
        words="Static thrust at full throttle over the weight.",
        laws=("thrust_to_weight", "bench_full_throttle", "full_throttle_point"),
        held_by=(PROPELLERS, BENCH),
    ),
    "hover_throttle": Origin(
        words="Throttle in a hover, off the bench or by the motor's constants.",
        laws=("bench_point", "loaded_motor_v"),
        held_by=(HOVER, BENCH),
    ),
    "hover_power": Origin(
        words="Power in a hover: off the bench, else by momentum theory; all ways side by side.",
        laws=("bench_point", "hover_power_w", "coaxial_hover_power_w", "loaded_motor_current_a"),
        held_by=(HOVER, QUAD, BENCH),
    ),
    "hover_current": Origin(
        words="Current from the pack in a hover, at its nominal voltage.",
        laws=("bench_point", "hover_power_w"),
        held_by=(HOVER, QUAD, BENCH),
    ),
    "tip_speed": Origin(
        words="Speed of the propeller tips.", laws=("tip_speed_m_s",), held_by=(WING, BENCH)
    ),
    "tip_mach": Origin(
        words="Tip speed over the speed of sound.",
        laws=("mach_number", "speed_of_sound_m_s"),
        held_by=(WING, BENCH),
    ),
    "flight_time": Origin(
        words="Time until the reserve: simulated at constant power, from ten flights on as flown. "
        "Its low end is the one to plan with.",
        laws=("constant_power_discharge", "load_current_a", "open_circuit_cell_v"),
        methods=(rates.TIME,),
        held_by=(PACKS, FLIGHTS, QUAD, LOG),
    ),
    "flown_current": Origin(
        words="Current as flown, by pack and by gain set.",
        methods=(rates.FIT,),
        held_by=(FLIGHTS, LOG),
    ),
    "flown_time": Origin(
        words="Time until the reserve as flown, against what was predicted.",
        methods=(rates.TIME,),
        held_by=(FLIGHTS, LOG),
    ),
    "timer_setting": Origin(
        words="What to set the flight timer to.", methods=(advice.TIMER,), held_by=(QUAD,)
    ),
    "alarm_voltage": Origin(
        words="Voltage under load at which the reserve begins.",
        laws=("constant_power_discharge", "terminal_v"),
        held_by=(PACKS, BENCH),
    ),
    "discharge_rate": Origin(
        words="Current over capacity, in a hover and at full throttle.",
        laws=("discharge_rate_c",),
        held_by=(BENCH,),
    ),
    "wire_drop": Origin(
        words="Voltage lost on each run of hot copper, both conductors.",
        laws=("run_drop_v", "run_resistance_ohm"),
        held_by=(WIRE, BENCH),
    ),
    "wire_loss": Origin(
        words="Heat of each run.",
        laws=("run_loss_w", "run_resistance_ohm"),
        held_by=(WIRE, BENCH),
    ),
    "wire_load": Origin(
        words="Current in each run and its density in the copper.",
        laws=("current_density_a_m2",),
        held_by=(WIRE, BENCH),
    ),
    "esc_margin": Origin(
        words="What is left of the ESC's rating at full throttle.",
        laws=("current_margin",),
        held_by=(BENCH,),
    ),
    "motor_margin": Origin(
        words="What is left of the motor's rating at full throttle.",
        laws=("current_margin",),
        held_by=(BENCH,),
    ),
    "battery_margin": Origin(
        words="What is left of the pack's rating at full throttle.",
        laws=("current_margin", "rated_current_a"),
        held_by=(BENCH,),
    ),
    "regulator_margin": Origin(
        words="What all servos at once leave of the regulator's rating.",
        laws=("current_margin",),
        held_by=(WEIGHED,),
    ),
    "rotation_balance": Origin(
        words="Sum of the spins with a verdict, and each propeller's hand against its spin.",
        laws=("spin_verdict", "spin_sum", "allocation_rank", "yaw_arm_m"),
        held_by=(LAYOUTS, QUAD),
    ),
    "allocation": Origin(
        words="The layout as a matrix of thrust, roll, pitch and yaw, and each rotor's share.",
        laws=("allocation_matrix", "allocation_rank", "hover_thrust_shares"),
        held_by=(LAYOUTS, QUAD),
    ),
    "rotor_loss": Origin(
        words="After which single losses roll, pitch, yaw and height could still be held, by "
        "geometry and greatest thrust alone.",
        laws=("losses_held", "controllability_index"),
        held_by=(LAYOUTS, "tests/figures/answers/test_rings.py"),
    ),
    "gain_changes": Origin(
        words="The gain set in force, term by term, against the set before and the one flown most.",
        methods=(gains.DIFFERENCE,),
        held_by=(LOG,),
    ),
    "receiver_neutral": Origin(
        words="Spread of the last neutral readings, and which channel is outside.",
        methods=(setup.SPREAD,),
        held_by=(LOG,),
    ),
    "start_spread": Origin(
        words="The throttle at which the slowest motor starts.",
        methods=(setup.HIGHEST,),
        held_by=(LOG,),
    ),
    "aircraft_hours": Origin(
        words="Flying time of the airframe.", methods=(wear.SUMMED,), held_by=(LOG,)
    ),
    "aircraft_flights": Origin(
        words="Flights of the airframe.", methods=(wear.SUMMED,), held_by=(LOG,)
    ),
    "component_hours": Origin(
        words="Flying time of an item, on whichever aircraft.",
        methods=(wear.SUMMED,),
        held_by=(LOG,),
    ),
    "component_flights": Origin(
        words="Flights of an item.", methods=(wear.SUMMED,), held_by=(LOG,)
    ),
    "component_cycles": Origin(
        words="Equivalent full cycles of a pack.", methods=(wear.CYCLES,), held_by=(CYCLES, LOG)
    ),
    "component_crashes": Origin(
        words="Crashes that touched an item.", methods=(wear.SUMMED,), held_by=(LOG,)
    ),
    "pack_cycles": Origin(
        words="Charge through a pack in full cycles of its rated capacity.",
        methods=(pack_use.CYCLES,),
        held_by=(CYCLES, LOG),
    ),
    "pack_charges": Origin(words="Number of charges.", methods=(pack_use.CHARGES,), held_by=(LOG,)),
    "pack_capacity": Origin(
        words="The last measured capacity and its trend.",
        methods=(pack_health.LATEST, pack_health.TREND),
        held_by=(TRENDS, AGEING, LOG),
    ),
    "pack_resistance": Origin(
        words="Resistance of the pack and its cells, the trend, and the odd cell out.",
        laws=("series_resistance_ohm",),
        methods=(pack_health.TREND,),
        held_by=(TRENDS, AGEING, LOG),
    ),
    "pack_end_of_life": Origin(
        words="The number of charges from which the capacity stays below the share for good.",
        methods=(pack_life.NUMBER,),
        held_by=(AGEING, LIFE),
    ),
    "pack_end_of_life_date": Origin(
        words="The same as a day, by the recent rate of charging.",
        methods=(pack_life.DAY,),
        held_by=(LIFE,),
    ),
    "pack_energy": Origin(
        words="Rated energy with its band for air travel, and what of it is flown.",
        laws=("pack_energy_wh", "usable_energy_wh", "transport_band"),
        held_by=(PACKS, LOG),
    ),
    "charge_current": Origin(
        words="The current of the charge rate that is recorded for the pack.",
        laws=("charge_current_a",),
        held_by=(LOG,),
    ),
    "drift": Origin(
        words="Whether a pack or an aircraft moves away from its own history.",
        methods=(drift.EWMA,),
        held_by=(CHARTS, LOG),
    ),
    "failure_rate": Origin(
        words="Incidents per 100 flights and per hour, with exact limits.",
        methods=(failures.RATE,),
        held_by=(COUNTS, LOG),
    ),
    "operating_cost": Origin(
        words="Parts worn for each hour flown; for the owner only.",
        methods=(cost.WAY,),
        held_by=(LOG,),
    ),
    "mass_class": Origin(
        words="Thresholds of law on either side of the mass; ask the authority.",
        laws=("mass_bands",),
        held_by=(MASSES, WEIGHED),
    ),
}


def provenance() -> tuple[Provenance, ...]:
    """A row for each figure, in the order of the literal above."""
    return tuple(
        Provenance(
            name=name,
            words=origin.words,
            steps=(
                *(_law_step(key) for key in origin.laws),
                *(_method_step(way) for way in origin.methods),
            ),
            held_by=origin.held_by,
        )
        for name, origin in ORIGINS.items()
    )


def _method_step(way: Way) -> Step:
    valid = "" if way.law is None else LAWS[way.law].valid
    return Step(formula=way.formula, source=way.source, valid=valid, law=way.law)


def _law_step(key: str) -> Step:
    way = by_law(key)
    return Step(formula=way.formula, source=way.source, valid=LAWS[key].valid, law=key)
