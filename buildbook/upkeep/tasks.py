"""Recurring tasks: whichever of their units comes first decides."""

import datetime
from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from buildbook.basis.place import Place
from buildbook.hangar.happened import Happened
from buildbook.records.keeper import Keeper
from buildbook.records.programmes import Interval, TaskRule
from buildbook.upkeep import ranks
from buildbook.upkeep.counting import Step, due_count, due_day
from buildbook.upkeep.expected import Pace, Window, sooner, window
from buildbook.upkeep.intervals import interval_words
from buildbook.upkeep.life import COUNTED, PER_UNIT, Life
from buildbook.upkeep.phrases import about, stands
from buildbook.upkeep.programme import Applied
from buildbook.upkeep.row import Because, Row, RowState
from buildbook.upkeep.triggers import Reopened, reopens

_SEVERITY: Mapping[str, int] = {
    "ok": 0,
    "due soon": 1,
    "due": 2,
    "in tolerance": 3,
    "overdue": 4,
}


class Job(NamedTuple):
    """One time that a task was done."""

    what: Happened
    result: Literal["pass", "fail"] = "pass"
    by: str | None = None
    checked_by: str | None = None

    @property
    def seconded(self) -> bool:
        """Whether a second person looked at it."""
        return self.checked_by is not None and self.checked_by != self.by


class Subject(NamedTuple):
    """Whose task it is: an aircraft, an item on it, or an item on none."""

    aircraft: str | None
    tag: str | None
    station: str | None
    place: Place


class Side(NamedTuple):
    """One unit of a task: how far it is from due. ``left`` is in the unit, hours in hours."""

    unit: str
    state: RowState
    left: float
    share_left: float
    due_on: datetime.date | None = None
    expected: Window | None = None


class Ground(NamedTuple):
    """What all tasks of a hangar are judged by."""

    as_of: datetime.date
    keeper: Keeper


def comes_round(rule: TaskRule) -> bool:
    """Whether a task can fall due; one of a moment (``before each flight``) never does."""
    return rule.when is None or rule.every != Interval() or bool(rule.also_after)


def task_row(
    ground: Ground,
    applied: Applied[TaskRule],
    subject: Subject,
    life: Life,
    pace: Pace | None,
    jobs: Sequence[Job],
    reopened: Reopened | None,
) -> Row:
    """The row of one task for one aircraft or item. ``jobs``: every doing, oldest first."""
    rule = applied.rule
    accepted = [
        job for job in jobs if job.result == "pass" and (job.seconded or not rule.second_person)
    ]
    sides = _sides(ground, rule, life, pace, accepted)
    first = _first(sides)
    state, because = _state(rule, life, jobs, accepted, reopened, first)
    because = _filled(because, subject)
    done = accepted[-1] if accepted else None
    left = _left(sides)
    first_by = None if first is None else _left_unit(first.unit)
    rank = _rank(state)
    return Row(
        aircraft=subject.aircraft,
        kind="task",
        name=rule.task,
        tag=subject.tag,
        station=subject.station,
        state=state,
        first_by=first_by,
        left=left,
        due_on=min((side.due_on for side in sides if side.due_on is not None), default=None),
        expected=_expected(sides, state),
        because=because,
        place=_place(subject, because, done),
        what=_what(rule, subject, state, first_by, left),
        grounds=rank < ranks.CHECK_FLIGHT,
        counted_from=rule.counted_from if accepted else "start",
        done_on=None if done is None else done.what.on,
        done_uid=None if done is None else done.what.uid,
        done_place=None if done is None else done.what.place,
        by=None if done is None else done.by,
        checked_by=None if done is None else done.checked_by,
        rule=rule,
        usual=None if applied.usual is None else interval_words(applied.usual.every),
        looser=applied.looser,
        used=max((1 - side.share_left for side in sides), default=None),
        rank=rank,
    )


def _state(
    rule: TaskRule,
    life: Life,
    jobs: Sequence[Job],
    accepted: Sequence[Job],
    reopened: Reopened | None,
    first: Side | None,
) -> tuple[RowState, Because | None]:
    last = jobs[-1] if jobs else None
    if last is not None and last.result == "fail":
        return "failed", _entry(Because(why="failed"), last)
    done = accepted[-1] if accepted else None
    if reopened is not None and (done is None or _after(reopened, done)):
        if last is not None and last is not done and not _after(reopened, last):
            return "open", _entry(Because(why="second person"), last)
        return "stale", Because(
            why="trigger",
            trigger=reopened.trigger,
            entry=reopened.uid,
            on=reopened.on,
            place=reopened.place,
        )
    state: RowState = "ok" if first is None else first.state
    if done is None and not _start_known(rule, life, first):
        state = "never done"
    if last is not None and last is not done and state != "ok":
        return "open", _entry(Because(why="second person"), last)
    if state == "never done":
        return state, Because(why="never done")
    if state == "ok" or first is None:
        return state, None
    because = Because(why="interval", unit=_left_unit(first.unit))
    return state, because if done is None else _entry(because, done)


def _after(reopened: Reopened, job: Job) -> bool:
    return reopens(reopened, job.what.seq, job.what.on, job.what.uid)


def _start_known(rule: TaskRule, life: Life, first: Side | None) -> bool:
    """Whether a task that was never done can be counted from the start of the thing."""
    if first is None:
        return not _intervals(rule.every)
    counted = any(unit in COUNTED for unit in _intervals(rule.every))
    return life.known or not counted


def _intervals(every: Interval) -> dict[str, float]:
    """Every unit of an interval in its own size; hours as seconds."""
    named = {
        "flights": every.flights,
        "hours": every.duration_s,
        "cycles": every.cycles,
        "charges": every.charges,
        "flying_days": every.flying_days,
        "months": every.months,
        "days": every.days,
        "years": every.years,
    }
    return {unit: value for unit, value in named.items() if value is not None}


def _sides(
    ground: Ground, rule: TaskRule, life: Life, pace: Pace | None, accepted: Sequence[Job]
) -> list[Side]:
    tolerance = _intervals(rule.tolerance)
    sides: list[Side] = []
    for unit, size in _intervals(rule.every).items():
        if unit in COUNTED:
            sides.append(
                _counted(ground, rule, unit, _ticks(unit, size), tolerance, life, pace, accepted)
            )
        else:
            day = _due_day(rule, unit, int(size), life, accepted)
            if day is not None:
                sides.append(_dated(ground, unit, day, int(size), tolerance))
    return sides


def _ticks(unit: str, size: float) -> int:
    return round(size) if unit == "hours" else round(size * PER_UNIT[unit])


def _counted(
    ground: Ground,
    rule: TaskRule,
    unit: str,
    interval: int,
    tolerance: Mapping[str, float],
    life: Life,
    pace: Pace | None,
    accepted: Sequence[Job],
) -> Side:
    dones = [life.ticks(unit, job.what.seq) for job in accepted]
    due = due_count(rule.counted_from, dones, interval)
    left = due - life.ticks(unit)
    if unit in ("flights", "charges", "flying_days"):
        soon = min(ground.keeper.soon_flights, max(1, interval // 10))
    else:
        soon = interval // 10
    late = _ticks(unit, tolerance.get(unit, 0))
    state = _side_state(left, soon, late)
    size = left / PER_UNIT[unit]
    expected = None if pace is None or left <= 0 else window(pace, unit, size, ground.as_of)
    return Side(unit, state, size, left / interval, None, expected)


def _due_day(
    rule: TaskRule, unit: str, size: int, life: Life, accepted: Sequence[Job]
) -> datetime.date | None:
    days = [job.what.on for job in accepted]
    start = life.began
    if start is None:
        if not days:
            return None
        start, days = days[0], days[1:]
    return due_day(rule.counted_from, start, days, _step(unit, size))


def _step(unit: str, size: int) -> Step:
    if unit == "days":
        return Step(days=size)
    return Step(months=size * 12 if unit == "years" else size)


def _dated(
    ground: Ground, unit: str, day: datetime.date, size: int, tolerance: Mapping[str, float]
) -> Side:
    left = (day - ground.as_of).days
    late = 0
    for other in ("days", "months", "years"):
        if other in tolerance:
            late = max(late, (_step(other, int(tolerance[other])).after(day) - day).days)
    state = _side_state(left, ground.keeper.soon_days, late)
    length = (_step(unit, size).after(day) - day).days
    expected = Window(day, day) if left > 0 else None
    return Side(unit, state, left, left / max(1, length), day, expected)


def _side_state(left: int, soon: int, late: int) -> RowState:
    if left > soon:
        return "ok"
    if left > 0:
        return "due soon"
    if left == 0:
        return "due"
    return "in tolerance" if -left <= late else "overdue"


def _first(sides: Sequence[Side]) -> Side | None:
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


def _left_unit(unit: str) -> str:
    return "days" if unit in ("months", "years") else unit


def _left(sides: Sequence[Side]) -> dict[str, float]:
    left: dict[str, float] = {}
    for side in sides:
        unit = _left_unit(side.unit)
        left[unit] = min(side.left, left.get(unit, side.left))
    return left


def _expected(sides: Sequence[Side], state: RowState) -> tuple[datetime.date, datetime.date] | None:
    """Nothing is expected of what is due already, nor where a unit's own rate is not known."""
    if state not in ("ok", "due soon"):
        return None
    known = [side.expected for side in sides if side.expected is not None]
    return sooner(known) if len(known) == len(sides) else None


def _entry(because: Because, job: Job) -> Because:
    what = job.what
    return Because(why=because.why, unit=because.unit, entry=what.uid, on=what.on, place=what.place)


def _filled(because: Because | None, subject: Subject) -> Because | None:
    if because is None:
        return None
    return Because(
        why=because.why,
        unit=because.unit,
        trigger=because.trigger,
        entry=because.entry,
        on=because.on,
        place=because.place,
        tag=subject.tag,
        station=subject.station,
    )


def _place(subject: Subject, because: Because | None, done: Job | None) -> Place:
    if because is not None and because.place is not None:
        return because.place
    return subject.place if done is None else done.what.place


def _what(
    rule: TaskRule, subject: Subject, state: RowState, first_by: str | None, left: dict[str, float]
) -> str:
    said = about(rule.task, subject.tag)
    if state == "open":
        return f"{said} is done, not yet checked"
    return stands(said, state, first_by, left)


def _rank(state: RowState) -> int:
    return {
        "failed": ranks.FAILED_CHECK,
        "stale": ranks.OVERDUE_TASK,
        "overdue": ranks.OVERDUE_TASK,
        "open": ranks.OVERDUE_TASK,
        "never done": ranks.NOT_RECORDED,
        "in tolerance": ranks.IN_TOLERANCE,
        "due": ranks.DUE,
        "due soon": ranks.DUE_SOON,
    }.get(state, ranks.FINE)
