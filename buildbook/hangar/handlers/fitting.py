"""Parts go in and come out: what sits where, and the stays of every item."""

import msgspec

from buildbook.basis import amounts
from buildbook.basis.notation import quoted
from buildbook.basis.place import Place
from buildbook.basis.problems import either
from buildbook.hangar.builders import AircraftBuilder, ItemBuilder
from buildbook.hangar.events import Touch, note_event, stations_of
from buildbook.hangar.folding import Fold
from buildbook.hangar.handlers.service import set_aside
from buildbook.records.entries import Fit, Remove, Slot
from buildbook.report.state import Fitted

# Kinds of which several may share a station; of any other a slot holds what one fit put there.
SEVERAL = ("sensor", "servo", "camera", "hardware", "other")
# Kinds that sit alone, whoever fits them together; several ESCs may share a board or a bay.
ONE_A_STATION = ("motor", "propeller")


def on_fit(fold: Fold, entry: Fit) -> None:
    """``fit``: what it replaces comes out first, in the same breath."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    for tag, state in entry.instead_of.items():
        place = entry.place(f"instead_of.{tag}")
        item = fold.item_used(tag, place, aircraft.slug)
        if item is not None:
            because = None if state == "serviceable" else state
            _remove(fold, aircraft, item, place, because)
            set_aside(fold, item, state, place)
    went_in: list[tuple[Slot, tuple[str, ...]]] = []
    for slot in entry.slots:
        place = entry.place(f"fit.{slot.station}.{slot.kind}")
        if slot.kind in ONE_A_STATION and len(slot.tags) > 1:
            fold.objections.object(
                f"{amounts.count(slot.kind, len(slot.tags))} fitted at one station,"
                f" {aircraft.slug} {slot.station}, on {fold.at.day}",
                place,
                hint="a coaxial layout has two stations, upper and lower",
                about=aircraft.slug,
            )
        tags = tuple(tag for tag in slot.tags if _put_in(fold, aircraft, slot, tag, place))
        if tags:
            went_in.append((slot, tags))
    for tag, stations in entry.serves.items():
        if stations_of(fold, aircraft, tag):
            aircraft.serves[tag] = stations
            fold.changed(aircraft.slug)
        elif tag in fold.items:  # an unknown one is told where records are read
            fold.objections.object(
                f"{quoted(tag)} serves stations of {aircraft.slug} on {fold.at.day},"
                " but is not fitted there",
                entry.place(f"serves.{tag}"),
                about=aircraft.slug,
            )
    for slot, tags in went_in:
        _take_over(fold, aircraft, slot, tags, entry)
        served = [station for tag in tags for station in aircraft.serves.get(tag, ())]
        touch = Touch((slot.station, *served), tags)
        note_event(fold, aircraft, "fit", slot.kind, touch)


def _take_over(
    fold: Fold, aircraft: AircraftBuilder, slot: Slot, tags: tuple[str, ...], entry: Fit
) -> None:
    """A servo that goes in where one came out drives its surfaces from now on.

    Only where it is plain which is meant: one is gone from there, and one went in.
    """
    if slot.kind != "servo" or len(tags) != 1:
        return
    driving = {tag for surface in aircraft.surfaces.values() for tag in surface.servos}
    gone = [
        tag for tag in sorted(driving) if _came_out_of(fold.items.get(tag), aircraft, slot.station)
    ]
    if len(gone) != 1 or tags[0] in driving:
        return
    changed = {
        name: msgspec.structs.replace(
            surface, servos=tuple(tags[0] if tag == gone[0] else tag for tag in surface.servos)
        )
        for name, surface in aircraft.surfaces.items()
        if gone[0] in surface.servos
    }
    aircraft.surfaces = {**aircraft.surfaces, **changed}
    for name in changed:
        aircraft.places[f"surfaces.{name}"] = entry.place(f"fit.{slot.station}.servo")


def _came_out_of(item: ItemBuilder | None, aircraft: AircraftBuilder, station: str) -> bool:
    if item is None or not item.stays or (item.fitted and item.aircraft == aircraft.slug):
        return False
    last = [stay for stay in item.stays if stay.aircraft == aircraft.slug]
    return bool(last) and last[-1].station == station


def on_remove(fold: Fold, entry: Remove) -> None:
    """``remove``: parts come out, with a reason and a state where the entry gives them."""
    aircraft = fold.aircraft_of(entry)
    if aircraft is None:
        return
    place = entry.place("remove")
    for tag in entry.tags:
        item = fold.item_used(tag, place, aircraft.slug)
        if item is not None:
            _remove(fold, aircraft, item, place, entry.because)
            if entry.state is not None:
                set_aside(fold, item, entry.state, place)


def _remove(
    fold: Fold,
    aircraft: AircraftBuilder,
    item: ItemBuilder,
    place: Place,
    because: str | None,
) -> None:
    """Take an item out of this aircraft, or object that it isn't there."""
    if item.fitted is None or item.aircraft != aircraft.slug:
        _object_absent(fold, aircraft, item, place)
        return
    stations = stations_of(fold, aircraft, item.tag)
    _take_out(fold, item, place, because)
    note_event(fold, aircraft, "remove", item.spec.kind, Touch(stations, (item.tag,)))


def _object_absent(fold: Fold, aircraft: AircraftBuilder, item: ItemBuilder, place: Place) -> None:
    reason = f"{item.words} removed from {aircraft.slug} on {fold.at.day}, where it is not fitted"
    if item.fitted is not None:
        reason += f"; it sits at {_where(item)} since {item.fitted.since}"
        other = item.fitted.place
    elif item.stays and item.last_out is not None:
        reason += f"; it came out of {item.stays[-1].aircraft} on {item.stays[-1].until}"
        other = item.last_out
    else:
        other = item.item.place()
    fold.objections.object(reason, place, also=(other,), about=aircraft.slug)


def _take_out(fold: Fold, item: ItemBuilder, place: Place, because: str | None) -> None:
    """Out of wherever it sits; its stay ends with what was flown in it."""
    fitted, slug = item.fitted, item.aircraft
    if fitted is None or slug is None:
        return
    aircraft = fold.aircraft[slug]
    kinds = aircraft.fitted[fitted.station]
    kinds[fitted.kind].remove(fitted)
    if not kinds[fitted.kind]:
        del kinds[fitted.kind]
    if not kinds:
        del aircraft.fitted[fitted.station]
    aircraft.serves.pop(item.tag, None)
    aircraft.tags = aircraft.firmware = None
    item.stays.append(aircraft.stay(fitted, fold.at.day, fold.at.sequence, because))
    fold.changed(slug)
    item.fitted, item.aircraft, item.last_out = None, None, place


def _put_in(fold: Fold, aircraft: AircraftBuilder, slot: Slot, tag: str, place: Place) -> bool:
    """Put an item into a slot; a contradiction is noted, and the later entry is believed."""
    item = fold.item_used(tag, place, aircraft.slug)
    if item is None:
        return False
    where = f"{aircraft.slug} {slot.station}"
    if item.is_pack:
        fold.objections.object(
            f"{item.words} fitted at {where} on {fold.at.day}: packs are flown, not fitted",
            place,
            hint="name it in a flight: "
            + either(f"pack: {tag}", f"enter flight {aircraft.slug} 7:20 {tag}"),
            also=(item.item.place(),),
            about=aircraft.slug,
        )
        return False
    if item.state.state != "serviceable":
        fitted_at = f"fitted at {aircraft.slug} {slot.station} on {fold.at.day}"
        fold.object_to_state(item, fitted_at, place, aircraft.slug)
    if item.fitted is not None:
        fold.objections.object(
            f"{item.words} fitted at {where} on {fold.at.day}"
            f" while it sits at {_where(item)} since {item.fitted.since}",
            place,
            hint=either(
                f"remove {tag} from {item.aircraft} first",
                f"first enter remove {item.aircraft} {tag}",
            ),
            also=(item.fitted.place,),
            about=aircraft.slug,
        )
        _take_out(fold, item, place, None)
    _clear_slot(fold, aircraft, slot, item, place)
    fitted = Fitted(tag, slot.station, slot.kind, fold.at.day, fold.at.sequence, place)
    aircraft.fitted.setdefault(slot.station, {}).setdefault(slot.kind, []).append(fitted)
    aircraft.tags = aircraft.firmware = None
    item.fitted, item.aircraft = fitted, aircraft.slug
    fold.changed(aircraft.slug)
    return True


def _clear_slot(
    fold: Fold,
    aircraft: AircraftBuilder,
    slot: Slot,
    item: ItemBuilder,
    place: Place,
) -> None:
    """Object to what an earlier fit left in the slot, and take it out."""
    if slot.kind in SEVERAL:
        return
    sitting = [
        fitted
        for fitted in aircraft.fitted.get(slot.station, {}).get(slot.kind, ())
        if fitted.since_seq != fold.at.sequence
    ]
    for fitted in sitting:
        fold.objections.object(
            f"{item.words} fitted at {aircraft.slug} {slot.station} on {fold.at.day},"
            f" where {quoted(fitted.tag)} sits since {fitted.since}",
            place,
            hint=either(
                f"remove {fitted.tag} first, or add instead_of: {{{fitted.tag}: serviceable}}",
                f"add --instead-of {fitted.tag}=serviceable, or =scrapped",
            ),
            also=(fitted.place,),
            about=aircraft.slug,
        )
        _take_out(fold, fold.items[fitted.tag], place, None)


def _where(item: ItemBuilder) -> str:
    """Aircraft and station of a fitted item."""
    return "nowhere" if item.fitted is None else f"{item.aircraft} {item.fitted.station}"
