"""The set-up checks of an aircraft."""

from collections.abc import Iterable

import msgspec

from buildbook.records.programmes import CheckRule
from buildbook.report.upkeep.work import Row
from buildbook.reporting.whole import Whole
from buildbook.upkeep.work_list import set_up


def set_up_checks(whole: Whole, slug: str) -> tuple[Row, ...]:
    """As the work list has them; of an aircraft that isn't flying, worked out all the same.

    A failsafe that was tested again since, as a recurring task, says so on its check.
    """
    rows = tuple(row for one in whole.work.aircraft if one.slug == slug for row in one.rows)
    checks = tuple(row for row in rows if row.kind == "check") or set_up(whole.hangar, slug)
    return tuple(_with_later_pass(check, rows) for check in checks)


def _with_later_pass(check: Row, rows: Iterable[Row]) -> Row:
    if not isinstance(check.rule, CheckRule) or check.station or check.tag:
        return check
    later = [
        (row.done_on, row.done_uid)
        for row in rows
        if row.kind == "task" and row.name in check.rule.covers and row.done_on is not None
        if check.done_on is None or row.done_on > check.done_on
    ]
    if not later:
        return check
    again_on, again_uid = max(later, key=lambda one: one[0])
    return msgspec.structs.replace(check, again_on=again_on, again_uid=again_uid)


_OPEN = ("never done", "trigger", "failed", "reading", "second person")
"""Why a check of the programme is open; other rows of this kind are closed by mending a record."""


def open_checks(whole: Whole, slug: str) -> tuple[CheckRule, ...]:
    """The set-up checks of an aircraft that are still to do, a rule for each open row of them.

    The check flight is not one: it comes after them.
    """
    return tuple(
        row.rule
        for row in whole.reports.set_up_checks(slug)
        if isinstance(row.rule, CheckRule) and row.because and row.because.why in _OPEN
    )
