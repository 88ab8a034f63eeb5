"""Items set aside, retired, scrapped, returned, and overhauled."""

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.basis.problems import either
from buildbook.hangar.builders import ItemBuilder
from buildbook.hangar.events import Touch, note_event, stations_of
from buildbook.hangar.folding import Fold
from buildbook.hangar.packs import aside as packs
from buildbook.records.entries import Inspection, Overhaul, StateChange
from buildbook.records.parts import ItemState
from buildbook.report.history import Overhauled, Recorded
from buildbook.report.packs.pack_history import Aside


def set_aside(fold: Fold, item: ItemBuilder, state: ItemState, place: Place) -> None:
    """The state given as an item comes out. ``serviceable`` there returns nothing to service."""
    if state != "serviceable":
        fold.put_in_state(item, state, place, None)


def inspect(fold: Fold, item: ItemBuilder, entry: Inspection) -> None:
    """What an inspection that names the item does: one that passed returns it from quarantine.

    Of packs more is asked (``packs.aside``).
    """
    if item.is_pack:
        packs.inspected(fold, item, entry)
    elif entry.result == "pass" and item.state.state == "quarantined":
        fold.put_in_state(item, "serviceable", fold.at.place, entry.findings or "inspected")


def on_state_change(fold: Fold, entry: StateChange) -> None:
    """``state``: a quarantined item returns only with a reason."""
    for tag, state in entry.states.items():
        place = entry.place(f"state.{tag}")
        item = fold.item_used(tag, place, entry.aircraft)
        if item is None:
            continue
        before = item.state
        if before.state == "quarantined" and state == "serviceable" and not entry.because:
            fold.objections.object(
                f"{item.words} leaves quarantine without a reason, so it stays there",
                place,
                severity="warning",
                hint=f"write {either('because:', '--because')}"
                + ("" if item.is_pack else ", or an inspection that names its tag"),
                also=() if before.place is None else (before.place,),
                about=entry.aircraft,
            )
            continue
        if item.is_pack and not _said_of_pack(fold, item, state, entry):
            continue
        fold.put_in_state(item, state, place, entry.because)


def _said_of_pack(fold: Fold, pack: ItemBuilder, state: ItemState, entry: StateChange) -> bool:
    """Whether the word counts: a pack with an open defect stays where it is."""
    place = entry.place(f"state.{pack.tag}")
    if state == "quarantined":
        own = Aside(**fold.at.stamp(place), why="keeper", release="word", findings=entry.because)
        pack.asides.append(own)
        return True
    if state != "serviceable":
        pack.asides.clear()
        return True
    if entry.because:
        pack.kept.append(Recorded(**fold.at.stamp(place)))
    defect = packs.open_defect_of(fold, pack)
    packs.said_serviceable(fold, pack)
    if defect is not None:
        fold.objections.object(
            f"{pack.words} stays set aside on {fold.at.day}: a defect of it is open",
            place,
            severity="warning",
            hint=f"write {either('cleared: with the id', f'enter cleared {pack.tag} and the id')}"
            " of the defect",
            also=(fold.defects[defect].place,),
            about=entry.aircraft,
        )
    return defect is None


def on_overhaul(fold: Fold, entry: Overhaul) -> None:
    """``overhaul``: time since overhaul begins anew, beside the total, which goes on.

    Without a test it is a service, and nothing begins. Of a part that is fitted it re-opens what
    fitting it does, for it was taken apart.
    """
    tested = "test" in entry.steps
    if not tested:
        fold.objections.object(
            f"overhaul of {amounts.listed(entry.tags)} without a test:"
            " time since overhaul is not counted from it",
            entry.place("steps" if entry.steps else "overhaul"),
            severity="warning",
            hint="call this a service, or record the test",
            about=entry.aircraft,
        )
    for tag in entry.tags:
        item = fold.item_used(tag, entry.place("overhaul"), entry.aircraft)
        if item is None or item.is_pack:
            continue
        if tested:
            item.overhauled = Overhauled(**fold.at.stamp(), steps=entry.steps)
        on = None if item.aircraft is None else fold.aircraft.get(item.aircraft)
        touch = Touch(stations_of(fold, on, tag), (tag,))
        note_event(fold, on, "overhaul", item.spec.kind, touch)
