"""A pack that was never flown nor charged: on the shelf only the calendar runs."""

from buildbook.basis.days import add_months
from buildbook.hangar.packs.limits import LITHIUM
from buildbook.report.history import Recorded
from buildbook.report.state import ItemNow
from buildbook.report.upkeep.pack_findings import OnShelf
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.context import Context
from buildbook.upkeep.packs.rows import READ_AT_REST, found_row

SHELF_MONTHS = 6
"""A lithium pack on the shelf: its cells are read so often. Common practice, no source."""


def lies_new(pack: ItemNow) -> bool:
    """Whether nothing was done with it yet: no flight, no charge, no life before these records."""
    return not (pack.flights or pack.charges or pack.item.carried or pack.events)


def shelf_rows(context: Context, pack: ItemNow) -> list[Row]:
    """Lithium: its cells read after six months, counted from when it came or was last read."""
    came = pack.item.acquired or pack.born
    read = [
        *(reading.on for reading in pack.rests),
        *(look.on for look in pack.inspections if look.result == "pass"),
    ]
    since = max([*read, *([] if came is None else [came])], default=None)
    if since is None or pack.spec.chemistry not in LITHIUM:
        return []
    if context.as_of < add_months(since, SHELF_MONTHS):
        return []
    seen = Recorded(seq=-1, on=since, uid="", place=pack.item.place("acquired"))
    return [found_row(pack, READ_AT_REST, seen, OnShelf(months=SHELF_MONTHS))]
