"""Looks that follow an event once: screws again three flights after a motor was fitted.

A look counts once so many flights were flown since the event: before that it comes too soon to
tell. Each event asks for a look of its own, and one look answers all that are far enough back.
What was fitted before an aircraft first flew is a new build: any look after it answers for that.
"""

from collections.abc import Iterable, Sequence
from functools import partial
from typing import Literal

import msgspec

from buildbook.records.programmes import Follows, TaskRule
from buildbook.report.history import Completion, Event
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.programme import Applied
from buildbook.report.upkeep.work import Because, Row, RowState
from buildbook.upkeep.context import Context, Subject
from buildbook.upkeep.counted.counting import side_state
from buildbook.upkeep.counted.expected import Pace, sooner, window
from buildbook.upkeep.counted.life import Life
from buildbook.upkeep.rows.tasks import rank_of
from buildbook.upkeep.rows.triggers import matches


def follow_up_row(
    context: Context,
    applied: Applied[TaskRule],
    follows: Follows,
    subject: Subject,
    life: Life,
    pace: Pace | None,
    jobs: Sequence[Completion],
    events: Iterable[Event],
) -> Row | None:
    """The row for the oldest event that nobody looked after yet; None before the first event."""
    rule = applied.rule
    asked = [event for event in events if any(matches(one, event) for one in follows.after)]
    if not asked:
        return None
    jobs = [job for job in jobs if job.result == "pass" or _own(rule, job)]
    passed = [job for job in jobs if job.result == "pass"]
    accepted = [job for job in passed if job.seconded or not rule.second_person]
    fine = _row(applied, subject, accepted)
    if jobs and jobs[-1].result == "fail":
        return _told(fine, "failed", _by_job("failed", jobs[-1], subject))
    answered = partial(_answered, life, follows, subject)
    waiting = [one for one in asked if not answered(one, accepted)]
    if not waiting:
        return fine
    if all(answered(one, passed) for one in waiting):
        return _told(fine, "open", _by_job("second person", passed[-1], subject))
    first = min(waiting, key=lambda event: event.seq)
    flown = life.ticks("flights") - life.ticks("flights", first.seq)
    left = follows.flights - flown
    soon = min(context.keeper.soon_flights, max(1, follows.flights // 10))
    coming = None if pace is None or left <= 0 else window(pace, "flights", left, context.as_of)
    state = side_state(left, soon, rule.tolerance.flights or 0)
    row = msgspec.structs.replace(
        fine,
        first_by="flights",
        left={"flights": float(left)},
        expected=None if coming is None else sooner([coming]),
        used=flown / follows.flights,
    )
    return _told(row, state, _by_event(follows, first, subject))


def _own(rule: TaskRule, job: Completion) -> bool:
    """Whether a look was this one: a larger one that failed has its own row to say so."""
    return job.by_entry == "inspection" and job.name == rule.task


def _answered(
    life: Life, follows: Follows, subject: Subject, event: Event, jobs: Iterable[Completion]
) -> bool:
    flown = life.ticks("flights", event.seq)
    new_build = subject.tag is None and event.event == "fit" and not flown
    due = flown + (0 if new_build else follows.flights)
    return any(
        job.seq > event.seq
        and life.ticks("flights", job.seq) >= due
        and (not job.stations or (event.stations and set(event.stations) <= set(job.stations)))
        for job in jobs
    )


def _by_event(follows: Follows, event: Event, subject: Subject) -> Because:
    trigger = next(one for one in follows.after if matches(one, event))
    return subject.told(Because(why="trigger", unit="flights", trigger=trigger).by(event))


def _by_job(why: Literal["failed", "second person"], job: Completion, subject: Subject) -> Because:
    return subject.told(Because(why=why).by(job))


def _row(applied: Applied[TaskRule], subject: Subject, accepted: Sequence[Completion]) -> Row:
    """The row where nothing waits."""
    rule, usual = applied.rule, applied.usual
    done = accepted[-1] if accepted else None
    return Row(
        aircraft=subject.aircraft,
        kind="task",
        name=rule.task,
        tag=subject.tag,
        station=subject.station,
        state="ok",
        place=subject.place if done is None else done.place,
        rule=rule,
        usual=usual,
        looser=applied.looser,
        rank=ranks.FINE,
    ).last_done(done)


def _told(row: Row, state: RowState, because: Because) -> Row:
    """The row in another state, with why and how bad that is."""
    grounds = isinstance(row.rule, TaskRule) and row.rule.grounds
    rank = ranks.DUE if state == "open" else rank_of(state, grounds)
    return msgspec.structs.replace(
        row,
        state=state,
        because=None if state == "ok" else because,
        place=row.place if state == "ok" else because.place or row.place,
        grounds=rank < ranks.CHECK_FLIGHT,
        rank=rank,
    )
