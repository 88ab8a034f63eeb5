"""A remote ID module that went to another aircraft: its registration, and whether it broadcasts.

Its serial stands on one registration at a time, and moves before it is flown elsewhere (14 CFR 89);
that it works is looked at before a flight (UK AMC to UAS.OPEN.060). Back on the same aircraft it
has not moved.
"""

from collections.abc import Iterator, Mapping
from itertools import pairwise

from buildbook.records.row_names import MOVE_TASKS
from buildbook.report.history import Stay
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.findings import Moved
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.rows.tasks import found_task

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
        yield from _row(hangar, aircraft, item, REGISTRATION, move)
        if item.aircraft == aircraft.slug:
            yield from _row(hangar, aircraft, item, BROADCAST, move)


def _newest_move(item: ItemNow, slug: str) -> tuple[Stay, Stay] | None:
    """The last two stays on different aircraft of which one is this."""
    stays = sorted(item.stays, key=lambda stay: stay.since_seq)
    moves = [
        (left, came)
        for left, came in pairwise(stays)
        if left.aircraft != came.aircraft and slug in (left.aircraft, came.aircraft)
    ]
    return moves[-1] if moves else None


def _row(
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
