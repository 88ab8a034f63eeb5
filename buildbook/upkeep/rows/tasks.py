"""Recurring tasks: whichever of their units comes first decides."""

from collections.abc import Sequence

import msgspec

from buildbook.basis.counting import UNITS, Interval
from buildbook.basis.place import Place
from buildbook.records.programmes import TaskRule
from buildbook.report.history import Completion
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.programme import Applied
from buildbook.report.upkeep.work import Because, Row, RowState
from buildbook.upkeep.context import Context, Subject
from buildbook.upkeep.counted.completions import failed_as
from buildbook.upkeep.counted.counting import (
    Side,
    all_told,
    expected_of,
    first_of,
    left_of,
    sides_of,
)
from buildbook.upkeep.counted.expected import Pace
from buildbook.upkeep.counted.life import Life
from buildbook.upkeep.rows.triggers import Reopened, reopens


def comes_round(rule: TaskRule) -> bool:
    """Whether a task can fall due; one of a moment (``before each flight``) never does."""
    if rule.follows is not None or rule.also_after:
        return True
    return rule.when is None or rule.every != Interval()


def task_row(
    context: Context,
    applied: Applied[TaskRule],
    subject: Subject,
    life: Life,
    pace: Pace | None,
    jobs: Sequence[Completion],
    reopened: Reopened | None,
) -> Row:
    """The row of one task for one aircraft or item. ``jobs``: every doing, oldest first."""
    rule = applied.rule
    accepted = [
        job for job in jobs if job.result == "pass" and (job.seconded or not rule.second_person)
    ]
    sides = sides_of(context, rule, life, pace, accepted)
    first = first_of(sides)
    state, because = _state(rule, jobs, accepted, reopened, sides, first)
    rank = rank_of(state, rule.grounds)
    waits = _waits_for_second(jobs, accepted, reopened)
    if waits is not None:
        state, because = "open", Because(why="second person").by(waits)
        rank = min(rank, ranks.DUE)
    because = None if because is None else subject.told(because)
    done = accepted[-1] if accepted else None
    row = Row(
        aircraft=subject.aircraft,
        kind="task",
        name=rule.task,
        tag=subject.tag,
        station=subject.station,
        state=state,
        because=because,
        place=_place(subject, because, done),
        grounds=rank < ranks.CHECK_FLIGHT,
        counted_from=rule.counted_from if accepted else "start",
        rule=rule,
        usual=applied.usual,
        looser=applied.looser,
        rank=rank,
    )
    # In two, as CPython takes six times as long over more than 15 keywords.
    return msgspec.structs.replace(
        row,
        first_by=None if first is None else UNITS[first.unit].left_key,
        left=left_of(sides),
        due_on=min((side.due_on for side in sides if side.due_on is not None), default=None),
        grounds_from=min((side.over_on for side in sides if side.over_on is not None), default=None)
        if rule.grounds and rank >= ranks.CHECK_FLIGHT
        else None,
        expected=expected_of(sides) if state in ("ok", "due soon") else None,
        used=max((1 - side.share_left for side in sides), default=None),
    ).last_done(done)


def _state(
    rule: TaskRule,
    jobs: Sequence[Completion],
    accepted: Sequence[Completion],
    reopened: Reopened | None,
    sides: Sequence[Side],
    first: Side | None,
) -> tuple[RowState, Because | None]:
    """How it stands by what was accepted, a second person or no second person being needed."""
    if jobs and jobs[-1].result == "fail":
        return "failed", Because(why="failed", found=failed_as(jobs[-1])).by(jobs[-1])
    done = accepted[-1] if accepted else None
    if reopened is not None and (done is None or _after(reopened, done)):
        return "stale", reopened.because
    state: RowState = "ok" if first is None else first.state
    if done is None and state in ("ok", "due soon") and not all_told(rule, sides):
        return "never done", Because(why="never done")
    if state == "ok" or first is None:
        return state, None
    because = Because(why="interval", unit=UNITS[first.unit].left_key)
    return state, because if done is None else because.by(done)


def _waits_for_second(
    jobs: Sequence[Completion], accepted: Sequence[Completion], reopened: Reopened | None
) -> Completion | None:
    """The last doing, where it passed, counts, and lacks a second person."""
    if not jobs or jobs[-1].result == "fail" or (accepted and accepted[-1] is jobs[-1]):
        return None
    last = jobs[-1]
    return None if reopened is not None and _after(reopened, last) else last


def _after(reopened: Reopened, job: Completion) -> bool:
    return reopens(reopened, job.seq, job.on, job.uid)


def _place(subject: Subject, because: Because | None, done: Completion | None) -> Place:
    if because is not None and because.place is not None:
        return because.place
    return subject.place if done is None else done.place


def rank_of(state: RowState, grounds: bool) -> int:
    """How bad it is when a task stands like that. grounds: whether being overdue or stale does."""
    late = ranks.OVERDUE_TASK if grounds else ranks.OVERDUE
    return {
        "failed": ranks.FAILED_CHECK,
        "stale": late,
        "overdue": late,
        "never done": ranks.NOT_RECORDED,
        "in tolerance": ranks.IN_TOLERANCE,
        "due": ranks.DUE,
        "due soon": ranks.DUE_SOON,
    }.get(state, ranks.FINE)


def found_task(
    aircraft: str | None,
    name: str,
    because: Because,
    place: Place,
    *,
    what: str,
    each: str,
    state: RowState = "due",
    rank: int = ranks.DUE,
) -> Row:
    """A row for a task that no programme asks for: what the log shows does. each: as of a rule."""
    return Row(
        aircraft=aircraft,
        kind="task",
        name=name,
        tag=because.tag,
        station=because.station,
        state=state,
        because=because,
        place=place,
        grounds=rank < ranks.CHECK_FLIGHT,
        rule=TaskRule(file=place.file, line=place.line, task=name, what=what, each=each),
        rank=rank,
    )
