"""Readings of a passed check that contradict the layout: then it has failed.

Spin of a motor or hand of a propeller (``cw``, ``ccw``), number of an output, order of the leads
into the receiver inputs, the pack voltage shown beside that of a meter, a range far under what its
check asks. Anything else that was
read is not ours to judge.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from buildbook.basis import amounts
from buildbook.figures.answers.gathering import number
from buildbook.figures.answers.setup.readings import (
    neutral_read,
    starts_apart,
    starts_of,
    starts_read,
)
from buildbook.figures.laws.numbers import median
from buildbook.records.programmes import CheckRule
from buildbook.records.readings import (
    EACH,
    channel_read,
    distance_asked,
    distance_read,
    input_read,
    is_of_each,
    last_word,
    list_read,
    number_read,
    of_station,
    station_read,
    turn_read,
    voltage_read,
    without_each,
)
from buildbook.records.row_names import (
    ACCELEROMETER,
    RANGE,
    RECEIVER_NEUTRAL,
    START_SPREAD,
    SURFACE_SENSE,
)
from buildbook.records.surfaces import senses_of, surfaces_named, way_read, way_wanted
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep.findings import Against, NotReadAgain, ReadOtherwise
from buildbook.upkeep.counted.completions import CheckedStation
from buildbook.upkeep.rows.unread import unread

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
    if rule.check == SURFACE_SENSE:
        found += _senses(aircraft, done.readings)
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
    number, channel = input_read(last_word(name)), channel_read(value, leads)
    told = input_read(value)
    if number is None or not 1 <= number <= len(leads) or (channel is None and told is None):
        return []
    planned = leads[number - 1]
    if channel == planned or (channel is None and told == number):
        return []
    return [Contradiction(None, f"input {number}", channel or str(told), planned)]


def _senses(aircraft: AircraftNow, readings: Mapping[str, str]) -> Iterator[Contradiction]:
    """A surface that went the other way than it must."""
    for name, said in readings.items():
        named, way = surfaces_named(name, aircraft.surfaces), way_read(said)
        if len(named) != 1 or way is None:
            continue
        (surface,) = named
        wanted = way_wanted(surface)
        if wanted not in (None, way):
            ((moved, _),) = senses_of(surface)
            yield Contradiction(surface, "sense", way, f"{wanted} ({moved})", "sense")


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


LEAST_BESIDE = 3
"""So many readings say what is usual; of fewer nobody knows which one is out of line."""

_DONE = (
    "repair",
    "overhaul",
    "setting",
    "fit",
    "firmware",
    "alteration",
    "calibration",
    "move",
    "rewired",
    "cleared defect",
)
"""What may have mended it: then the reading that failed is of what was."""


def not_borne_out(
    hangar: Hangar,
    aircraft: AircraftNow,
    rule: CheckRule,
    spot: CheckedStation,
    done: Sequence[Completion],
    passed: Completion,
) -> ReadOtherwise | NotReadAgain | None:
    """What speaks against a pass. done: all that covers the spot, oldest first."""
    if passed.uid in hangar.sure or passed.by_entry != "check":
        return None
    against = _otherwise(aircraft, rule, spot, passed)
    before = [one for one in done if one.seq < passed.seq]
    if against is not None or not before:
        return against
    return _not_read_again(hangar, aircraft, rule, spot, reversed(before), passed)


def _otherwise(
    aircraft: AircraftNow, rule: CheckRule, spot: CheckedStation, passed: Completion
) -> ReadOtherwise | None:
    """A reading of a pass that is outside of what it should be."""
    if rule.check == RECEIVER_NEUTRAL:
        return _off_neutral(aircraft, passed)
    if rule.check == START_SPREAD and spot.station is not None:
        return _starts_apart(aircraft, spot.station, passed)
    return _off_level(rule, passed) if rule.check == ACCELEROMETER else None


def _is_against(
    aircraft: AircraftNow, rule: CheckRule, spot: CheckedStation, passed: Completion
) -> bool:
    """Whether its readings speak against a pass, so that it is none."""
    stations = [one.station for one in contradictions(aircraft, rule, passed)]
    at_spot = any(at in (None, spot.station) for at in stations)
    return at_spot or _otherwise(aircraft, rule, spot, passed) is not None


def _off_neutral(aircraft: AircraftNow, passed: Completion) -> ReadOtherwise | None:
    """The channel furthest outside; where all rest elsewhere, that is the neutral of the radio."""
    read = neutral_read(aircraft, passed)
    if read is None:
        return None
    off, middle = read.outside, median(read.found.values())
    if len(read.found) >= LEAST_BESIDE:
        off = tuple(name for name in off if abs(read.found[name] - middle) > read.band)
    if not off:
        return None
    neutral = number(read.neutral)
    worst = max(off, key=lambda name: abs(read.found[name] - neutral))
    return ReadOtherwise(
        of=worst,
        found=passed.readings[worst],
        expected=f"{neutral:g} ± {read.band:g} {read.unit}",
        against="neutral",
    )


LEVEL_WITHIN = 3.0
"""So many degrees off level, and it did not learn it there. Common practice, no source."""


def _off_level(rule: CheckRule, passed: Completion) -> ReadOtherwise | None:
    for name in rule.readings:
        said = passed.readings.get(name)
        read = None if said is None else number_read(said)
        if said is not None and read is not None and abs(read[0]) > LEVEL_WITHIN:
            level = f"0° ± {LEVEL_WITHIN:g}°"
            return ReadOtherwise(of=name, found=said, expected=level, against="level")
    return None


def _starts_apart(aircraft: AircraftNow, station: str, passed: Completion) -> ReadOtherwise | None:
    read = starts_read(aircraft)
    starts = {name: value for name, (value, _) in read.items()}
    if len(starts) < LEAST_BESIDE or station not in starts_apart(starts):
        return None
    value, check = read[station]
    if check.uid != passed.uid:
        return None
    return ReadOtherwise(
        of="start",
        found=amounts.share(value),
        expected=amounts.share(median(starts.values())),
        against="others",
    )


def _not_read_again(
    hangar: Hangar,
    aircraft: AircraftNow,
    rule: CheckRule,
    spot: CheckedStation,
    before: Iterable[Completion],
    passed: Completion,
) -> NotReadAgain | None:
    """A reading that failed, or spoke against a pass, where nothing was done about it and no other
    was taken since: words that nobody can hold against it are none."""
    now = {} if unread(aircraft, rule, spot, passed) else _asked(rule, spot, passed)
    for one in before:
        read = _asked(rule, spot, one) if one.by_entry == "check" else {}
        if not read and one.result == "fail" and passed.readings:
            read = now = dict(one.readings if _same(one.readings, passed.readings) else {})
        failed = one.result == "fail"
        if read and one.result == "pass" and not unread(aircraft, rule, spot, one):
            failed = one.uid not in hangar.sure and _is_against(aircraft, rule, spot, one)
            if not failed:
                return None
        if read and failed:
            if now and not _same(read, now):
                return None
            mended = any(
                one.seq < event.seq <= passed.seq and event.event in _DONE
                for event in aircraft.events
            )
            if mended:
                return None
            starts = starts_of(aircraft, one) if rule.check == START_SPREAD else {}
            if spot.station in starts and not now:
                late = starts_apart(starts) if len(starts) >= LEAST_BESIDE else ()
                if late and spot.station not in late:
                    return None
                # Of motors that start alike nobody knows which it was: one row for all of them.
                read = read if late else dict(one.readings)
            (name, said), *others = sorted(read.items())
            return NotReadAgain(
                of=name, found=said, others=tuple(others), again=bool(now), failed_on=one.on
            )
    return None


def _same(then: Mapping[str, str], now: Mapping[str, str]) -> bool:
    """Whether all that failed is read as it was."""
    return all(
        now.get(name, "").casefold().strip() == said.casefold().strip()
        for name, said in then.items()
    )


def _asked(rule: CheckRule, spot: CheckedStation, done: Completion) -> dict[str, str]:
    """The readings that the check asks for, as far as they are of the spot."""
    readings = dict(done.readings)
    if spot.station is not None:
        readings = of_station(readings, spot.station)
    if EACH in rule.readings:
        return readings
    return {name: said for name, said in readings.items() if name in rule.readings}
