"""Items set aside, retired, scrapped, and returned."""

from buildbook.basis.place import Place
from buildbook.hangar.builders import ItemBuilder
from buildbook.hangar.folding import Fold
from buildbook.records.entries import StateChange
from buildbook.records.parts import ItemState
from buildbook.report.history import StateSince


def put_in_state(
    fold: Fold, item: ItemBuilder, state: ItemState, place: Place, because: str | None
) -> None:
    """From here on the item is in that state; the same state again changes nothing."""
    if item.state.state != state:
        item.crash_log = None
        item.state = StateSince(state=state, on=fold.at.day, place=place, because=because)
        fold.changed(item.aircraft)


def set_aside(fold: Fold, item: ItemBuilder, state: ItemState, place: Place) -> None:
    """The state given as an item comes out. ``serviceable`` there returns nothing to service."""
    if state != "serviceable":
        put_in_state(fold, item, state, place, None)


def set_aside_after_crash(fold: Fold, item: ItemBuilder, aircraft: str) -> None:
    """Set a pack aside until it is inspected, unless it is out of service anyway."""
    if item.state.state == "serviceable":
        put_in_state(fold, item, "quarantined", fold.at.place, f"crash of {aircraft}")
        item.crash_log = fold.at.log


def return_inspected(fold: Fold, item: ItemBuilder, place: Place, findings: str | None) -> None:
    """An inspection that named the item and passed returns it from quarantine."""
    if item.state.state == "quarantined":
        put_in_state(fold, item, "serviceable", place, findings or "inspected")


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
                hint="write because:, or an inspection that names its tag",
                also=() if before.place is None else (before.place,),
                about=entry.aircraft,
            )
            continue
        put_in_state(fold, item, state, place, entry.because)
