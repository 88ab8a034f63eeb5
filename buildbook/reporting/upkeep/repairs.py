"""Repairs that are still in an aircraft, and what of it does not work and waits.

Repairs are kept as a current list after AMC M.A.305(c)2: one is in it until what was repaired is
replaced.
"""

from buildbook.report.history import DefectState, RepairDone
from buildbook.report.state import AircraftNow
from buildbook.reporting.whole import Whole


def current_repairs(whole: Whole, slug: str) -> tuple[RepairDone, ...]:
    """Oldest first. One that names parts lasts as long as one of them sits there; any other as
    long as the frame does, or for good where no frame is recorded."""
    hangar = whole.hangar
    aircraft = hangar.aircraft[slug]
    return tuple(
        done
        for done in aircraft.repairs
        if _stands(aircraft, done, [tag for tag in done.repair.touched if tag in hangar.items])
    )


def _stands(aircraft: AircraftNow, done: RepairDone, tags: list[str]) -> bool:
    since = {here.tag: here.since_seq for here in aircraft.items()}
    if not tags:
        frames = [here for here in aircraft.items() if here.kind == "frame"]
        return not frames or any(here.since_seq <= done.seq for here in frames)
    return any(tag in since and since[tag] <= done.seq for tag in tags)


def inoperative(whole: Whole, slug: str) -> tuple[DefectState, ...]:
    """Open defects of things that were taken out or put out of use, oldest first.

    One of a part goes where that part goes; where it was taken out of, it is missing.
    """
    hangar = whole.hangar
    found: dict[str, DefectState] = {}
    for state in hangar.aircraft[slug].defects:
        item = hangar.items.get(state.defect.item or "")
        elsewhere = item is not None and item.aircraft not in (slug, None)
        if state.defect.inoperative == "removed" or not elsewhere:
            found[state.uid] = state
    for here in hangar.aircraft[slug].items():
        item = hangar.items.get(here.tag)
        found.update((state.uid, state) for state in (item.defects if item else ()))
    waiting = (one for one in found.values() if one.open and one.defect.inoperative)
    return tuple(sorted(waiting, key=lambda one: (one.on, one.seq)))
