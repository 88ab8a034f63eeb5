"""Flights of a log that are more than one of many: the first, each hundredth, the longest."""

from collections.abc import Container, Iterable, Iterator
from typing import Literal, NamedTuple

from buildbook.records.entries import Flight
from buildbook.report.history import LogLine

ROUND = 100


class Milestone(NamedTuple):
    """What it is; number: of the flight, counted with those that were carried over."""

    what: Literal["first", "hundred", "longest"]
    number: int = 0


def milestones(
    log: Iterable[LogLine], spent: Container[str] = ()
) -> Iterator[tuple[str, Milestone]]:
    """By name of an entry of flights; an entry may have several. log: oldest first.

    One flight alone is the longest of many only where there are others. spent: names of entries
    whose flights went into the reserve, which nobody praises for their length.
    """
    flown = [(line, line.stands) for line in log if isinstance(line.stands, Flight)]
    for line, flight in flown:
        before = line.total_flights - len(flight.rows)
        if before == 0:
            yield line.name, Milestone("first")
        number = line.total_flights // ROUND * ROUND
        if number > before:
            yield line.name, Milestone("hundred", number)
    if len(flown) > 1:
        longest, _ = max(flown, key=lambda one: max(row.duration_s for row in one[1].rows))
        if longest.name not in spent:
            yield longest.name, Milestone("longest")
