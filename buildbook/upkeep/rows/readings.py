"""Readings of a passed check that contradict the layout: then it has failed.

Spin of a motor or hand of a propeller (``cw``, ``ccw``), number of an output, order of the leads
into the receiver inputs, the pack voltage shown beside that of a meter. Anything else that was
read is not ours to judge.
"""

from collections.abc import Mapping
from typing import NamedTuple

from buildbook.basis.notation import quantity_or_none
from buildbook.records.parts import Hand
from buildbook.records.programmes import CheckRule
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.findings import Against

_SPINS: dict[str, Hand] = {
    "cw": "cw",
    "clockwise": "cw",
    "ccw": "ccw",
    "counter-clockwise": "ccw",
    "counterclockwise": "ccw",
    "anticlockwise": "ccw",
    "anti-clockwise": "ccw",
}


def spin_read(value: str) -> Hand | None:
    """``cw`` or ``ccw`` of a reading that says which way something turns, else None."""
    return _SPINS.get(value.strip().lower())


MOST_SHOWN_OFF = 0.02
"""A voltage shown may be off by so much of what a meter reads. Common practice, no source."""

_SPIN_KEYS = ("spin", "direction", "hand", "turns")
_ORDER_KEYS = ("order", "leads", "channels")
_SPIN_CHECKS = ("spin", "direction", "rotation", "propeller")
_OUTPUT_CHECKS = ("order", "output")
_LEAD_CHECKS = ("order", "lead", "channel")


class Judged(NamedTuple):
    """What the readings of a check say something of."""

    spin: bool
    output: bool
    leads: bool


class Contradiction(NamedTuple):
    """A reading beside what the layout plans."""

    station: str | None
    of: str
    found: str
    expected: str
    against: Against = "plan"


def contradictions(
    aircraft: AircraftNow, rule: CheckRule, done: Completion
) -> tuple[Contradiction, ...]:
    """The readings of a check that the layout contradicts, station by station.

    Several checks may share the readings of an entry: each is held to what it is about.
    """
    if not done.readings:
        return ()
    found: list[Contradiction] = []
    judged = Judged(
        _is_about(rule, _SPIN_CHECKS) or any("cw" in said for said in rule.readings.values()),
        _is_about(rule, _OUTPUT_CHECKS),
        _is_about(rule, _LEAD_CHECKS),
    )
    for key, value in done.readings.items():
        station, name = _parted(aircraft, key)
        stations = (station,) if station is not None else _covered(aircraft, done, name)
        for at in stations:
            contradiction = _at_station(aircraft, judged, at, name, value)
            if contradiction is not None:
                found.append(contradiction)
        if station is None and judged.leads:
            found += _order(aircraft, name, value)
    return (*found, *_shown(done.readings))


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


def _covered(aircraft: AircraftNow, done: Completion, name: str) -> tuple[str, ...]:
    """The stations that a reading without a station speaks for."""
    if name.split(".")[0] == "each":
        return done.stations or aircraft.motor_stations
    return done.stations if len(done.stations) == 1 else ()


def _at_station(
    aircraft: AircraftNow, judged: Judged, station: str, name: str, value: str
) -> Contradiction | None:
    plan = aircraft.stations.get(station)
    if plan is None:
        return None
    spin = spin_read(value)
    what = name.removeprefix("each").strip(".")
    if spin is not None:
        told = judged.spin and (not what or what in _SPIN_KEYS)
        if told and plan.spin is not None and spin != plan.spin:
            return Contradiction(station, "spin", spin, plan.spin)
        return None
    told = what.startswith("output") or (judged.output and not what)
    if told and plan.output is not None and value.strip().isdigit():
        output = int(value)
        if output != plan.output:
            return Contradiction(station, "output", str(output), str(plan.output))
    return None


def _order(aircraft: AircraftNow, name: str, value: str) -> list[Contradiction]:
    """Leads as one list, or the channel that answered by number of the input."""
    leads = aircraft.receiver
    if not leads:
        return []
    if name in _ORDER_KEYS:
        read = _listed(value)
        if read != list(leads):
            return [Contradiction(None, "order", ", ".join(read), ", ".join(leads))]
        return []
    number = name.replace("-", " ").replace(".", " ").split()[-1]
    channel = value.strip().lower()
    if not number.isdigit() or channel not in leads or not 1 <= int(number) <= len(leads):
        return []
    planned = leads[int(number) - 1]
    if channel == planned:
        return []
    return [Contradiction(None, f"input {int(number)}", channel, planned)]


def _shown(readings: Mapping[str, str]) -> list[Contradiction]:
    """A pack voltage as shown that is not what a meter reads: the alarm would be as wrong."""
    shown_v = quantity_or_none(readings.get("shown", ""), "voltage")
    meter_v = quantity_or_none(readings.get("meter", ""), "voltage")
    if shown_v is None or not meter_v or abs(shown_v / meter_v - 1) <= MOST_SHOWN_OFF + 1e-9:
        return []
    return [
        Contradiction(None, "pack voltage shown", readings["shown"], readings["meter"], "meter")
    ]


def _is_about(rule: CheckRule, words: tuple[str, ...]) -> bool:
    return any(word in rule.check for word in words)


def _listed(value: str) -> list[str]:
    return [word.strip().strip("'\"") for word in value.strip().strip("[]").split(",")]
