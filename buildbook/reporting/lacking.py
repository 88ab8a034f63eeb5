"""Which parts an aircraft that is being built lacks: motors, ESCs, propellers of each hand."""

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import islice

from buildbook.records.layouts import LAYOUTS
from buildbook.records.parts import free_tags
from buildbook.report.next_step import Wanted
from buildbook.report.state import FIT, AircraftNow, Hangar
from buildbook.upkeep.dangers.hands import OTHER_HAND


def wanted_parts(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Wanted]:
    """Each kind of part that it lacks and that lies nowhere: as many as are missing."""
    missing: dict[str, int | None] = {
        "motor": _short(hangar, aircraft, "motor"),
        "esc": 0 if _esc_at_hand(hangar, aircraft) else len(without(aircraft, "esc")),
    }
    for kind in lacks_once(aircraft):
        missing[kind] = 0 if loose_parts(hangar, kind) else 1
    if needs_servo(aircraft) and not any(one.spec.kind == "servo" for one in hangar.items.values()):
        missing["servo"] = 1 if aircraft.hovers else None
    hands = _hands_missing(hangar, aircraft)
    missing["propeller"] = sum(hands.values()) or _short(hangar, aircraft, "propeller")
    if tracks(aircraft, "battery") and not any(one.is_pack for one in hangar.items.values()):
        missing["battery"] = None
    for kind, many in missing.items():
        if many != 0:
            specs, shared = _specs(hangar, aircraft, kind)
            new = () if specs else tuple(_new_specs(hangar, aircraft.slug, kind, many))
            first = 0
            if kind == "propeller" and hands:
                specs, new, first = _of_hands(hangar, aircraft.slug, specs, hands)
            yield Wanted(
                kind=kind,
                tags=tuple(islice(free_tags(kind, _tags(hangar, kind), hangar.items), many or 1)),
                open_end=many is None,
                specs=specs,
                shared=shared,
                new=new,
                first=first,
            )


def _hands_missing(hangar: Hangar, aircraft: AircraftNow) -> dict[str | None, int]:
    """How many propellers of each hand its motors lack and none lies about: by their planned spins,
    else half of each; empty where the records cannot tell."""
    bare = without(aircraft, "propeller")
    planned: Counter[str | None] = Counter(hand_planned(aircraft, station) for station in bare)
    if None in planned:
        planned = Counter({hand: len(bare) // 2 for hand in _HANDS})
    at_hand: Counter[str | None] = Counter(
        hangar.items[tag].spec.hand for tag in loose_parts(hangar, "propeller")
    )
    if len(bare) < 2 or sum(planned.values()) < len(bare) or None in at_hand:
        return {}
    return {hand: many for hand in _HANDS if (many := planned[hand] - at_hand[hand]) > 0}


_HANDS: tuple[str | None, ...] = ("cw", "ccw")


def _of_hands(
    hangar: Hangar, slug: str, specs: tuple[str, ...], hands: Mapping[str | None, int]
) -> tuple[tuple[str, ...], tuple[tuple[str, str | None], ...], int]:
    """Specs for propellers of these hands: those that are there, those to write, and how many
    propellers are of the first of two. Where a spec says no hand, or several say one, all of them.
    """
    of = {name: hangar.ledger.specs[name].hand for name in specs}
    if None in of.values() or len(set(of.values())) < len(of):
        return specs, (), 0
    kept = tuple(name for name in specs if of[name] in hands)
    new = tuple(
        (_free_name(hangar, slug, f"propeller-{hand}"), hand)
        for hand in hands if hand not in of.values()
    )  # fmt: skip
    names = {**{name: of[name] for name in kept}, **dict(new)}
    return kept, new, hands[next(iter(names.values()))] if len(names) > 1 else 0


def _esc_at_hand(hangar: Hangar, aircraft: AircraftNow) -> bool:
    """Whether there is one that drives, or could drive, every motor that has none of its own."""
    return bool(loose_parts(hangar, "esc")) or shared_esc(aircraft) is not None


def _short(hangar: Hangar, aircraft: AircraftNow, kind: str) -> int:
    return max(0, len(without(aircraft, kind)) - len(loose_parts(hangar, kind)))


def hand_planned(aircraft: AircraftNow, station: str | None) -> str | None:
    """By the spin planned there; of an aeroplane it is seen from the other side."""
    plan = aircraft.stations.get(station or "")
    if plan is None or plan.spin is None:
        return None
    return plan.spin if aircraft.hovers else OTHER_HAND[plan.spin]


def motors_wanted(aircraft: AircraftNow) -> tuple[str, ...]:
    """The stations where a motor is asked for; of an aeroplane that names none yet the nose."""
    return aircraft.motor_stations or (("nose",) if aircraft.record.has_motor else ())


def without(aircraft: AircraftNow, kind: str) -> tuple[str, ...]:
    """The motor stations that lack a kind of part."""
    return tuple(one for one in motors_wanted(aircraft) if aircraft.at(one, kind) is None)


def tracks(aircraft: AircraftNow, kind: str) -> bool:
    """Whether a kind of part is asked for: its keeper may leave it untagged, or weigh it apart."""
    record = aircraft.record
    return kind not in (*record.not_tracked, *(sundry.what for sundry in aircraft.sundries))


def lacks_once(aircraft: AircraftNow) -> tuple[str, ...]:
    """What sits on it once and is missing: of a multirotor its frame and controller too."""
    once = ("frame", "controller", "receiver") if aircraft.hovers else ("receiver",)
    return tuple(kind for kind in once if tracks(aircraft, kind) and not has(aircraft, kind))


def needs_servo(aircraft: AircraftNow) -> bool:
    """Whether a servo is asked for: of a multirotor only where a layout tilts with one."""
    if not tracks(aircraft, "servo") or has(aircraft, "servo"):
        return False
    if aircraft.hovers:
        return has_tail_servo(aircraft)
    return tracks(aircraft, "surfaces")


def has_tail_servo(aircraft: AircraftNow) -> bool:
    """Whether its layout has a motor that a servo tilts."""
    layout = LAYOUTS.get(aircraft.record.layout)
    return layout is not None and layout.tail_servo


def has(aircraft: AircraftNow, kind: str) -> bool:
    """Whether a part of that kind sits on it."""
    return any(fitted.kind == kind for fitted in aircraft.items())


def shared_esc(aircraft: AircraftNow) -> str | None:
    """The tag of an ESC that sits at no motor, and of which nothing says what it serves."""
    motors = motors_wanted(aircraft)
    for fitted in aircraft.items():
        apart = fitted.kind == "esc" and fitted.station not in motors
        if apart and not aircraft.serves.get(fitted.tag):
            return fitted.tag
    return None


def loose_parts(hangar: Hangar, kind: str) -> tuple[str, ...]:
    """The serviceable items of a kind that sit nowhere."""
    return tuple(
        item.tag
        for item in hangar.items.values()
        if item.spec.kind == kind and item.fitted is None and item.condition in FIT
    )


def _tags(hangar: Hangar, kind: str) -> tuple[str, ...]:
    return tuple(item.tag for item in hangar.items.values() if item.spec.kind == kind)


def _specs(
    hangar: Hangar, aircraft: AircraftNow, kind: str
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The specs that its parts may be of, and the aircraft that these are of until now, if any.

    Those of another kind of aircraft are none: no motor of a quad is taken for an aeroplane's.
    """
    own, alike, names = list[str](), list[str](), list[str]()
    for spec in (one for one in hangar.ledger.specs.values() if one.kind == kind):
        homes = {item.aircraft for item in hangar.items.values() if item.item.spec == spec.spec} - {
            None
        }
        others = [one.record for slug, one in hangar.aircraft.items() if slug in homes]
        same = [one.aircraft for one in others if one.kind == aircraft.record.kind]
        if not homes or aircraft.slug in homes:
            own.append(spec.spec)
        elif same:
            alike.append(spec.spec)
            names += same
    return (tuple(own), ()) if own else (tuple(alike), tuple(dict.fromkeys(names)))


def _new_specs(
    hangar: Hangar, slug: str, kind: str, many: int | None
) -> Iterator[tuple[str, str | None]]:
    """Names for specs of a kind; an even number of propellers turns one way and the other."""
    word = "pack" if kind == "battery" else kind
    names: list[tuple[str, str | None]] = [(word, None)]
    if kind == "propeller" and many is not None and many > 1 and many % 2 == 0:
        names = [(f"{word}-cw", "cw"), (f"{word}-ccw", "ccw")]
    yield from ((_free_name(hangar, slug, name), hand) for name, hand in names)


def _free_name(hangar: Hangar, slug: str, name: str) -> str:
    """Of a spec; where it is taken, with the aircraft before it: ``moewe-motor``."""
    free = (name, f"{slug}-{name}", *(f"{name}-{number}" for number in range(2, 1000)))
    return next(one for one in free if one not in hangar.ledger.specs)
