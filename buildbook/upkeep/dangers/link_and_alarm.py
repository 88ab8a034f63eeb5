"""The link to the transmitter and the low-voltage alarm: lost, too short, too late."""

from collections.abc import Iterator

import msgspec

from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.hangar.alarm import alarm_of_a_cell_v, alarm_set, cutoff_set
from buildbook.hangar.packs.limits import limits_of, millivolts
from buildbook.records.link_lost import (
    FAILSAFE,
    FAILSAFE_AGAIN,
    ThrottleDoes,
    throttle_does,
    throttle_ran_on,
)
from buildbook.records.readings import distance_read
from buildbook.records.row_names import LOW_VOLTAGE_ALARM, RANGE
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import (
    AlarmLow,
    Finding,
    RangeFell,
    SameMemory,
    Unread,
    WithoutLink,
)
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.danger_rows import Ask, danger_row

_CUT = Ask(
    name=FAILSAFE,
    what="Set the throttle to cut when the link is lost. Then test it, propellers off: motors"
    " turning slowly, transmitter off. They must stop.",
    stage="plugged",
)
_WRITE = Ask(
    name="failsafe-recorded",
    what="Record what it does when the link is lost, as in radio: {failsafe: {throttle: cut}}.",
    stage="plugged",
)


def link_lost_rows(aircraft: AircraftNow, asked: bool) -> Iterator[Row]:
    """A grounding row where the motor runs on. asked: whether its programme checks the failsafe:
    only then is it said that nothing is recorded. Nothing of an aircraft without a motor."""
    if not aircraft.record.has_motor:
        return
    planned = throttle_does(aircraft.radio.failsafe if aircraft.radio else {})
    done = _read(aircraft)
    read = None if done is None else _seen(done)
    does = next((one for one in (read, planned) if one is not None and one.keeps_running), None)
    if does is not None:
        found = WithoutLink(
            throttle=does.written,
            planned=None if planned is None else planned.named,
            read=None if read is None else read.named,
            read_on=None if done is None else done.on,
        )
        radio = aircraft.places.get("radio", aircraft.record.place("radio"))
        yield _runs_on(aircraft, found, done.place if done is not None and does is read else radio)
    elif planned is not None and planned.effect == "unknown":
        yield _not_known(aircraft, planned)
    elif asked and planned is None and read is None:
        yield _not_recorded(aircraft, WithoutLink(throttle=None))


def _read(aircraft: AircraftNow) -> Completion | None:
    """The last failsafe check that read what the throttle does, or retest that found it running
    on, unless the radio came later. A retest that failed has a row of its own."""
    done = [one for one in aircraft.checks if one.name == FAILSAFE]
    done += [
        one for one in aircraft.inspections if one.name == FAILSAFE_AGAIN and one.result == "pass"
    ]
    for check in sorted(done, key=lambda one: one.seq, reverse=True):
        if _seen(check) is not None:
            altered = (event.seq for event in aircraft.events if event.subject == "radio")
            return None if any(seq > check.seq for seq in altered) else check
    return None


def _seen(done: Completion) -> ThrottleDoes | None:
    """None too where nobody can read it: its check says so."""
    does = throttle_does(done.readings)
    known = does if does is not None and does.effect != "unknown" else None
    return known or throttle_ran_on(done.findings)


def _runs_on(aircraft: AircraftNow, found: WithoutLink, place: Place) -> Row:
    because = Because(why="link lost", place=place, found=found)
    return danger_row(aircraft, _CUT, because, place, grounds=True)


def _not_known(aircraft: AircraftNow, planned: ThrottleDoes) -> Row:
    """What it was set to, in words that say neither that it stops nor that it runs."""
    wanted = "cut, or what the motor does: failsafe: {throttle: cut}"
    return _not_recorded(aircraft, Unread(of="throttle", found=planned.written, wanted=wanted))


def _not_recorded(aircraft: AircraftNow, found: Finding) -> Row:
    place = aircraft.places.get("radio", aircraft.record.place())
    because = Because(why="link lost", place=place, found=found)
    return danger_row(
        aircraft,
        _WRITE,
        because,
        place,
        grounds=False,
        state="open",
        rank=ranks.NOT_RECORDED,
    )


MEMORY = "memory"

_OWN_MEMORY = Ask(
    name=MEMORY,
    what="Propellers off, see which one answers the sticks. Give each a memory of its own, then"
    " check sticks, throttle cut and failsafe of both again.",
    stage="plugged",
)


def memory_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """A row where another flying aircraft has the same memory; it grounds nothing."""
    radio = aircraft.radio
    if radio is None or radio.memory is None:
        return
    mine = _transmitter(aircraft)
    others = [
        other.record.aircraft
        for slug, other in sorted(hangar.aircraft.items())
        if slug != aircraft.slug
        and other.status == "flying"
        and other.radio is not None
        and other.radio.memory == radio.memory
        and mine in (None, _transmitter(other) or mine)
    ]
    if not others:
        return
    place = aircraft.places.get("radio", aircraft.record.place("radio"))
    found = SameMemory(memory=radio.memory, others=tuple(others))
    because = Because(why="memory", place=place, found=found)
    yield danger_row(aircraft, _OWN_MEMORY, because, place, grounds=False)


def _transmitter(aircraft: AircraftNow) -> str | None:
    """The transmitter recorded for it, by tag; None: nobody wrote which, so it may be the same."""
    if aircraft.radio is not None and aircraft.radio.transmitter is not None:
        return aircraft.radio.transmitter
    return next((here.tag for here in aircraft.items() if here.kind == "transmitter"), None)


SAG_V = 0.1
"""So much less a cell reads under load than at rest, at the least: a multirotor without a recorded
cut-off is warned before a pack is as empty as asks for a look. Common practice, no source."""

LEAST_OF_BEFORE = 0.5
"""Of the range read the time before: less is more than the ground and the day explain."""


_ASK = Ask(
    name=LOW_VOLTAGE_ALARM,
    what="Propellers off. Set the alarm above the cut-off of these packs and the lowest voltage"
    " that a cell may have in flight, hear it sound there, and record the check with its reading.",
    stage="plugged",
)
_ASK_RESERVE = Ask(
    name=LOW_VOLTAGE_ALARM,
    what="Propellers off. Set the alarm to where the reserve of these packs begins, hear it sound"
    " there, and record the check with its reading; with sure: true where it is meant so late.",
    stage="plugged",
)


def alarm_rows(craft: Craft) -> Iterator[Row]:
    """A row where the alarm, as read or set last, is too low for a pack flown here.

    One in the reserve may be meant: its entry says so.
    """
    aircraft, told = craft.now, alarm_set(craft.now)
    if told is None:
        return
    meant = told.uid in craft.hangar.sure
    low: dict[str, AlarmLow] = {}
    for pack in craft.hangar.items.values():
        if pack.is_pack and pack.state.state == "serviceable" and aircraft.slug in pack.flown_on:
            alarm_v = alarm_of_a_cell_v(told.alarm_v, pack)
            found = _too_low(alarm_v, pack, aircraft)
            if found is None and not meant:
                found = _in_reserve(craft, pack, alarm_v)
            if found is not None:
                low[pack.tag] = found
    if not low:
        return
    worst = max(low.values(), key=lambda one: (one.of != "reserve", one.least_v))
    alike = tuple(tag for tag, one in low.items() if one.of == worst.of)
    found = msgspec.structs.replace(worst, packs=alike)
    because = Because(why="alarm", place=told.place, found=found)
    ask = _ASK_RESERVE if worst.of == "reserve" else _ASK
    yield danger_row(aircraft, ask, because, told.place, grounds=False)


def _in_reserve(craft: Craft, pack: ItemNow, alarm_v: float) -> AlarmLow | None:
    from buildbook.figures.answers.flight.advice import reserve_before_alarm_v  # much to load

    reserve_v = reserve_before_alarm_v(craft, pack)
    if reserve_v is None:
        return None
    return AlarmLow(alarm_v=alarm_v, least_v=reserve_v, of="reserve", packs=(pack.tag,))


_WALK = Ask(
    name=RANGE,
    what="Propellers off. Look at the aerials of both ends, their joints and where they lie; then"
    " walk the range again at the same place.",
    stage="field",
)


def range_rows(aircraft: AircraftNow) -> Iterator[Row]:
    """A row where the last range that passed is less than half of the one before it."""
    read = [
        (check, far_m)
        for check in aircraft.checks
        if check.name == RANGE
        and check.result == "pass"
        and (far_m := distance_read(check.readings.get("distance"))) is not None
    ]
    if len(read) < 2:
        return
    (_, before_m), (last, far_m) = read[-2:]
    if round(far_m, 6) < round(LEAST_OF_BEFORE * before_m, 6):
        found = RangeFell(read_m=far_m, before_m=before_m)
        because = Because(why="range", entry=last.uid, place=last.place, found=found)
        yield danger_row(aircraft, _WALK, because, last.place, grounds=False)


def _too_low(alarm_v: float, pack: ItemNow, aircraft: AircraftNow) -> AlarmLow | None:
    """The alarm beside the highest limit, of the pack or set, where it sounds too late for that."""
    limits, told = limits_of(pack.spec), cutoff_set(aircraft)
    set_v = None if told is None else alarm_of_a_cell_v(told.alarm_v, pack)
    cuts = [one for one in (pack.spec.cutoff_cell_voltage_v, set_v) if one is not None]
    cutoff_v = max(cuts, default=None)
    lowest_v = None if limits is None else limits.lowest_v
    if cutoff_v is not None and cutoff_v >= (lowest_v or 0.0):
        found = AlarmLow(alarm_v=alarm_v, least_v=cutoff_v, of="cut-off", packs=(pack.tag,))
    elif lowest_v is not None:
        found = AlarmLow(alarm_v=alarm_v, least_v=lowest_v, packs=(pack.tag,))
    else:
        return None
    above_mv = millivolts(alarm_v) - millivolts(found.least_v)
    falls = aircraft.hovers
    if above_mv < 0 or (falls and above_mv == 0):
        return found
    if not falls or found.of == "cut-off" or limits is None or limits.rest_row_v is None:
        return None
    empty_v = limits.rest_row_v - SAG_V
    if millivolts(alarm_v) >= millivolts(empty_v):
        return None
    return msgspec.structs.replace(found, least_v=empty_v, of="near empty")
