"""Whether a pack was charged or flown first on a day whose two entries stand in different logs.

Where the times do not say it and the flight says what it used, the amounts do, or how the pack
was left the day before: one that was flown down, or left at storage, is charged before it flies
again. Only what came before is asked, so a later entry never takes back what was counted.
Where the flight does not say what it used, what the pack did next does: one that was charged next
had been flown last, so its charge stands before the flight. A charge to storage comes after the
flight. Of a pack that flew several times that day, and did not lie at storage, nobody knows between
which flights it was charged.
"""

import datetime
from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from buildbook.hangar.amend import Amended
from buildbook.hangar.order import time_of
from buildbook.records.entries import Charge, Flight

_Days = defaultdict[datetime.date, list[Amended]]


class Doubt(NamedTuple):
    """Nothing says whether this pack was charged or flown last on this day."""

    pack: str
    charge: Charge
    flight: Flight


class PackDays(NamedTuple):
    """charged_first: the charges, by uid, that stand before the flights of their day.

    between: of those the record puts in no order, by uid and pack: they may stand between flights.
    """

    charged_first: frozenset[str]
    doubts: tuple[Doubt, ...]
    between: frozenset[tuple[str, str]] = frozenset()


def pack_days(lines: Sequence[Amended]) -> PackDays:
    """Which packs were charged before they flew, on days on which both was written."""
    tags = _both_on_one_day(lines)
    if not tags:
        return PackDays(frozenset(), ())
    charged: dict[str, _Days] = {tag: defaultdict(list) for tag in tags}
    flown: dict[str, _Days] = {tag: defaultdict(list) for tag in tags}
    for line in lines:
        entry = line.stands
        if type(entry) is Flight:
            for tag in _flown(entry):
                if tag in flown:
                    flown[tag][line.entry.on].append(line)
        elif type(entry) is Charge:
            for tag in entry.packs:
                if tag in charged:
                    charged[tag][line.entry.on].append(line)
    first: dict[str, bool] = {}
    doubts: list[Doubt] = []
    between: set[tuple[str, str]] = set()
    for tag in tags:
        _judge(tag, charged[tag], flown[tag], first, doubts, between)
    charged_first = frozenset(uid for uid, before in first.items() if before)
    return PackDays(charged_first, tuple(doubts), frozenset(between))


def _both_on_one_day(lines: Iterable[Amended]) -> list[str]:
    """The packs that were charged and flown on any one day."""
    charged_on: defaultdict[str, set[datetime.date]] = defaultdict(set)
    flown_on: defaultdict[str, set[datetime.date]] = defaultdict(set)
    for line in lines:
        entry = line.stands
        if type(entry) is Flight:
            for tag in _flown(entry):
                flown_on[tag].add(line.entry.on)
        elif type(entry) is Charge:
            for tag in entry.packs:
                charged_on[tag].add(line.entry.on)
    return [tag for tag in sorted(charged_on) if not charged_on[tag].isdisjoint(flown_on[tag])]


def _flown(flight: Flight) -> Iterable[str]:
    """The packs of a flight entry, each once."""
    return dict.fromkeys(tag for row in flight.rows for tag in row.packs)


def _judge(
    tag: str,
    charged: _Days,
    flown: _Days,
    first: dict[str, bool],
    doubts: list[Doubt],
    between: set[tuple[str, str]],
) -> None:
    """Day by day from the last one back, as the day after tells of the day before.

    A charge of several packs stands before their flights only where all of them say so.
    """
    charged_next: bool | None = None
    for on in sorted({*charged, *flown}, reverse=True):
        charges, flights = charged.get(on, ()), flown.get(on, ())
        if not (charges and flights):
            charged_next = bool(charges)
            continue
        unsettled = [line for line in charges if not _settled(line, flights)]
        if not unsettled:
            charged_next = _earliest_is_charge((*charges, *flights))
            continue
        stored = any(_to(line) == "storage" for line in unsettled)
        charged_first = charged_next is True and not stored
        known = False
        asked = charged_next is None or _used_ah(tag, flights) is not None
        times = _times(tag, flights)
        if asked and not stored and len(charges) == 1:
            alone = times == 1
            before_flown = (
                _charged_before_flown(tag, charged, flown, on)
                if alone
                else _was_stored(charged, flown, on) or None
            )
            if before_flown is not None:
                known, charged_first = True, before_flown
        full = charged_next is None and not known and _was_full(charged, flown, on)
        if times > 1 and not (known or stored):
            between.update((line.entry.uid, tag) for line in unsettled)
        for line in unsettled:
            uid = line.entry.uid
            first[uid] = first.get(uid, True) and charged_first
        charge, flight = unsettled[-1].stands, flights[-1].stands
        if (
            charged_next is None
            and not (known or full)
            and isinstance(charge, Charge)
            and isinstance(flight, Flight)
            and charge.to == "full"
        ):
            doubts.append(Doubt(tag, charge, flight))
        charged_next = charged_first


def _charged_before_flown(tag: str, charged: _Days, flown: _Days, on: datetime.date) -> bool | None:
    """Of a day with one charge and one flight; None where no amounts and no day before say it."""
    charge, used = charged[on][0].stands, _used_ah(tag, flown[on])
    before = sorted((day for day in {*charged, *flown} if day < on), reverse=True)
    since = _used_since_charged(tag, charged, flown, before)
    if isinstance(charge, Charge) and charge.put_in_ah is not None and used and since:
        put_in = charge.put_in_ah / len(charge.packs)
        return abs(put_in - since) < abs(put_in - since - used)
    for day in before:
        charges: Sequence[Amended] = charged.get(day, ())
        flights: Sequence[Amended] = flown.get(day, ())
        if not flights:
            return True if _to(charges[-1]) == "storage" else None  # or it was topped up
        if not charges:
            return True
        if all(_settled(each, flights) for each in charges):
            return None if _latest_is_charge((*charges, *flights)) else True
        if len(charges) != _times(tag, flights):
            return None
    return True  # as it came, which is not full


def _was_stored(charged: _Days, flown: _Days, on: datetime.date) -> bool:
    """Whether it lay at storage since the day before on which anything was written of it."""
    day = max((day for day in {*charged, *flown} if day < on), default=None)
    return day is not None and not flown.get(day) and _to(charged[day][-1]) == "storage"


def _was_full(charged: _Days, flown: _Days, on: datetime.date) -> bool:
    """Whether it was charged full the day before and not flown: nobody charges it before it flies,
    so of what nothing else tells it is charged last."""
    day = on - datetime.timedelta(days=1)
    return not flown.get(day) and day in charged and _to(charged[day][-1]) == "full"


def _used_since_charged(
    tag: str, charged: _Days, flown: _Days, before: Iterable[datetime.date]
) -> float | None:
    """What was taken out from its last day with a charge on; before: days, the last one first."""
    total = 0.0
    for day in before:
        used = _used_ah(tag, flown.get(day, ()))
        if used is None:
            return None
        total += used
        if day in charged:
            break
    return total


def _times(tag: str, flights: Sequence[Amended]) -> int:
    """How often a pack was flown in these entries."""
    rows = [row for line in flights if isinstance(line.stands, Flight) for row in line.stands.rows]
    return sum(tag in row.packs for row in rows)


def _used_ah(tag: str, flights: Sequence[Amended]) -> float | None:
    """What these flights took out of a pack; None where one of them does not say it."""
    rows = [row for line in flights if isinstance(line.stands, Flight) for row in line.stands.rows]
    used = [
        None if row.used_ah is None else row.used_ah / len(row.packs)
        for row in rows
        if tag in row.packs
    ]
    known = [each for each in used if each is not None]
    return sum(known) if len(known) == len(used) else None


def _settled(charge: Amended, flights: Sequence[Amended]) -> bool:
    """Whether a charge is in one log with a flight, or all have times."""
    log = charge.entry.log
    return any(flight.entry.log == log for flight in flights) or (
        bool(time_of(charge)) and all(time_of(flight) for flight in flights)
    )


def _earliest_is_charge(lines: Sequence[Amended]) -> bool:
    """Of a day that times, or the list of one log, put in order."""
    first = min(lines, key=lambda line: (time_of(line), line.entry.index))
    return isinstance(first.stands, Charge)


def _latest_is_charge(lines: Sequence[Amended]) -> bool:
    last = max(lines, key=lambda line: (time_of(line), line.entry.index))
    return isinstance(last.stands, Charge)


def _to(line: Amended) -> str | None:
    return line.stands.to if isinstance(line.stands, Charge) else None
