"""What stands in the calendar."""

import datetime

from buildbook.report.upkeep.work import Row
from buildbook.reporting.whole import Whole


def dated_work(whole: Whole) -> tuple[Row, ...]:
    """Rows of the work list with a day of their own, by day, aircraft and name."""
    rows = [row for row in whole.work.rows if row.due_on and row.state != "not applicable"]
    return tuple(sorted(rows, key=_order))


def _order(row: Row) -> tuple[datetime.date, str, str, str, str, str]:
    due_on = row.due_on or datetime.date.min
    return (due_on, row.aircraft or "", row.kind, row.name, row.tag or "", row.station or "")
