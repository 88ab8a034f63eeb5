"""A pack that took more than it had room for, or gave more than was left in it.

A full pack takes next to nothing, and one at storage charge gives about half: else a flight, a
charge or another pack was meant. Counters err, packs lie for weeks, and nobody hits a storage
charge to the point: limits are wide. Common practice, no source. Lithium packs only.
"""

import datetime
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from operator import attrgetter
from typing import NamedTuple, TypeVar

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.basis.problems import MEANT, SURE, Problem, either
from buildbook.hangar.packs.doubts import MOST_USED, takes_too_much
from buildbook.hangar.packs.limits import LITHIUM, limits_of, millivolts
from buildbook.records.row_names import STORAGE_CHARGE
from buildbook.report.history import ChargeDone, Completion, FlightDone, Recorded
from buildbook.report.packs.charge_tally import share_of_charge_ah, share_of_flight_ah
from buildbook.report.state import Hangar, ItemNow
from buildbook.upkeep.counted.life import END

LEAST_STORED, MOST_STORED = 0.35, 0.65
"""What a pack at storage charge holds, as shares of its capacity."""

COUNTERS = 1.15
"""What was taken out or put in is known to so much."""

ANYHOW, A_DAY = 0.15, 0.002
"""A charger puts in so much of the capacity that nobody missed, and more for each day it lay."""

NEW = 2
"""A pack charged more often than that before its first flight, or without any, is flown by somebody
who does not write it."""

EACH = 2
"""So many of one pack are told each; of more, the last with how many they are."""


_DAY = datetime.timedelta(days=1)
_Done = TypeVar("_Done", bound=Recorded)
_seq, _on, _seq_of_left = attrgetter("seq"), attrgetter("on"), attrgetter("done.seq")


class _Left(NamedTuple):
    """How a pack was left: charged full, or at storage charge by a charge or as a task."""

    full: bool
    done: ChargeDone | Completion


class _Kept(NamedTuple):
    """What the keeper writes of charges, of any pack. filled: the first that is not to storage.

    only_storage: as far as is known he writes those to storage alone, for some pack had several.
    """

    filled: int | None
    only_storage: bool

    def asked(self, seq: int) -> bool:
        """Whether a charge that is not written by then is missed."""
        return not self.only_storage if self.filled is None or self.filled > seq else True


class _Found(NamedTuple):
    reason: str
    place: Place
    hint: str
    aircraft: str | None = None


def doubted_charges(hangar: Hangar, sure: frozenset[str]) -> Iterator[Problem]:
    """Each doubt once; an entry that is sure, by its uid, is left out."""
    kept = _kept(hangar)
    for pack in hangar.items.values():
        if not pack.is_pack or pack.spec.chemistry not in LITHIUM or not pack.spec.capacity_ah:
            continue
        held_ah = max(pack.spec.capacity_ah, *(one.measured_ah for one in pack.capacities), 0.0)
        lefts = _lefts(pack)
        yield from _told(_took(pack, held_ah, lefts, sure))
        yield from _told(_without_a_flight(pack, sure))
        yield from _told(_gave(pack, held_ah, lefts, sure, kept))


def _kept(hangar: Hangar) -> _Kept:
    charges = [pack.charges for pack in hangar.items.values() if pack.is_pack]
    filled = [one.seq for each in charges for one in each if one.counts]
    often = any(sum(one.to == "storage" for one in each) > 1 for each in charges)
    return _Kept(min(filled, default=None), often)


def _told(found: Iterator[_Found]) -> Iterator[Problem]:
    """Who never writes one of both is told once a pack."""
    each = tuple(found)
    times = f", {len(each)} times in all" if len(each) > EACH else ""
    for one in each[-1:] if times else each:
        yield Problem(
            f"{one.reason}{times}",
            one.place,
            "warning",
            one.hint,
            about=one.aircraft,
            once=one.reason,
        )


def _lefts(pack: ItemNow) -> tuple[_Left, ...]:
    """When it is known how much was in it, in the order of the log."""
    known = [_Left(one.to == "full", one) for one in pack.charges if one.to in ("full", "storage")]
    stored = (one for one in pack.inspections if one.name == STORAGE_CHARGE)
    known += [_Left(False, one) for one in stored if one.result == "pass"]
    return tuple(sorted(known, key=lambda one: one.done.seq))


MANY = 3
"""So many days with a charge and no flight between: nobody charges what he does not fly. Common
practice, no source."""


def _without_a_flight(pack: ItemNow, sure: frozenset[str]) -> Iterator[_Found]:
    """Charges to fly with, on days apart, since a flight or a measurement; each row of them once.

    What was put in is not written of any of them, else that is held against what was in it.
    """
    flown = {one.on for one in (*pack.flights, *pack.capacities)}
    days = sorted(flown)
    runs: dict[int, list[ChargeDone]] = {}
    for charge in pack.charges:
        if charge.counts and charge.on not in flown:
            runs.setdefault(bisect_left(days, charge.on), []).append(charge)
    for after, run in runs.items():
        apart = {charge.on for charge in run}
        known = any(charge.put_in_ah is not None for charge in run)
        flew = pack.flights and pack.flights[0].on < run[0].on
        if flew and len(apart) >= MANY and not known and run[-1].uid not in sure:
            last = days[after - 1]
            yield _Found(
                f"{pack.tag} charged on {len(apart)} days since it was flown or measured on {last}",
                run[-1].place,
                f"write the flights between them, {either('to: storage', '--to storage')} of what"
                f" was only kept, or {SURE}",
            )


def _took(
    pack: ItemNow, held_ah: float, lefts: Sequence[_Left], sure: frozenset[str]
) -> Iterator[_Found]:
    """Charges of this pack alone. A keeper who writes no flights of it is not asked for them."""
    first_flown = pack.flights[0].seq if pack.flights else END
    unflown = bisect_left(pack.charges, first_flown, key=_seq)
    for number, charge in enumerate(pack.charges):
        put_in_ah = share_of_charge_ah(charge)
        before = bisect_left(lefts, charge.seq, key=_seq_of_left)
        if put_in_ah is None or charge.packs_together > 1 or charge.uid in sure:
            continue
        if number < unflown > NEW or takes_too_much(pack.spec, put_in_ah):
            continue
        left = lefts[before - 1] if before else None
        if number and (left is None or pack.charges[number - 1].seq > left.done.seq):
            yield from _both(pack, held_ah, pack.charges[number - 1], charge)
            continue
        if left is None:
            continue
        used_ah = _used_between_ah(pack, left, charge)
        if used_ah is None:
            continue
        missing_ah = used_ah + (0.0 if left.full else (1.0 - LEAST_STORED) * held_ah)
        days = (charge.on - left.done.on).days
        room_ah = COUNTERS * missing_ah + (ANYHOW + A_DAY * days) * held_ah
        if round(put_in_ah, 6) > round(room_ah, 6) and not _otherwise(pack, left, charge):
            yield _Found(
                f"{pack.tag} took {amounts.charge(put_in_ah)}, though {_words(left)} and"
                f" {_flown(used_ah)} since",
                charge.place,
                _flight_missing(left, charge, used_ah),
            )


def _both(pack: ItemNow, held_ah: float, first: ChargeDone, charge: ChargeDone) -> Iterator[_Found]:
    """Two charges, the first of which does not say how full it left the pack.

    Whatever was in it before, both cannot put in more than it holds and was flown between.
    """
    put_in_ah, first_ah = share_of_charge_ah(charge) or 0.0, share_of_charge_ah(first)
    if first_ah is not None and first_ah + put_in_ah <= COUNTERS * held_ah:
        return  # whatever was flown between
    left = _Left(True, first)
    used_ah = _used_between_ah(pack, left, charge)
    if first_ah is None or used_ah is None or first.to == "storage":
        return
    is_more = round(first_ah + put_in_ah, 6) > round(COUNTERS * (held_ah + used_ah), 6)
    if is_more and not _otherwise(pack, left, charge):
        yield _Found(
            f"{pack.tag} took {amounts.charge(put_in_ah)}, though charged with"
            f" {amounts.charge(first_ah)} on {first.on} and {_flown(used_ah)} since",
            charge.place,
            _flight_missing(left, charge, used_ah),
        )


def _flown(used_ah: float) -> str:
    return f"flown for {amounts.charge(used_ah)}" if used_ah else "not flown"


def _flight_missing(left: _Left, charge: ChargeDone, used_ah: float) -> str:
    if left.full and charge.to == "storage" and not used_ah:
        out = "what is taken out on the way to storage is not put_in: leave it out"
        return f"{out}, or write the flight before it; {MEANT}"
    return f"is a flight of it missing, or was it another pack? {MEANT}"


def _otherwise(pack: ItemNow, left: _Left, charge: ChargeDone) -> bool:
    """Whether it was emptied between to be measured, or read less at rest than a full one."""
    if _from_to(pack.capacities, left.done.on, charge.on):
        return True
    limits = limits_of(pack.spec)
    if not left.full or limits is None or limits.full_v is None:
        return False
    first = bisect_left(pack.rests, left.done.seq, key=_seq)
    read = pack.rests[first : bisect_left(pack.rests, charge.seq, key=_seq)]
    return any(millivolts(min(one.cells_v)) < millivolts(limits.full_v) for one in read)


def _used_between_ah(pack: ItemNow, left: _Left, charge: ChargeDone) -> float | None:
    """What flights took from the one day to the other, whole days; None where one doesn't say."""
    used = [share_of_flight_ah(one) for one in _from_to(pack.flights, left.done.on, charge.on)]
    known = [one for one in used if one is not None]
    return sum(known) if len(known) == len(used) else None


def _gave(
    pack: ItemNow, held_ah: float, lefts: Sequence[_Left], sure: frozenset[str], kept: _Kept
) -> Iterator[_Found]:
    """Flights since a storage charge. A keeper who writes no other charges is not asked."""
    for number, left in enumerate(lefts):
        if left.full:
            continue
        flown = _flown_uncharged(pack, left, lefts[number + 1 : number + 2])
        used_ah = sum(share_of_flight_ah(one) or 0.0 for one in flown)
        if not flown or not kept.asked(flown[-1].seq):
            continue
        if flown[-1].uid in sure or used_ah > MOST_USED * held_ah:
            continue  # more than it holds at all is another doubt
        if round(used_ah, 6) > round(MOST_STORED * held_ah, 6):
            flights = f"{len(flown)} flights of " if len(flown) > 1 else ""
            yield _Found(
                f"{flights}{pack.tag} used {amounts.charge(used_ah)}, though {_words(left)} and"
                f" rated {amounts.charge(pack.spec.capacity_ah or 0.0)}",
                flown[-1].place,
                f"is its charge before that missing, or was it another pack? {MEANT}",
                flown[-1].aircraft,
            )


def _flown_uncharged(pack: ItemNow, left: _Left, then: Sequence[_Left]) -> Sequence[FlightDone]:
    """Flights of later days up to the next charge; those of its day may have come after it."""
    charged = bisect_right(pack.charges, left.done.seq, key=_seq)
    ends = [one.on for one in pack.charges[charged : charged + 1]]
    ends += [one.done.on for one in then]
    last = min(ends) - _DAY if ends else datetime.date.max
    return _from_to(pack.flights, left.done.on + _DAY, last)


def _from_to(done: Sequence[_Done], first: datetime.date, last: datetime.date) -> Sequence[_Done]:
    """Those of these days; they stand in the order of the log."""
    return done[bisect_left(done, first, key=_on) : bisect_right(done, last, key=_on)]


def _words(left: _Left) -> str:
    """``charged full on 2026-05-17``."""
    how = "charged full" if left.full else "at storage charge"
    return f"{how} {'on' if left.full else 'since'} {left.done.on}"
