"""Every doing of a task, by aircraft and by item; some tasks are done by entries of other kinds."""

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Literal, NamedTuple

from buildbook.report.history import ChargeDone, Happened, TaskDone
from buildbook.report.state import AircraftNow, Hangar, ItemNow


class Job(NamedTuple):
    """One time that a task was done."""

    what: Happened
    result: Literal["pass", "fail"] = "pass"
    by: str | None = None
    checked_by: str | None = None

    @property
    def seconded(self) -> bool:
        """Whether a second person looked at it."""
        return self.checked_by is not None and self.checked_by != self.by


PACK_CAPACITY = "pack-capacity"
PACK_RESISTANCE = "pack-resistance"
PACK_RESTING = "pack-rest-voltage"

_BY_CHARGE: Mapping[str, Callable[[ChargeDone], bool]] = {
    PACK_RESISTANCE: lambda charge: bool(charge.resistance_ohm),
    PACK_RESTING: lambda charge: bool(charge.resting_v),
}


def aircraft_jobs(aircraft: AircraftNow) -> dict[str, list[Job]]:
    """By task, oldest first; a check of the same name counts as well."""
    found: dict[str, list[Job]] = {}
    for task in aircraft.inspections:
        if task.result == "not applicable":
            continue
        found.setdefault(task.task, []).append(_job(task))
    for check in aircraft.checks:
        if not check.stations:
            job = Job(check, check.result, check.by, check.checked_by)
            found.setdefault(check.check, []).append(job)
    return _sorted(found)


def item_jobs(item: ItemNow) -> dict[str, list[Job]]:
    """By task, oldest first. A pack's tasks are also done by its charges and measurements."""
    found: dict[str, list[Job]] = {}
    for task in item.inspections:
        if task.result == "not applicable":
            continue
        found.setdefault(task.task, []).append(_job(task))
    for capacity in item.capacities:
        found.setdefault(PACK_CAPACITY, []).append(Job(capacity))
    for charge in item.charges:
        for name in _charged(charge):
            found.setdefault(name, []).append(Job(charge))
    return _sorted(found)


def checked_jobs(hangar: Hangar, item: ItemNow, names: Collection[str]) -> list[Job]:
    """Checks of these names that were done while the item sat where they were done."""
    found: list[Job] = []
    for stay in item.stays:
        for check in hangar.aircraft[stay.aircraft].checks:
            if (
                check.check in names
                and stay.since_seq <= check.seq
                and (stay.until_seq is None or check.seq <= stay.until_seq)
                and (not check.stations or stay.station in check.stations)
            ):
                found.append(Job(check, check.result, check.by, check.checked_by))
    return found


def together(*lists: Sequence[Job]) -> list[Job]:
    """Jobs of several kinds, oldest first, each entry once."""
    found = {job.what.seq: job for jobs in lists for job in jobs}
    return [found[seq] for seq in sorted(found)]


def _charged(charge: ChargeDone) -> list[str]:
    return [name for name, does in _BY_CHARGE.items() if does(charge)]


def _job(task: TaskDone) -> Job:
    result: Literal["pass", "fail"] = "pass" if task.result == "pass" else "fail"
    return Job(task, result, task.by, task.checked_by)


def _sorted(found: dict[str, list[Job]]) -> dict[str, list[Job]]:
    for jobs in found.values():
        jobs.sort(key=lambda job: job.what.seq)
    return found
