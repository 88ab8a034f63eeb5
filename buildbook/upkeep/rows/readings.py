"""Readings of a passed check that contradict the layout: then it has failed.

Spin of a motor or hand of a propeller (``cw``, ``ccw``), number of an output, order of the leads
into the receiver inputs, the pack voltage shown beside that of a meter, a range far under what its
check asks. Anything else that was
read is not ours to judge.
"""

from collections.abc import Mapping
from typing import NamedTuple

from buildbook.records.programmes import CheckRule
from buildbook.records.readings import (
    distance_asked,
    distance_read,
    is_of_each,
    last_word,
    list_read,
    station_read,
    turn_read,
    voltage_read,
    without_each,
)
from buildbook.records.row_names import RANGE
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.findings import Against

MOST_SHOWN_OFF = 0.02
"""A voltage shown may be off by so much of what a meter reads. Common practice, no source."""

LEAST_OF_ASKED = 0.5
"""Of the distance that a range check names: less is no pass. The maker may ask for less than it
names, as its words say, so it may be undercut by some. Common practice, no source."""

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
    known = {*aircraft.stations, *aircraft.motor_stations}
    for key, value in done.readings.items():
        station, name = station_read(key, known)
        stations = (station,) if station is not None else _covered(aircraft, done, name)
        for at in stations:
            contradiction = _at_station(aircraft, judged, at, name, value)
            if contradiction is not None:
                found.append(contradiction)
        if station is None and judged.leads:
            found += _order(aircraft, name, value)
    return (*found, *_shown(done.readings), *_short(rule, done.readings))


def _covered(aircraft: AircraftNow, done: Completion, name: str) -> tuple[str, ...]:
    """The stations that a reading without a station speaks for."""
    if is_of_each(name):
        return done.stations or aircraft.motor_stations
    return done.stations if len(done.stations) == 1 else ()


def _at_station(
    aircraft: AircraftNow, judged: Judged, station: str, name: str, value: str
) -> Contradiction | None:
    plan = aircraft.stations.get(station)
    if plan is None:
        return None
    spin = turn_read(value)
    what = without_each(name)
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
        read = list_read(value)
        if read != list(leads):
            return [Contradiction(None, "order", ", ".join(read), ", ".join(leads))]
        return []
    number = last_word(name)
    channel = value.strip().lower()
    if not number.isdigit() or channel not in leads or not 1 <= int(number) <= len(leads):
        return []
    planned = leads[int(number) - 1]
    if channel == planned:
        return []
    return [Contradiction(None, f"input {int(number)}", channel, planned)]


def _shown(readings: Mapping[str, str]) -> list[Contradiction]:
    """A pack voltage as shown that is not what a meter reads: the alarm would be as wrong."""
    shown_v = voltage_read(readings.get("shown"))
    meter_v = voltage_read(readings.get("meter"))
    if shown_v is None or not meter_v or abs(shown_v / meter_v - 1) <= MOST_SHOWN_OFF + 1e-9:
        return []
    return [
        Contradiction(None, "pack voltage shown", readings["shown"], readings["meter"], "meter")
    ]


def _short(rule: CheckRule, readings: Mapping[str, str]) -> list[Contradiction]:
    """A range that held for much less than its check asks."""
    said, asked = readings.get("distance"), distance_asked(rule.what)
    held_m, asked_m = distance_read(said), distance_read(asked)
    if rule.check != RANGE or said is None or asked is None or held_m is None or asked_m is None:
        return []
    if round(held_m, 6) >= round(LEAST_OF_ASKED * asked_m, 6):
        return []
    return [Contradiction(None, "distance", said, asked, "asked")]


def _is_about(rule: CheckRule, words: tuple[str, ...]) -> bool:
    return any(word in rule.check for word in words)
