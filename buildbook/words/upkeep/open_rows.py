"""What every check of the records says last; apart from other words, which take long to load."""

from collections.abc import Iterable

from buildbook.basis import amounts
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.work import PackStanding, Row, Standing, WorkList

_MOST_NAMED = 6
_KEPT = ("grounded", "quarantined")


def open_rows(work: WorkList) -> str:
    """What must not be taken, and how much is open: that files agree does not say that all is well.

    ``Grounded or set aside: Sedge, P-03. 12 rows are open or due; run: buildbook due``.
    """
    standings: tuple[Standing | PackStanding, ...] = (*work.aircraft, *work.packs)
    count = sum(one.rank <= ranks.DUE for each in standings for one in each.reasons)
    if not count:
        return "For what is open or due, run: buildbook due"
    kept = [one.name for one in work.aircraft if one.state == "grounded"]
    kept += [one.tag for one in work.packs if one.state in _KEPT]
    more = len(kept) - _MOST_NAMED
    named = kept[:_MOST_NAMED] + ([f"{more} more"] if more > 0 else [])
    aside = f"Grounded or set aside: {amounts.listed(named)}. " if kept else ""
    rows = "1 row is" if count == 1 else f"{count} rows are"
    return f"{aside}{rows} open or due; run: buildbook due"


def failed_so_far(rows: Iterable[Row]) -> str:
    """Which checks failed of an aircraft that is being built; empty for none.

    Of such a one nothing is due, so no row says it.
    """
    failed = dict.fromkeys(row.name for row in rows if row.state == "failed")
    return f"Failed, and not passed since: {amounts.listed([*failed])}." if failed else ""
