"""All figures: what answers each name, in the order in which they are shown."""

from collections.abc import Callable, Iterator, Mapping

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.advice import alarm_voltage, timer_setting
from buildbook.figures.answers.flight.flight_time import flight_time
from buildbook.figures.answers.flight.flown import flown_current, flown_time
from buildbook.figures.answers.log.cost import operating_cost
from buildbook.figures.answers.log.drift import drift_of_aircraft, drift_of_part
from buildbook.figures.answers.log.failures import failure_rate
from buildbook.figures.answers.log.wear import (
    aircraft_flights,
    aircraft_hours,
    component_crashes,
    component_cycles,
    component_flights,
    component_hours,
)
from buildbook.figures.answers.mass.balance import balance
from buildbook.figures.answers.mass.budget import all_up_mass, mass_budget
from buildbook.figures.answers.mass.loading import disk_loading, stall_speed, wing_loading
from buildbook.figures.answers.mass.rules import mass_class
from buildbook.figures.answers.packs.energy import charge_current, pack_energy
from buildbook.figures.answers.packs.health import pack_capacity, pack_resistance
from buildbook.figures.answers.packs.life import pack_end_of_life, pack_end_of_life_date
from buildbook.figures.answers.packs.use import pack_charges, pack_cycles
from buildbook.figures.answers.part import Part
from buildbook.figures.answers.propulsion.air import air_density, density_altitude
from buildbook.figures.answers.propulsion.full_throttle import thrust_to_weight
from buildbook.figures.answers.propulsion.hover import hover_current, hover_power, hover_throttle
from buildbook.figures.answers.propulsion.margins import (
    battery_margin,
    discharge_rate,
    esc_margin,
    motor_margin,
)
from buildbook.figures.answers.propulsion.servos import regulator_margin
from buildbook.figures.answers.propulsion.tips import tip_mach, tip_speed
from buildbook.figures.answers.propulsion.wiring import wire_drop, wire_load, wire_loss
from buildbook.figures.answers.setup.gains import gain_changes
from buildbook.figures.answers.setup.layout import allocation, rotation_balance, rotor_loss
from buildbook.figures.answers.setup.readings import receiver_neutral, start_spread
from buildbook.figures.answers.working import Said, attempt_each
from buildbook.report.figure import Answers, CannotSay, Figure
from buildbook.report.state import Hangar

Answer = Callable[[Craft], Iterator[Said]]
ItemAnswer = Callable[[Part], Iterator[Said]]

ANSWERS: Mapping[str, Answer] = {
    "all_up_mass": all_up_mass,
    "mass_budget": mass_budget,
    "balance": balance,
    "disk_loading": disk_loading,
    "wing_loading": wing_loading,
    "stall_speed": stall_speed,
    "air_density": air_density,
    "density_altitude": density_altitude,
    "thrust_to_weight": thrust_to_weight,
    "hover_throttle": hover_throttle,
    "hover_power": hover_power,
    "hover_current": hover_current,
    "tip_speed": tip_speed,
    "tip_mach": tip_mach,
    "flight_time": flight_time,
    "flown_current": flown_current,
    "flown_time": flown_time,
    "timer_setting": timer_setting,
    "alarm_voltage": alarm_voltage,
    "discharge_rate": discharge_rate,
    "wire_drop": wire_drop,
    "wire_loss": wire_loss,
    "wire_load": wire_load,
    "esc_margin": esc_margin,
    "motor_margin": motor_margin,
    "battery_margin": battery_margin,
    "regulator_margin": regulator_margin,
    "rotation_balance": rotation_balance,
    "allocation": allocation,
    "rotor_loss": rotor_loss,
    "gain_changes": gain_changes,
    "receiver_neutral": receiver_neutral,
    "start_spread": start_spread,
    "aircraft_hours": aircraft_hours,
    "aircraft_flights": aircraft_flights,
    "drift": drift_of_aircraft,
    "failure_rate": failure_rate,
    "operating_cost": operating_cost,
    "mass_class": mass_class,
}
"""What answers each name for an aircraft."""

ITEM_ANSWERS: Mapping[str, ItemAnswer] = {
    "component_hours": component_hours,
    "component_flights": component_flights,
    "component_cycles": component_cycles,
    "component_crashes": component_crashes,
    "pack_cycles": pack_cycles,
    "pack_charges": pack_charges,
    "pack_capacity": pack_capacity,
    "pack_resistance": pack_resistance,
    "pack_end_of_life": pack_end_of_life,
    "pack_end_of_life_date": pack_end_of_life_date,
    "pack_energy": pack_energy,
    "charge_current": charge_current,
    "drift": drift_of_part,
}
"""What answers each name for an item."""

PRIVATE_FIGURES = frozenset({"operating_cost"})
"""Names that only the owner sees."""


def figures_of_aircraft(hangar: Hangar, slug: str) -> Answers:
    """All figures of an aircraft, in the order of ``ANSWERS``. KeyError: no such aircraft."""
    craft = Craft(hangar, slug)
    return _sorted(
        said for name, answer in ANSWERS.items() for said in attempt_each(name, answer, craft)
    )


def figures_of_item(hangar: Hangar, tag: str) -> Answers:
    """All figures of an item, in the order of ``ITEM_ANSWERS``. KeyError: no such item."""
    part = Part(hangar, hangar.items[tag])
    return _sorted(
        said for name, answer in ITEM_ANSWERS.items() for said in attempt_each(name, answer, part)
    )


def _sorted(all_said: Iterator[Said]) -> Answers:
    figures: list[Figure] = []
    cannot: list[CannotSay] = []
    for said in all_said:
        if isinstance(said, Figure):
            figures.append(said)
        else:
            cannot.append(said)
    return Answers(figures=tuple(figures), cannot_say=tuple(cannot))
