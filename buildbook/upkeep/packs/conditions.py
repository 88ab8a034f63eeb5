"""Marks on the page of a pack: readings that cannot be compared, and conditions not recorded."""

from collections.abc import Iterator, Sequence

from buildbook.report.history import CapacityDone, ChargeDone
from buildbook.report.packs.like_conditions import (
    Conditions,
    like_capacities,
    like_resistances,
    of_capacity,
    of_charges,
    resistances,
)
from buildbook.report.state import ItemNow
from buildbook.report.upkeep.pack_findings import CannotCompare
from buildbook.report.upkeep.work import Reason
from buildbook.upkeep.packs.rows import found_note

Unlike = tuple[CapacityDone | ChargeDone, tuple[str, ...]]


def unlike_notes(pack: ItemNow) -> Iterator[Reason]:
    """One for the last capacity and resistance that stand apart; one for what is taken as like."""
    capacities: list[Unlike] = [*like_capacities(pack).unlike]
    charges: list[Unlike] = [(one, differs) for (_, one), differs in like_resistances(pack).unlike]
    for of, unlike in (("capacity", capacities), ("resistance", charges)):
        if unlike:
            reading, differs = unlike[-1]
            found = CannotCompare(of=of, differs=differs, on=reading.on)
            yield found_note(pack, reading, found)
    yield from _taken_as_like(pack)


def _taken_as_like(pack: ItemNow) -> Iterator[Reason]:
    """Said once, where two readings are compared of which one has a condition and one not."""
    charges = [one for _, one in resistances(pack)]
    read: tuple[tuple[str, Sequence[CapacityDone | ChargeDone], list[Conditions]], ...] = (
        ("capacity", pack.capacities, [of_capacity(pack, one) for one in pack.capacities]),
        (
            "resistance",
            charges,
            [*map(of_charges(pack), charges)],
        ),
    )
    for of, done, conditions in read:
        if len(done) > 1 and any(_unrecorded(of, one) for one in conditions):
            yield found_note(pack, done[-1], CannotCompare(of=of))


def _unrecorded(of: str, conditions: Conditions) -> bool:
    known = conditions[:1] if of == "resistance" else conditions
    return None in known
