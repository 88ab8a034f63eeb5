"""Heavier than the keeper allows, or balanced outside his bounds.

What the scales said grounds, with that pack and heavier ones; what is only computed asks for
scales.
"""

from collections.abc import Iterator

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking
from buildbook.figures.answers.mass.balance import judged_at, judged_with
from buildbook.figures.answers.mass.budget import mass_with, pack_to_balance
from buildbook.figures.answers.mass.centre import centre_with
from buildbook.figures.answers.mass.masses import ON_THE_GROUND
from buildbook.report.figure import Figure, Judged
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep.findings import TooHeavy, Unbalanced
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.dangers.danger_rows import Ask, danger_row

_MASS = Ask(
    name="mass-limit",
    what="Weigh it ready to fly, with the pack in place but unplugged. Reduce the mass, or"
    " fly a lighter pack or load.",
    stage="propellers on",
    propellers="on",
)
_BALANCE = Ask(
    name="balance-limit",
    what="With the pack in place but unplugged, support it between its limits: which end drops?"
    " Move the pack, or add mass, towards the other end.",
    stage="propellers on",
    propellers="on",
)
_OUTSIDE: tuple[Judged, Judged] = ("ahead of the forward limit", "behind the aft limit")


def bounds_rows(hangar: Hangar, aircraft: AircraftNow) -> Iterator[Row]:
    """A row for a mass, and one for a balance, outside the bounds."""
    bounds = aircraft.bounds
    if bounds is None:
        return
    craft = Craft(hangar, aircraft.slug)
    if bounds.max_mass_kg is not None:
        yield from _too_heavy(craft, bounds.max_mass_kg)
    limits = (bounds.forward_cg_share, bounds.aft_cg_share, bounds.forward_cg_m, bounds.aft_cg_m)
    if any(limit is not None for limit in limits):
        yield from _unbalanced(craft)


def _too_heavy(craft: Craft, most_kg: float) -> Iterator[Row]:
    packs: list[ItemNow | None] = [*craft.packs] or [None]
    masses = [(pack, mass) for pack in packs if (mass := _mass(craft, pack)) is not None]
    over = [(pack, mass) for pack, mass in masses if _mg(mass.value) > _mg(most_kg)]
    if not over:
        yield from _loaded(craft, most_kg)
        return
    pack, lightest = min(over, key=lambda one: one[1].value or 0.0)
    weighed = bool(craft.weighed.believed) and not _changed_since(craft)
    grounds = weighed and len(over) == len(masses)
    place = craft.where("bounds")
    if weighed:
        place = craft.weighed.believed[-1].place
    found = TooHeavy(
        mass_kg=lightest.value or 0.0,
        limit_kg=most_kg,
        pack=None if pack is None else pack.tag,
        heavier=len(over) > 1,
        weighed=weighed,
    )
    because = Because(why="bounds", place=place, found=found)
    yield danger_row(craft.now, _MASS, because, place, grounds=grounds)


def _loaded(craft: Craft, most_kg: float) -> Iterator[Row]:
    """The last flight, where its load took it over: what is flown once is taken along again."""
    flight = craft.now.flights[-1] if craft.now.flights else None
    if flight is None or not flight.payload_kg:
        return
    packs = [pack for pack in craft.packs if pack.tag in flight.row.packs]
    bare = _mass(craft, packs[0] if packs else None)
    if bare is None or _mg((bare.value or 0.0) + flight.payload_kg) <= _mg(most_kg):
        return
    found = TooHeavy(
        mass_kg=(bare.value or 0.0) + flight.payload_kg,
        limit_kg=most_kg,
        pack=packs[0].tag if packs else None,
        payload_kg=flight.payload_kg,
        weighed=False,
    )
    because = Because(why="bounds", entry=flight.uid, place=flight.place, found=found)
    yield danger_row(craft.now, _MASS, because, flight.place, grounds=False)


def _mass(craft: Craft, pack: ItemNow | None) -> Figure | None:
    try:
        found = mass_with(craft, pack)
    except (Lacking, ValueError):
        return None
    return None if found.value is None else found


def _mg(mass_kg: float | None) -> int:
    return round((mass_kg or 0.0) * 1e6)


def _changed_since(craft: Craft) -> bool:
    """Whether parts or mass changed since it stood on the scales."""
    last = craft.weighed.believed[-1].seq
    changes = [
        event.seq
        for event in craft.now.events
        if event.event in ("fit", "remove") and event.subject not in ON_THE_GROUND
    ]
    changes += [change.seq for change in craft.now.mass_changes]
    return any(seq > last for seq in changes)


def _unbalanced(craft: Craft) -> Iterator[Row]:
    try:
        weighed = centre_with(craft, pack_to_balance(craft))
        judged = judged_at(craft.now, weighed.forward_m)
    except (Lacking, ValueError):
        yield from _last_weighed(craft)
        return
    if judged not in _OUTSIDE:
        yield from _unbalanced_with_others(craft)
        return
    measured = weighed.weighed and not weighed.corrected
    place = craft.where("bounds")
    if measured:
        place = craft.weighed.believed[-1].place
    found = Unbalanced(judged=judged, by="scales" if measured else "computed")
    because = Because(why="bounds", place=place, found=found)
    yield danger_row(craft.now, _BALANCE, because, place, grounds=measured)


def _unbalanced_with_others(craft: Craft) -> Iterator[Row]:
    """With a pack that it was flown on, though not the last: computed, so it grounds nothing."""
    found: dict[Judged, list[str]] = {}
    for pack in craft.packs:
        if craft.slug not in pack.flown_on:
            continue
        try:
            judged = judged_with(craft, pack)
        except (Lacking, ValueError):
            continue
        if judged in _OUTSIDE:
            found.setdefault(judged, []).append(pack.tag)
    for judged, tags in found.items():
        place = craft.where("bounds")
        with_them = Unbalanced(judged=judged, by="computed", packs=tuple(tags))
        because = Because(why="bounds", place=place, found=with_them)
        yield danger_row(craft.now, _BALANCE, because, place, grounds=False)


def _last_weighed(craft: Craft) -> Iterator[Row]:
    """What cannot be worked out now, for a place or a mass is not known: what was weighed last."""
    last = next((one for one in reversed(craft.weighed.believed) if one.cg_m is not None), None)
    if last is None or last.cg_m is None:
        return
    try:
        judged = judged_at(craft.now, last.cg_m[0])
    except ValueError:
        return
    if judged not in _OUTSIDE:
        return
    found = Unbalanced(judged=judged, by="last weighing")
    because = Because(why="bounds", place=last.place, found=found)
    yield danger_row(craft.now, _BALANCE, because, last.place, grounds=False)
