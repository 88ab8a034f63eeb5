"""What check says of dangers and open rows; apart from other words, which take long to load."""

from collections.abc import Iterable

from buildbook.basis import amounts
from buildbook.basis.problems import SURE, Problem, Problems
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.findings import ReadOtherwise, Unread, WithoutLink, WrongHand
from buildbook.report.upkeep.work import PackStanding, Reason, Row, Standing, WorkList


def with_dangers(problems: Iterable[Problem], rows: Iterable[Row]) -> tuple[Problem, ...]:
    """All of them by place. rows: those that are warnings as well."""
    return tuple(Problems((*problems, *map(_warning, rows))))


def _warning(row: Row) -> Problem:
    found = None if row.because is None else row.because.found
    what = getattr(row.rule, "what", None)
    if isinstance(found, Unread):
        sure = f"; {SURE} if it is in order" if row.kind == "check" and row.done_uid else ""
        what = f"write {found.wanted}{sure}"
    return Problem(
        f"{row.aircraft}: {_fault(row)}", row.place, "warning", hint=what, about=row.aircraft
    )


_AT_STATIONS = (WrongHand, ReadOtherwise, Unread)


def _fault(row: Row) -> str:
    """What is wrong, in one clause."""
    from buildbook.words.measures.days import EXACT  # all words of rows: only where one is told
    from buildbook.words.reasons import RUNS_ON, finding_words, row_words

    found = None if row.because is None else row.because.found
    if found is None:
        return row_words(row, EXACT)
    if isinstance(found, WithoutLink):
        return RUNS_ON
    words = finding_words(found, EXACT)
    return f"{row.station}: {words}" if row.station and isinstance(found, _AT_STATIONS) else words


_MOST_NAMED = 6
_KEPT = ("grounded", "quarantined")


def open_rows(work: WorkList) -> str:
    """What must not be taken, and how much is open: that files agree does not say that all is well.

    ``Grounded or set aside: Sedge, P-03. 12 rows are open or due; run: buildbook due``.
    """
    standings: tuple[Standing | PackStanding, ...] = (*work.aircraft, *work.packs)
    kept = [one.name for one in work.aircraft if one.state == "grounded"]
    kept += [one.tag for one in work.packs if one.state in _KEPT]
    more = len(kept) - _MOST_NAMED
    named = kept[:_MOST_NAMED] + ([f"{more} more"] if more > 0 else [])
    aside = f"Grounded or set aside: {amounts.listed(named)}. " if kept else ""
    count = sum(_is_open(each, one) for each in standings for one in each.reasons)
    if count:
        rows = "1 row is" if count == 1 else f"{count} rows are"
        return f"{aside}{rows} open or due; run: buildbook due"
    listed: list[Reason | Row] = [
        *work.rows,
        *(one for each in work.aircraft for one in each.reasons),
    ]
    if all(one.rank >= ranks.FINE for one in listed):
        return f"{aside}Nothing {'else ' if kept else ''}is open or due in this record."
    return f"{aside}For what is open or due, run: buildbook due"


def _is_open(of: Standing | PackStanding, reason: Reason) -> bool:
    """Not that its keeper took a pack out of service: nothing is to be done about that."""
    own = isinstance(of, PackStanding) and reason.because.why == "item state"
    return reason.rank <= ranks.DUE and not own


def failed_so_far(rows: Iterable[Row]) -> str:
    """Which checks failed of an aircraft that is being built; empty for none.

    Of such a one nothing is due, so no row says it.
    """
    failed = dict.fromkeys(row.name for row in rows if row.state == "failed")
    return f"Failed, and not passed since: {amounts.listed([*failed])}." if failed else ""
