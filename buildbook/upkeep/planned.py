"""Before a flight: what is not due yet, but falls due during it."""

from buildbook.report import ranks
from buildbook.report.state import Hangar
from buildbook.report.work import Row, WorkList


def falls_due(
    listed: WorkList, hangar: Hangar, slug: str, duration_s: float, packs: tuple[str, ...] = ()
) -> tuple[Row, ...]:
    """Rows of an aircraft, and of the packs to be flown, that this flight would bring to due.

    duration_s: the planned flight, compared in whole seconds. A row that reaches its limit just
    at the end of the flight counts. What is due already is in the work list as it stands.
    Source: AMC M.A.301(a), nothing overdue or falling due during the flight.
    """
    flown_today = bool(hangar.aircraft[slug].flights) and (
        hangar.aircraft[slug].flights[-1].on == hangar.as_of
    )
    return tuple(
        row
        for row in listed.rows
        if (row.aircraft == slug or (row.aircraft is None and row.tag in packs))
        and row.rank in (ranks.DUE_SOON, ranks.FINE, ranks.NOTED)
        and _reached(row, duration_s, flown_today)
    )


def _reached(row: Row, duration_s: float, flown_today: bool) -> bool:
    left = row.left
    if "hours" in left and round(left["hours"] * 3600) <= round(duration_s):
        return True
    if "flights" in left and left["flights"] <= 1:
        return True
    return "flying_days" in left and left["flying_days"] <= 1 and not flown_today
