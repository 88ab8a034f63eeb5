"""Checks, tasks and defects: what was looked at, found and cleared."""

import msgspec

from buildbook.basis import amounts
from buildbook.basis.notation import quoted
from buildbook.basis.problems import either
from buildbook.hangar.builders import AircraftBuilder, ItemBuilder, stays_of
from buildbook.hangar.events import Touch, note_event
from buildbook.hangar.folding import Fold
from buildbook.hangar.handlers.service import inspect
from buildbook.hangar.packs.aside import return_if_whole, set_pack_aside
from buildbook.hangar.packs.limits import takes
from buildbook.hangar.packs.rests import read_look
from buildbook.hangar.time_in_service import flown_on_stays, in_service
from buildbook.records.entries import Check, Cleared, Defect, Inspection
from buildbook.records.readings import left_open
from buildbook.records.row_names import PACK_CELLS
from buildbook.report.history import Completion, DefectState
from buildbook.report.tally import NOTHING, Flown


def on_check(fold: Fold, entry: Check) -> None:
    """``check`` and ``calibration``; only the latter is an event."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    for name in entry.checks:
        aircraft.checks.append(
            Completion(
                **fold.at.stamp(),
                name=name,
                by_entry="check",
                aircraft=aircraft.slug,
                result=entry.result,
                readings=entry.readings,
                stations=entry.stations,
                severity=entry.severity,
                surface=entry.surface,
                taught=entry.taught,
                by=entry.by,
                checked_by=entry.checked_by,
            )
        )
        if entry.taught:
            tags = [tag for station in entry.stations for tag in aircraft.fitted_at(station)]
            touch = Touch(entry.stations, tags)
            note_event(fold, aircraft, "calibration", name, touch)


def on_inspection(fold: Fold, entry: Inspection) -> None:
    """``inspection``: of the named items, else of all on the aircraft and the packs it flew."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None and not entry.tags:
        fold.objections.object(
            "inspection in a store names no item, so it counts for none",
            fold.at.place,
            severity="warning",
            hint=f"add {either('tags: [...]', '--tags')}",
        )
        return
    _ask_result(fold, entry)
    at = fold.at
    tasks = [
        Completion(
            seq=at.sequence,
            on=at.day,
            uid=at.uid,
            place=at.place,
            name=name,
            by_entry="inspection",
            aircraft=None if aircraft is None else aircraft.slug,
            tags=entry.tags,
            result=entry.result,
            findings=entry.findings,
            severity=entry.severity,
            by=entry.by,
            checked_by=entry.checked_by,
        )
        for name in entry.tasks
    ]
    if aircraft is not None:
        aircraft.inspections.extend(tasks)
    place = entry.place("tags")
    for tag in entry.tags or _all_of(aircraft):
        item = fold.item_used(tag, place, entry.aircraft)
        if item is None:
            continue
        item.inspections.extend(tasks)
        if entry.tags:
            inspect(fold, item, entry)
            if item.is_pack:
                read_look(fold, item, entry)
                if PACK_CELLS in entry.tasks and entry.result == "pass":
                    _goes_elsewhere(fold, item)


def _ask_result(fold: Fold, entry: Inspection) -> None:
    """Doubt a look that found something and says neither that it passed nor that it failed."""
    found = entry.findings
    if found and entry.assumed and left_open(found) and not fold.sure:
        fold.objections.object(
            f"{quoted(found)} was found, and nothing says whether it was put right",
            entry.place("findings"),
            severity="warning",
            hint="add "
            + either(
                "result: pass if it was or may stay so, result: fail if not",
                "--result pass if it was or may stay so, --result fail if not",
            ),
            about=entry.aircraft,
        )


def _goes_elsewhere(fold: Fold, pack: ItemBuilder) -> None:
    """It is none of the packs of an aircraft that does not take it, flown there or not."""
    for slug in tuple(pack.flown_on):
        aircraft = fold.aircraft[slug]
        fitted = (fold.items.get(tag) for tag in aircraft.all_fitted())
        if any(part is not None and not takes(part.spec, pack.spec) for part in fitted):
            pack.flown_on.remove(slug)
            del aircraft.packs[pack.tag]


def _all_of(aircraft: AircraftBuilder | None) -> list[str]:
    """The items that an inspection without tags can mean."""
    return [] if aircraft is None else [*aircraft.all_fitted(), *aircraft.packs]


def on_defect(fold: Fold, entry: Defect) -> None:
    """``defect``: from the day of its entry, whatever later words say of it."""
    item = None
    if entry.item is not None:
        item = fold.item_used(entry.item, entry.place("item"), entry.aircraft)
    if entry.required and entry.severity != "grounds":
        done = {"defer": "deferred", "note": "only noted"}[entry.severity]
        fold.objections.object(
            f"{quoted(entry.words)}: what is required cannot be {done}",
            entry.place("severity"),
            hint=f"write {either('severity: grounds', '--severity grounds')}"
            ", until it is mended and cleared",
            also=(entry.place("required"),),
            about=entry.aircraft,
        )
    state = DefectState(
        **fold.at.stamp(),
        defect=entry,
        aircraft=entry.aircraft,
        open=True,
    )
    fold.defects[fold.at.uid] = state
    aircraft = fold.aircraft_of(entry)
    if aircraft is not None:
        aircraft.open_defects[fold.at.uid] = state
        fold.changed(aircraft.slug)
    if item is not None and item.is_pack and entry.severity == "grounds":
        set_pack_aside(fold, item, "defect", defect=fold.at.uid)


def on_cleared(fold: Fold, entry: Cleared) -> None:
    """``cleared``: closes the defect it names, once."""
    state = fold.defects.get(entry.target)
    place = entry.place("cleared")
    if state is None and _clear_look(fold, entry):
        return
    if state is None:
        fold.objections.object(
            f"defect {quoted(entry.defect)} cleared on {fold.at.day}, when no such defect stands",
            place,
            severity="warning",
            about=entry.aircraft,
        )
        return
    if not state.open:
        fold.objections.object(
            f"defect {quoted(entry.defect)} cleared on {fold.at.day},"
            f" but closed since {state.cleared_on}",
            place,
            severity="warning",
            also=(state.place,),
            about=entry.aircraft,
        )
        return
    if state.defect.severity == "grounds":
        _ask_how(fold, entry, quoted(state.defect.words), "grounded", state)
    flown = _since(fold, state, fold.at.sequence)
    fold.defects[entry.target] = msgspec.structs.replace(
        state,
        open=False,
        cleared_on=fold.at.day,
        cleared_uid=fold.at.uid,
        cleared_seq=fold.at.sequence,
        how=entry.how,
        flights_since=flown.flights,
        duration_since_s=flown.duration_s,
    )
    item = fold.items.get(state.defect.item or "")
    if item is not None and item.is_pack:
        return_if_whole(fold, item, entry.how or "defect cleared")
    if state.aircraft is not None and state.aircraft in fold.aircraft:
        note_event(fold, fold.aircraft[state.aircraft], "cleared defect")
        fold.aircraft[state.aircraft].open_defects.pop(entry.target, None)
        fold.changed(state.aircraft)


def _ask_how(fold: Fold, entry: Cleared, what: str, did: str, of: Completion | DefectState) -> None:
    """Doubt a line that closes what grounded, and does not say what was done about it."""
    if not (entry.how or entry.note or fold.sure):
        fold.objections.object(
            f"{what} {did}, and is cleared without a word of how",
            entry.place("cleared"),
            severity="warning",
            hint=f"add {either('how: with what was done', '--how and what was done')}",
            also=(of.place,),
            about=of.aircraft,
        )


def _clear_look(fold: Fold, entry: Cleared) -> bool:
    """Note that what a failed look found is cleared; whether there was such a look."""
    kept = [one.checks for one in fold.aircraft.values()]
    kept += [one.inspections for one in fold.aircraft.values()]
    kept += [one.inspections for one in fold.items.values()]
    found: dict[str, Completion] = {}
    for done in kept:
        for index, look in enumerate(done):
            if look.uid == entry.target and look.result == "fail":
                done[index] = msgspec.structs.replace(
                    look, cleared_on=fold.at.day, cleared_seq=fold.at.sequence
                )
                found[look.name] = look
    if found and all(look.severity is None for look in found.values()):
        _ask_how(fold, entry, amounts.listed(found), "failed", next(iter(found.values())))
    return bool(found)


def aged(fold: Fold) -> list[DefectState]:
    """All defects; an open one with what was flown since its entry."""
    found = []
    for state in fold.defects.values():
        if state.open:
            flown = _since(fold, state, None)
            state = msgspec.structs.replace(
                state, flights_since=flown.flights, duration_since_s=flown.duration_s
            )
        found.append(state)
    return found


def _since(fold: Fold, state: DefectState, upto: int | None) -> Flown:
    """Flown by the aircraft since the defect; in a store by the item, on whatever aircraft."""
    if state.aircraft is not None:
        aircraft = fold.aircraft.get(state.aircraft)
        return NOTHING if aircraft is None else aircraft.tally.between(state.seq, upto).flown
    item = None if state.defect.item is None else fold.items.get(state.defect.item)
    if item is None:
        return NOTHING
    if item.is_pack:
        return item.tally.between(state.seq, upto).flown
    stays = stays_of(item, fold.aircraft)

    def flown(until: int | None) -> Flown:
        all_of_it = flown_on_stays(stays, lambda slug: fold.aircraft[slug].tally, until)
        return in_service(all_of_it, item.spec.kind)

    return flown(upto) - flown(state.seq)
