"""Readings of a passed check that contradict the layout: then it has failed.

Spin of a motor or hand of a propeller (``cw``, ``ccw``), number of an output, order of the leads
into the receiver inputs. Anything else that was read is not ours to judge.
"""

from collections.abc import Mapping
from typing import NamedTuple

from buildbook.hangar.happened import CheckDone
from buildbook.hangar.state import AircraftNow

_SPINS = {
    "cw": "cw",
    "clockwise": "cw",
    "ccw": "ccw",
    "counter-clockwise": "ccw",
    "counterclockwise": "ccw",
    "anticlockwise": "ccw",
    "anti-clockwise": "ccw",
}
_SPIN_KEYS = ("spin", "direction", "hand", "turns")
_ORDER_KEYS = ("order", "leads", "channels")


class Contradiction(NamedTuple):
    """A reading beside what the layout plans."""

    station: str | None
    of: str
    found: str
    expected: str


def contradictions(aircraft: AircraftNow, done: CheckDone) -> tuple[Contradiction, ...]:
    """The readings of a check that the layout contradicts, station by station."""
    found: list[Contradiction] = []
    for key, value in done.readings.items():
        station, name = _parted(aircraft, key)
        stations = (station,) if station is not None else _covered(aircraft, done, name)
        for at in stations:
            contradiction = _at_station(aircraft, done.check, at, name, value)
            if contradiction is not None:
                found.append(contradiction)
        if station is None and name in _ORDER_KEYS and aircraft.receiver:
            read = _listed(value)
            if read != list(aircraft.receiver):
                found.append(
                    Contradiction(None, "order", ", ".join(read), ", ".join(aircraft.receiver))
                )
    return tuple(found)


def for_station(done: Mapping[str, str], station: str) -> dict[str, str]:
    """The readings that are about a station, or about no station in particular."""
    about = {key: value for key, value in done.items() if station in key.split(".")}
    return about or {key: value for key, value in done.items() if key == "each"}


def _parted(aircraft: AircraftNow, key: str) -> tuple[str | None, str]:
    """The station that a key names, and what remains of the key."""
    words = key.split(".")
    for word in words:
        if word in aircraft.stations or word in aircraft.motor_stations:
            return word, ".".join(other for other in words if other != word)
    return None, key


def _covered(aircraft: AircraftNow, done: CheckDone, name: str) -> tuple[str, ...]:
    """The stations that a reading without a station speaks for."""
    if name.split(".")[0] == "each":
        return done.stations or aircraft.motor_stations
    return done.stations if len(done.stations) == 1 else ()


def _at_station(
    aircraft: AircraftNow, check: str, station: str, name: str, value: str
) -> Contradiction | None:
    plan = aircraft.stations.get(station)
    if plan is None:
        return None
    spin = _SPINS.get(value.strip().lower())
    what = name.removeprefix("each").strip(".")
    if spin is not None and (not what or what in _SPIN_KEYS):
        if plan.spin is not None and spin != plan.spin:
            return Contradiction(station, "spin", spin, plan.spin)
        return None
    told = what.startswith("output") or (not what and ("order" in check or "output" in check))
    if told and plan.output is not None and value.strip().isdigit():
        output = int(value)
        if output != plan.output:
            return Contradiction(station, "output", str(output), str(plan.output))
    return None


def _listed(value: str) -> list[str]:
    return [word.strip().strip("'\"") for word in value.strip().strip("[]").split(",")]
