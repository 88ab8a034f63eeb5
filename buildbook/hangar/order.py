"""The one total order of all entries.

Days first, whenever an entry was written; within a day the times, where given, decide. Each log
else keeps its own order: what has no time follows what stands before it. Entries of different logs
without times are merged by what they must allow: the next entry comes from the log that still
has the lowest-ranked kind of entry to give on that day (``remove`` before ``fit``, and so on).
So a log that flies and then takes a part out is told to its removal before another log fits that
part, a swap takes both parts out before it puts them in, and a pack is flown before it is charged,
unless what it did next says otherwise (``pack_days``).
Ties go by the name of the log, but a fit waits while another log has yet to take that part out.
Voided entries and later words rank last, so that a voided entry orders the others as if it had
not been written.
"""

import datetime
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from buildbook.hangar.amend import Amended
from buildbook.records.entries import (
    Alteration,
    Charge,
    Check,
    Fit,
    Flight,
    Overhaul,
    Remove,
    StateChange,
)

REMOVE, STATE, EXCHANGE, FIT, ALTERATION, CHECK, CHARGED_FIRST, FLIGHT, CHARGE, REST = range(10)

_RANKS: Mapping[type, int] = {
    Remove: REMOVE,
    StateChange: STATE,
    Overhaul: STATE,  # between out and in
    Fit: FIT,
    Alteration: ALTERATION,
    Check: CHECK,
    Flight: FLIGHT,
    Charge: CHARGE,
}

Log = Sequence[Amended]


def rank(line: Amended, charged_first: Collection[str] = ()) -> int:
    """The rank of what an entry says; a fit that takes something out comes before other fits.

    charged_first: the charges, by uid, that stand before the flights of their day.
    """
    stands = line.stands
    found = _RANKS.get(type(stands), REST)
    if found == CHARGE and charged_first and line.entry.uid in charged_first:
        return CHARGED_FIRST
    if found == FIT and isinstance(stands, Fit) and stands.instead_of:
        return EXCHANGE
    return found


def in_order(lines: Iterable[Amended], charged_first: Collection[str] = ()) -> list[Amended]:
    """All entries in the one total order."""
    days: defaultdict[datetime.date, defaultdict[str, list[Amended]]]
    days = defaultdict(lambda: defaultdict(list))
    timed: set[datetime.date] = set()
    for line in lines:
        entry = line.entry
        on = entry.on
        days[on][entry.log].append(line)
        if (line.stands or entry).time:
            timed.add(on)
    ordered: list[Amended] = []
    for on in sorted(days):
        logs = days[on]
        for log in logs.values():
            if len(log) > 1:
                log.sort(key=_index)
            if on in timed:
                _sort_by_time(log)
        if len(logs) == 1:
            ordered.extend(*logs.values())
        else:
            ordered.extend(_merged(logs, charged_first, on in timed))
    return ordered


def _index(line: Amended) -> int:
    return line.entry.index


def time_of(line: Amended) -> str:
    """The clock time of an entry, ``16:40``; empty where none is written."""
    return (line.stands or line.entry).time or ""


def _sort_by_time(log: list[Amended]) -> None:
    """By time; what has none stays behind what stands before it in the list."""
    latest, times = "", []
    for line in log:
        latest = time_of(line) or latest
        times.append(latest)
    order = sorted(range(len(log)), key=times.__getitem__)
    log[:] = [log[at] for at in order]


def _merged(
    logs: Mapping[str, Log], charged_first: Collection[str], timed: bool
) -> Iterable[Amended]:
    """The entries of one day from several logs, each log in its own order.

    The lowest rank to come never falls along a log, so that sorting by it merges the logs.
    """
    heads: list[tuple[int, str, int, Amended]] = []
    for name, log in logs.items():
        if len(log) == 1:
            heads.append((rank(log[0], charged_first), name, 0, log[0]))
            continue
        lowest = _lowest_from(log, charged_first)
        heads += [(lowest[at], name, at, line) for at, line in enumerate(log)]
    moving = [at for ranked, _, at, _ in heads if ranked in (REMOVE, EXCHANGE) and at == 0]
    if timed or len(moving) > 1:
        lowest_from = {name: _lowest_from(log, charged_first) for name, log in logs.items()}
        return _merged_with_moves(logs, lowest_from)
    heads.sort()
    return [line for _, _, _, line in heads]


def _lowest_from(log: Log, charged_first: Collection[str]) -> list[int]:
    """At each position of a log, the lowest rank that is still to come."""
    lowest = [rank(line, charged_first) for line in log]
    for position in range(len(lowest) - 2, -1, -1):
        lowest[position] = min(lowest[position], lowest[position + 1])
    return lowest


def _merged_with_moves(
    logs: Mapping[str, Log], lowest: Mapping[str, list[int]]
) -> Iterator[Amended]:
    """The same on a day when several logs take parts out, so that a fit may have to wait,
    or when several logs have times, so that what is later waits for what is earlier.
    """
    moves = {name: _moves(log) for name, log in logs.items()}
    position = dict.fromkeys(logs, 0)
    while position:
        earliest = min(
            (time for name, at in position.items() if (time := _next_time(logs[name], at))),
            default="",
        )
        heads = sorted(
            (lowest[name][at], name)
            for name, at in position.items()
            if time_of(logs[name][at]) in ("", earliest)
        )
        free = (name for _, name in heads if not _waits(name, logs, position, moves))
        name = next(free, heads[0][1])
        yield logs[name][position[name]]
        position[name] += 1
        if position[name] == len(logs[name]):
            del position[name]


def _next_time(log: Log, position: int) -> str:
    """The time of the next entry that has one."""
    return next((time for line in log[position:] if (time := time_of(line))), "")


def _moves(log: Log) -> dict[str, list[tuple[int, bool]]]:
    """By tag, where in the log it moves, and whether it comes out."""
    found: dict[str, list[tuple[int, bool]]] = {}
    for at, line in enumerate(log):
        said = line.stands
        if isinstance(said, Remove):
            for tag in said.tags:
                found.setdefault(tag, []).append((at, True))
        elif isinstance(said, Fit):
            for tag in said.instead_of:
                found.setdefault(tag, []).append((at, True))
            for slot in said.slots:
                for tag in slot.tags:
                    found.setdefault(tag, []).append((at, False))
    return found


def _waits(
    name: str,
    logs: Mapping[str, Log],
    position: Mapping[str, int],
    moves: Mapping[str, dict[str, list[tuple[int, bool]]]],
) -> bool:
    """Whether the next entry of a log fits a part that another log takes out before it fits it."""
    said = logs[name][position[name]].stands
    if not isinstance(said, Fit):
        return False
    for slot in said.slots:
        for tag in slot.tags:
            for other, at in position.items():
                if other == name:
                    continue
                comes_out = (out for move, out in moves[other].get(tag, ()) if move >= at)
                if next(comes_out, False):
                    return True
    return False
