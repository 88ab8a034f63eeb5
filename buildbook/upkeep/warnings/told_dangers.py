"""Rows that are warnings as well: for the list of problems and warnings, in the words of rows."""

from collections.abc import Iterator

from buildbook.report.state import Hangar
from buildbook.report.upkeep.findings import ReadOtherwise, Unread
from buildbook.report.upkeep.work import Row, Why, WorkList
from buildbook.upkeep.dangers.hands import hand_rows, rank_rows
from buildbook.upkeep.work_list import set_up

_TOLD: frozenset[Why] = frozenset(("hand", "plan", "link lost", "memory", "nut"))
"""Why a row is open that is a warning as well: what was written contradicts itself, or kills."""


def told_dangers(hangar: Hangar, listed: WorkList) -> tuple[Row, ...]:
    """The rows that are warnings as well; of all stations of one plan the first speaks."""
    rows = (*listed.rows, *_while_building(hangar))
    told = [row for row in rows if row.state in ("failed", "open") and is_told(row)]
    plans = {row.aircraft: row for row in reversed(told) if _why(row) == "plan"}
    return tuple(row for row in told if _why(row) != "plan" or plans[row.aircraft] is row)


def is_told(row: Row) -> bool:
    """Of readings those that are against what is planned or asked, and those that nobody can read:
    one was written down wrong."""
    found = None if row.because is None else row.because.found
    against = found.against if isinstance(found, ReadOtherwise) else None
    if isinstance(found, Unread) or against in ("plan", "asked", "sense"):
        return True
    return row.state == "failed" and _why(row) in _TOLD


def _why(row: Row) -> Why | None:
    return None if row.because is None else row.because.why


_AXES = 4  # lift, roll, pitch, yaw: with fewer rotors some stations may not be written yet


def _while_building(hangar: Hangar) -> Iterator[Row]:
    """Nothing is due of what is being built, but a wrong propeller is told where it was fitted,
    spins that leave no yaw where they are planned, and a reading against the plan where it was
    read."""
    for slug, aircraft in hangar.aircraft.items():
        if aircraft.status == "building":
            yield from hand_rows(hangar, aircraft)
            if aircraft.record.layout != "custom" or len(aircraft.motor_stations) >= _AXES:
                yield from rank_rows(hangar, aircraft)
            if any(check.readings for check in aircraft.checks):
                yield from (row for row in set_up(hangar, slug) if _why(row) == "reading")
