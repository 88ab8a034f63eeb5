"""Others of a part's kind, what was done to it, and what an aircraft is made of."""

from statistics import median

from buildbook.report.history import Completion
from buildbook.report.part_life import Inspected, PartLife, PartsLine, Sibling, Siblings
from buildbook.report.state import ItemNow
from buildbook.reporting.whole import Whole

ENDED = ("scrapped", "retired")
MOST_SIBLINGS = 16


def part_life(whole: Whole, tag: str) -> PartLife:
    """Others of its kind, and the tasks done on it."""
    item = whole.hangar.items[tag]
    return PartLife(siblings=_siblings(whole, item), inspected=_inspected(whole, item))


def parts_of_aircraft(whole: Whole, slug: str) -> tuple[PartsLine, ...]:
    """What is fitted, items of one spec together, in the order of the stations."""
    items = whole.hangar.items
    by_spec: dict[str, list[ItemNow]] = {}
    for fitted in whole.hangar.aircraft[slug].items():
        item = items.get(fitted.tag)
        if item is not None:
            by_spec.setdefault(item.spec.spec, []).append(item)
    return tuple(_line(alike) for alike in by_spec.values())


def _line(alike: list[ItemNow]) -> PartsLine:
    known = [item.mass_kg for item in alike if item.mass_kg is not None]
    return PartsLine(
        kind=alike[0].spec.kind,
        title=alike[0].spec.title,
        tags=tuple(item.tag for item in alike),
        mass_kg=sum(known) if len(known) == len(alike) else None,
    )


def _inspected(whole: Whole, item: ItemNow) -> tuple[Inspected, ...]:
    """Tasks done that named the item, or that are for its kind and named nothing."""
    tasks = {
        rule.task
        for programme in whole.hangar.ledger.programmes.values()
        for rule in programme.tasks
        if rule.each == item.spec.kind
    }
    found: dict[tuple[str, str], list[Completion]] = {}
    for done in item.inspections:
        if item.tag in done.tags or (not done.tags and done.name in tasks):
            found.setdefault((done.uid, done.result), []).append(done)
    return tuple(
        Inspected(tasks=tuple(done.name for done in together), done=together[0])
        for together in found.values()
    )


def _siblings(whole: Whole, item: ItemNow) -> Siblings | None:
    same = [other for other in whole.hangar.items.values() if other.spec.spec == item.spec.spec]
    if len(same) < 2:
        return None
    ended = [other.counters.duration_s for other in same if other.state.state in ENDED]
    shown = same if len(same) <= MOST_SIBLINGS else _nearest(item, same)
    return Siblings(
        items=tuple(
            Sibling(
                tag=other.tag,
                state=other.state.state,
                aircraft=other.aircraft,
                counters=other.counters,
            )
            for other in shown
        ),
        among=len(same),
        ended=len(ended),
        ended_median_s=median(ended) if ended else None,
    )


def _nearest(item: ItemNow, same: list[ItemNow]) -> list[ItemNow]:
    """Of a large family: the item itself, those on its aircraft, those that flew the longest."""
    ranked = sorted(
        same,
        key=lambda other: (
            other.tag != item.tag,
            item.aircraft is None or other.aircraft != item.aircraft,
            -other.counters.duration_s,
            other.tag,
        ),
    )
    nearest = {other.tag for other in ranked[:MOST_SIBLINGS]}
    return [other for other in same if other.tag in nearest]
