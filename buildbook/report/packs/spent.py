"""When the readings of a pack end its life: two running under like conditions, not one alone.

One alone asks to be read again, or is enough where its entry is sure. What is reached stays
reached, whatever is read later, until the keeper writes why the pack stays in service.
"""

from collections.abc import Callable, Sequence
from typing import Generic, NamedTuple, TypeVar

from buildbook.report.history import CapacityDone, ChargeDone
from buildbook.report.packs.like_conditions import (
    like_before,
    of_capacity,
    of_charges,
    resistances,
    resistances_at,
)
from buildbook.report.state import ItemNow

Read = TypeVar("Read", CapacityDone, ChargeDone)


class Spent(NamedTuple, Generic[Read]):
    """reached: the reading by which it was. again: one alone that should be read again.

    first: what the reading named is compared with, of a resistance. since: the newest one after
    it that may be compared with it.
    """

    reached: Read | None = None
    again: Read | None = None
    first: Read | None = None
    since: Read | None = None


def spent_capacity(pack: ItemNow, share: float) -> Spent[CapacityDone]:
    """Below that share of the rated capacity, in whole mAh."""
    done = pack.capacities
    before = like_before(done, lambda one: of_capacity(pack, one))
    return _walked(pack, done, before, lambda _, one: pack.is_below(share, one))


def spent_resistance(pack: ItemNow, most: float) -> Spent[ChargeDone]:
    """A cell at that share of its first reading under like conditions, or above it."""
    read = [charge for _, charge in resistances(pack)]
    before = like_before(read, of_charges(pack))
    return _walked(pack, read, before, lambda first, one: has_grown(pack, first, one, most))


def has_grown(pack: ItemNow, first: ChargeDone, last: ChargeDone, most: float) -> bool:
    """Whether a cell reads so many times its first reading, or more, in whole µΩ."""
    least_uohm = min(resistances_at(pack, first, last.temperature_k)) * 1e6
    if max(last.resistance_ohm) * 1e6 + 1 < (least_uohm - 1) * most:
        return False  # whatever the rounding: no cell has come near
    grown = growth(pack, first, last)
    return grown is not None and round(grown[1] * 1000) >= round(grown[0] * most * 1000)


def growth(pack: ItemNow, first: ChargeDone, last: ChargeDone) -> tuple[int, int] | None:
    """The cell that has grown most, first and last, in µΩ; None: they cannot be compared.

    The first is brought to the temperature of the last.
    """
    if len(first.resistance_ohm) != len(last.resistance_ohm) or min(first.resistance_ohm) <= 0:
        return None
    pairs = [
        (round(then * 1e6), round(now * 1e6))
        for then, now in zip(
            resistances_at(pack, first, last.temperature_k), last.resistance_ohm, strict=True
        )
    ]
    return max(pairs, key=lambda pair: pair[1] / pair[0])


def _walked(
    pack: ItemNow,
    read: Sequence[Read],
    before: Sequence[Sequence[int]],
    at_limit: Callable[[Read, Read], bool],
) -> Spent[Read]:
    """Walk through the readings; the keeper's word begins anew."""
    words = [word.seq for word in pack.kept]
    found: Spent[Read] = Spent()
    begun = 0  # the first reading since the keeper's last word
    for index, one in enumerate(read):
        if words and index and any(read[index - 1].seq < seq < one.seq for seq in words):
            found, begun = Spent(), index
        first = read[before[index][0]] if before[index] else one
        if found.reached is not None:
            if _goes_on(read, before[index], found.reached):
                found = found._replace(since=one)
        elif not at_limit(first, one):
            if found.again is not None and _goes_on(read, before[index], found.again):
                found = Spent()
        else:
            last = next((at for at in reversed(before[index]) if at >= begun), None)
            twice = last is not None and at_limit(first, read[last])
            if twice or one.sure:
                found = Spent(reached=one, first=first)
            elif before[index] or index == 0:
                found = Spent(again=one, first=first)
    after = read[-1].seq if read else 0
    return Spent() if any(seq > after for seq in words) else found


def _goes_on(read: Sequence[Read], before: Sequence[int], one: Read) -> bool:
    """Whether a reading is of the series of another, by those before it."""
    return any(read[at] is one for at in before)
