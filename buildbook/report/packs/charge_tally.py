"""The charge that went through a pack, each ampere-hour counted once.

For each stretch between recorded charges the greater of what the flights used and what was put in
counts. Charges with no flight between them close one stretch together: a pack that is brought to
storage after a flight and filled before the next gets back in two parts what it gave once, and
one that was flown and charged twice on a day reads as two flights and two charges, as across
logs a day's flights come before its charges. Figures of several packs together are divided evenly.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate, groupby
from operator import attrgetter, itemgetter
from typing import NamedTuple

from buildbook.report.history import ChargeDone, FlightDone


class Stretch(NamedTuple):
    """Flights and the charges that closed them."""

    used_ah: float = 0.0
    put_in_ah: float = 0.0
    flights: int = 0
    unknown_flights: int = 0
    charges: int = 0
    unknown_charges: int = 0

    @property
    def is_known(self) -> bool:
        """Whether all flights, or all charges, of it have a figure; else it is at least that."""
        by_flights = self.flights > 0 and self.unknown_flights == 0
        return by_flights or (self.charges > 0 and self.unknown_charges == 0)

    @property
    def through_ah(self) -> float:
        """What counts: the greater of used and put in."""
        return max(self.used_ah, self.put_in_ah)


_SEQ = attrgetter("seq")
_FLIGHTS = itemgetter(Stretch._fields.index("flights"))

_Written = tuple[float, float, int, int, int, int]
"""The fields of a stretch."""


class ChargeTally:
    """The charge through one pack after each of its flights and charges, in the order of the log.

    The one count of it: the fold's, that of a moment, and the stretches that figures show.
    """

    __slots__ = (
        "_charges",
        "_closed",
        "_closed_ah",
        "_flights",
        "_put_in_ah",
        "_sequence",
        "_totals_ah",
        "_unknown",
        "_unknown_charges",
        "_used_ah",
    )

    def __init__(self) -> None:
        self._closed: list[_Written] = []
        self._closed_ah = 0.0
        self._sequence: list[int] = []
        self._totals_ah: list[float] = []
        self._begin()

    def _begin(self) -> None:
        self._used_ah = self._put_in_ah = 0.0
        self._flights = self._unknown = self._charges = self._unknown_charges = 0

    def flown(self, seq: int, used_ah: float | None) -> None:
        """Count a flight by what it took from this pack; after a charge it opens a new stretch."""
        if self._charges:
            self._closed_ah = self._totals_ah[-1]
            self._closed.append(self._open())
            self._begin()
        self._flights += 1
        if used_ah is None:
            self._unknown += 1
        else:
            self._used_ah += used_ah
        self._sequence.append(seq)
        self._totals_ah.append(self._closed_ah + max(self._used_ah, self._put_in_ah))

    def charged(self, seq: int, put_in_ah: float | None) -> None:
        """Count a charge by what went into this pack."""
        self._charges += 1
        self._unknown_charges += put_in_ah is None
        self._put_in_ah += put_in_ah or 0.0
        self._sequence.append(seq)
        self._totals_ah.append(self._closed_ah + max(self._used_ah, self._put_in_ah))

    @property
    def through_ah(self) -> float:
        """All that went through the pack so far."""
        return self._closed_ah + max(self._used_ah, self._put_in_ah)

    def at_ah(self, seq: int) -> float:
        """What had gone through it up to and including an entry."""
        index = bisect_right(self._sequence, seq)
        return self._totals_ah[index - 1] if index else 0.0

    @property
    def most_flights(self) -> int:
        """The most flights that it made on one charge, as far as charges are written."""
        return max(self._flights, max(map(_FLIGHTS, self._closed), default=0))

    def _open(self) -> _Written:
        return (
            self._used_ah,
            self._put_in_ah,
            self._flights,
            self._unknown,
            self._charges,
            self._unknown_charges,
        )

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        """Oldest first; the sum of their ``through_ah`` is the whole charge."""
        last = (self._open(),) if self._flights or self._charges else ()
        return tuple(Stretch(*written) for written in (*self._closed, *last))


def share_of_flight_ah(flight: FlightDone) -> float | None:
    """What a flight took from each of the packs that it was flown on."""
    used_ah = flight.row.used_ah
    return None if used_ah is None else used_ah / max(1, len(flight.row.packs))


def share_of_charge_ah(charge: ChargeDone) -> float | None:
    """What a charge put into each of the packs on the charger."""
    return None if charge.put_in_ah is None else charge.put_in_ah / charge.packs_together


def in_order(
    flights: Iterable[FlightDone], charges: Iterable[ChargeDone]
) -> list[FlightDone | ChargeDone]:
    """As the log has them, and as each of the two is already: an entry is of one kind."""
    return sorted([*flights, *charges], key=_SEQ)


def in_best_order(
    flights: Iterable[FlightDone], charges: Sequence[ChargeDone], carried: bool = False
) -> list[FlightDone | ChargeDone]:
    """The same, but a charge that may stand between flights of its day stands where it tells best.

    That is, where the most that was used on one charge is least. carried: what was used since a
    charge on days before counts with it.
    """
    events = in_order(flights, charges)
    free = {one.on for one in charges if one.between}
    if not free:
        return events
    ordered: list[FlightDone | ChargeDone] = []
    out_ah = 0.0
    for on, group in groupby(events, attrgetter("on")):
        day = list(group)
        if on in free:
            day = _best_of_day(day, out_ah if carried else 0.0)
        for event in day:
            used_ah = share_of_flight_ah(event) if isinstance(event, FlightDone) else None
            out_ah = 0.0 if isinstance(event, ChargeDone) else out_ah + (used_ah or 0.0)
        ordered += day
    return ordered


def _best_of_day(
    day: Sequence[FlightDone | ChargeDone], out_ah: float
) -> list[FlightDone | ChargeDone]:
    """One day, its free charges set so that the most out at once is least; the rest follow it."""
    free = [one for one in day if isinstance(one, ChargeDone) and one.between]
    fixed = [one for one in day if not (isinstance(one, ChargeDone) and one.between)]
    used = [
        (share_of_flight_ah(one) or 0.0) if isinstance(one, FlightDone) else 0.0 for one in fixed
    ]
    sums = {out_ah, *accumulate(used, initial=out_ah)}
    for begin in range(len(used)):
        sums.update(accumulate(used[begin:]))
    for most_ah in sorted(sums):
        left, now_ah, best = list(free), out_ah, list[FlightDone | ChargeDone]()
        for event, each_ah in zip(fixed, used, strict=True):
            if isinstance(event, ChargeDone):
                now_ah = 0.0
            elif now_ah and round(now_ah + each_ah - most_ah, 9) > 0:
                if not left:
                    break
                best.append(left.pop(0))
                now_ah = 0.0
            now_ah += each_ah
            best.append(event)
            if round(now_ah - most_ah, 9) > 0:
                break
        else:
            return best + left
    return list(day)


def charge_tally(flights: Iterable[FlightDone], charges: Iterable[ChargeDone]) -> ChargeTally:
    """The tally of one pack from its whole history."""
    tally = ChargeTally()
    for event in in_order(flights, charges):
        if isinstance(event, FlightDone):
            tally.flown(event.seq, share_of_flight_ah(event))
        else:
            tally.charged(event.seq, share_of_charge_ah(event))
    return tally


def stretches(flights: Iterable[FlightDone], charges: Iterable[ChargeDone]) -> tuple[Stretch, ...]:
    """From charge to charge, with what each put in and what was flown on it."""
    return charge_tally(flights, charges).stretches
