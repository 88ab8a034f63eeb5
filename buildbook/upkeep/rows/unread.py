"""Readings of a passed check that no rule can read: they are not judged, which is said.

Only of what the check asks for and has something to hold it against: a spin that is planned, the
throttle that must stop, the distance that is asked. Other prose is left alone.
"""

from collections.abc import Callable, Iterator, Mapping

from buildbook.records.link_lost import FAILSAFE, of_throttle, throttle_does
from buildbook.records.programmes import CheckRule
from buildbook.records.readings import (
    VOLTS,
    channel_read,
    distance_asked,
    distance_read,
    has_digit,
    input_read,
    is_fine,
    last_word,
    number_read,
    station_read,
    throttle_read,
    turn_read,
    voltage_read,
)
from buildbook.records.row_names import (
    ACCELEROMETER,
    LOW_VOLTAGE_ALARM,
    PROPELLER_FIT,
    RANGE,
    RECEIVER_NEUTRAL,
    RECEIVER_ORDER,
    SPIN_DIRECTIONS,
    START_SPREAD,
    SURFACE_SENSE,
)
from buildbook.records.surfaces import surfaces_named, way_read, way_wanted
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep.findings import Unread
from buildbook.upkeep.counted.completions import CheckedStation

_Readings = Mapping[str, str]
_Of = Callable[[AircraftNow, CheckRule, _Readings], Iterator[Unread]]


def unread(
    aircraft: AircraftNow, rule: CheckRule, spot: CheckedStation, passed: Completion
) -> Unread | None:
    """The first that is not judged of a check at its station; None: all are, or none was asked."""
    judge = _JUDGED.get(rule.check)
    if judge is None or passed.by_entry != "check":
        return None
    for found in judge(aircraft, rule, passed.readings):
        at, _ = station_read(found.of, (*aircraft.stations, *aircraft.surfaces))
        named = surfaces_named(found.of, aircraft.surfaces)
        at = at or (named[0] if len(named) == 1 else None)
        if spot.station is None or at in (None, spot.station):
            return found
    return None


def _failsafe(aircraft: AircraftNow, _rule: CheckRule, readings: _Readings) -> Iterator[Unread]:
    does = throttle_does(of_throttle(readings)) if aircraft.record.has_motor else None
    if does is not None and does.effect == "unknown":
        name = next(iter(of_throttle(readings)))
        yield Unread(of=name, found=readings[name], wanted="what the motor did, as in stopped")


def is_place(found: Unread) -> bool:
    """Whether it may be a place where a number could stand: a range that held to the gate."""
    return found.of == "distance" and not has_digit(found.found)


def _range(_aircraft: AircraftNow, rule: CheckRule, readings: _Readings) -> Iterator[Unread]:
    said = readings.get("distance")
    if said is not None and distance_read(said) is None and distance_asked(rule.what) is not None:
        yield Unread(of="distance", found=said, wanted="a length, as in 30 m or 100 ft")


def _alarm(_aircraft: AircraftNow, _rule: CheckRule, readings: _Readings) -> Iterator[Unread]:
    for name in VOLTS:
        if name in readings and voltage_read(readings[name]) is None:
            yield Unread(of=name, found=readings[name], wanted="a voltage, as in 3.6 V")


def _level(_aircraft: AircraftNow, rule: CheckRule, readings: _Readings) -> Iterator[Unread]:
    for name in rule.readings:
        if name in readings and number_read(readings[name]) is None:
            yield Unread(of=name, found=readings[name], wanted="an angle, as in 0.4°")


def _order(aircraft: AircraftNow, _rule: CheckRule, readings: _Readings) -> Iterator[Unread]:
    leads = aircraft.receiver
    for name, said in readings.items():
        number, told = input_read(last_word(name)), input_read(said)
        if not leads or number is None or channel_read(said, leads) is not None:
            continue
        if told in (None, number):  # another number is another input
            yield Unread(of=name, found=said, wanted=f"the channel, as in {leads[0]}")


def _spins(aircraft: AircraftNow, _rule: CheckRule, readings: _Readings) -> Iterator[Unread]:
    for name, said in readings.items():
        at, rest = station_read(name, aircraft.stations)
        plan = aircraft.stations.get(at or "")
        if plan is None or plan.spin is None or rest:
            continue
        if turn_read(said) is None and _is_prose(said):
            yield Unread(of=name, found=said, wanted="cw or ccw")


def _senses(aircraft: AircraftNow, _rule: CheckRule, readings: _Readings) -> Iterator[Unread]:
    for name, said in readings.items():
        named = surfaces_named(name, aircraft.surfaces)
        if len(named) != 1 or way_wanted(named[0]) is None:
            continue
        if way_read(said) is None and _is_prose(said):
            yield Unread(of=name, found=said, wanted="which way it went, as in up")


def _is_prose(said: str) -> bool:
    """Neither ``ok`` nor, of an entry that passed several checks, what another of them measured."""
    return not is_fine(said) and not has_digit(said)


def _neutral(aircraft: AircraftNow, _rule: CheckRule, readings: _Readings) -> Iterator[Unread]:
    for name, said in readings.items():
        if name in aircraft.receiver and number_read(said) is None:
            yield Unread(of=name, found=said, wanted="a number, as in 1500 µs")


def _starts(aircraft: AircraftNow, _rule: CheckRule, readings: _Readings) -> Iterator[Unread]:
    for name, said in readings.items():
        if name not in aircraft.motor_stations or turn_read(said) is not None:
            continue
        if throttle_read(said) is None and not is_fine(said):
            yield Unread(of=name, found=said, wanted="a share of the throttle, as in 6 %")


_JUDGED: Mapping[str, _Of] = {
    FAILSAFE: _failsafe,
    RANGE: _range,
    LOW_VOLTAGE_ALARM: _alarm,
    ACCELEROMETER: _level,
    RECEIVER_ORDER: _order,
    RECEIVER_NEUTRAL: _neutral,
    SPIN_DIRECTIONS: _spins,
    PROPELLER_FIT: _spins,
    START_SPREAD: _starts,
    SURFACE_SENSE: _senses,
}
"""By the name of the check. A joint entry gives all of its readings to each: by their names each
takes its own."""
