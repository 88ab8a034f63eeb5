"""Defects as rows: what grounds, what was deferred and for how long, what is only noted.

A deferral that has run out grounds: its limit was the keeper's own, and has no tolerance. On the
limit itself it is due, and grounds not yet. A defect of an item goes where the item goes, and
while it stays, it is where the keeper found it.
"""

import datetime
from collections.abc import Iterator

from buildbook.basis.days import next_day
from buildbook.records.parts import GONE
from buildbook.report.history import DefectState
from buildbook.report.state import Hangar, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import DefectFound
from buildbook.report.upkeep.work import Because, Row, RowState
from buildbook.upkeep.context import Context


def defect_rows(hangar: Hangar, context: Context) -> Iterator[Row]:
    """The open defects of the hangar, each once, in the order in which they were found."""
    found: dict[str, DefectState] = {}
    for aircraft in hangar.aircraft.values():
        found.update((state.uid, state) for state in aircraft.defects)
    for item in hangar.items.values():
        found.update((state.uid, state) for state in item.defects)
    for state in sorted(found.values(), key=lambda one: (one.on, one.seq, one.uid)):
        if state.open and not _is_out_of_use(hangar.items.get(state.defect.item or "")):
            yield _row(hangar, context, state)


def _is_out_of_use(item: ItemNow | None) -> bool:
    """Whether the keeper has retired or scrapped it, and it sits nowhere: nothing is left to do."""
    return item is not None and item.state.state in GONE and item.fitted is None


def _row(hangar: Hangar, context: Context, state: DefectState) -> Row:
    defect = state.defect
    item = hangar.items.get(defect.item or "")
    slug = state.aircraft if item is None else item.aircraft
    station = _station(state, item)
    left = _left(context.as_of, state)
    verdict, rank = _verdict(state, left)
    first_by = min(left, key=lambda unit: left[unit]) if left else None
    until = defect.deferred_until
    due_on = None if until is None or defect.severity != "defer" else until.on
    grounds = rank == ranks.GROUNDING_DEFECT
    return Row(
        aircraft=slug,
        kind="defect",
        name=defect.id,
        tag=defect.item,
        station=station,
        state=verdict,
        first_by=first_by,
        left=left,
        due_on=due_on,
        grounds_from=None if due_on is None or grounds else next_day(due_on),
        because=Because(
            why="defect",
            entry=state.uid,
            on=state.on,
            place=state.place,
            tag=defect.item,
            station=station,
            found=DefectFound(
                severity=defect.severity,
                days_open=(context.as_of - state.on).days,
                limited=defect.severity != "defer" or bool(left),
                inoperative=defect.inoperative,
            ),
        ),
        place=state.place,
        grounds=grounds,
        by=defect.by,
        rank=rank,
    )


def _station(state: DefectState, item: ItemNow | None) -> str | None:
    """Where it was found, as written; of an item that went elsewhere since, where that is now."""
    written = state.defect.station
    if item is None:
        return written
    if item.fitted is None:
        return None
    stayed = item.aircraft == state.aircraft and item.fitted.since_seq < state.seq
    return written if written and stayed else item.fitted.station


def _left(as_of: datetime.date, state: DefectState) -> dict[str, float]:
    """What is left of a deferral, counted from the day when the defect was first written."""
    until = state.defect.deferred_until
    left: dict[str, float] = {}
    if until is None or state.defect.severity != "defer":
        return left
    if until.flights is not None:
        left["flights"] = until.flights - state.flights_since
    if until.duration_s is not None:
        left["hours"] = (round(until.duration_s) - round(state.duration_since_s)) / 3600
    if until.on is not None:
        left["days"] = (until.on - as_of).days
    return left


def _verdict(state: DefectState, left: dict[str, float]) -> tuple[RowState, int]:
    severity = state.defect.severity
    if severity == "grounds" or state.defect.required:
        return "open", ranks.GROUNDING_DEFECT
    if severity == "note":
        return "open", ranks.NOTED
    least = min(left.values(), default=None)
    if least is None or least > 0:
        return "deferred", ranks.NOTED
    return ("due", ranks.DUE) if least == 0 else ("overdue", ranks.GROUNDING_DEFECT)
