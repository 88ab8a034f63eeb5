"""Parts that bring along what happened to them before they were fitted.

One that was taken out for a defect, which was then cleared without it, and one that was in a crash
of another aircraft: each has a row until somebody looked at it, repaired or overhauled it, or
inspected the whole aircraft with it.
"""

from collections.abc import Iterable, Iterator

from buildbook.records.row_names import FULL_INSPECTION, PART_LOOK
from buildbook.report.history import Event, Recorded, Stay
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.findings import PartAgain
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.rows.tasks import found_task

HURT = ("motor", "esc", "receiver", "controller", "servo", "frame", "propeller")
"""Kinds of part that a crash can hurt unseen. Common practice, no source."""

LOOK = (
    "Unplug the pack. Take the part out, look for cracks, bends, loose joints and burns, and try it"
    " alone before it flies; record that as part-look with its tag."
)


def brought_along_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """What its parts were in before they were fitted here, until somebody looked at them."""
    for here in aircraft.items():
        item = hangar.items.get(here.tag)
        if item is None or item.fitted is None or not item.stays or item.is_pack:
            continue
        stay = max(item.stays, key=lambda one: one.since_seq)
        found = _at_fault(item, stay) or _crashed(hangar, item, stay)
        if found is not None and not _looked_at(hangar, item, found[0]):
            yield _part_row(aircraft, item, stay, *found)


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


def _crashed(hangar: Hangar, item: ItemNow, stay: Stay) -> tuple[Event, PartAgain] | None:
    """The last crash of it, with another aircraft than it sits on."""
    if item.spec.kind not in HURT:
        return None
    crashes = [one for one in item.events if one.event == "crash" and one.seq < stay.since_seq]
    with_it = hangar.aircraft.get(crashes[-1].aircraft or "") if crashes else None
    if with_it is None or with_it.slug == stay.aircraft:
        return None
    return crashes[-1], PartAgain(tag=item.tag, crashed=with_it.record.aircraft)


def _looked_at(hangar: Hangar, item: ItemNow, since: Recorded) -> bool:
    """Whether it was looked at by its tag, mended, or inspected with a whole aircraft since."""
    mended = (one for one in item.events if one.event in ("repair", "overhaul"))
    if any(one.seq > since.seq and item.tag in one.tags for one in mended):
        return True
    looks: Iterable[tuple[bool, int]] = (
        *((item.tag in one.tags, one.seq) for one in item.inspections if one.result == "pass"),
        *(
            (item.tag in one.tags or (one.name == FULL_INSPECTION and stay.holds(one.seq)), one.seq)
            for stay in item.stays
            for one in hangar.aircraft[stay.aircraft].inspections
            if one.result == "pass"
        ),
    )
    return any(named and seq > since.seq for named, seq in looks)


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
    return found_task(aircraft.slug, PART_LOOK, because, place, what=LOOK, each=item.spec.kind)
