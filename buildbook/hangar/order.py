"""The one total order of all entries.

Days first; within a day each log keeps its own order. Entries of different logs on one day carry
no clock, so they are merged by what they must allow: the next entry comes from the log that still
has the lowest-ranked kind of entry to give on that day (``remove`` before ``fit``, and so on).
So a log that flies and then takes a part out is told to its removal before another log fits that
part, a swap takes both parts out before it puts them in, and a pack is flown before it is charged.
Ties go by the name of the log. Voided entries and later words rank last, so that a voided entry
orders the others as if it had not been written.
"""

import datetime
from collections.abc import Iterable, Iterator
from heapq import heapify, heappop, heapreplace

from buildbook.hangar.amend import Amended
from buildbook.records.entries import (
    Alteration,
    Charge,
    Check,
    Fit,
    Flight,
    Remove,
    StateChange,
)

REMOVE, STATE, EXCHANGE, FIT, ALTERATION, CHECK, FLIGHT, CHARGE, REST = range(9)

_RANKS: dict[type, int] = {
    Remove: REMOVE,
    StateChange: STATE,
    Fit: FIT,
    Alteration: ALTERATION,
    Check: CHECK,
    Flight: FLIGHT,
    Charge: CHARGE,
}


def rank(line: Amended) -> int:
    """The rank of what an entry says; a fit that takes something out comes before other fits."""
    said = line.stands
    if isinstance(said, Fit) and said.instead_of:
        return EXCHANGE
    return _RANKS.get(type(said), REST)


def in_order(lines: Iterable[Amended]) -> list[Amended]:
    """All entries in the one total order."""
    days: dict[datetime.date, dict[str, list[Amended]]] = {}
    for line in lines:
        days.setdefault(line.on, {}).setdefault(line.entry.log, []).append(line)
    ordered: list[Amended] = []
    for on in sorted(days):
        logs = days[on]
        for log in logs.values():
            log.sort(key=lambda line: line.entry.index)
        if len(logs) == 1:
            ordered.extend(*logs.values())
        else:
            ordered.extend(_merged(logs))
    return ordered


def _merged(logs: dict[str, list[Amended]]) -> Iterator[Amended]:
    """The entries of one day from several logs, each log in its own order."""
    lowest = {name: _lowest_from(log) for name, log in logs.items()}
    heads = [(lowest[name][0], name, 0) for name in logs]
    heapify(heads)
    while heads:
        _, name, position = heads[0]
        yield logs[name][position]
        position += 1
        if position < len(logs[name]):
            heapreplace(heads, (lowest[name][position], name, position))
        else:
            heappop(heads)


def _lowest_from(log: list[Amended]) -> list[int]:
    """At each position of a log, the lowest rank that is still to come."""
    lowest = [rank(line) for line in log]
    for position in range(len(lowest) - 2, -1, -1):
        lowest[position] = min(lowest[position], lowest[position + 1])
    return lowest
