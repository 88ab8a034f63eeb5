"""Repairs that are still in an aircraft.

Kept as a current list after AMC M.A.305(c)2: a repair is in it until what was repaired is replaced.
"""

from buildbook.report.history import RepairDone
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
