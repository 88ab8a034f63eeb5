"""The units of a recurring task, each worked out alone: how far it is from due."""

import datetime
from collections.abc import Mapping, Sequence
from functools import cache
from typing import NamedTuple

from buildbook.basis.counting import UNITS, Interval, Unit, parts
from buildbook.records.programmes import TaskRule
from buildbook.report.history import Completion
from buildbook.report.upkeep.work import RowState
from buildbook.upkeep.context import Context
from buildbook.upkeep.counted.counting import due_count, due_day, step_of
from buildbook.upkeep.counted.expected import Pace, Window, sooner, window
from buildbook.upkeep.counted.life import Life

_SEVERITY: Mapping[str, int] = {
    "ok": 0,
    "due soon": 1,
    "due": 2,
    "in tolerance": 3,
    "overdue": 4,
}


class Side(NamedTuple):
    """One unit of a task: how far it is from due. ``left`` is in the unit, hours in hours."""

    unit: str
    state: RowState
    left: float
    share_left: float
    due_on: datetime.date | None = None
    expected: Window | None = None


@cache
def _intervals(every: Interval) -> Mapping[str, float]:
    """Every unit of an interval as stored; what the calendar counts comes last."""
    found = parts(every)
    return dict(sorted(found.items(), key=lambda part: UNITS[part[0]].by_calendar))


def sides_of(
    context: Context, rule: TaskRule, life: Life, pace: Pace | None, accepted: Sequence[Completion]
) -> list[Side]:
    """Every unit that can be told. ``accepted``: when it was done, oldest first.

    Never done by a thing whose earlier life is unknown: a count can only be told once what is
    known of it has come to due by itself.
    """
    tolerance = _intervals(rule.tolerance)
    # Counted from when it was done, the last doing alone says when it is due again.
    counted = accepted[-1:] if rule.counted_from == "done" else accepted
    sides: list[Side] = []
    for unit, size in _intervals(rule.every).items():
        if not UNITS[unit].by_calendar:
            ticks = UNITS[unit].in_ticks(size)
            side = _counted(context, rule, UNITS[unit], ticks, tolerance, life, pace, counted)
            if accepted or life.knows(unit) or side.left <= 0:
                sides.append(side)
        else:
            day = _due_day(rule, unit, int(size), life, counted)
            if day is not None:
                sides.append(_dated(context, unit, day, int(size), tolerance))
    return sides


def _counted(
    context: Context,
    rule: TaskRule,
    unit: Unit,
    interval: int,
    tolerance: Mapping[str, float],
    life: Life,
    pace: Pace | None,
    counted: Sequence[Completion],
) -> Side:
    dones = [life.ticks(unit.key, job.seq) for job in counted]
    due = due_count(rule.counted_from, dones, interval)
    left = due - life.ticks(unit.key)
    late = unit.in_ticks(tolerance.get(unit.key, 0))
    state = side_state(left, _soon(context, unit, interval), late)
    size = unit.shown(left)
    expected = None if pace is None or left <= 0 else window(pace, unit.key, size, context.as_of)
    return Side(unit.key, state, size, left / interval, None, expected)


def _soon(context: Context, unit: Unit, interval: int) -> int:
    """From how many ticks on a unit is due soon; what nobody can foresee is so never."""
    if not unit.foreseen:
        return 0
    if unit.divisible:
        return interval // 10
    return min(context.keeper.soon_flights, max(1, interval // 10))


def _due_day(
    rule: TaskRule, unit: str, size: int, life: Life, counted: Sequence[Completion]
) -> datetime.date | None:
    days = [job.on for job in counted]
    start = life.began
    if start is None:
        if not days:
            return None
        start, days = days[0], days[1:]
    step = step_of(UNITS[unit], size)
    if rule.month_rule == "end_of_month" and step.months:
        step = step._replace(to_month_end=True)
    return due_day(rule.counted_from, start, days, step)


def _dated(
    context: Context, unit: str, day: datetime.date, size: int, tolerance: Mapping[str, float]
) -> Side:
    left = (day - context.as_of).days
    late = 0
    for other, most in tolerance.items():
        if UNITS[other].by_calendar:
            late = max(late, (step_of(UNITS[other], int(most)).after(day) - day).days)
    state = side_state(left, context.keeper.soon_days, late)
    length = (step_of(UNITS[unit], size).after(day) - day).days
    expected = Window(day, day) if left > 0 else None
    return Side(unit, state, left, left / max(1, length), day, expected)


def side_state(left: int, soon: int, late: int) -> RowState:
    """By what is left: soon from ``soon`` on, due at 0 exactly, ``late`` more is tolerated."""
    if left > soon:
        return "ok"
    if left > 0:
        return "due soon"
    if left == 0:
        return "due"
    return "in tolerance" if -left <= late else "overdue"


def first_of(sides: Sequence[Side]) -> Side | None:
    """The unit that comes first: the worst one, then the soonest by rate, else by share."""
    if not sides:
        return None
    by_day = all(side.expected is not None for side in sides)

    def order(side: Side) -> tuple[int, float, float]:
        days = 0.0
        if by_day and side.expected is not None:
            days = (side.expected.early.toordinal() + side.expected.late.toordinal()) / 2
        return -_SEVERITY[side.state], days, side.share_left

    return min(sides, key=order)


def left_of(sides: Sequence[Side]) -> dict[str, float]:
    """What is left by unit; of several calendar units the first."""
    left: dict[str, float] = {}
    for side in sides:
        unit = UNITS[side.unit].left_key
        left[unit] = min(side.left, left.get(unit, side.left))
    return left


def expected_of(sides: Sequence[Side]) -> tuple[datetime.date, datetime.date] | None:
    """Whichever comes first; None where a unit's own rate is not known.

    A crash is expected on no day, so it takes none away from the rest.
    """
    foreseen = [side for side in sides if UNITS[side.unit].foreseen]
    known = [side.expected for side in foreseen if side.expected is not None]
    return sooner(known) if len(known) == len(foreseen) else None


def all_told(rule: TaskRule, sides: Sequence[Side]) -> bool:
    """Whether every unit of the interval can be told."""
    return len(sides) == len(_intervals(rule.every))
