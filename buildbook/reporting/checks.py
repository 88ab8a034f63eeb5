"""The set-up checks of an aircraft."""

from buildbook.report.work import Row
from buildbook.reporting.whole import Whole
from buildbook.upkeep.work_list import set_up


def set_up_checks(whole: Whole, slug: str) -> tuple[Row, ...]:
    """As the work list has them; of an aircraft that isn't flying, worked out all the same."""
    rows = (row for one in whole.work.aircraft if one.slug == slug for row in one.rows)
    return tuple(row for row in rows if row.kind == "check") or set_up(whole.hangar, slug)
