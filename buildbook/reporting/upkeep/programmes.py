"""The programmes that apply to something, and each as it applies."""

from buildbook.records.programmes import BUILT_IN
from buildbook.report.upkeep.programme import ProgrammeReport, Resolved
from buildbook.reporting.whole import Whole
from buildbook.upkeep.programme import find, resolve


def programmes(whole: Whole) -> tuple[str, ...]:
    """The programmes that apply to something, and what they are based on, by name."""
    ledger = whole.hangar.ledger
    applied = {standing.programme for standing in whole.work.aircraft if standing.programme}
    if ledger.keeper.programme and find(ledger.programmes, ledger.keeper.programme):
        applied.add(ledger.keeper.programme)
    found = [find(ledger.programmes, name) for name in applied]
    based = {one.based_on for one in found if one and one.based_on}
    names = {name.removeprefix(BUILT_IN) for name in applied | based}
    return tuple(sorted(name for name in names if find(ledger.programmes, name)))


def programme(whole: Whole, name: str) -> ProgrammeReport:
    """One programme with everything that it is based on."""
    ledger = whole.hangar.ledger
    own = find(ledger.programmes, name)
    return ProgrammeReport(
        resolved=resolve(ledger.programmes, name, as_of=whole.hangar.as_of) or Resolved(name=name),
        built_in=own is not None and own.built_in,
        applies_to=tuple(one.slug for one in whole.work.aircraft if one.programme == name),
        by_default=ledger.keeper.programme == name,
        note=own.note if own else None,
    )
