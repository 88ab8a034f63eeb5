"""What to write next of an aircraft that is being built."""

from collections.abc import Iterable, Iterator
from itertools import chain
from typing import Any

import msgspec

from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import stem_of
from buildbook.records.programmes import STAGES, stage_of
from buildbook.records.row_names import WEIGHING
from buildbook.report.next_step import Lack, NextStep, Plan, Seat
from buildbook.report.state import AircraftNow, Hangar
from buildbook.reporting.lacking import (
    hand_planned,
    has,
    has_tail_servo,
    lacks_once,
    loose_parts,
    motors_wanted,
    needs_servo,
    shared_esc,
    tracks,
    wanted_parts,
    without,
)
from buildbook.reporting.upkeep.jobs import aircraft_standing, open_checks
from buildbook.reporting.whole import Whole
from buildbook.upkeep.work_list import looks_before_flying

_Found = Iterator[tuple[Lack, dict[str, Any]]]


def next_step(whole: Whole, slug: str) -> NextStep | None:
    """The first group that its records lack; None of an aircraft that isn't being built."""
    hangar = whole.hangar
    aircraft = hangar.aircraft[slug]
    if aircraft.status != "building":
        return None
    steps = chain(
        _described(hangar, aircraft),
        _open(whole, aircraft),
        _set_up(whole, aircraft),
        _made_up(hangar, aircraft),
    )
    lack, more = next(steps, ("flying", {}))
    return NextStep(
        slug=aircraft.slug,
        name=aircraft.record.aircraft,
        kind=aircraft.record.kind,
        lack=lack,
        day=hangar.as_of,
        motor=aircraft.record.has_motor,
        placed=aircraft.record.layout == "custom",
        **more,
    )


def _described(hangar: Hangar, aircraft: AircraftNow) -> _Found:
    """What it is made of, where all of it sits, and what its own file says."""
    if _lacks_size(aircraft):
        yield "size", {}
    if aircraft.hovers and not aircraft.motor_stations:
        yield "stations", {}
    parts = tuple(wanted_parts(hangar, aircraft))
    if parts:
        yield "parts", {"parts": parts}
    seats = tuple(_seats(hangar, aircraft, ("motor", "esc")))
    if seats:
        yield "fit", {"seats": seats, "serves": _would_serve(aircraft, seats)}
    shared = shared_esc(aircraft)
    without_esc = without(aircraft, "esc")
    if shared is not None and without_esc:
        yield "serves", {"serves": (shared, *without_esc)}
    plan = _plan(hangar, aircraft)
    if plan != Plan(outputs=plan.outputs, servos=plan.servos, begun=plan.begun):
        yield "plan", {"plan": plan}
    loose = tuple(_driving(hangar, aircraft))
    if loose:
        yield "fit", {"seats": (Seat(station=None, kind="servo", tags=loose),)}


def _seats(hangar: Hangar, aircraft: AircraftNow, kinds: Iterable[str]) -> Iterator[Seat]:
    """Where the drive is missing, and what sits on it once. One ESC for several sits apart."""
    asked = [kind for kind in kinds if kind != "esc" or shared_esc(aircraft) is None]
    shared = _one_for_all(hangar, aircraft)
    for station in motors_wanted(aircraft):
        for kind in asked:
            if aircraft.at(station, kind) is None and not (kind == "esc" and shared):
                yield _seat(hangar, station, kind, len(without(aircraft, kind)))
    if "propeller" in asked:
        return
    at = "centre" if aircraft.hovers else "fuselage"
    if shared:
        yield Seat(station=at, kind="esc", tags=loose_parts(hangar, "esc"))
    for kind in lacks_once(aircraft):
        yield _seat(hangar, at, kind, 1)
    if has_tail_servo(aircraft) and needs_servo(aircraft):
        yield _seat(hangar, "rear", "servo", 1)


def _seat(hangar: Hangar, station: str, kind: str, places: int) -> Seat:
    loose = loose_parts(hangar, kind)
    only = loose if len(loose) == places == 1 else ()
    return Seat(station=station, kind=kind, tags=only, stem="" if only else stem_of(loose))


def _one_for_all(hangar: Hangar, aircraft: AircraftNow) -> bool:
    """Whether the one ESC at hand is for several motors."""
    return shared_esc(aircraft) is None and (
        len(loose_parts(hangar, "esc")) == 1 < len(without(aircraft, "esc"))
    )


def _would_serve(aircraft: AircraftNow, seats: Iterable[Seat]) -> tuple[str, ...]:
    """The ESC that these seats put apart from the motors, and the stations that it then drives."""
    motors = motors_wanted(aircraft)
    for seat in seats:
        if seat.kind == "esc" and seat.station not in motors:
            return (*seat.tags, *without(aircraft, "esc"))
    return ()


def _plan(hangar: Hangar, aircraft: AircraftNow) -> Plan:
    """Spins and outputs, surfaces, and what the receiver does."""
    hovers = aircraft.hovers
    bare = []
    for station in motors_wanted(aircraft):
        plan = aircraft.stations.get(station)
        if plan is None or plan.spin is None or (hovers and plan.output is None):
            bare.append(station)
    direct = not hovers and not has(aircraft, "controller")
    servos = tracks(aircraft, "servo")
    steered = not hovers and tracks(aircraft, "surfaces")
    surfaces: tuple[str, ...] | None = ()
    if steered and not aircraft.surfaces:
        surfaces = None
    elif steered and servos:
        surfaces = tuple(name for name, one in aircraft.surfaces.items() if not one.servos)
    failsafe = aircraft.radio is None or not aircraft.radio.failsafe
    there = {
        "stations": bare and any(one.spin or one.output for one in aircraft.stations.values()),
        "surfaces": surfaces and aircraft.surfaces,
        "radio": failsafe and aircraft.radio,
    }
    return Plan(
        stations=tuple(bare),
        outputs=hovers,
        surfaces=surfaces,
        servos=stem_of(_servos(hangar, aircraft)) if servos else None,
        leads=not direct and not aircraft.receiver,
        sockets=direct and not (aircraft.sockets or aircraft.receiver),
        failsafe=failsafe,
        begun=tuple(key for key, found in there.items() if found),
    )


def _servos(hangar: Hangar, aircraft: AircraftNow) -> tuple[str, ...]:
    own = tuple(fitted.tag for fitted in aircraft.items() if fitted.kind == "servo")
    return own or loose_parts(hangar, "servo")


def _driving(hangar: Hangar, aircraft: AircraftNow) -> Iterator[str]:
    """The servos that its surfaces name and that sit nowhere on it."""
    if aircraft.hovers or not tracks(aircraft, "servo"):
        return
    seated = {fitted.tag for fitted in aircraft.items()}
    named = (tag for surface in aircraft.surfaces.values() for tag in surface.servos)
    yield from (tag for tag in dict.fromkeys(named) if tag not in seated and tag in hangar.items)


def _set_up(whole: Whole, aircraft: AircraftNow) -> _Found:
    """The checks of the first stage that is open; propellers go on when theirs comes."""
    hangar = whole.hangar
    open_now = {rule.check: rule for rule in open_checks(whole, aircraft.slug)}
    in_order = sorted(open_now.values(), key=lambda rule: STAGES.index(stage_of(rule)))
    looks = looks_before_flying(hangar, aircraft.slug)
    if not in_order and not looks:
        return
    stage = stage_of(in_order[0]) if in_order else "unplugged"
    last = not in_order or STAGES.index(stage) >= STAGES.index("propellers on")
    if last:
        yield from _propellers(hangar, aircraft)
    weigh = last and not aircraft.weighings
    now = [rule for rule in in_order if stage_of(rule) == stage]
    yield (
        "checks",
        {
            "checks": tuple(rule for rule in now if not (weigh and rule.check == WEIGHING)),
            "left": len(in_order),
            "names": tuple(rule.check for rule in in_order if rule not in now),
            "looks": looks,
            "weigh": weigh,
            "packs": _on_the_scales(hangar),
            "motors": motors_wanted(aircraft),
            "channels": aircraft.receiver or aircraft.sockets,
            "centred": tuple(
                one for one in aircraft.receiver or aircraft.sockets if one.casefold() in _CENTRED
            ),
        },
    )


_CENTRED = ("aileron", "elevator", "rudder", "roll", "pitch", "yaw")
"""Channels whose stick springs back to its middle; a switch or the throttle rests elsewhere."""


def _made_up(hangar: Hangar, aircraft: AircraftNow) -> _Found:
    """What comes once the motors were run without propellers: these, and the scales."""
    yield from _propellers(hangar, aircraft)
    if not aircraft.weighings:
        yield "checks", {"weigh": True, "packs": _on_the_scales(hangar)}


def _on_the_scales(hangar: Hangar) -> Seat | None:
    """Which pack is weighed with it; without one named its mass would be added."""
    packs = tuple(tag for tag, item in hangar.items.items() if item.is_pack)
    if not packs:
        return None
    only = packs if len(packs) == 1 else ()
    return Seat(station=None, kind="battery", tags=only, stem=stem_of(packs))


def _propellers(hangar: Hangar, aircraft: AircraftNow) -> _Found:
    bare = dict.fromkeys(
        item.item.spec
        for item in hangar.items.values()
        if item.spec.kind == "propeller"
        and item.spec.hand is None
        and not item.spec.sure
        and (item.fitted is None or item.aircraft == aircraft.slug)
        and item.state.state == "serviceable"
    )
    if bare and motors_wanted(aircraft):
        yield "hand", {"hands": tuple(bare)}
    seats = tuple(
        msgspec.structs.replace(seat, hand=hand_planned(aircraft, seat.station))
        for seat in _seats(hangar, aircraft, ("propeller",))
    )
    if seats:
        yield "fit", {"seats": seats}


def _open(whole: Whole, aircraft: AircraftNow) -> _Found:
    """What is broken or wet, before anything gets power."""
    for reason in aircraft_standing(whole, aircraft.slug).reasons:
        row = reason.row
        if row is None or not reason.grounding:
            continue
        if row.kind == "defect":
            yield "mended", {"mend": row.name}
        elif reason.because.why == "wet" or (row.kind == "task" and row.state == "failed"):
            yield "looked", {"mend": row.name, "tag": row.tag}


def _lacks_size(aircraft: AircraftNow) -> bool:
    record = aircraft.record
    layout = LAYOUTS.get(record.layout)
    if aircraft.hovers:
        return layout is not None and not layout.free and record.diagonal_m is None
    return record.wing is None or record.wing.span_m is None
