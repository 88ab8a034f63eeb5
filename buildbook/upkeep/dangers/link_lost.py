"""The link to the transmitter: lost, the motor must stop; and no other aircraft may answer to it.

What is read at the failsafe check, or found at its retest, wins over what is planned; a figure is
the throttle held.
"""

from collections.abc import Iterator

from buildbook.basis.place import Place
from buildbook.records.readings import (
    FAILSAFE,
    FAILSAFE_AGAIN,
    ThrottleDoes,
    throttle_does,
    throttle_ran_on,
)
from buildbook.report.history import Completion
from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import SameMemory, WithoutLink
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
    elif asked and planned is None and read is None:
        yield _not_recorded(aircraft)


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
    return throttle_does(done.readings) or throttle_ran_on(done.findings)


def _runs_on(aircraft: AircraftNow, found: WithoutLink, place: Place) -> Row:
    because = Because(why="link lost", place=place, found=found)
    return danger_row(aircraft, _CUT, because, place, grounds=True)


def _not_recorded(aircraft: AircraftNow) -> Row:
    place = aircraft.places.get("radio", aircraft.record.place())
    because = Because(why="link lost", place=place, found=WithoutLink(throttle=None))
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
