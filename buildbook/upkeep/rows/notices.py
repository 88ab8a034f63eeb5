"""Notices by spec: open on every part of that spec until an entry closes them (R28).

What was done before the day of issue does not count: a later revision asks for it again.
"""

import datetime
from collections.abc import Iterable

from buildbook.records.notices import Notice
from buildbook.records.programmes import TaskRule
from buildbook.report.history import Completion
from buildbook.report.state import ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import Revised
from buildbook.report.upkeep.programme import Applied
from buildbook.report.upkeep.work import Because, Row
from buildbook.upkeep.context import Context, Subject
from buildbook.upkeep.counted.expected import Pace
from buildbook.upkeep.counted.life import Life
from buildbook.upkeep.rows.tasks import task_row


def by_spec(notices: Iterable[Notice], as_of: datetime.date) -> dict[str, list[Notice]]:
    """The notices that were issued by a day, by the spec that they are about."""
    found: dict[str, list[Notice]] = {}
    for notice in notices:
        if notice.issued <= as_of:
            for spec in dict.fromkeys(notice.specs):
                found.setdefault(spec, []).append(notice)
    return found


def notice_row(
    context: Context, notice: Notice, subject: Subject, life: Life, pace: Pace | None, item: ItemNow
) -> Row:
    """The row of one notice for one item; a recurring one is counted from when it was done."""
    rule = _as_task(notice, item)
    done = [
        look for look in item.inspections if look.name == notice.notice and look.on >= notice.issued
    ]
    if not done:
        return _open(notice, rule, subject)
    if done[-1].result == "not applicable":
        return _not_applicable(rule, subject, done[-1])
    jobs = [look for look in done if look.result != "not applicable"]
    return task_row(context, Applied(rule), subject, life, pace, jobs, None)


def _as_task(notice: Notice, item: ItemNow) -> TaskRule:
    """A notice is worked off like a task of the programme."""
    return TaskRule(
        file=notice.file,
        line=notice.line,
        lines=notice.lines,
        task=notice.notice,
        what=notice.what,
        each=item.spec.kind,
        every=notice.every,
        counted_from="done",
        grounds=notice.grounds,
        basis=notice.source,
    )


def _open(notice: Notice, rule: TaskRule, subject: Subject) -> Row:
    return Row(
        aircraft=subject.aircraft,
        kind="task",
        name=notice.notice,
        tag=subject.tag,
        station=subject.station,
        state="due",
        because=subject.told(
            Because(
                why="notice",
                on=notice.issued,
                place=notice.place(),
                found=None if notice.revision is None else Revised(revision=notice.revision),
            )
        ),
        place=notice.place(),
        grounds=notice.grounds,
        rule=rule,
        rank=ranks.OVERDUE_TASK if notice.grounds else ranks.DUE,
    )


def _not_applicable(rule: TaskRule, subject: Subject, done: Completion) -> Row:
    return Row(
        aircraft=subject.aircraft,
        kind="task",
        name=rule.task,
        tag=subject.tag,
        station=subject.station,
        state="not applicable",
        because=subject.told(Because(why="notice").by(done)),
        place=done.place,
        rule=rule,
        by=done.by,
        checked_by=done.checked_by,
        rank=ranks.NOT_APPLICABLE,
    )
