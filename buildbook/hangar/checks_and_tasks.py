"""Set-up checks and tasks done. What they are worth is upkeep's to say."""

from buildbook.hangar.drafts import AircraftDraft, Draft, Moment
from buildbook.hangar.item_states import inspected
from buildbook.hangar.touching import Touch, happen
from buildbook.records.entries import Check, Inspection
from buildbook.report.history import CheckDone, TaskDone


def check(draft: Draft, moment: Moment, entry: Check) -> None:
    """``check`` and ``calibration``; only the latter is an event."""
    aircraft = draft.home(entry)
    if aircraft is None:
        return
    for name in entry.checks:
        aircraft.checks.append(
            CheckDone(
                seq=moment.seq,
                on=moment.on,
                uid=moment.uid,
                place=moment.place,
                check=name,
                aircraft=aircraft.slug,
                result=entry.result,
                readings=entry.readings,
                stations=entry.stations,
                surface=entry.surface,
                taught=entry.taught,
                by=entry.by,
                checked_by=entry.checked_by,
            )
        )
        if entry.taught:
            tags = [tag for station in entry.stations for tag in aircraft.fitted_at(station)]
            touch = Touch(entry.stations, tags)
            happen(draft, moment, aircraft, "calibration", name, touch)


def inspect(draft: Draft, moment: Moment, entry: Inspection) -> None:
    """``inspection``: of the named items, else of all on the aircraft and the packs it flew."""
    aircraft = draft.home(entry)
    if aircraft is None and not entry.tags:
        draft.objections.object(
            "inspection in a store names no item, so it counts for none",
            moment.place,
            severity="warning",
            hint="add tags: [...]",
        )
        return
    tasks = [
        TaskDone(
            seq=moment.seq,
            on=moment.on,
            uid=moment.uid,
            place=moment.place,
            task=name,
            aircraft=None if aircraft is None else aircraft.slug,
            tags=entry.tags,
            result=entry.result,
            findings=entry.findings,
            by=entry.by,
            checked_by=entry.checked_by,
        )
        for name in entry.tasks
    ]
    if aircraft is not None:
        aircraft.inspections.extend(tasks)
    for tag in entry.tags or _all_of(aircraft):
        item = draft.used(moment, tag, entry.place("tags"), entry.aircraft)
        if item is None:
            continue
        item.inspections.extend(tasks)
        if entry.tags and entry.result == "pass":
            inspected(moment, item, moment.place, entry.findings)


def _all_of(aircraft: AircraftDraft | None) -> list[str]:
    """The items that an inspection without tags can mean."""
    return [] if aircraft is None else [*aircraft.all_fitted(), *aircraft.packs]
