"""Life limits: the end of a part's permitted life, without tolerance."""

import datetime
from collections.abc import Mapping

from buildbook.basis.counting import UNITS, parts
from buildbook.records.programmes import LimitRule
from buildbook.report.state import ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import AtLeast
from buildbook.report.upkeep.programme import Applied
from buildbook.report.upkeep.work import Because, Row, RowState
from buildbook.upkeep.context import Context, Subject
from buildbook.upkeep.counted.counting import step_of
from buildbook.upkeep.counted.expected import Pace, Window, sooner, window
from buildbook.upkeep.counted.life import Life
from buildbook.upkeep.packs.spent_rows import measured
from buildbook.upkeep.rows.used import Used


def limit_row(
    context: Context,
    applied: Applied[LimitRule],
    subject: Subject,
    life: Life,
    pace: Pace | None,
    born: datetime.date | None,
    item: ItemNow | None,
) -> Row:
    """The row of one life limit. ``born``: made, else acquired (aircraft: in service)."""
    rule = applied.rule
    used = [*_counted(context, rule, life, pace), *_dated(context, rule, born)]
    if item is not None and item.is_pack:
        used += measured(rule, item)
    worst = max(used, key=lambda one: (one.reached, one.soon, one.share), default=None)
    unknown = not all(map(life.knows, _counts(rule)))
    state: RowState = "ok"
    if worst is not None and worst.reached:
        state = "reached"
    elif worst is not None and worst.soon:
        state = "due soon"
    if unknown and state == "ok":
        state = "open"
    left = _left(used, unknown)
    first_by = None if worst is None or worst.unit not in left else worst.unit
    least = _at_least(rule, life) if unknown else None
    because = _because(subject, state, worst, least)
    rank = _rank(state, unknown)
    due_on = min((one.due_on for one in used if one.due_on is not None), default=None)
    return Row(
        aircraft=subject.aircraft,
        kind="limit",
        name=rule.limit,
        tag=subject.tag,
        station=subject.station,
        state=state,
        first_by=first_by,
        left=left,
        due_on=due_on,
        grounds_from=None if state == "reached" else due_on,
        expected=_expected(used, state, unknown),
        because=because,
        place=subject.place if worst is None else worst.place or subject.place,
        grounds=state == "reached",
        rule=rule,
        usual=applied.usual,
        looser=applied.looser,
        used=None if worst is None else worst.share,
        unknown=unknown,
        rank=rank,
    )


def _counts(rule: LimitRule) -> dict[str, float]:
    """What is counted of it, as stored."""
    return {unit: size for unit, size in parts(rule).items() if not UNITS[unit].by_calendar}


def _counted(context: Context, rule: LimitRule, life: Life, pace: Pace | None) -> list[Used]:
    found: list[Used] = []
    for unit, size in _counts(rule).items():
        limit = UNITS[unit].in_ticks(size)
        total = life.ticks(unit)
        left = UNITS[unit].shown(limit - total)
        share = total / limit
        coming = None if pace is None or left <= 0 else window(pace, unit, left, context.as_of)
        found.append(
            Used(unit, left, share, total >= limit, total * 10 >= limit * 9, expected=coming)
        )
    return found


def _dated(context: Context, rule: LimitRule, born: datetime.date | None) -> list[Used]:
    if born is None:
        return []
    found: list[Used] = []
    for unit, size in parts(rule).items():
        if not UNITS[unit].by_calendar:
            continue
        end = step_of(UNITS[unit], int(size)).after(born)
        age, whole = (context.as_of - born).days, (end - born).days
        coming = Window(end, end) if end > context.as_of else None
        found.append(
            Used(
                "days",
                whole - age,
                age / whole,
                age >= whole,
                age * 10 >= whole * 9,
                due_on=end,
                expected=coming,
            )
        )
    return found


def _left(used: list[Used], unknown: bool) -> dict[str, float]:
    left: dict[str, float] = {}
    for one in used:
        if unknown and one.unit in UNITS and not UNITS[one.unit].by_calendar and not one.reached:
            continue
        left[one.unit] = min(one.left, left.get(one.unit, one.left))
    return left


def _expected(
    used: list[Used], state: RowState, unknown: bool
) -> tuple[datetime.date, datetime.date] | None:
    """As for tasks; a measured share has no day, so it takes none away from the rest."""
    if unknown or state == "reached":
        return None
    counted = [one for one in used if one.unit != "share"]
    known = [one.expected for one in counted if one.expected is not None]
    return sooner(known) if len(known) == len(counted) else None


def _at_least(rule: LimitRule, life: Life) -> AtLeast:
    unit = next(iter(_counts(rule)))
    return AtLeast(unit=unit, value=UNITS[unit].shown(life.ticks(unit)))


def _because(
    subject: Subject, state: RowState, worst: Used | None, least: AtLeast | None
) -> Because | None:
    if state == "ok":
        return None
    if state == "open" or worst is None:
        return Because(why="unknown history", tag=subject.tag, station=subject.station, found=least)
    return Because(
        why="limit",
        unit=worst.of or worst.unit,
        entry=worst.uid,
        place=worst.place,
        tag=subject.tag,
        station=subject.station,
        found=worst.found if state == "reached" else least,
    )


def _rank(state: RowState, unknown: bool) -> int:
    named: Mapping[str, int] = {
        "reached": ranks.LIMIT_REACHED,
        "due soon": ranks.DUE_SOON,
        "open": ranks.NOT_RECORDED,
    }
    return named.get(state, ranks.NOT_RECORDED if unknown else ranks.FINE)
