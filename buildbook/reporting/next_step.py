"""What to write next of an aircraft that is being built."""

from collections.abc import Iterable, Iterator
from itertools import chain, islice
from typing import Any

import msgspec

from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import free_tags, stem_of
from buildbook.records.programmes import STAGES, stage_of
from buildbook.records.row_names import WEIGHING
from buildbook.report.next_step import Lack, NextStep, Plan, Seat, Wanted
from buildbook.report.state import FIT, AircraftNow, Hangar, ItemNow
from buildbook.reporting.upkeep.jobs import aircraft_standing, open_checks
from buildbook.reporting.whole import Whole
from buildbook.upkeep.dangers.hands import OTHER_HAND
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
    if _is_multirotor(aircraft) and not aircraft.motor_stations:
        yield "stations", {}
    parts = tuple(_wanted(hangar, aircraft))
    if parts:
        yield "parts", {"parts": parts}
    seats = tuple(_seats(hangar, aircraft, ("motor", "esc")))
    if seats:
        yield "fit", {"seats": seats, "serves": _would_serve(aircraft, seats)}
    shared = _shared_esc(aircraft)
    without_esc = _without(aircraft, "esc")
    if shared is not None and without_esc:
        yield "serves", {"serves": (shared, *without_esc)}
    plan = _plan(hangar, aircraft)
    if plan != Plan(outputs=plan.outputs, servos=plan.servos, begun=plan.begun):
        yield "plan", {"plan": plan}
    loose = tuple(_driving(hangar, aircraft))
    if loose:
        yield "fit", {"seats": (Seat(station=None, kind="servo", tags=loose),)}


def _wanted(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Wanted]:
    """Each kind of part that it lacks and that lies nowhere: as many as are missing."""
    missing: dict[str, int | None] = {
        "motor": _short(hangar, aircraft, "motor"),
        "esc": 0 if _esc_at_hand(hangar, aircraft) else len(_without(aircraft, "esc")),
    }
    for kind in _once(aircraft):
        missing[kind] = 0 if _loose(hangar, kind) else 1
    if _needs_servo(aircraft) and not any(one.spec.kind == "servo" for one in _all(hangar)):
        missing["servo"] = 1 if _is_multirotor(aircraft) else None
    missing["propeller"] = _short(hangar, aircraft, "propeller")
    if _tracks(aircraft, "battery") and not any(one.is_pack for one in _all(hangar)):
        missing["battery"] = None
    for kind, many in missing.items():
        if many != 0:
            specs, shared = _specs(hangar, aircraft, kind)
            new = () if specs else tuple(_new_specs(hangar, kind, many))
            hands = [*(hangar.ledger.specs[one].hand for one in specs), *(hand for _, hand in new)]
            yield Wanted(
                kind=kind,
                tags=tuple(islice(free_tags(kind, _tags(hangar, kind), hangar.items), many or 1)),
                open_end=many is None,
                specs=specs,
                shared=shared,
                new=new,
                halved=many is not None and many % 2 == 0 and sorted(map(str, hands)) == _BOTH,
            )


_BOTH = ["ccw", "cw"]


def _esc_at_hand(hangar: Hangar, aircraft: AircraftNow) -> bool:
    """Whether there is one that drives, or could drive, every motor that has none of its own."""
    return bool(_loose(hangar, "esc")) or _shared_esc(aircraft) is not None


def _short(hangar: Hangar, aircraft: AircraftNow, kind: str) -> int:
    return max(0, len(_without(aircraft, kind)) - len(_loose(hangar, kind)))


def _seats(hangar: Hangar, aircraft: AircraftNow, kinds: Iterable[str]) -> Iterator[Seat]:
    """Where the drive is missing, and what sits on it once. One ESC for several sits apart."""
    asked = [kind for kind in kinds if kind != "esc" or _shared_esc(aircraft) is None]
    shared = _one_for_all(hangar, aircraft)
    for station in _motors(aircraft):
        for kind in asked:
            if aircraft.at(station, kind) is None and not (kind == "esc" and shared):
                yield _seat(hangar, station, kind, len(_without(aircraft, kind)))
    if "propeller" in asked:
        return
    at = "centre" if _is_multirotor(aircraft) else "fuselage"
    if shared:
        yield Seat(station=at, kind="esc", tags=_loose(hangar, "esc"))
    for kind in _once(aircraft):
        yield _seat(hangar, at, kind, 1)
    if _has_tail_servo(aircraft) and _needs_servo(aircraft):
        yield _seat(hangar, "rear", "servo", 1)


def _seat(hangar: Hangar, station: str, kind: str, places: int) -> Seat:
    loose = _loose(hangar, kind)
    only = loose if len(loose) == places == 1 else ()
    return Seat(station=station, kind=kind, tags=only, stem="" if only else stem_of(loose))


def _one_for_all(hangar: Hangar, aircraft: AircraftNow) -> bool:
    """Whether the one ESC at hand is for several motors."""
    return _shared_esc(aircraft) is None and (
        len(_loose(hangar, "esc")) == 1 < len(_without(aircraft, "esc"))
    )


def _would_serve(aircraft: AircraftNow, seats: Iterable[Seat]) -> tuple[str, ...]:
    """The ESC that these seats put apart from the motors, and the stations that it then drives."""
    motors = _motors(aircraft)
    for seat in seats:
        if seat.kind == "esc" and seat.station not in motors:
            return (*seat.tags, *_without(aircraft, "esc"))
    return ()


def _plan(hangar: Hangar, aircraft: AircraftNow) -> Plan:
    """Spins and outputs, surfaces, and what the receiver does."""
    hovers = _is_multirotor(aircraft)
    bare = []
    for station in _motors(aircraft):
        plan = aircraft.stations.get(station)
        if plan is None or plan.spin is None or (hovers and plan.output is None):
            bare.append(station)
    direct = not hovers and not _has(aircraft, "controller")
    servos = _tracks(aircraft, "servo")
    steered = not hovers and _tracks(aircraft, "surfaces")
    surfaces: tuple[str, ...] | None = ()
    if steered and not aircraft.surfaces:
        surfaces = None
    elif steered and servos:
        surfaces = tuple(name for name, one in aircraft.surfaces.items() if not one.servos)
    there = {
        "stations": any(one.spin or one.output for one in aircraft.stations.values()),
        "surfaces": aircraft.surfaces,
        "radio": aircraft.radio,
    }
    return Plan(
        stations=tuple(bare),
        outputs=hovers,
        surfaces=surfaces,
        servos=stem_of(_servos(hangar, aircraft)) if servos else None,
        leads=not direct and not aircraft.receiver,
        sockets=direct and not (aircraft.sockets or aircraft.receiver),
        failsafe=aircraft.radio is None or not aircraft.radio.failsafe,
        begun=tuple(key for key, found in there.items() if found),
    )


def _servos(hangar: Hangar, aircraft: AircraftNow) -> tuple[str, ...]:
    own = tuple(fitted.tag for fitted in aircraft.items() if fitted.kind == "servo")
    return own or _loose(hangar, "servo")


def _driving(hangar: Hangar, aircraft: AircraftNow) -> Iterator[str]:
    """The servos that its surfaces name and that sit nowhere on it."""
    if _is_multirotor(aircraft) or not _tracks(aircraft, "servo"):
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
            "motors": _motors(aircraft),
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
        for item in _all(hangar)
        if item.spec.kind == "propeller"
        and item.spec.hand is None
        and not item.spec.sure
        and (item.fitted is None or item.aircraft == aircraft.slug)
        and item.state.state == "serviceable"
    )
    if bare and _motors(aircraft):
        yield "hand", {"hands": tuple(bare)}
    seats = tuple(
        msgspec.structs.replace(seat, hand=_hand(aircraft, seat.station))
        for seat in _seats(hangar, aircraft, ("propeller",))
    )
    if seats:
        yield "fit", {"seats": seats}


def _hand(aircraft: AircraftNow, station: str | None) -> str | None:
    """By the spin planned there; of an aeroplane it is seen from the other side."""
    plan = aircraft.stations.get(station or "")
    if plan is None or plan.spin is None:
        return None
    return plan.spin if _is_multirotor(aircraft) else OTHER_HAND[plan.spin]


def _motors(aircraft: AircraftNow) -> tuple[str, ...]:
    """The stations where a motor is asked for; of an aeroplane that names none yet the nose."""
    return aircraft.motor_stations or (("nose",) if aircraft.record.has_motor else ())


def _without(aircraft: AircraftNow, kind: str) -> tuple[str, ...]:
    """The motor stations that lack a kind of part."""
    return tuple(one for one in _motors(aircraft) if aircraft.at(one, kind) is None)


def _tracks(aircraft: AircraftNow, kind: str) -> bool:
    """Whether a kind of part is asked for: its keeper may leave it untagged, or weigh it apart."""
    record = aircraft.record
    return kind not in (*record.not_tracked, *(sundry.what for sundry in aircraft.sundries))


def _once(aircraft: AircraftNow) -> tuple[str, ...]:
    """What sits on it once and is missing: of a multirotor its frame and controller too."""
    once = ("frame", "controller", "receiver") if _is_multirotor(aircraft) else ("receiver",)
    return tuple(kind for kind in once if _tracks(aircraft, kind) and not _has(aircraft, kind))


def _needs_servo(aircraft: AircraftNow) -> bool:
    if not _tracks(aircraft, "servo") or _has(aircraft, "servo"):
        return False
    if _is_multirotor(aircraft):
        return _has_tail_servo(aircraft)
    return _tracks(aircraft, "surfaces")


def _has_tail_servo(aircraft: AircraftNow) -> bool:
    layout = LAYOUTS.get(aircraft.record.layout)
    return layout is not None and layout.tail_servo


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


def _has(aircraft: AircraftNow, kind: str) -> bool:
    return any(fitted.kind == kind for fitted in aircraft.items())


def _shared_esc(aircraft: AircraftNow) -> str | None:
    """The tag of an ESC that sits at no motor, and of which nothing says what it serves."""
    motors = _motors(aircraft)
    for fitted in aircraft.items():
        apart = fitted.kind == "esc" and fitted.station not in motors
        if apart and not aircraft.serves.get(fitted.tag):
            return fitted.tag
    return None


def _lacks_size(aircraft: AircraftNow) -> bool:
    record = aircraft.record
    layout = LAYOUTS.get(record.layout)
    if _is_multirotor(aircraft):
        return layout is not None and not layout.free and record.diagonal_m is None
    return record.wing is None or record.wing.span_m is None


def _is_multirotor(aircraft: AircraftNow) -> bool:
    return aircraft.record.kind == "multirotor"


def _all(hangar: Hangar) -> Iterable[ItemNow]:
    return hangar.items.values()


def _loose(hangar: Hangar, kind: str) -> tuple[str, ...]:
    """The serviceable items of a kind that sit nowhere."""
    return tuple(
        item.tag
        for item in _all(hangar)
        if item.spec.kind == kind and item.fitted is None and item.condition in FIT
    )


def _tags(hangar: Hangar, kind: str) -> tuple[str, ...]:
    return tuple(item.tag for item in _all(hangar) if item.spec.kind == kind)


def _specs(
    hangar: Hangar, aircraft: AircraftNow, kind: str
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The specs that its parts may be of, and the aircraft that these are of until now, if any.

    Those of another kind of aircraft are none: no motor of a quad is taken for an aeroplane's.
    """
    own, alike, names = list[str](), list[str](), list[str]()
    for spec in (one for one in hangar.ledger.specs.values() if one.kind == kind):
        homes = {item.aircraft for item in _all(hangar) if item.item.spec == spec.spec} - {None}
        others = [one.record for slug, one in hangar.aircraft.items() if slug in homes]
        same = [one.aircraft for one in others if one.kind == aircraft.record.kind]
        if not homes or aircraft.slug in homes:
            own.append(spec.spec)
        elif same:
            alike.append(spec.spec)
            names += same
    return (tuple(own), ()) if own else (tuple(alike), tuple(dict.fromkeys(names)))


def _new_specs(hangar: Hangar, kind: str, many: int | None) -> Iterator[tuple[str, str | None]]:
    """Names for specs of a kind; an even number of propellers turns one way and the other."""
    word = "pack" if kind == "battery" else kind
    names: list[tuple[str, str | None]] = [(word, None)]
    if kind == "propeller" and many is not None and many > 1 and many % 2 == 0:
        names = [(f"{word}-cw", "cw"), (f"{word}-ccw", "ccw")]
    for name, hand in names:
        free = (name, *(f"{name}-{number}" for number in range(2, 1000)))
        yield next(one for one in free if one not in hangar.ledger.specs), hand
