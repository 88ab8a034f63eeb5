"""What is on no aircraft: parts by kind, size, hand and state; and all packs."""

from collections.abc import Iterable

import msgspec

from buildbook.pages.addresses import address_of
from buildbook.pages.pack_rest import PackRest, pack_rest
from buildbook.pages.page import Page
from buildbook.pages.standings import pack_standing_of
from buildbook.records.parts import KINDS, Spec
from buildbook.report.reports import Reports
from buildbook.report.state import ItemNow
from buildbook.upkeep.past_lives import PastLives, past_lives

STATES = ("serviceable", "quarantined", "retired", "scrapped")


class Shelf(msgspec.Struct, frozen=True, kw_only=True):
    """Items of one spec in one state."""

    title: str
    size: str
    hand: str
    state: str
    tags: tuple[str, ...]
    mass_kg: float | None


class Drawer(msgspec.Struct, frozen=True, kw_only=True):
    """All shelves of one kind of part."""

    kind: str
    shelves: tuple[Shelf, ...]


class PackLine(msgspec.Struct, frozen=True, kw_only=True):
    """One pack: how it stands, what it has lived through, how it was left."""

    pack: ItemNow
    state: str
    rest: PackRest
    health: float | None


class Life(msgspec.Struct, frozen=True, kw_only=True):
    """A kind of part and how long those lasted that were retired or scrapped."""

    spec: Spec
    past: PastLives


def keys(_reports: Reports) -> Iterable[str]:
    """There is one."""
    return ("",)


def page(reports: Reports, _key: str) -> Page:
    """The drawer and the packs."""
    packs = packs_in_order(reports)
    return Page(
        address=address_of("stock"),
        template="stock.html.j2",
        title="Stock",
        crumbs=((address_of("hangar"), reports.hangar.ledger.keeper.hangar),),
        facts={
            "drawers": drawers(reports),
            "packs": packs,
            "lives": lives(reports),
            "quarantined": any(line.state == "quarantined" for line in packs),
        },
        about="Parts on no aircraft, by kind, size, hand and state; and the packs.",
    )


def drawers(reports: Reports) -> tuple[Drawer, ...]:
    """Items on no aircraft that are no packs, by kind in the order of the records."""
    loose: dict[tuple[str, ...], list[ItemNow]] = {}
    for item in reports.hangar.items.values():
        if item.aircraft is None and item.fitted is None and not item.is_pack:
            size = item.spec.size.written if item.spec.size else ""
            key = (item.spec.kind, size, item.spec.hand or "", item.spec.title, item.state.state)
            loose.setdefault(key, []).append(item)
    found: list[Drawer] = []
    for kind in KINDS:
        shelves = tuple(
            _shelf(key, loose[key])
            for key in sorted(loose, key=lambda key: (STATES.index(key[4]), key))
            if key[0] == kind
        )
        if shelves:
            found.append(Drawer(kind=kind, shelves=shelves))
    return tuple(found)


def lives(reports: Reports) -> tuple[Life, ...]:
    """Kinds of part of which some were taken out of use for good, in the order of the records."""
    found = [
        Life(spec=reports.hangar.ledger.specs[spec], past=past)
        for spec, past in past_lives(reports.hangar).items()
        if spec in reports.hangar.ledger.specs
    ]
    kinds = list(KINDS)
    found.sort(key=lambda life: (kinds.index(life.spec.kind), life.spec.title))
    return tuple(found)


def packs_in_order(reports: Reports) -> tuple[PackLine, ...]:
    """All packs: quarantined ones first, gone ones last, then by tag."""
    packs = [item for item in reports.hangar.items.values() if item.is_pack]
    order = ("quarantined", "serviceable", "retired", "scrapped")
    packs.sort(key=lambda pack: (order.index(pack.state.state), pack.tag))
    return tuple(
        PackLine(
            pack=pack,
            state=pack_standing_of(reports, pack.tag).state,
            rest=pack_rest(pack),
            health=_health(pack),
        )
        for pack in packs
    )


def _shelf(key: tuple[str, ...], items: list[ItemNow]) -> Shelf:
    masses = [item.mass_kg for item in items]
    known = [mass for mass in masses if mass is not None]
    return Shelf(
        title=key[3],
        size=key[1],
        hand=key[2],
        state=key[4],
        tags=tuple(sorted(item.tag for item in items)),
        mass_kg=sum(known) / len(known) if known and len(known) == len(masses) else None,
    )


def _health(pack: ItemNow) -> float | None:
    rated = pack.spec.capacity_ah
    if rated is None or not pack.capacities:
        return None
    return pack.capacities[-1].measured_ah / rated
