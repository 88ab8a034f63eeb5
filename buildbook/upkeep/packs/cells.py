"""Packs with more or fewer cells than a part of the aircraft takes that they are for."""

from collections.abc import Collection, Iterable, Iterator

import msgspec

from buildbook.hangar.packs.limits import takes
from buildbook.records.row_names import PACK_CELLS
from buildbook.report.history import Recorded
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.pack_findings import CellsOutside
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.packs.rows import found_row


def parts_against(hangar: Hangar, aircraft: AircraftNow, pack: ItemNow) -> tuple[str, ...]:
    """The tags of what is fitted there and does not take the cells of that pack."""
    fitted = (hangar.items.get(here.tag) for here in aircraft.items())
    return tuple(item.tag for item in fitted if item is not None and not takes(item, pack))


def cell_rows(hangar: Hangar, pack: ItemNow, weighed_on: Collection[str]) -> Iterator[Row]:
    """A row that grounds the pack where no aircraft takes it that it was flown or weighed on.

    weighed_on: the aircraft, by slug, that were weighed with it.
    """
    if pack.state.state != "serviceable":
        return
    known = [
        aircraft
        for aircraft in hangar.aircraft.values()
        if aircraft.status == "flying"
        and (aircraft.slug in pack.flown_on or aircraft.slug in weighed_on)
    ]
    against = [parts_against(hangar, aircraft, pack) for aircraft in known]
    if not against or not all(against):
        return
    here = known[-1]
    used: list[Recorded] = [flight for flight in here.flights if pack.tag in flight.row.packs]
    used += [weighing for weighing in here.weighings if weighing.pack == pack.tag]
    seen = max(used, key=lambda one: one.seq)
    part = hangar.items[against[-1][0]]
    yield found_row(
        pack,
        PACK_CELLS,
        seen,
        msgspec.structs.replace(outside(part, (pack,)), of=part.tag),
        why="rating",
        state="failed",
        rank=ranks.FAILED_CHECK,
    )


def outside(part: ItemNow, packs: Iterable[ItemNow]) -> CellsOutside:
    """What is said of a part and the packs that it does not take; both say their cells."""
    range_ = part.spec.cells
    assert range_ is not None
    packs = tuple(packs)
    return CellsOutside(
        packs=tuple(pack.tag for pack in packs),
        series=tuple(0 if pack.spec.cells is None else pack.spec.cells.series for pack in packs),
        least=range_.series,
        most=range_.series_most,
    )
