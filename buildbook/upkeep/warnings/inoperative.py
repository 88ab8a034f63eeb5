"""What does not work and waits: taken out by a word alone, or passed over by a full inspection.

After 14 CFR 91.213(d) and 91.405(c): inoperative kit is taken out, with its mass, or put out of
use, and at the next inspection it is mended, replaced, taken out or looked at.
"""

from collections.abc import Iterable, Iterator

from buildbook.basis.notation import quoted
from buildbook.basis.problems import Problem, either
from buildbook.records.entries import Inspection
from buildbook.records.row_names import FULL_INSPECTION
from buildbook.report.history import DefectState, LogLine
from buildbook.report.state import AircraftNow, Hangar
from buildbook.report.upkeep.programme import Resolved
from buildbook.upkeep.programme import Programmes

COVERS_SEVERAL = 2
"""A task that covers so many others is a full inspection too, whatever a keeper calls it."""


def inoperative_doubts(hangar: Hangar) -> Iterator[Problem]:
    """Of the open defects that are inoperative, each at most once in each way."""
    programmes = Programmes(hangar.ledger.programmes, hangar.as_of)
    for aircraft in hangar.aircraft.values():
        waiting = [one for one in aircraft.defects if one.open and one.defect.inoperative]
        if waiting:
            full = _full_inspections(aircraft, programmes.named(aircraft.programme))
            for state in waiting:
                yield from _still_weighed(hangar, aircraft, state)
                yield from _not_addressed(aircraft, state, full)


def _still_weighed(hangar: Hangar, aircraft: AircraftNow, state: DefectState) -> Iterator[Problem]:
    if state.defect.inoperative != "removed" or _mass_followed(hangar, aircraft, state):
        return
    yield Problem(
        f"{quoted(state.defect.words)} is said to be removed, and its mass is still counted",
        state.defect.place("inoperative"),
        "warning",
        either(
            "write remove: with its tag, or an alteration with its mass:",
            f"enter remove {aircraft.slug} and its tag, or enter alteration with --mass",
        ),
        (),
        aircraft.slug,
    )


def _mass_followed(hangar: Hangar, aircraft: AircraftNow, state: DefectState) -> bool:
    """Whether the record took it off: a part of its own, a mass, sundries, or new scales."""
    changed = any(one.on >= state.on for one in (*aircraft.mass_changes, *aircraft.weighings))
    if changed or any(
        event.on >= state.on and event.event == "alteration" and event.subject == "sundries"
        for event in aircraft.events
    ):
        return True
    item = hangar.items.get(state.defect.item or "")
    if item is not None:
        return item.aircraft != aircraft.slug
    return any(event.event == "remove" and event.on >= state.on for event in aircraft.events)


def _full_inspections(
    aircraft: AircraftNow, programme: Resolved | None
) -> list[tuple[LogLine, Inspection]]:
    tasks = () if programme is None else (row.rule for row in programme.tasks)
    full = {rule.task for rule in tasks if len(rule.covers) >= COVERS_SEVERAL} | {FULL_INSPECTION}
    return [
        (line, line.stands)
        for line in aircraft.log
        if type(line.stands) is Inspection and not full.isdisjoint(line.stands.tasks)
    ]


def _not_addressed(
    aircraft: AircraftNow,
    state: DefectState,
    full: Iterable[tuple[LogLine, Inspection]],
) -> Iterator[Problem]:
    """By the newest full inspection since, unless the defect was put off again since."""
    later = [one for one in full if one[0].seq > state.seq]
    if not later:
        return
    _, inspection = later[-1]
    ids = {one.rpartition("#")[2] for one in inspection.addressed}
    named = state.defect.item is not None and state.defect.item in inspection.tags
    put_off_again = any(
        word.on >= inspection.on
        for line in aircraft.log
        if line.entry.uid == state.uid
        for word in line.words_on
    )
    if named or state.defect.id in ids or put_off_again:
        return
    yield Problem(
        f"{quoted(state.defect.words)} is inoperative, and not addressed by the"
        f" {' and '.join(inspection.tasks)} of {inspection.on}",
        inspection.place("inspection"),
        "warning",
        either(
            f"add addressed: [{state.defect.id}] to it, or write cleared: {state.defect.id}",
            f"add --addressed {state.defect.id},"
            f" or enter cleared {aircraft.slug} {state.defect.id}",
        ),
        (state.place,),
        aircraft.slug,
    )
