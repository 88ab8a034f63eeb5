"""Flights that were entered with a pack unlike all that the aircraft flew on: perhaps another's."""

from collections.abc import Iterator, Sequence, Set

from buildbook.basis.amounts import count
from buildbook.desk.placing import Written
from buildbook.records.entries import Flight
from buildbook.records.ledger import Ledger


def unlike_packs(written: Sequence[Written], before: Ledger, after: Ledger) -> tuple[str, ...]:
    """A sentence for each pack with another count of cells than those flown before."""
    new = {f"{each.file}#{each.id}" for each in written}
    flights = [one for one in after.entries if isinstance(one, Flight) and one.uid in new]
    if not flights:
        return ()
    flown: dict[str | None, set[int]] = {one.aircraft: set() for one in flights}
    for old in before.entries:
        if isinstance(old, Flight) and old.aircraft in flown:
            flown[old.aircraft].update(_cells_of(old, before).values())
    told = (words for one in flights for words in _told(one, flown[one.aircraft], before))
    return tuple(dict.fromkeys(told))


def _told(flight: Flight, flown: Set[int], ledger: Ledger) -> Iterator[str]:
    for tag, cells in _cells_of(flight, ledger).items() if flown else ():
        if cells not in flown:
            usual = " or ".join(map(str, sorted(flown)))
            yield f"{tag} has {count('cell', cells)}, {flight.aircraft} flew on {usual} before"


def _cells_of(flight: Flight, ledger: Ledger) -> dict[str, int]:
    """The cells in series of each pack of it, as far as they are known."""
    found = {tag: _cells(tag, ledger) for row in flight.rows for tag in row.packs}
    return {tag: cells for tag, cells in found.items() if cells is not None}


def _cells(tag: str, ledger: Ledger) -> int | None:
    item = ledger.items.get(tag)
    spec = None if item is None else ledger.specs.get(item.spec)
    return None if spec is None or spec.cells is None else spec.cells.series
