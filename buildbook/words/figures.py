"""Figures in words: what each name means, under which heading it stands, its columns and asides."""

from collections.abc import Mapping
from typing import NamedTuple

from buildbook.basis import amounts


class Meaning(NamedTuple):
    """What a figure is called and what it means, in one line."""

    title: str
    words: str


TOPICS: Mapping[str, Mapping[str, Meaning]] = {
    "Mass and balance": {
        "all_up_mass": Meaning("All-up mass", "As flown, with the pack named."),
        "mass_budget": Meaning("Mass budget", "What weighs how much, and what has no mass yet."),
        "balance": Meaning("Balance", "Where it balances, and how hard it is to turn."),
        "mass_class": Meaning("Mass class", "Thresholds of law that the mass crosses."),
        "disk_loading": Meaning("Disk loading", "Mass over the area that the propellers sweep."),
        "wing_loading": Meaning("Wing loading", "Mass over the area of the wing."),
        "stall_speed": Meaning("Stall speed", "The slowest level flight."),
    },
    "Time in the air": {
        "flight_time": Meaning("Flight time", "Until the reserve, by pack; plan with the low end."),
        "flown_time": Meaning("Flown time", "The same, fitted to what was flown, with prediction."),
        "flown_current": Meaning("Flown current", "What it draws in the air, fitted to the log."),
        "timer_setting": Meaning("Timer", "What to set the flight timer to."),
        "alarm_voltage": Meaning("Alarm voltage", "Voltage under load at the reserve."),
    },
    "Thrust and hover": {
        "thrust_to_weight": Meaning("Thrust to weight", "At full throttle, standing still."),
        "hover_throttle": Meaning("Hover throttle", "Where the stick stands in a hover."),
        "hover_power": Meaning("Hover power", "Electrical power in a hover."),
        "hover_current": Meaning("Hover current", "Current in a hover."),
        "tip_speed": Meaning("Tip speed", "How fast the tips of the propellers move."),
        "tip_mach": Meaning(
            "Tip speed against sound", "The same as a share of the speed of sound."
        ),
        "air_density": Meaning("Air density", "On the field, and on the day of the last flight."),
        "density_altitude": Meaning("Density altitude", "The height at which air is as thin."),
    },
    "Margins and wires": {
        "discharge_rate": Meaning("Discharge rate", "In capacities an hour, against the rating."),
        "battery_margin": Meaning("Margin of the pack", "At full throttle, against its rating."),
        "esc_margin": Meaning("Margin of the ESCs", "At full throttle, against their rating."),
        "motor_margin": Meaning("Margin of the motors", "At full throttle, against their limit."),
        "regulator_margin": Meaning("Margin of the regulator", "Load of the servos against it."),
        "wire_load": Meaning("Load of the wires", "Current over area of copper, run by run."),
        "wire_drop": Meaning("Voltage lost in the wires", "Run by run, hot copper."),
        "wire_loss": Meaning("Power lost in the wires", "Run by run, hot copper."),
        "charge_current": Meaning("Charge current", "From the recorded rate of the pack."),
    },
    "Layout and control": {
        "rotation_balance": Meaning("Rotation", "Whether the spins balance each other."),
        "allocation": Meaning("Allocation", "What each rotor does for thrust and each axis."),
        "rotor_loss": Meaning("Loss of a rotor", "Geometry only; your controller may not do it."),
        "gain_changes": Meaning(
            "Changes of gains", "Against the set before and the one flown most; no advice."
        ),
        "receiver_neutral": Meaning("Receiver neutral", "The last readings and their spread."),
        "start_spread": Meaning("Start of the motors", "The throttle at which each motor starts."),
    },
    "Energy": {
        "pack_energy": Meaning("Energy of a pack", "Rated and usable, and its band for travel."),
        "pack_cycles": Meaning("Full cycles", "Charge through the pack, in rated capacities."),
        "pack_charges": Meaning("Charges", "How often it was charged."),
        "pack_capacity": Meaning("Capacity trend", "How the measured capacity moves."),
        "pack_resistance": Meaning("Resistance trend", "How the cells move, and the odd one out."),
        "pack_end_of_life": Meaning("End of life", "The charge at which it stays below the limit."),
        "pack_end_of_life_date": Meaning(
            "End of life, as a day", "At the rate of charging so far."
        ),
    },
    "Time in service": {
        "aircraft_hours": Meaning("Hours of the airframe", "Flown, carried life included."),
        "aircraft_flights": Meaning("Flights of the airframe", "Flown, carried life included."),
        "component_hours": Meaning("Hours of the parts", "Across all aircraft."),
        "component_flights": Meaning("Flights of the parts", "Across all aircraft."),
        "component_cycles": Meaning("Cycles of the parts", "Across all aircraft."),
        "component_crashes": Meaning("Crashes of the parts", "Across all aircraft."),
        "drift": Meaning("Drift", "Whether a figure moved away from its own history."),
        "failure_rate": Meaning("Incidents", "How many for the flying done, with exact limits."),
        "operating_cost": Meaning("Cost", "Parts and packs used up, by the hour of flying."),
    },
}
"""Headings, and the figures under each, in the order in which a page shows them."""

MEANINGS: Mapping[str, Meaning] = {
    name: meaning for topic in TOPICS.values() for name, meaning in topic.items()
}


def meaning_of(name: str) -> Meaning:
    """What a figure is called; one without an entry is called by its name."""
    return MEANINGS.get(name) or Meaning(name.replace("_", " ").capitalize(), "")


_COLUMN_UNITS = {
    "_kg": "kg",
    "_m": "m",
    "_a": "A",
    "_v": "V",
    "_w": "W",
    "_n": "N",
    "_s": "s",
    "_h": "h",
    "_ohm": "Ω",
    "_ah": "Ah",
    "_wh": "Wh",
}
_SHARES = ("share", "margin")


def column_words(column: str) -> str:
    """The heading of a column: ``mass_kg`` is ``mass``."""
    for suffix in _COLUMN_UNITS:
        column = column.removesuffix(suffix)
    return column.replace("_", " ")


def _group_words(group: str) -> str:
    return "ESC" if group == "esc" else group.replace("_", " ")


def cell_words(column: str, value: str | float | None) -> str:
    """A cell in words, by the unit in the name of its column."""
    if value is None:
        return "not recorded"
    if isinstance(value, str):
        return _group_words(value) if column == "group" else value
    if column in _SHARES:
        return amounts.share(value)
    for suffix, unit in _COLUMN_UNITS.items():
        if column.endswith(suffix):
            return amounts.figure(value, unit)
    return amounts.trimmed(value, 3)


def aside_words(name: str, value: float) -> tuple[str, str]:
    """A label and words for another value of a figure: ``simulated, s`` is a duration."""
    label, _, unit = name.rpartition(", ")
    if label and unit in amounts.FIGURES:
        return label, amounts.figure(value, unit)
    if unit == "difference":
        return name, f"{'+' if value > 0 else ''}{amounts.share(value)}"
    if name.startswith("share") or name.endswith(("against flown", "_limit")):
        return name, amounts.share(value)
    for suffix, suffix_unit in _COLUMN_UNITS.items():
        if name.endswith(suffix):
            return column_words(name), amounts.figure(value, suffix_unit)
    return name.replace("_", " "), amounts.significant(value, 3)


def per_cent_words(share_per_percent: float) -> str:
    """What one per cent more of an input does: ``1.3 % more``."""
    size = amounts.trimmed(abs(share_per_percent) * 100, 1)
    if size == "0":
        return "next to nothing"
    return f"{size} % {'more' if share_per_percent > 0 else 'less'}"
