"""Where the centre of gravity is: off the scales and corrected since, else from the places."""

from collections.abc import Callable
from typing import ParamSpec

import msgspec

from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, measured, number
from buildbook.figures.answers.mass.masses import (
    Piece,
    added_up,
    changes,
    disbelieved,
    item_piece,
    on_scales,
    parts,
    told,
    weighed_pack,
    without_pack,
)
from buildbook.figures.laws.airframe.balance import centre_of_gravity_m
from buildbook.records.aircraft import Place3
from buildbook.records.keys.quantities import BalancePoint
from buildbook.report.figure import Input
from buildbook.report.history import Weighing
from buildbook.report.state import ItemNow

Given = ParamSpec("Given")
BY_PARTS = "from the places of the parts"
NO_HEIGHT = f"{BY_PARTS}: nobody found it at the scales"


class Centre(msgspec.Struct, frozen=True, kw_only=True):
    """A centre of gravity: forward, right, down in m (down None: nobody found it)."""

    forward_m: float
    right_m: float
    down_m: float | None
    inputs: tuple[Input, ...]
    weighed: bool
    corrected: bool = False
    notes: tuple[str, ...] = ()


def centre_with(craft: Craft, pack: ItemNow | None) -> Centre:
    """The centre of gravity with a pack, or without any. Lacking: a mass or place is not known."""
    return craft.once(f"centre with {pack and pack.tag}", _centre_with, craft, pack)


def centre_of_weighing(craft: Craft, weighing: Weighing) -> BalancePoint | None:
    """Where it was found, down None where it was not; None: it says nothing."""
    if weighing.cg_m is not None:
        return weighing.cg_m
    if len(weighing.scales_kg) < 2:
        return None
    then = craft.now.after(weighing.seq)
    masses = tuple(weighing.scales_kg.values())
    places = tuple(craft.located(station, then) for station in weighing.scales_kg)
    forward_m, right_m, _ = centre_of_gravity_m(masses, places)
    return forward_m, right_m, None


def balanced_by(craft: Craft) -> tuple[Weighing, BalancePoint] | None:
    """The last weighing that is believed and found the balance, and where; None: none did."""
    for weighing in reversed(craft.weighed.believed):
        at = centre_of_weighing(craft, weighing)
        if at is not None:
            return weighing, at
    return None


def placed(craft: Craft, piece: Piece) -> Place3:
    """Where a piece sits. Lacking: nobody says."""
    if piece.at is not None:
        return piece.at
    if piece.station is None:
        raise Lacking(
            f"the place of {piece.what} is not recorded: write 'at' beside its mass",
            piece.mass.place,
        )
    return craft.station_at(piece.station)


def _centre_with(craft: Craft, pack: ItemNow | None) -> Centre:
    found = balanced_by(craft)
    if found is not None:
        return _corrected(craft, *found, pack)
    return centre_by_parts(craft, pack, (added_up(craft, BY_PARTS),))


def centre_by_parts(craft: Craft, pack: ItemNow | None, notes: tuple[str, ...]) -> Centre:
    """Mass times place of all that is fitted. Lacking: a mass or place is not known."""
    pieces, lacking = parts(craft, pack)
    if lacking:
        raise lacking[0]
    places = tuple(placed(craft, piece) for piece in pieces)
    if not pieces:
        raise Lacking("nothing that weighs is recorded: write 'fit' entries", craft.home)
    at = centre_of_gravity_m(tuple(number(piece.mass) for piece in pieces), places)
    return Centre(
        forward_m=at[0],
        right_m=at[1],
        down_m=at[2],
        inputs=tuple(piece.mass for piece in pieces),
        weighed=False,
        notes=(
            *_of_pack(craft, pack),
            *disbelieved(craft),
            *notes,
        ),
    )


def _corrected(craft: Craft, weighing: Weighing, at: BalancePoint, pack: ItemNow | None) -> Centre:
    """The centre of a weighing with all that went on, came off or moved since."""
    mass = weighing.mass_kg
    scales = [measured(_called(craft, weighing), mass, "kg", weighing.place)]
    scales += [
        measured(f"scale at {station}", reading, "kg", weighing.place)
        for station, reading in weighing.scales_kg.items()
    ]
    moved = [(piece, placed(craft, piece)) for piece in changes(craft, weighing)]
    moved += _shifted(craft, weighing)
    if pack is not None:
        moved += _pack_moved(craft, weighing, pack)
    total = mass + sum(piece.sign * number(piece.mass) for piece, _ in moved)
    if total <= 0:
        raise ValueError("more was taken off since the weighing than it weighed")
    moments = [
        (
            (at[axis] or 0.0) * mass
            + sum(piece.sign * number(piece.mass) * there[axis] for piece, there in moved)
        )
        / total
        for axis in range(3)
    ]
    notes = _of_pack(craft, pack)
    if weighing.scales_kg and weighing.cg_m is None:
        apart_g = round((sum(weighing.scales_kg.values()) - mass) * 1000)
        if apart_g:
            notes = (*notes, f"the scales together read {apart_g:+d} g against the weighing")
    if moved:
        pieces = [piece for piece, _ in moved]
        notes = (*notes, told(pieces, f"the {_called(craft, weighing)}"))
    return Centre(
        forward_m=moments[0],
        right_m=moments[1],
        down_m=None if at[2] is None else moments[2],
        inputs=(*scales, *(piece.mass for piece, _ in moved)),
        weighed=True,
        corrected=bool(moved),
        notes=(*notes, *disbelieved(craft)),
    )


def _called(craft: Craft, weighing: Weighing) -> str:
    last = weighing.seq == craft.weighed.believed[-1].seq
    return "last weighing" if last else "last weighing that found the balance"


def _of_pack(craft: Craft, pack: ItemNow | None) -> tuple[str, ...]:
    return () if pack is not None else (without_pack(craft),)


def _shifted(craft: Craft, weighing: Weighing) -> list[tuple[Piece, Place3]]:
    """What stood on the scales and sits elsewhere since: off there, on here."""
    then = craft.now.after(weighing.seq)
    now = {one.tag: one.station for one in craft.now.items()}
    moved: list[tuple[Piece, Place3]] = []
    for tag, station in on_scales(weighing).items():
        item = craft.hangar.items.get(tag)
        if item is None or tag not in now:
            continue
        before = _maybe(craft.located, station, then)
        after = _maybe(craft.station_at, now[tag])
        if before is not None and after is not None and before != after:
            moved.append((item_piece(item, station, -1), before))
            moved.append((item_piece(item, now[tag]), after))
    return moved


def _pack_moved(craft: Craft, weighing: Weighing, pack: ItemNow) -> list[tuple[Piece, Place3]]:
    """The pack of the weighing out of where it was, this one in."""
    weighed = weighed_pack(craft, weighing)
    then = craft.now.after(weighing.seq)
    if weighed is None:
        return [(item_piece(pack, "pack"), craft.station_at("pack"))]
    before = _maybe(craft.located, "pack", then)
    after = _maybe(craft.station_at, "pack")
    if weighed.mass_kg == pack.mass_kg and before == after:
        return []
    if before is None or after is None:
        raise Lacking(
            "the place of pack is not recorded: write it under 'positions' in aircraft.yaml",
            craft.where("positions"),
        )
    return [(item_piece(weighed, "pack", -1), before), (item_piece(pack, "pack"), after)]


def _maybe(work: Callable[Given, Place3], *args: Given.args, **more: Given.kwargs) -> Place3 | None:
    try:
        return work(*args, **more)
    except Lacking:
        return None
