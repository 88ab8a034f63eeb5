"""The set-up sheet in words: its stages, what to expect of each check, what was read last."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.records.programmes import Stage
from buildbook.records.row_names import SURFACE_SENSE, SURFACE_THROWS
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.set_up import Expected, ReadingUnit, SetUpSpot, SetUpStep
from buildbook.words.surfaces import surface_sense, throw_words


def reading_words(value: float, unit: ReadingUnit) -> str:
    """``3.68 V a cell``, ``1030 g``, ``6.7 %``, ``57 mm``."""
    match unit:
        case "kg":
            return amounts.mass(value)
        case "V a cell":
            return f"{amounts.voltage(value)} a cell"
        case "ratio":
            return amounts.share(value)
        case _:
            return amounts.length(value)


def cell_words(voltage_v: float, cells: int | None) -> str:
    """The voltage of a pack a cell, ``3.68 V``; of the pack where nobody knows its cells."""
    return amounts.voltage(voltage_v / cells) if cells else f"{amounts.voltage(voltage_v)} in all"


def expected_words(found: Expected) -> str:
    """``3.68 V a cell with P-01``, ``below 6.7 %``, ``57 mm behind the leading edge …``."""
    said = reading_words(abs(found.value) if _is_place(found) else found.value, found.unit)
    if found.most:
        return f"below {said}"
    if found.unit == "m behind":
        where = "behind" if found.value >= 0 else "ahead of"
        return f"{said} {where} the leading edge of the mean chord"
    if found.unit == "m forward":
        where = "forward of" if found.value >= 0 else "behind"
        return f"{said} {where} the reference point"
    return f"{said} with {found.pack}" if found.pack else said


def last_words(found: Expected) -> str:
    """The last reading in the unit of the expectation; empty where there is none."""
    if found.last is None:
        return ""
    return reading_words(found.last, found.unit)


def difference_words(found: Expected) -> str:
    """``0.02 V a cell more``, ``3 g less``, ``no difference``; empty where nothing was read."""
    if found.last is None:
        return ""
    apart = found.last - found.value
    size = reading_words(abs(apart), found.unit)
    if reading_words(found.last, found.unit) == reading_words(found.value, found.unit):
        return "just at it" if found.most else "no difference"
    if found.unit == "ratio":  # a share of a share would be another thing
        size = f"{amounts.fixed(abs(apart) * 100, 1)} percentage points"
    if found.most:
        return f"{size} {'above' if apart > 0 else 'below'} it"
    if found.unit == "m behind":
        return f"{size} further {'back' if apart > 0 else 'forward'}"
    return f"{size} {'more' if apart > 0 else 'less'}"


def _is_place(found: Expected) -> bool:
    return found.unit in ("m behind", "m forward")


_STAGE_WORDS: Mapping[Stage, tuple[str, str]] = {
    "unplugged": ("On the bench, no pack plugged in", "With no pack in, nothing can turn."),
    "plugged": ("On the bench, a pack plugged in", "From here on a motor can start by itself."),
    "field": ("At the field, propellers still off", "It takes room to walk away."),
    "propellers on": ("Propellers on, pack out", "Fit the propellers only now."),
    "flight": ("In the air", "The first flights are at the end of the sheet."),
}
"""Heading and a line of each stage."""

_MOTORLESS: Mapping[Stage, tuple[str, str]] = {
    "unplugged": ("On the bench, no pack plugged in", "With no pack in, no servo moves."),
    "plugged": ("On the bench, a pack plugged in", "From here on a servo can move by itself."),
    "field": ("At the field", "It takes room to walk away."),
    "propellers on": ("Ready to fly, pack out", "Put in all that flies along."),
}
"""The same of an aircraft that has no motor, where that is otherwise."""


def stage_words(stage: Stage, *, motor: bool) -> tuple[str, str]:
    """Heading and a line of a stage."""
    return _STAGE_WORDS[stage] if motor else _MOTORLESS.get(stage, _STAGE_WORDS[stage])


def off_words(first: int, last: int) -> str:
    """Beside all steps of a stage that are done without propellers, by their numbers."""
    if first == last:
        return f"for step {first}"
    return f"for steps {first} {'and' if last == first + 1 else 'to'} {last}"


def changed_words(step: SetUpStep) -> str:
    """At the step where the propellers go on, or must come off again; else empty."""
    if not step.changes:
        return ""
    return "Propellers off again." if step.propellers_off else "Propellers on."


def state_words(step: SetUpStep) -> str:
    """The state of a step; of one that is passed at some stations alone, how many are left."""
    left = sum(spot.row.state != "ok" for spot in step.spots)
    if step.state == "ok" and any(spot.row.because is not None for spot in step.spots):
        return "ok, not judged"
    if step.state == "ok" or left == len(step.spots):
        return step.state
    part = f"{left} of {len(step.spots)} left"
    return part if step.state == "never done" else f"{step.state}, {part}"


def expected_of_step(aircraft: AircraftNow, step: SetUpStep) -> str:
    """What the records lead one to expect of the whole aircraft; empty where they do not."""
    if step.reading is not None:
        return expected_words(step.reading)
    expect = _EXPECTED.get(step.name)
    return expect(aircraft) if expect else ""


def expected_at(aircraft: AircraftNow, spot: SetUpSpot) -> str:
    """The same at a station or surface."""
    station = spot.row.station
    if station is None:
        return ""
    if spot.reading is not None:
        return expected_words(spot.reading)
    expect = _AT.get(spot.row.name)
    return expect(aircraft, station) if expect else spot.spin or ""


def read_last(spot: SetUpSpot) -> str:
    """What was read last, as it was written; a voltage of a pack also as that of a cell."""
    said = next(iter(spot.readings.values())) if spot.bare else _by_name(spot.readings)
    if spot.reading is None:
        return said
    same = last_words(spot.reading)
    return f"{said}, that is {same}" if said and spot.reading.of_pack else said or same


def _by_name(readings: Mapping[str, str]) -> str:
    return ", ".join(f"{name.replace('_', ' ')} {value}" for name, value in readings.items())


def _sense(_aircraft: AircraftNow, surface: str) -> str:
    return surface_sense(surface)


def _throws(aircraft: AircraftNow, surface: str) -> str:
    found = aircraft.surfaces.get(surface)
    return throw_words(found) if found else ""


_AT: Mapping[str, Callable[[AircraftNow, str], str]] = {
    SURFACE_SENSE: _sense,
    SURFACE_THROWS: _throws,
}


def _receiver(aircraft: AircraftNow) -> str:
    return ", ".join(aircraft.receiver)


def _failsafe(aircraft: AircraftNow) -> str:
    failsafe = aircraft.radio.failsafe if aircraft.radio else {}
    return ", ".join(f"{name}: {does}" for name, does in failsafe.items())


def _throttle_cut(aircraft: AircraftNow) -> str:
    return (aircraft.radio.throttle_cut or "") if aircraft.radio else ""


_EXPECTED: Mapping[str, Callable[[AircraftNow], str]] = {
    "receiver-order": _receiver,
    "failsafe": _failsafe,
    "throttle-cut": _throttle_cut,
}
"""What the records lead one to expect of a check on the whole aircraft, where it is no number."""


class FirstFlight(NamedTuple):
    """One step: what to do, and what to look at before the next one."""

    do: str
    then: str


ROTORS: tuple[FirstFlight, ...] = (
    FirstFlight(
        "Propellers on, each of the right hand and tight. Walk round it with the checklist.",
        "A second person compares them with the layout.",
    ),
    FirstFlight(
        "On the ground, arm and add throttle until it is light on its skids. Cut the motors.",
        "It responds to each stick the right way, and nothing smells or rattles.",
    ),
    FirstFlight(
        "Lift to knee height for ten seconds. Land.",
        "It stayed level without help. Motors and ESCs are cool enough to hold.",
    ),
    FirstFlight(
        "Hover at head height for a minute, with a small input on one axis at a time. Land.",
        "It does not wallow or oscillate; motors evenly warm; note it in the log.",
    ),
    FirstFlight(
        "Fly a short square, then land at half the planned time.",
        "Write down the time and, after charging, what went back in.",
    ),
)

WINGS: tuple[FirstFlight, ...] = (
    FirstFlight(
        "Propeller on and tight, controls right way round, balance inside its limits.",
        "A second person has checked the surfaces from behind.",
    ),
    FirstFlight(
        "With a second person holding it firmly, run up to full throttle for a few seconds.",
        "It pulls evenly; no servo twitches and the receiver stays on.",
    ),
    FirstFlight(
        "Into a light wind over long grass: a gentle throw or a straight take-off.",
        "Climb straight ahead to a safe height before the first turn.",
    ),
    FirstFlight(
        "At height, trim for level flight; then close the throttle and see how it slows.",
        "It gives warning before it stalls. Note the trims.",
    ),
    FirstFlight(
        "Land early, with half the pack left.",
        "Write down the time, the charge used, and the trims in the log.",
    ),
)

THROWN: tuple[FirstFlight, ...] = (
    FirstFlight(
        "Controls right way round, balance inside its limits, the pack of the receiver full.",
        "A second person has checked the surfaces from behind.",
    ),
    FirstFlight(
        "Into a light wind over long grass: a gentle throw, level, nobody ahead.",
        "It glides straight and flat without help; if not, mend balance or trim, and throw again.",
    ),
    FirstFlight(
        "A little higher, from a slope or a short tow: trim, then slow it down at height.",
        "It gives warning before it stalls. Note the trims.",
    ),
    FirstFlight(
        "Land early, with half the pack left.",
        "Write down the time and the trims in the log.",
    ),
)


def first_flights(*, wings: bool, motor: bool) -> tuple[FirstFlight, ...]:
    """The steps for an aeroplane, a glider or a multirotor."""
    if not motor:
        return THROWN
    return WINGS if wings else ROTORS
