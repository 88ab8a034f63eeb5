"""When a recurring job is next due, in one unit, by the three ways of counting.

``earlier`` next = min(due, done) + interval: an overrun is not given away and an early job
counts from itself; where that would not be later than the doing, it counts from the doing.
``done`` next = done + interval. ``planned`` the grid stays, and a doing closes the point of it
that is nearest (halfway: the one before), so that doing it twice skips nothing.
Published rules disagree (14 CFR 91.409(b); AMC M.A.302(i) of 2015; AMC1 ML.A.302(d) of 2020), so
the rule is a field of the task. Counts are whole numbers: flights, seconds, thousandths of a cycle.
"""

import datetime
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from typing import Literal, NamedTuple

from buildbook.basis.counting import UNITS, Interval, Unit, parts
from buildbook.basis.days import add_months, end_of_month, next_day
from buildbook.records.programmes import TaskRule
from buildbook.report.history import Completion
from buildbook.report.upkeep.work import RowState
from buildbook.upkeep.context import Context
from buildbook.upkeep.counted.expected import Pace, Window, sooner, window
from buildbook.upkeep.counted.life import Life

CountedFrom = Literal["earlier", "done", "planned"]


def next_count(how: CountedFrom, due: int, done: int, interval: int) -> int:
    """The next due count after a job that was due at ``due`` was done at ``done``."""
    if how == "done":
        return done + interval
    if how == "earlier":
        following = min(due, done) + interval
        return following if following > done else done + interval
    nearest = due - (interval - 2 * (done - due)) // (2 * interval) * interval
    return max(due, nearest + interval)


def due_count(how: CountedFrom, dones: Iterable[int], interval: int) -> int:
    """The count at which the job is due, after it was done at ``dones`` in turn since zero."""
    due = interval
    for done in dones:
        due = next_count(how, due, done, interval)
    return due


class Step(NamedTuple):
    """A calendar interval: so many months and then so many days.

    to_month_end: the months run to the end of the last of them (R25, US usage, from memory).
    """

    months: int = 0
    days: int = 0
    to_month_end: bool = False

    @property
    def least_days(self) -> int:
        """It is never shorter than that: a month has 28 days or more."""
        return 28 * self.months + self.days

    def after(self, anchor: datetime.date, steps: int = 1) -> datetime.date:
        """The day so many steps after the anchor, whose day of the month is kept.

        Beyond the end of the calendar it is the last day that there is.
        """
        try:
            day = add_months(anchor, self.months * steps) if self.months else anchor
            if self.to_month_end:
                day = end_of_month(day)
            return day + datetime.timedelta(days=self.days * steps)
        except OverflowError:
            return datetime.date.max


def step_of(unit: Unit, size: int) -> Step:
    """The step of a unit of the calendar."""
    return Step(months=size * unit.months) if unit.months else Step(days=size)


class _Grid(NamedTuple):
    anchor: datetime.date
    steps: int


def due_day(
    how: CountedFrom, start: datetime.date, dones: Iterable[datetime.date], step: Step
) -> datetime.date:
    """The day on which the job is due, after it was done on ``dones`` in turn since ``start``."""
    grid, least = _Grid(start, 1), step.least_days
    for done in dones:
        if how == "earlier" and grid.steps == 1 and (done - grid.anchor).days < least:
            grid = _Grid(done, 1)  # long before it was due
        else:
            grid = _next_grid(how, grid, done, step)
    return step.after(*grid)


def _next_grid(how: CountedFrom, grid: _Grid, done: datetime.date, step: Step) -> _Grid:
    due = step.after(*grid)
    if how == "done" or (how == "earlier" and done < due):
        return _Grid(done, 1)
    following = _Grid(grid.anchor, grid.steps + 1)
    if how == "earlier":
        return following if step.after(*following) > done else _Grid(done, 1)
    nearest = grid.steps - 1
    while _nearer(done, step.after(grid.anchor, nearest), step.after(grid.anchor, nearest + 1)):
        nearest += 1
    return _Grid(grid.anchor, max(grid.steps, nearest + 1))


def _nearer(done: datetime.date, before: datetime.date, after: datetime.date) -> bool:
    """Whether a day is nearer to the later of two; never where the calendar ends."""
    return before < after and (after - done) < (done - before)


_SEVERITY: Mapping[str, int] = {
    "ok": 0,
    "due soon": 1,
    "due": 2,
    "in tolerance": 3,
    "overdue": 4,
}


class Side(NamedTuple):
    """One unit of a task: how far it is from due. ``left`` is in the unit, hours in hours.

    over_on: the first day beyond what is tolerated.
    """

    unit: str
    state: RowState
    left: float
    share_left: float
    due_on: datetime.date | None = None
    expected: Window | None = None
    over_on: datetime.date | None = None


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
    over_on = next_day(day, 1 + late)
    return Side(unit, state, left, left / max(1, length), day, expected, over_on)


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
