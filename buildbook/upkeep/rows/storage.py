"""Storage charge: due when a pack was charged full and then not flown."""

import msgspec

from buildbook.records.programmes import TaskRule
from buildbook.records.row_names import STORAGE_CHARGE
from buildbook.report.history import ChargeDone
from buildbook.report.state import ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.programme import Applied
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.context import Context, Subject
from buildbook.upkeep.counted.completions import completed_by
from buildbook.upkeep.counted.life import Life
from buildbook.upkeep.rows.tasks import task_row

RESTS_FULL = ("NiMH", "LiFe")
"""These may lie full. Common practice, no source."""

OVERDUE_DAYS = 7
"""Before so many days a full pack that waits for weather is due, not overdue (danger B9)."""


def storage_row(
    context: Context, applied: Applied[TaskRule], subject: Subject, life: Life, pack: ItemNow
) -> Row:
    """Counted from the full charge. It is never soon: a pack is charged to be flown.

    Past due it grounds nothing, as flying is a remedy too.
    """
    full = None if pack.spec.chemistry in RESTS_FULL else waiting_since(pack)
    rule = msgspec.structs.replace(applied.rule, counted_from="done")
    if full is None:
        return Row(
            aircraft=subject.aircraft,
            kind="task",
            name=rule.task,
            tag=subject.tag,
            state="ok",
            place=subject.place,
            rule=applied.rule,
            looser=applied.looser,
            rank=ranks.FINE,
        )
    row = task_row(
        context,
        Applied(rule, applied.usual, applied.looser),
        subject,
        life,
        None,
        [completed_by(full, STORAGE_CHARGE)],
        None,
    )
    soon = row.state in ("ok", "due soon")
    waited = (context.as_of - full.on).days
    if not soon and waited < OVERDUE_DAYS:
        row = msgspec.structs.replace(row, state="due", rank=ranks.DUE)
    return msgspec.structs.replace(
        row,
        state="ok" if soon else row.state,
        because=None if soon else row.because,
        grounds=False,
        grounds_from=None,
        rank=ranks.FINE if soon else max(row.rank, ranks.DUE),
        rule=applied.rule,
        done_on=None,
        done_uid=None,
        done_place=None,
    )


def waiting_since(pack: ItemNow) -> ChargeDone | None:
    """The full charge that was not flown since, if that is how the pack lies there."""
    if not pack.charges or pack.charges[-1].to != "full":
        return None
    last = pack.charges[-1]
    if pack.flights and pack.flights[-1].seq > last.seq:
        return None
    if pack.capacities and pack.capacities[-1].seq > last.seq:
        return None  # measured: what it held came out
    if any(
        done.name == STORAGE_CHARGE and done.result == "pass" and done.seq > last.seq
        for done in pack.inspections
    ):
        return None  # written as the task that it is
    return last
