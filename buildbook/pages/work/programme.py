"""A maintenance programme: each row with when, why it is there, and what the keeper changed."""

from collections.abc import Iterable, Iterator

import msgspec

from buildbook.basis.place import Place
from buildbook.pages.addresses import address_of
from buildbook.pages.page import Page, crumbs
from buildbook.records.programmes import CheckRule, LimitRule, TaskRule
from buildbook.report.reports import Reports
from buildbook.report.upkeep.programme import Applied, Resolved
from buildbook.words.measures import intervals


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """A row of a programme in words.

    goes_by: what it is done for (``each motor``, ``the aircraft``). when: interval or limit; usual:
    that of the built-in row where the keeper's differs; changed: what else differs, each as
    ``name: own (default usual)``.
    """

    name: str
    what: str
    goes_by: str
    when: str = ""
    usual: str | None = None
    after: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    looser: bool = False
    basis: str | None = None
    place: Place | None = None


def keys(reports: Reports) -> Iterable[str]:
    """The programmes that apply to something, and what they are based on, by name."""
    return reports.programmes()


def page(reports: Reports, name: str) -> Page:
    """One programme with everything that it is based on."""
    found = reports.programme(name)
    resolved = found.resolved
    return Page(
        address=address_of("programme", name),
        template="programme.html.j2",
        title=f"Programme {name}",
        crumbs=(
            *crumbs(reports),
            (address_of("due"), "What is due"),
        ),
        facts={
            "name": name,
            "built_in": found.built_in,
            "based_on": resolved.chain[1:],
            "applies_to": found.applies_to,
            "by_default": found.by_default,
            "note": found.note,
            "checks": tuple(_checks(resolved)),
            "tasks": tuple(_tasks(resolved)),
            "limits": tuple(_limits(resolved)),
            "dropped": resolved.dropped,
            "off_first": any(one.rule.propellers != "none" for one in resolved.checks),
        },
        about=f"What is checked under the programme {name}, when, and why.",
    )


def _checks(resolved: Resolved) -> Iterator[Line]:
    for applied in resolved.checks:
        rule = applied.rule
        yield Line(
            name=rule.check,
            what=rule.what,
            goes_by=f"each {rule.per}" if rule.per else "the aircraft",
            after=tuple(str(trigger) for trigger in rule.stale_after),
            remarks=_remarks(
                rule, () if rule.grounds else ("noted only, grounds nothing",), *_further(rule)
            ),
            changed=tuple(_changes(applied)),
            looser=applied.looser,
            basis=rule.basis,
            place=rule.place(),
        )


def _tasks(resolved: Resolved) -> Iterator[Line]:
    for applied in resolved.tasks:
        rule = applied.rule
        usual = applied.usual
        when = _when(rule)
        before = _when(usual) if usual else None
        yield Line(
            name=rule.task,
            what=rule.what,
            goes_by="the aircraft" if rule.each == "aircraft" else f"each {rule.each}",
            when=when,
            usual=before if before != when else None,
            after=tuple(str(trigger) for trigger in rule.also_after),
            remarks=_remarks(rule, _counting(rule), *_grounding(rule), *_further(rule)),
            changed=tuple(_changes(applied)),
            looser=applied.looser,
            basis=rule.basis,
            place=rule.place(),
        )


def _limits(resolved: Resolved) -> Iterator[Line]:
    for applied in resolved.life_limits:
        rule = applied.rule
        when = intervals.limit_words(rule) or "no limit"
        before = intervals.limit_words(applied.usual) if applied.usual else None
        yield Line(
            name=rule.limit,
            what=rule.what or "",
            goes_by="the aircraft" if rule.each == "aircraft" else f"each {rule.each}",
            when=when,
            usual=before if before != when else None,
            looser=applied.looser,
            basis=rule.basis,
            place=rule.place(),
        )


def _when(rule: TaskRule) -> str:
    after = intervals.follow_words(rule.follows) if rule.follows else None
    return rule.when or after or intervals.interval_words(rule.every) or "only when re-opened"


def _counting(rule: TaskRule) -> tuple[str, ...]:
    tolerance = intervals.interval_words(rule.tolerance)
    said = {
        "earlier": "",
        "done": "counted from when it was done",
        "planned": "counted on the planned grid",
    }[rule.counted_from]
    months = "months run to their end" if rule.month_rule == "end_of_month" else ""
    return tuple(filter(None, (f"tolerance {tolerance}" if tolerance else "", said, months)))


def _grounding(rule: TaskRule) -> tuple[str, ...]:
    return ("grounds when overdue or stale",) if rule.grounds else ()


def _further(rule: CheckRule | TaskRule) -> Iterator[str]:
    """What one entry of it closes besides, and the day from which the row holds."""
    if rule.covers:
        yield f"also closes {', '.join(rule.covers)}"
    if rule.since is not None:
        yield f"since {rule.since}"


def _remarks(rule: CheckRule | TaskRule, first: tuple[str, ...], *more: str) -> tuple[str, ...]:
    propellers = () if rule.propellers == "none" else (f"propellers {rule.propellers}",)
    second = ("checked by a second person",) if rule.second_person else ()
    return (*propellers, *second, *first, *more)


def _changes(
    applied: Applied[CheckRule] | Applied[TaskRule] | Applied[LimitRule],
) -> Iterator[str]:
    """What differs from the built-in row besides the interval, named with the default beside it."""
    own, usual = applied.rule, applied.usual
    if isinstance(own, TaskRule) and isinstance(usual, TaskRule):
        yield from _differs(
            "tolerance",
            intervals.interval_words(own.tolerance),
            intervals.interval_words(usual.tolerance),
        )
        yield from _differs("counted from", own.counted_from, usual.counted_from)
        yield from _differs("re-opened by", _listed(own.also_after), _listed(usual.also_after))
        yield from _differs("grounds", _truth(own.grounds), _truth(usual.grounds))
    if isinstance(own, CheckRule) and isinstance(usual, CheckRule):
        yield from _differs("re-opened by", _listed(own.stale_after), _listed(usual.stale_after))
        yield from _differs("goes by", own.per or "aircraft", usual.per or "aircraft")
        yield from _differs("grounds", _truth(own.grounds), _truth(usual.grounds))
    if not isinstance(own, LimitRule) and usual is not None and not isinstance(usual, LimitRule):
        yield from _differs("propellers", own.propellers, usual.propellers)
        yield from _differs("second person", _truth(own.second_person), _truth(usual.second_person))


def _differs(name: str, own: str | None, usual: str | None) -> Iterator[str]:
    if own != usual:
        yield f"{name}: {own or 'none'} (default: {usual or 'none'})"


def _listed(triggers: Iterable[object]) -> str | None:
    return ", ".join(str(trigger) for trigger in triggers) or None


def _truth(value: bool) -> str:
    return "yes" if value else "no"
