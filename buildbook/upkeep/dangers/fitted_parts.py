"""Parts that are missing, that bring along what happened to them, or took a registration along."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import pairwise

from buildbook.basis.place import Place
from buildbook.records.parts import DRIVE
from buildbook.records.row_names import FULL_INSPECTION, MOVE_TASKS, PART_LOOK, is_check_of
from buildbook.records.surfaces import Surface
from buildbook.report.history import Event, Recorded, Stay
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import Moved, NotFitted, PartAgain
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.danger_rows import Ask, danger_row
from buildbook.upkeep.dangers.noticed import DRIED
from buildbook.upkeep.rows.tasks import found_task

HURT = ("motor", "esc", "receiver", "controller", "servo", "frame", "propeller")
"""Kinds of part that a crash can hurt unseen. Common practice, no source."""

WETTED = ("motor", "esc", "receiver", "controller", "servo", "regulator", "sensor")
"""Kinds of part that water spoils unseen. Common practice, no source."""

LOOK = (
    "Unplug the pack. Take the part out, look for cracks, bends, loose joints and burns, and try it"
    " alone before it flies; record that as part-look with its tag."
)
DRY = (
    "Unplug the pack. Take the part out, open it, rinse off salt and mud, let it dry for days; then"
    " try it alone before it flies, and record that as part-look with its tag."
)


def brought_along_rows(
    hangar: Hangar, aircraft: AircraftNow, larger: Collection[str] = ()
) -> Iterator[Row]:
    """What its parts were in before they were fitted here, until somebody looked at them.

    larger: inspections of the keeper's own that are a full one as well.
    """
    for here in aircraft.items():
        item = hangar.items.get(here.tag)
        if item is None or item.fitted is None or not item.stays or item.is_pack:
            continue
        stay = max(item.stays, key=lambda one: one.since_seq)
        for found in (_at_fault(item, stay), *_struck(hangar, item, stay, larger)):
            if found is not None and not _looked_at(hangar, item, found[0], larger):
                yield _part_row(aircraft, item, stay, *found)
                break


def _at_fault(item: ItemNow, stay: Stay) -> tuple[Recorded, PartAgain] | None:
    """The last defect of it that was cleared while it was out, and grounded."""
    for state in reversed(item.defects):
        cleared = state.cleared_seq
        if cleared is None or state.defect.severity == "note" or not stay.since_seq > cleared:
            continue
        fitted_then = any(one.since_seq < state.seq < (one.until_seq or -1) for one in item.stays)
        if fitted_then and not any(one.holds(cleared) for one in item.stays):
            return state, PartAgain(tag=item.tag, defect=state.defect.id)
    return None


def _struck(
    hangar: Hangar, item: ItemNow, stay: Stay, larger: Collection[str]
) -> Iterator[tuple[Event, PartAgain]]:
    """The last crash of it, then the last water, with another aircraft than it sits on.

    With the same one where that was looked at while the part was out; until then the rows of the
    aircraft itself ask for it.
    """
    for what, kinds in (("crash", HURT), ("water", WETTED)):
        struck = [one for one in item.events if one.event == what and one.seq < stay.since_seq]
        with_it = hangar.aircraft.get(struck[-1].aircraft or "") if struck else None
        if item.spec.kind not in kinds or with_it is None:
            continue
        if with_it.slug != stay.aircraft or _whole_without(with_it, item, struck[-1], larger):
            name = with_it.record.aircraft
            crashed, wet = (name, "") if what == "crash" else ("", name)
            yield struck[-1], PartAgain(tag=item.tag, crashed=crashed, wet=wet)


def _looked_at(hangar: Hangar, item: ItemNow, since: Recorded, larger: Collection[str]) -> bool:
    """Whether it was looked at by its tag, mended, or inspected with a whole aircraft since.

    A check that has its kind in its name, as ``esc-endpoints``, looked at what sat at its stations.
    """
    mended = (one for one in item.events if one.event in ("repair", "overhaul"))
    if any(one.seq > since.seq and item.tag in one.tags for one in mended):
        return True
    whole = (PART_LOOK, *_of_all(since, larger))
    looks: Iterable[tuple[bool, int]] = (
        *((item.tag in one.tags, one.seq) for one in item.inspections if one.result == "pass"),
        *(
            (item.tag in one.tags or (one.name in whole and stay.holds(one.seq)), one.seq)
            for stay in item.stays
            for one in hangar.aircraft[stay.aircraft].inspections
            if one.result == "pass" and (item.tag in one.tags or not one.tags)
        ),
        *(
            (stay.station in one.stations and stay.holds(one.seq), one.seq)
            for stay in item.stays
            for one in hangar.aircraft[stay.aircraft].checks
            if one.result == "pass" and is_check_of(one.name, item.spec.kind)
        ),
    )
    return any(named and seq > since.seq for named, seq in looks)


def _of_all(since: Recorded, larger: Collection[str]) -> tuple[str, ...]:
    """The looks at a whole aircraft that are one at each part aboard."""
    wet = isinstance(since, Event) and since.event == "water"
    return (FULL_INSPECTION, *larger, *(DRIED if wet else ()))


def _whole_without(
    aircraft: AircraftNow, item: ItemNow, since: Event, larger: Collection[str]
) -> bool:
    """Whether the aircraft was looked at as a whole since then, without that part aboard."""
    return any(
        one.seq > since.seq
        and one.result == "pass"
        and not one.tags
        and one.name in _of_all(since, larger)
        and not any(stay.holds(one.seq) for stay in item.stays)
        for one in aircraft.inspections
    )


def _part_row(
    aircraft: AircraftNow, item: ItemNow, stay: Stay, since: Recorded, found: PartAgain
) -> Row:
    place = stay.since_place
    because = Because(
        why="moved",
        entry=since.uid,
        on=since.on,
        place=place,
        tag=item.tag,
        station=stay.station,
        found=found,
    )
    what = DRY if found.wet else LOOK
    return found_task(aircraft.slug, PART_LOOK, because, place, what=what, each=item.spec.kind)


MISSING_PARTS = "missing-parts"

"""What every motor station must carry."""

_ONCE = ("frame", "receiver")
"""What every aircraft must carry; a multirotor its controller too."""

_ASK = Ask(name=MISSING_PARTS, what="Unplug the pack. Fit what is missing, and record it with fit.")


def missing_rows(aircraft: AircraftNow) -> Iterator[Row]:
    """A grounding row for each station, and one for the aircraft, that lacks what it had."""
    known = _ever_fitted(aircraft)
    central = central_esc(aircraft)
    for station in aircraft.motor_stations:
        lacks = [
            kind
            for kind in DRIVE
            if kind in known
            and aircraft.at(station, kind) is None
            and not (kind == "esc" and central)
        ]
        if lacks:
            yield _row(aircraft, lacks, station, _emptied(aircraft, station))
    once = (*_ONCE, "controller") if aircraft.hovers else _ONCE
    fitted = {here.kind for here in aircraft.items()}
    lacks = [kind for kind in once if kind in known and kind not in fitted]
    if lacks:
        yield _row(aircraft, lacks, None, _removed(aircraft, once))
    seated = {here.tag for here in aircraft.items()}
    for name, surface in aircraft.surfaces.items():
        if not seated.issuperset(surface.servos):
            yield _row(aircraft, ["servo"], name, _unseated(aircraft, name, surface))
    unknown = [kind for kind in DRIVE if kind not in known]
    if unknown and aircraft.motor_stations:
        yield _not_recorded(aircraft, unknown)


def central_esc(aircraft: AircraftNow) -> bool:
    """Whether an ESC sits at no motor station and names none: it may drive any of them."""
    return any(
        here.kind == "esc"
        and here.station not in aircraft.motor_stations
        and not aircraft.serves.get(here.tag)
        for here in aircraft.items()
    )


def _ever_fitted(aircraft: AircraftNow) -> frozenset[str]:
    """The kinds that were ever recorded on this aircraft."""
    return frozenset(event.subject or "" for event in aircraft.events if event.event == "fit")


def _row(aircraft: AircraftNow, lacks: list[str], station: str | None, place: Place) -> Row:
    because = Because(
        why="empty station" if station else "missing part",
        place=place,
        station=station,
        found=NotFitted(kinds=tuple(lacks)),
    )
    return danger_row(aircraft, _ASK, because, place, grounds=True, rank=ranks.EMPTY_STATION)


def _not_recorded(aircraft: AircraftNow, unknown: list[str]) -> Row:
    place = aircraft.record.place()
    because = Because(
        why="missing part", place=place, found=NotFitted(kinds=tuple(unknown), recorded=False)
    )
    return danger_row(
        aircraft,
        Ask(name="parts-recorded", what="Record what is fitted with fit."),
        because,
        place,
        grounds=False,
        state="open",
        rank=ranks.NOT_RECORDED,
    )


def _emptied(aircraft: AircraftNow, station: str) -> Place:
    for event in reversed(aircraft.events):
        if event.event == "remove" and station in event.stations:
            return event.place
    return aircraft.places.get(f"stations.{station}", aircraft.record.place())


def _unseated(aircraft: AircraftNow, name: str, surface: Surface) -> Place:
    for event in reversed(aircraft.events):
        if event.event == "remove" and set(event.tags).intersection(surface.servos):
            return event.place
    return aircraft.places.get(f"surfaces.{name}", aircraft.record.place())


def _removed(aircraft: AircraftNow, kinds: tuple[str, ...]) -> Place:
    for event in reversed(aircraft.events):
        if event.event == "remove" and event.subject in kinds:
            return event.place
    return aircraft.record.place()


REMOTE_ID = "remote_id"
BROADCAST, REGISTRATION = MOVE_TASKS

WHAT: Mapping[str, str] = {
    BROADCAST: "Power it up as for a flight. Look with a receiver or a phone whether this module"
    " is heard, and as itself.",
    REGISTRATION: "Let the registration of this aircraft name the modules that it carries, and no"
    " other.",
}


def moved_module_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """What the newest move of each module asks of an aircraft, until it was done there."""
    for item in (hangar.items[tag] for tag in aircraft.ever_fitted):
        if item.spec.kind != REMOTE_ID:
            continue
        move = _newest_move(item, aircraft.slug)
        if move is None:
            continue
        yield from _moved_row(hangar, aircraft, item, REGISTRATION, move)
        if item.aircraft == aircraft.slug:
            yield from _moved_row(hangar, aircraft, item, BROADCAST, move)


def _newest_move(item: ItemNow, slug: str) -> tuple[Stay, Stay] | None:
    """The last two stays on different aircraft of which one is this."""
    stays = sorted(item.stays, key=lambda stay: stay.since_seq)
    moves = [
        (left, came)
        for left, came in pairwise(stays)
        if left.aircraft != came.aircraft and slug in (left.aircraft, came.aircraft)
    ]
    return moves[-1] if moves else None


def _moved_row(
    hangar: Hangar, aircraft: AircraftNow, item: ItemNow, name: str, move: tuple[Stay, Stay]
) -> Iterator[Row]:
    left, came = move
    looks = [
        done
        for done in aircraft.inspections
        if done.name == name
        and done.seq > came.since_seq
        and (not done.tags or item.tag in done.tags)
    ]
    if looks and (looks[-1].result == "pass" or looks[-1].cleared_on is None):
        return  # done, or failed, which has a row of its own
    place = came.since_place
    because = Because(
        why="moved",
        on=came.since,
        place=place,
        tag=item.tag,
        found=Moved(
            tag=item.tag,
            came_from=hangar.aircraft[left.aircraft].record.aircraft,
            went_to=hangar.aircraft[came.aircraft].record.aircraft,
        ),
    )
    yield found_task(aircraft.slug, name, because, place, what=WHAT[name], each=REMOTE_ID)
