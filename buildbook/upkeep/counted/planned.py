"""Before a flight: what is not due yet, but falls due during it."""

from buildbook.basis.counting import UNITS
from buildbook.report.state import Hangar
from buildbook.report.tally import Flown
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.work import Row, WorkList


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
    brings = Flown(duration_s, 1, 0 if flown_today else 1)
    return tuple(
        row
        for row in listed.rows
        if (row.aircraft == slug or (row.aircraft is None and row.tag in packs))
        and reached_by(row, brings)
    )


def reached_by(row: Row, brings: Flown) -> bool:
    """Whether flying that much brings a row to due that is not so yet; just at its end counts."""
    if row.rank not in ranks.NOT_DUE:
        return False
    for key, left in row.left.items():
        unit = UNITS.get(key)
        if unit is None or unit.counts != "flying":
            continue
        brought = unit.in_ticks(getattr(brings, unit.counter))
        if brought and round(left * unit.ticks) <= brought:
            return True
    return False
