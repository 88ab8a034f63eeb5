"""What a keeper wants to know of a part in the drawer before it goes on."""

from collections.abc import Iterable

from buildbook.records.programmes import CheckRule
from buildbook.records.triggers import Trigger
from buildbook.report.part_life import Fits, Look, Spare
from buildbook.report.state import ItemNow
from buildbook.report.upkeep.programme import Resolved
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
        if check.rule.per == kind and check.rule.stage == "unplugged":
            yield check.rule.check, check.rule.what
    for task in programme.tasks:
        if task.rule.each == kind and task.rule.unplugged and task.rule.follows is None:
            yield task.rule.task, task.rule.what


def _reopened(programme: Resolved, kind: str) -> Iterable[str]:
    """The set-up checks that fitting such a part opens again, in the order of doing."""
    return (one.rule.check for one in programme.checks if _opens(one.rule, kind))


def _opens(rule: CheckRule, kind: str) -> bool:
    return any(trigger in rule.stale_after for trigger in (Trigger("fit", kind), Trigger("fit")))
