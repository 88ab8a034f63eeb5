"""Programmes that cannot work as written: lost bases, rows that count what is not there.

What a single row lacks (an interval, a known trigger, a counter) the reader says.
"""

from buildbook.basis.counting import UNITS, parts
from buildbook.basis.nearest import did_you_mean
from buildbook.basis.problems import Problem, Problems
from buildbook.records.ledger import Ledger
from buildbook.records.programmes import BUILT_IN, CheckRule, Programme, TaskRule, limit_parts
from buildbook.records.record import Record
from buildbook.upkeep.programme import resolve


def faults(ledger: Ledger) -> tuple[Problem, ...]:
    """What is wrong with the keeper's programmes, sorted by place."""
    problems = Problems()
    for name in sorted(ledger.programmes):
        programme = ledger.programmes[name]
        if not programme.built_in:
            resolve(ledger.programmes, name, problems)
            _dropped(ledger, programme, problems)
            _uncounted(programme, problems)
            _tolerated(programme, problems)
            _covered(ledger, programme, problems)
            _empty(ledger, programme, problems)
    return tuple(problems)


def _dropped(ledger: Ledger, programme: Programme, problems: Problems) -> None:
    base = None
    if programme.based_on is not None:
        base = resolve(ledger.programmes, programme.based_on)
    names: list[str] = []
    if base is not None:
        names += [row.rule.check for row in base.checks]
        names += [row.rule.task for row in base.tasks]
        names += [row.rule.limit for row in base.life_limits]
    for name in programme.drop:
        if name in names:
            continue
        problems.add(
            f"programme '{programme.name}' drops '{name}', which its base does not have",
            programme.place(f"drop.{name}"),
            hint=did_you_mean(name, names),
        )


def _uncounted(programme: Programme, problems: Problems) -> None:
    """Cycles, charges and cells are counted of packs only; and no pack is ever fitted."""
    for task in programme.tasks:
        for unit in parts(task.every):
            if UNITS[unit].counts == "pack" and task.each != "battery":
                _only_packs(f"task '{task.task}'", unit, task.each, task, problems)
    for limit in programme.life_limits:
        for unit in limit_parts(limit):
            measured = unit not in UNITS
            if (measured or UNITS[unit].counts == "pack") and limit.each != "battery":
                _only_packs(f"limit '{limit.limit}'", unit, limit.each, limit, problems)
    for check in programme.checks:
        if check.per == "battery":
            problems.add(
                f"check '{check.check}' goes by battery, which is never fitted",
                check.place("per"),
                hint="make it a task with for: battery",
            )


def _tolerated(programme: Programme, problems: Problems) -> None:
    """A tolerance in a unit that nothing counts does nothing; calendar units are one."""
    for task in programme.tasks:
        counted = {_family(unit) for unit in parts(task.every)}
        if task.follows is not None:
            counted.add("flights")
        for unit in parts(task.tolerance):
            if _family(unit) not in counted:
                said = UNITS[unit].plural
                problems.add(
                    f"task '{task.task}' tolerates {said}, which it does not count",
                    task.place(f"tolerance.{unit}"),
                    hint=f"count {said} under every, or leave it out",
                )


def _covered(ledger: Ledger, programme: Programme, problems: Problems) -> None:
    """Only recurring tasks are covered: a check that grounds closes by its own name alone."""
    whole = resolve(ledger.programmes, programme.name)
    if whole is None:
        return
    checks = {row.rule.check for row in whole.checks}
    tasks = {row.rule.task for row in whole.tasks}
    rules: tuple[CheckRule | TaskRule, ...] = (*programme.checks, *programme.tasks)
    for rule in rules:
        name = rule.check if isinstance(rule, CheckRule) else rule.task
        for covered in rule.covers:
            if covered in tasks and covered != name:
                continue
            if covered == name:
                reason, hint = "itself", "leave it out"
            elif covered in checks:
                reason = f"the check '{covered}', which only its own entry closes"
                hint = "name recurring tasks only"
            else:
                reason = f"'{covered}', which is not a task of the programme"
                hint = did_you_mean(covered, tasks) or "name recurring tasks only"
            problems.add(f"'{name}' covers {reason}", rule.place("covers"), hint=hint)


def _family(unit: str) -> str:
    return "calendar" if UNITS[unit].by_calendar else unit


def _empty(ledger: Ledger, programme: Programme, problems: Problems) -> None:
    """Nothing can be open under a programme without rows, which says nothing of the aircraft."""
    if programme.based_on or programme.checks or programme.tasks or programme.life_limits:
        return
    usual = BUILT_IN + programme.name
    hint = f"write based_on: {usual}" if usual in ledger.programmes else "write checks: or tasks:"
    problems.warn(
        f"programme '{programme.name}' has no rows, so nothing is ever due under it",
        programme.place("programme"),
        hint=hint,
    )


def _only_packs(what: str, unit: str, each: str, rule: Record, problems: Problems) -> None:
    problems.add(
        f"{what} counts {unit}, which only a battery has, for {each}",
        rule.place(),
        hint="write for: battery, or count flights or hours",
    )
