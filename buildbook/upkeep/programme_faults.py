"""Programmes that cannot work as written: lost or circular bases, rows dropped that are not there.

What a single row lacks (an interval, a known trigger, a counter) the reader says.
"""

from buildbook.basis.nearest import did_you_mean
from buildbook.basis.problems import Problem, Problems
from buildbook.records.ledger import Ledger
from buildbook.records.programmes import Programme
from buildbook.upkeep.programme import resolve


def faults(ledger: Ledger) -> tuple[Problem, ...]:
    """What is wrong with the keeper's programmes, sorted by place."""
    problems = Problems()
    for name in sorted(ledger.programmes):
        programme = ledger.programmes[name]
        if not programme.built_in:
            resolve(ledger.programmes, name, problems)
            _dropped(ledger, programme, problems)
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
