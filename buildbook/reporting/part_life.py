"""Others of a part's kind, what was done to it, and what an aircraft is made of."""

from collections.abc import Iterable
from statistics import median

from buildbook.records.parts import GONE, Hand, Spec
from buildbook.records.programmes import CheckRule, stage_of
from buildbook.records.triggers import Trigger
from buildbook.report.history import Completion
from buildbook.report.part_life import (
    Fits,
    Inspected,
    Look,
    PartLife,
    PartsLine,
    Sibling,
    Siblings,
    Spare,
)
from buildbook.report.state import ItemNow
from buildbook.report.upkeep.programme import Resolved
from buildbook.reporting.upkeep.remarks import remarks_on, unanswered
from buildbook.reporting.whole import Whole


def spare(whole: Whole, item: ItemNow) -> Spare | None:
    """Where its kind sits, what to look at, what fitting re-opens; None where it is no spare."""
    if item.is_pack or item.fitted is not None or item.state.state != "serviceable":
        return None
    fits = tuple(_fits(whole, item))
    found = [_of_aircraft(whole, one.slug) for one in fits]
    if not fits:
        found = [whole.programmes.named(whole.hangar.ledger.keeper.programme)]
    programmes = [one for one in found if one is not None]
    kind = item.spec.kind
    looks = dict(look for one in programmes for look in _looks(one, kind))
    opened = (name for one in programmes for name in _reopened(one, kind))
    if not fits and not looks:
        return None  # a charger, a transmitter: it goes on no aircraft
    return Spare(
        fits=fits,
        looks=tuple(Look(name=name, what=what) for name, what in looks.items()),
        reopens=tuple(name for name in dict.fromkeys(opened) if name not in looks),
    )


def _fits(whole: Whole, item: ItemNow) -> Iterable[Fits]:
    """Where items of the same spec sit now, aircraft by aircraft."""
    by_aircraft: dict[str, list[str]] = {}
    for other in whole.hangar.items.values():
        if other.spec.spec == item.spec.spec and other.fitted and other.aircraft:
            by_aircraft.setdefault(other.aircraft, []).append(other.fitted.station)
    for slug, stations in by_aircraft.items():
        order = [*whole.hangar.aircraft[slug].stations]
        known = [station for station in order if station in stations]
        rest = sorted(set(stations) - set(known))
        yield Fits(slug=slug, stations=(*known, *rest))


def _of_aircraft(whole: Whole, slug: str) -> Resolved | None:
    standing = next((one for one in whole.work.aircraft if one.slug == slug), None)
    return None if standing is None else whole.programmes.named(standing.programme)


def _looks(programme: Resolved, kind: str) -> Iterable[tuple[str, str]]:
    """Tasks and checks of such a part alone that are done with no pack plugged in."""
    for check in programme.checks:
        before_fitting = stage_of(check.rule) == "propellers on" and check.rule.propellers != "on"
        if check.rule.per == kind and (before_fitting or stage_of(check.rule) == "unplugged"):
            yield check.rule.check, check.rule.what
    for task in programme.tasks:
        if task.rule.each == kind and task.rule.unplugged and task.rule.follows is None:
            yield task.rule.task, task.rule.what


def _reopened(programme: Resolved, kind: str) -> Iterable[str]:
    """The set-up checks that fitting such a part opens again, in the order of doing."""
    return (one.rule.check for one in programme.checks if _opens(one.rule, kind))


def _opens(rule: CheckRule, kind: str) -> bool:
    return any(trigger in rule.stale_after for trigger in (Trigger("fit", kind), Trigger("fit")))


MOST_SIBLINGS = 16


def part_life(whole: Whole, tag: str) -> PartLife:
    """Others of its kind, the tasks done on it, and what was remarked of it."""
    item = whole.hangar.items[tag]
    return PartLife(
        siblings=_siblings(whole, item),
        inspected=_inspected(whole, item),
        remarks=remarks_on(whole, tag),
        unanswered=unanswered(whole, tag),
        spare=spare(whole, item),
    )


def parts_of_aircraft(whole: Whole, slug: str) -> tuple[PartsLine, ...]:
    """What is fitted, items of one spec together, in the order of the stations; then the packs."""
    items = whole.hangar.items
    by_spec: dict[str, list[ItemNow]] = {}
    for fitted in whole.hangar.aircraft[slug].items():
        item = items.get(fitted.tag)
        if item is not None:
            by_spec.setdefault(item.spec.spec, []).append(item)
    fitted_lines = tuple(_line(whole, slug, alike) for alike in by_spec.values())
    return (*fitted_lines, *_packs(whole, slug))


def _line(whole: Whole, slug: str, alike: list[ItemNow]) -> PartsLine:
    known = [item.mass_kg for item in alike if item.mass_kg is not None]
    spec = alike[0].spec
    stations = tuple(dict.fromkeys(item.fitted.station for item in alike if item.fitted))
    before = (
        item.spec
        for item in whole.hangar.items.values()
        if item.spec.kind == spec.kind
        and any(stay.aircraft == slug and stay.station in stations for stay in item.stays)
    )
    return PartsLine(
        kind=spec.kind,
        title=spec.title,
        tags=tuple(item.tag for item in alike),
        stations=stations,
        mass_kg=sum(known) if len(known) == len(alike) else None,
        spec=spec,
        also=_others(before, {item.spec.spec for item in alike}, spec.hand),
    )


def _packs(whole: Whole, slug: str) -> tuple[PartsLine, ...]:
    """The kinds of pack that it flies on; those that nobody has any more stand beside them."""
    flown: dict[str, list[ItemNow]] = {}
    for item in whole.hangar.items.values():
        if item.is_pack and slug in item.flown_on:
            flown.setdefault(item.spec.spec, []).append(item)
    kept = {
        name: at_hand
        for name, packs in flown.items()
        if (at_hand := [pack for pack in packs if pack.state.state not in GONE])
    }
    gone = [packs[0].spec for name, packs in flown.items() if name not in kept]
    return tuple(
        PartsLine(
            kind="battery",
            title=packs[0].spec.title,
            tags=tuple(pack.tag for pack in packs),
            stations=(),
            mass_kg=packs[0].mass_kg,
            spec=packs[0].spec,
            also=_others(gone, set(kept), None),
        )
        for packs in kept.values()
    )


def _others(specs: Iterable[Spec], without: set[str], hand: Hand | None) -> tuple[str, ...]:
    """Titles of other specs, each once. hand: a propeller of the other hand does not fit there."""
    return tuple(
        dict.fromkeys(
            spec.title
            for spec in specs
            if spec.spec not in without and (hand is None or spec.hand in (None, hand))
        )
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
    ended = [other.counters for other in same if other.state.state in GONE]
    shown = same if len(same) <= MOST_SIBLINGS else _nearest(item, same)
    return Siblings(
        items=tuple(
            Sibling(
                tag=other.tag,
                state=other.condition,
                aircraft=other.aircraft,
                counters=other.counters,
            )
            for other in shown
        ),
        among=len(same),
        ended=len(ended),
        ended_median_s=median(one.duration_s for one in ended) if ended else None,
        ended_at_least=any(one.time_at_least for one in ended),
        ended_at_most=any(one.time_at_most for one in ended),
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
