"""When a recurring job is next due, in one unit, by the three ways of counting.

``earlier`` next = min(due, done) + interval: an overrun is not given away and an early job
counts from itself; where that would not be later than the doing, it counts from the doing.
``done`` next = done + interval. ``planned`` the grid stays, and a doing closes the point of it
that is nearest (halfway: the one before), so that doing it twice skips nothing.
Published rules disagree (14 CFR 91.409(b); AMC M.A.302(i) of 2015; AMC1 ML.A.302(d) of 2020), so
the rule is a field of the task. Counts are whole numbers: flights, seconds, thousandths of a cycle.
"""

import datetime
from collections.abc import Iterable
from typing import Literal, NamedTuple

from buildbook.basis.counting import Unit
from buildbook.basis.days import add_months, end_of_month

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
