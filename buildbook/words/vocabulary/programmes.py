"""The rows of the built-in programmes, and those programmes."""

from collections.abc import Iterable, Iterator

import msgspec

from buildbook.basis.counting import Interval
from buildbook.records.programmes import CheckRule, LimitRule, Programme, TaskRule, stage_of
from buildbook.records.triggers import Trigger
from buildbook.words.measures.intervals import follow_words, interval_words, limit_words
from buildbook.words.vocabulary.lists import Term

Rule = CheckRule | TaskRule | LimitRule


def rules(programmes: Iterable[Programme]) -> Iterator[Term]:
    """Rows of built-in programmes; one term for a row that several share word for word."""
    found: dict[Term, list[str]] = {}
    for programme in programmes:
        written: tuple[Rule, ...] = (
            *programme.checks,
            *programme.tasks,
            *programme.life_limits,
        )
        for rule in written:
            found.setdefault(rule_term(rule), []).append(f"built-in {programme.name}")
    for term, names in found.items():
        yield msgspec.structs.replace(term, where=tuple(names))


def rule_term(rule: Rule) -> Term:
    """A row of a programme as a word that can be asked for."""
    if isinstance(rule, CheckRule):
        return _check(rule)
    if isinstance(rule, TaskRule):
        return _task(rule)
    details = [("of", rule.each), ("at", limit_words(rule) or "")]
    return _term(rule.limit, "life limit", rule.what or "", details, rule.basis)


def _check(rule: CheckRule) -> Term:
    details: list[tuple[str, str]] = [("stage", stage_of(rule))]
    if rule.per:
        details.append(("a row for each", rule.per))
    details += [(f"reading {name}", what) for name, what in rule.readings.items()]
    details += _again(rule, rule.stale_after, "when never done, stale or failed")
    return _term(rule.check, "check", rule.what, details, rule.basis)


def _task(rule: TaskRule) -> Term:
    details = [("for", rule.each)]
    if rule.when:
        details.append(("when", rule.when))
    if rule.every != Interval():
        details.append(("every", interval_words(rule.every) or ""))
    if rule.tolerance != Interval():
        details.append(("tolerance", interval_words(rule.tolerance) or ""))
    if rule.follows is not None:
        details.append(("once", follow_words(rule.follows)))
    details += _again(rule, rule.also_after, "when overdue or failed")
    return _term(rule.task, "task", rule.what, details, rule.basis)


def _again(
    rule: CheckRule | TaskRule, after: Iterable[Trigger], grounding: str
) -> Iterator[tuple[str, str]]:
    """The event that asks for it again, when it grounds, and what a pass of it closes."""
    if events := ", ".join(map(str, after)):
        yield "asked again after", events
    yield "grounds", grounding if rule.grounds else "only when it failed"
    if rule.covers:
        yield "a pass also closes", ", ".join(rule.covers)


def _term(
    word: str, kind: str, what: str, details: list[tuple[str, str]], basis: str | None
) -> Term:
    if basis:
        details = [*details, ("source", basis)]
    return Term(word=word, kind=kind, what=what, details=tuple(details))


def programmes_themselves(programmes: Iterable[Programme]) -> Iterator[Term]:
    """Each built-in programme with the names of its rows."""
    for programme in programmes:
        yield Term(
            word=programme.name,
            kind="built-in programme",
            what=programme.note or "",
            details=(
                ("checks", ", ".join(rule.check for rule in programme.checks)),
                ("tasks", ", ".join(rule.task for rule in programme.tasks)),
                ("life limits", ", ".join(rule.limit for rule in programme.life_limits)),
                ("use it by", f"programme: {programme.name}, or based_on of a programme of yours"),
            ),
        )
