"""What is in the drawer, and how long parts of a kind lasted."""

from statistics import fmean, median
from typing import get_args

from buildbook.records.parts import GONE, KINDS, ItemState, Spec
from buildbook.report.state import Condition, Hangar, ItemNow, OfDefects
from buildbook.report.stock import Drawer, Memory, PastLives, RadioReport, Shelf, Stock
from buildbook.reporting.whole import Whole

_IN_USE, *_OUT_OF_SERVICE = get_args(ItemState)
_CONDITIONS: tuple[Condition, ...] = (_IN_USE, *get_args(OfDefects), *_OUT_OF_SERVICE)

Alike = tuple[str, str, str, str, Condition]
"""Kind, size, hand, title and condition: what items on one shelf have in common."""


def stock(whole: Whole) -> Stock:
    """The drawer and past lives; packs are a report of their own."""
    return Stock(drawers=drawers(whole.hangar), past_lives=lives(whole.hangar))


def drawers(hangar: Hangar) -> tuple[Drawer, ...]:
    """Items on no aircraft that are no packs, by kind in the order of the records."""
    loose: dict[Alike, list[ItemNow]] = {}
    for item in hangar.items.values():
        if item.aircraft is None and item.fitted is None and not item.is_pack:
            size = item.spec.size.written if item.spec.size else ""
            key = (item.spec.kind, size, item.spec.hand or "", item.spec.title, item.condition)
            loose.setdefault(key, []).append(item)
    order = sorted(loose, key=lambda key: (_CONDITIONS.index(key[4]), key))
    by_kind = {kind: tuple(_shelf(loose[key]) for key in order if key[0] == kind) for kind in KINDS}
    return tuple(Drawer(kind=kind, shelves=found) for kind, found in by_kind.items() if found)


def _shelf(items: list[ItemNow]) -> Shelf:
    spec = items[0].spec
    known = [item.mass_kg for item in items if item.mass_kg is not None]
    return Shelf(
        title=spec.title,
        size=spec.size.written if spec.size else "",
        hand=spec.hand or "",
        state=items[0].condition,
        tags=tuple(sorted(item.tag for item in items)),
        mass_kg=fmean(known) if len(known) == len(items) else None,
    )


def lives(hangar: Hangar) -> tuple[PastLives, ...]:
    """Kinds of part of which some were taken out of use for good, in the order of the records."""
    ended: dict[str, list[ItemNow]] = {}
    for _, item in sorted(hangar.items.items()):
        if item.state.state in GONE and item.item.spec in hangar.ledger.specs:
            ended.setdefault(item.item.spec, []).append(item)
    kinds = list(KINDS)
    return tuple(
        sorted(
            (_lasted(hangar.ledger.specs[spec], items) for spec, items in sorted(ended.items())),
            key=lambda life: (kinds.index(life.kind), life.title),
        )
    )


def _lasted(spec: Spec, items: list[ItemNow]) -> PastLives:
    flown_s = [item.counters.duration_s for item in items]
    return PastLives(
        title=spec.title,
        kind=spec.kind,
        tags=tuple(item.tag for item in items),
        median_s=median(flown_s),
        shortest_s=min(flown_s),
        longest_s=max(flown_s),
        at_least=any(item.counters.time_at_least for item in items),
        at_most=any(item.counters.time_at_most for item in items),
    )


def radio(whole: Whole) -> RadioReport:
    """All memories, by number; aircraft with a radio but no memory come last."""
    aircraft = whole.hangar.aircraft
    radios = {slug: now.radio for slug, now in aircraft.items() if now.radio}
    found = [
        Memory(
            slug=slug,
            name=aircraft[slug].record.aircraft,
            status=aircraft[slug].status,
            radio=radio,
            twins=tuple(
                other
                for other, its in radios.items()
                if other != slug
                and radio.memory is not None
                and its.memory == radio.memory
                and its.transmitter in (None, radio.transmitter or its.transmitter)
            ),
            place=aircraft[slug].places.get("radio"),
        )
        for slug, radio in radios.items()
    ]
    modes = {radio.mode for radio in radios.values() if radio.mode is not None}
    return RadioReport(
        memories=tuple(sorted(found, key=lambda one: (_number(one.radio.memory), one.name))),
        modes=tuple(sorted(modes)),
        silent=tuple(slug for slug, now in aircraft.items() if now.radio is None),
    )


def _number(memory: str | None) -> tuple[int, int, str]:
    """Numbers by size, then names by letter, then none."""
    if memory is None:
        return (2, 0, "")
    return (0, int(memory), "") if memory.isdecimal() else (1, 0, memory)
