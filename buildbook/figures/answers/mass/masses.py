"""What the aircraft is made of, now and when it last stood on the scales."""

from collections.abc import Sequence

import msgspec

from buildbook.basis import amounts
from buildbook.basis.amounts import listed
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.gathering import Lacking, mass_of, measured, number
from buildbook.records.aircraft import Place3, Sundry
from buildbook.report.figure import Input
from buildbook.report.history import MassChange, Weighing
from buildbook.report.state import ItemNow

NO_LIMIT = "no limit recorded"
ON_THE_GROUND = ("transmitter",)
"""Kinds that are written as fitted, and never fly."""


class Piece(msgspec.Struct, frozen=True, kw_only=True):
    """Something that weighs, and where it sits (None: nobody says)."""

    what: str
    group: str
    mass: Input
    station: str | None = None
    at: Place3 | None = None
    sign: int = 1


def sundry_place(craft: Craft, sundry: Sundry) -> Place:
    """Where its mass is written."""
    return craft.where("sundries", sundry.line)


def sundry_piece(craft: Craft, sundry: Sundry, sign: int = 1) -> Piece:
    """What is neither fitted nor a pack, such as glue, with the place that the keeper gave it."""
    mass = measured(f"mass of {sundry.what}", sundry.mass_kg, "kg", sundry_place(craft, sundry))
    return Piece(what=sundry.what, group="sundries", mass=mass, at=sundry.at, sign=sign)


def item_piece(item: ItemNow, station: str, sign: int = 1) -> Piece:
    """An item as a piece. Lacking: it has no mass."""
    return Piece(
        what=item.tag, group=item.spec.kind, mass=mass_of(item), station=station, sign=sign
    )


def alteration_piece(change: MassChange) -> Piece:
    """The mass that an alteration added or took."""
    mass = measured(f"mass of {change.words}", change.mass_kg, "kg", change.place)
    return Piece(what=change.words, group="alterations", mass=mass, at=change.at)


def parts(craft: Craft, pack: ItemNow | None) -> tuple[list[Piece], list[Lacking]]:
    """All that is fitted, sundries, masses of alterations and a pack; and what has no mass."""
    pieces: list[Piece] = []
    lacking: list[Lacking] = []
    seated = [(craft.hangar.items.get(one.tag), one.station) for one in craft.now.items()]
    for item, station in [*seated, (pack, "pack")]:
        if item is None or item.spec.kind in ON_THE_GROUND:
            continue
        try:
            pieces.append(item_piece(item, station))
        except Lacking as missing:
            lacking.append(missing)
    pieces += [sundry_piece(craft, sundry) for sundry in craft.now.sundries]
    pieces += map(alteration_piece, craft.now.mass_changes)
    return pieces, lacking


def on_scales(weighing: Weighing) -> dict[str, str]:
    """Tag to station of what stood on the scales without the pack."""
    return {tag: station for tag, station in weighing.fitted.items() if tag not in weighing.without}


def changes(craft: Craft, weighing: Weighing) -> list[Piece]:
    """What was fitted, removed or altered since a weighing, the pack left out.

    Items of one spec that replace each other cancel, unless both were weighed: like for like, the
    scales still know better than a spec. Lacking: the mass of a change is not known.
    """
    items = craft.hangar.items
    then, now = on_scales(weighing), {one.tag: one.station for one in craft.now.items()}
    removed = [tag for tag in then if tag not in now and _flies(items.get(tag))]
    fitted = [tag for tag in now if tag not in then and _flies(items.get(tag))]
    for tag in list(fitted):
        like = next((old for old in removed if _like_for_like(items[tag], items[old])), None)
        if like is not None:
            removed.remove(like)
            fitted.remove(tag)
    pieces = [item_piece(items[tag], then[tag], -1) for tag in removed]
    pieces += [item_piece(items[tag], now[tag]) for tag in fitted]
    before = craft.now.after(weighing.seq).sundries
    after = craft.now.sundries
    pieces += [sundry_piece(craft, one, -1) for one in before if one not in after]
    pieces += [sundry_piece(craft, one) for one in after if one not in before]
    later = (one for one in craft.now.mass_changes if one.seq > weighing.seq)
    return [*pieces, *map(alteration_piece, later)]


def _flies(item: ItemNow | None) -> bool:
    return item is not None and item.spec.kind not in ON_THE_GROUND


def weighed_pack(craft: Craft, weighing: Weighing) -> ItemNow | None:
    """The pack that stood on the scales too."""
    if weighing.pack is None or weighing.pack in weighing.without:
        return None
    return craft.hangar.items.get(weighing.pack)


def told(pieces: Sequence[Piece], weighing: str = "the last weighing") -> str:
    """What came on, went off, and moved or has another mass since a weighing, by name."""
    put = dict.fromkeys(piece.what for piece in pieces if piece.sign > 0)
    taken = dict.fromkeys(piece.what for piece in pieces if piece.sign < 0)
    groups = {
        "added": [what for what in put if what not in taken],
        "taken off": [what for what in taken if what not in put],
        "changed": [what for what in put if what in taken],
    }
    words = ", ".join(f"{listed(whats)} {how}" for how, whats in groups.items() if whats)
    return f"from {weighing}; since then: {words}"


def disbelieved(craft: Craft) -> tuple[str, ...]:
    """The note on weighings since the last one that is believed, which can hardly be right."""
    believed = craft.weighed.believed
    since = believed[-1].seq if believed else -1
    return tuple(
        f"not believed: weighed {amounts.mass(one.weighing.mass_kg)}, {one.expected}"
        for one in craft.weighed.doubted
        if one.weighing.seq > since
    )


def added_up(craft: Craft, words: str) -> str:
    """The note of what is worked out from the parts alone."""
    return words if craft.weighed.doubted else f"{words}, never weighed"


def without_pack(craft: Craft) -> str:
    """The note of a mass or balance that has no pack in it."""
    if not craft.packs:
        return "without a pack: none is known"
    return f"without a pack: no mass of {listed(pack.tag for pack in craft.packs)} is recorded"


def signed(pieces: list[Piece]) -> float:
    """The sum of pieces put in and taken out, in kg."""
    return sum(piece.sign * number(piece.mass) for piece in pieces)


def _like_for_like(one: ItemNow, other: ItemNow) -> bool:
    return one.spec is other.spec and None in (one.item.mass_kg, other.item.mass_kg)
