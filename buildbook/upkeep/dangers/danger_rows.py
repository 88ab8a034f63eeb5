"""How a danger becomes a row: in place of the row of its name, or beside the others."""

from collections.abc import Iterable

import msgspec

from buildbook.basis.place import Place
from buildbook.records.programmes import CheckRule, LimitRule, Propellers, Stage, TaskRule
from buildbook.report.state import AircraftNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import AlarmLow, ReadOtherwise
from buildbook.report.upkeep.work import Because, Row, RowState

Rule = CheckRule | TaskRule | LimitRule | None


class Ask(msgspec.Struct, frozen=True, kw_only=True):
    """What is to be done about a danger, where no programme has a check of that name."""

    name: str
    what: str
    stage: Stage = "unplugged"
    propellers: Propellers = "off"


def danger_row(
    aircraft: AircraftNow,
    ask: Ask,
    because: Because,
    place: Place,
    *,
    grounds: bool,
    state: RowState = "failed",
    rank: int | None = None,
) -> Row:
    """A row about an aircraft, a station or an item on it."""
    rule = CheckRule(
        file=place.file,
        line=place.line,
        check=ask.name,
        what=ask.what,
        stage=ask.stage,
        propellers=ask.propellers if aircraft.record.has_motor else "none",
        grounds=grounds,
    )
    if rank is None:
        rank = ranks.FAILED_CHECK if grounds else ranks.DUE
    return Row(
        aircraft=aircraft.slug,
        kind="check",
        name=ask.name,
        tag=because.tag,
        station=because.station,
        state=state,
        because=because,
        place=place,
        grounds=grounds,
        rule=rule,
        rank=rank,
    )


def laid_over(rows: Iterable[Row], dangers: Iterable[Row]) -> list[Row]:
    """Rows with dangers in the place of those of the same name and subject; others at the end.

    A row that a danger takes the place of keeps its rule and when it was last done, but says what
    to do about the danger. It is never made milder: what grounds for another reason goes on
    grounding.
    """
    found = {row.key: row for row in rows}
    for danger in dangers:
        before = found.get(danger.key)
        found[danger.key] = danger if before is None else _over(before, danger)
    return list(found.values())


def _over(before: Row, danger: Row) -> Row:
    if before.rank <= danger.rank:
        return _told_with(before, danger)
    return msgspec.structs.replace(
        before,
        state=danger.state,
        because=danger.because,
        place=danger.place,
        grounds=danger.grounds,
        rank=danger.rank,
        rule=_with_words_of(before.rule, danger.rule),
    )


def _told_with(before: Row, danger: Row) -> Row:
    """An alarm that is too low beside a meter that reads otherwise: one check, both to be told."""
    read = None if before.because is None else before.because.found
    alarm = None if danger.because is None else danger.because.found
    if not (isinstance(read, ReadOtherwise) and isinstance(alarm, AlarmLow)):
        return before
    found = msgspec.structs.replace(read, alarm=alarm)
    assert before.because is not None
    return msgspec.structs.replace(
        before, because=msgspec.structs.replace(before.because, found=found)
    )


def _with_words_of(rule: Rule, other: Rule) -> Rule:
    if not isinstance(rule, CheckRule | TaskRule) or not isinstance(other, CheckRule | TaskRule):
        return rule
    return msgspec.structs.replace(rule, what=other.what)
