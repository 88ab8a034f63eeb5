"""Whether a pack was charged or flown first on a day whose two entries stand in different logs.

Where the times do not say it, what the pack did next does: one that was charged next had been
flown last, so its charge stands before the flight. A charge to storage comes after the flight.
"""

import datetime
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from buildbook.hangar.amend import Amended
from buildbook.hangar.order import time_of
from buildbook.records.entries import Charge, Flight


class Doubt(NamedTuple):
    """Nothing says whether this pack was charged or flown last on this day."""

    pack: str
    charge: Charge
    flight: Flight


class PackDays(NamedTuple):
    """charged_first: the charges, by uid, that stand before the flights of their day."""

    charged_first: frozenset[str]
    doubts: tuple[Doubt, ...]


class _Use(NamedTuple):
    line: Amended
    entry: Charge | Flight


def pack_days(lines: Iterable[Amended]) -> PackDays:
    """What is known of every pack."""
    uses: dict[str, dict[datetime.date, list[_Use]]] = {}
    for line in lines:
        entry = line.stands
        if isinstance(entry, Charge):
            packs: Iterable[str] = entry.packs
        elif isinstance(entry, Flight):
            packs = dict.fromkeys(tag for row in entry.rows for tag in row.packs)
        else:
            continue
        for tag in packs:
            uses.setdefault(tag, {}).setdefault(line.entry.on, []).append(_Use(line, entry))
    first: dict[str, bool] = {}
    doubts: list[Doubt] = []
    for tag in sorted(uses):
        _judge(tag, uses[tag], first, doubts)
    return PackDays(frozenset(uid for uid, charged in first.items() if charged), tuple(doubts))


def _judge(
    tag: str,
    days: Mapping[datetime.date, Sequence[_Use]],
    first: dict[str, bool],
    doubts: list[Doubt],
) -> None:
    """Day by day from the last one back, as the day after tells of the day before.

    A charge of several packs stands before their flights only where all of them say so.
    """
    charged_next: bool | None = None
    for on in sorted(days, reverse=True):
        charges = [use for use in days[on] if isinstance(use.entry, Charge)]
        flights = [use for use in days[on] if isinstance(use.entry, Flight)]
        if not (charges and flights):
            charged_next = bool(charges)
            continue
        open_ones = [use for use in charges if not _settled(use, flights)]
        stored = any(_to(use) == "storage" for use in open_ones)
        charged_first = charged_next is True and not stored
        for use in open_ones:
            uid = use.line.entry.uid
            first[uid] = first.get(uid, True) and charged_first
        last = open_ones[-1] if open_ones else None
        if last is not None and charged_next is None and _to(last) == "full":
            assert isinstance(last.entry, Charge)
            assert isinstance(flights[-1].entry, Flight)
            doubts.append(Doubt(tag, last.entry, flights[-1].entry))
        charged_next = charged_first if open_ones else _earliest_is_charge(days[on])


def _settled(charge: _Use, flights: Sequence[_Use]) -> bool:
    """Whether a charge is in one log with a flight, or all have times."""
    log = charge.line.entry.log
    return any(flight.line.entry.log == log for flight in flights) or (
        bool(time_of(charge.line)) and all(time_of(flight.line) for flight in flights)
    )


def _earliest_is_charge(uses: Sequence[_Use]) -> bool:
    """Of a day that times, or the list of one log, put in order."""
    first = min(uses, key=lambda use: (time_of(use.line), use.line.entry.index))
    return isinstance(first.entry, Charge)


def _to(use: _Use) -> str | None:
    return use.entry.to if isinstance(use.entry, Charge) else None
