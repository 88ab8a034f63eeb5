"""Defects, open until they are cleared. A defect that is put off again keeps its first day."""

import msgspec

from buildbook.basis.notation import said
from buildbook.hangar.drafts import Draft, Moment
from buildbook.hangar.fitting import stay
from buildbook.hangar.time_in_service import flown_on_stays
from buildbook.records.entries import Cleared, Defect
from buildbook.report.history import DefectState
from buildbook.report.tally import NOTHING, Flown


def find_fault(draft: Draft, moment: Moment, entry: Defect) -> None:
    """``defect``: from the day of its entry, whatever later words say of it."""
    if entry.item is not None:
        draft.used(moment, entry.item, entry.place("item"), entry.aircraft)
    state = DefectState(
        seq=moment.seq,
        on=moment.on,
        uid=moment.uid,
        place=moment.place,
        defect=entry,
        aircraft=entry.aircraft,
        open=True,
    )
    draft.defects[moment.uid] = state
    aircraft = draft.home(entry)
    if aircraft is not None and entry.severity == "grounds":
        aircraft.grounding[moment.uid] = state


def clear(draft: Draft, moment: Moment, entry: Cleared) -> None:
    """``cleared``: closes the defect it names, once."""
    state = draft.defects.get(entry.target)
    place = entry.place("cleared")
    if state is None:
        draft.objections.object(
            f"defect {said(entry.defect)} cleared on {moment.on}, when no such defect stands",
            place,
            severity="warning",
            about=entry.aircraft,
        )
        return
    if not state.open:
        draft.objections.object(
            f"defect {said(entry.defect)} cleared on {moment.on},"
            f" but closed since {state.cleared_on}",
            place,
            severity="warning",
            also=(state.place,),
            about=entry.aircraft,
        )
        return
    flown = _since(draft, state, moment.seq)
    draft.defects[entry.target] = msgspec.structs.replace(
        state,
        open=False,
        cleared_on=moment.on,
        cleared_uid=moment.uid,
        cleared_seq=moment.seq,
        how=entry.how,
        flights_since=flown.flights,
        duration_since_s=flown.duration_s,
    )
    if state.aircraft is not None and state.aircraft in draft.aircraft:
        draft.aircraft[state.aircraft].grounding.pop(entry.target, None)


def aged(draft: Draft) -> list[DefectState]:
    """All defects; an open one with what was flown since its entry."""
    found = []
    for state in draft.defects.values():
        if state.open:
            flown = _since(draft, state, None)
            state = msgspec.structs.replace(
                state, flights_since=flown.flights, duration_since_s=flown.duration_s
            )
        found.append(state)
    return found


def _since(draft: Draft, state: DefectState, upto: int | None) -> Flown:
    """Flown by the aircraft since the defect; in a store by the item, on whatever aircraft."""
    if state.aircraft is not None:
        aircraft = draft.aircraft.get(state.aircraft)
        return NOTHING if aircraft is None else aircraft.tally.between(state.seq, upto).flown
    item = None if state.defect.item is None else draft.items.get(state.defect.item)
    if item is None:
        return NOTHING
    if item.is_pack:
        return item.tally.between(state.seq, upto).flown
    stays = list(item.stays)
    if item.fitted is not None and item.aircraft is not None:
        stays.append(stay(draft.aircraft[item.aircraft], item.fitted, None))

    def flown(until: int | None) -> Flown:
        return flown_on_stays(stays, lambda slug: draft.aircraft[slug].tally, until)

    return flown(upto) - flown(state.seq)
