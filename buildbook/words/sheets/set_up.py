"""The set-up sheet in words: its stages, what to expect of each check, what was read last."""

from collections.abc import Callable, Mapping

from buildbook.records.programmes import Stage
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.set_up import SetUpSpot, SetUpStep
from buildbook.words.sheets.expected import expected_words, last_words
from buildbook.words.surfaces import surface_sense, throw_words

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
    "surface-sense": _sense,
    "surface-throws": _throws,
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
