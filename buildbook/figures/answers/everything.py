"""All figures: what answers each name, in the order in which they are shown."""

from collections.abc import Callable, Iterator, Mapping

from buildbook.figures.answers.air import air_density, density_altitude
from buildbook.figures.answers.balance import balance
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight_time import flight_time
from buildbook.figures.answers.flown import flown_current, flown_time
from buildbook.figures.answers.full_throttle import thrust_to_weight
from buildbook.figures.answers.hover import hover_current, hover_power, hover_throttle
from buildbook.figures.answers.layout import allocation, rotation_balance, rotor_loss
from buildbook.figures.answers.margins import (
    battery_margin,
    discharge_rate,
    esc_margin,
    motor_margin,
)
from buildbook.figures.answers.mass import all_up_mass, mass_budget
from buildbook.figures.answers.wiring import wire_drop, wire_load, wire_loss
from buildbook.figures.answers.working import Said
from buildbook.figures.figure import Answers, CannotSay, Figure
from buildbook.hangar.state import Hangar

Answer = Callable[[Craft], Iterator[Said]]

ANSWERS: Mapping[str, Answer] = {
    "all_up_mass": all_up_mass,
    "mass_budget": mass_budget,
    "balance": balance,
    "air_density": air_density,
    "density_altitude": density_altitude,
    "thrust_to_weight": thrust_to_weight,
    "hover_throttle": hover_throttle,
    "hover_power": hover_power,
    "hover_current": hover_current,
    "flight_time": flight_time,
    "flown_current": flown_current,
    "flown_time": flown_time,
    "discharge_rate": discharge_rate,
    "wire_drop": wire_drop,
    "wire_loss": wire_loss,
    "wire_load": wire_load,
    "esc_margin": esc_margin,
    "motor_margin": motor_margin,
    "battery_margin": battery_margin,
    "rotation_balance": rotation_balance,
    "allocation": allocation,
    "rotor_loss": rotor_loss,
}
"""What answers each name for an aircraft."""


def figures_of_aircraft(hangar: Hangar, slug: str) -> Answers:
    """All figures of an aircraft, in the order of ``ANSWERS``. KeyError: no such aircraft."""
    craft = Craft(hangar, slug)
    return _sorted(said for answer in ANSWERS.values() for said in answer(craft))


def figures_of_item(hangar: Hangar, tag: str) -> Answers:
    """All figures of an item, in the order of ``ITEM_ANSWERS``. KeyError: no such item."""
    return Answers()


def _sorted(all_said: Iterator[Said]) -> Answers:
    figures: list[Figure] = []
    cannot: list[CannotSay] = []
    for said in all_said:
        if isinstance(said, Figure):
            figures.append(said)
        else:
            cannot.append(said)
    return Answers(figures=tuple(figures), cannot_say=tuple(cannot))
