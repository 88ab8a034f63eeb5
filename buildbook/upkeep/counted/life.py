"""The time in service of an aircraft, an item or a pack at any entry of the log."""

import datetime
from bisect import bisect_right
from collections.abc import Sequence
from typing import Protocol

from buildbook.basis.counting import UNITS
from buildbook.hangar.time_in_service import flown_at
from buildbook.records.parts import Carried
from buildbook.report.history import Event
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.tally import Flown

END = 2**62
"""A moment after every entry."""


class Life(Protocol):
    """A life: when it began, whether its beginning is known, and its totals at a moment."""

    @property
    def began(self) -> datetime.date | None:
        """The day from which the calendar runs, where it is known."""

    def knows(self, unit: str) -> bool:
        """Whether its total of a unit is known from the first day on, else it is an "at least"."""

    def ticks(self, unit: str, seq: int = END) -> int:
        """The total of a unit up to and including that moment, in whole ticks of ``UNITS``."""


class _Counted:
    """What all lives have: life before these records, and the events that they went through."""

    def __init__(self, carried: Carried | None, events: Sequence[Event]) -> None:
        self._carried = carried or Carried()
        self._events = events
        self._event_seqs: dict[str, list[int]] = {}

    def knows(self, unit: str) -> bool:
        """Carried life tells hours, flights and cycles; nobody wrote how often it crashed."""
        carried = self._carried
        if UNITS[unit].counts == "event":
            return carried == Carried(basis=carried.basis) and carried.basis != "unknown"
        return carried.basis != "unknown"

    def ticks(self, unit: str, seq: int = END) -> int:
        """The total of a unit up to and including that moment, in whole ticks of ``UNITS``."""
        one = UNITS[unit]
        if one.counts == "flying":
            before = getattr(self._carried, one.counter, 0)
            return one.in_ticks(getattr(self._flown(seq), one.counter) + before)
        if one.counts == "event":
            return bisect_right(self._seqs_of(one.counter), seq)
        return one.in_ticks(self._charged(one.counter, seq))

    def _seqs_of(self, event: str) -> list[int]:
        if event not in self._event_seqs:
            self._event_seqs[event] = [one.seq for one in self._events if one.event == event]
        return self._event_seqs[event]

    def _flown(self, seq: int) -> Flown:
        raise NotImplementedError

    def _charged(self, counter: str, _seq: int) -> float:
        """Only a pack is charged; of another kind there is what was carried."""
        return float(getattr(self._carried, counter, 0))


class AircraftLife(_Counted):
    """The life of an airframe, carried life included."""

    def __init__(self, aircraft: AircraftNow) -> None:
        super().__init__(aircraft.record.carried, aircraft.events)
        self._tally = aircraft.tally
        self.began = aircraft.record.in_service or _first_day(aircraft)

    def _flown(self, seq: int) -> Flown:
        return self._tally.at(seq)


class ItemLife(_Counted):
    """The life of an item that is fitted: its stays on aircraft.

    What came new begins when it is first fitted: on the shelf nothing of it wears.
    """

    def __init__(self, hangar: Hangar, item: ItemNow) -> None:
        super().__init__(item.item.carried, item.events)
        self._hangar = hangar
        self._tag = item.tag
        known = item.item.acquired or item.item.made if item.item.carried else None
        self.began = known or _first_stay(item)
        self._at: dict[int, Flown] = {}

    def _flown(self, seq: int) -> Flown:
        flown = self._at.get(seq)
        if flown is None:
            flown = self._at[seq] = flown_at(self._hangar, self._tag, seq)
        return flown


class PackLife(_Counted):
    """The life of a pack: its flights and charges, and the charge that went through it."""

    def __init__(self, pack: ItemNow) -> None:
        super().__init__(pack.item.carried, pack.events)
        self._pack = pack
        self.began = pack.item.acquired or pack.item.made or _first_use(pack)
        self._charge_seqs = [charge.seq for charge in pack.charges if charge.counts]

    def _flown(self, seq: int) -> Flown:
        return self._pack.tally.at(seq)

    def _charged(self, counter: str, seq: int) -> float:
        return (
            bisect_right(self._charge_seqs, seq) if counter == "charges" else self._cycles_at(seq)
        )

    def _cycles_at(self, seq: int) -> float:
        rated_ah = self._pack.spec.capacity_ah
        if not rated_ah:
            return self._carried.cycles
        return self._carried.cycles + self._pack.through.at_ah(seq) / rated_ah


def life_of(hangar: Hangar, item: ItemNow) -> Life:
    """The life of an item, whatever it is."""
    return PackLife(item) if item.is_pack else ItemLife(hangar, item)


def _first_day(aircraft: AircraftNow) -> datetime.date | None:
    days = [line.entry.on for line in aircraft.log[:1]]
    days += [happened.on for happened in (*aircraft.events[:1], *aircraft.flights[:1])]
    return min(days, default=None)


def _first_stay(item: ItemNow) -> datetime.date | None:
    return item.stays[0].since if item.stays else None


def _first_use(pack: ItemNow) -> datetime.date | None:
    return min((happened.on for happened in (*pack.charges[:1], *pack.flights[:1])), default=None)
