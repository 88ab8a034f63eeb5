"""One job, one row: what a larger look closes as well stays quiet while that one is open."""

from collections.abc import Iterable, Sequence

import msgspec

from buildbook.records.programmes import CheckRule, TaskRule
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import CoveredBy
from buildbook.report.upkeep.work import Because, Row


def without_covered(rows: Iterable[Row]) -> list[Row]:
    """The rows of one aircraft or pack; what a larger look closes is not asked for beside it.

    The larger look must be due itself, or at least as bad.

    What grounds or failed is never covered: that closes by its own name alone. A larger look that
    failed covers nothing, as what it found is mended in the smaller ones first.
    """
    rows = list(rows)
    larger = [row for row in rows if _asked_for(row) and _covers(row)]
    return [_quieted(row, larger) for row in rows] if larger else rows


def _asked_for(row: Row) -> bool:
    """Open, or said not to apply: then neither does what it covers. What failed covers nothing."""
    away = row.because is not None and row.because.why == "not here"
    return (row.rank < ranks.FINE and row.state != "failed") or away


def _covers(row: Row) -> tuple[str, ...]:
    return row.rule.covers if isinstance(row.rule, CheckRule | TaskRule) else ()


def _quieted(row: Row, larger: Sequence[Row]) -> Row:
    if row.kind != "task" or row.rank >= ranks.FINE or row.grounds or row.state == "failed":
        return row
    for other in larger:
        if other.tag not in (None, row.tag) or row.name == other.name:
            continue
        away = other.state == "not applicable"
        if other.rank > max(row.rank, ranks.DUE) and not away:
            continue
        if row.name in _covers(other):
            return msgspec.structs.replace(
                row,
                state="not applicable",
                because=Because(
                    why="covered",
                    place=other.place,
                    tag=row.tag,
                    station=row.station,
                    found=CoveredBy(task=other.name),
                ),
                rank=ranks.NOT_APPLICABLE,
            )
    return row
