"""What an aircraft, an item or a pack had lived through at any moment of the log."""

import datetime
import math
from bisect import bisect_right
from collections.abc import Iterator, Mapping
from typing import Protocol

from buildbook.hangar.cycles import ThroughPack, share_of_charge_ah, share_of_flight_ah
from buildbook.hangar.time_in_service import flown_at
from buildbook.records.parts import Carried
from buildbook.report.history import ChargeDone, FlightDone
from buildbook.report.state import AircraftNow, Hangar, ItemNow
from buildbook.report.tally import Flown

END = 2**62
"""A moment after every entry."""

COUNTED = ("flights", "hours", "cycles", "charges", "flying_days")
"""The units that flying and charging count; the rest is the calendar's."""

PER_UNIT: Mapping[str, int] = {
    "flights": 1,
    "hours": 3600,
    "cycles": 1000,
    "charges": 1,
    "flying_days": 1,
}
"""Limits are compared in whole ticks: flights, seconds, thousandths of a cycle."""


def in_unit(unit: str, ticks: int) -> float:
    """Ticks in the unit that a row shows: hours, cycles, or a whole number of what is counted."""
    return ticks if PER_UNIT[unit] == 1 else ticks / PER_UNIT[unit]


class Life(Protocol):
    """A life: when it began, whether its beginning is known, and its totals at a moment."""

    @property
    def began(self) -> datetime.date | None:
        """The day from which the calendar runs, where it is known."""

    @property
    def known(self) -> bool:
        """Whether what it lived through before these records is known."""

    def ticks(self, unit: str, seq: int = END) -> int:
        """The total of a unit up to and including that moment, in whole ticks (``PER_UNIT``)."""


class AircraftLife:
    """The life of an airframe, carried life included."""

    def __init__(self, aircraft: AircraftNow) -> None:
        self._tally = aircraft.tally
        self._carried = aircraft.record.carried or Carried()
        self.known = self._carried.basis != "unknown"
        self.began = aircraft.record.in_service or _first_day(aircraft)

    def ticks(self, unit: str, seq: int = END) -> int:
        """An airframe has no charges and no cycles."""
        return _flown_ticks(self._tally.at(seq), self._carried, unit)


class ItemLife:
    """The life of an item that is fitted: its stays on aircraft."""

    def __init__(self, hangar: Hangar, item: ItemNow) -> None:
        self._hangar = hangar
        self._tag = item.tag
        self._carried = item.item.carried or Carried()
        self.known = self._carried.basis != "unknown"
        self.began = item.item.acquired or item.item.made or _first_stay(item)
        self._at: dict[int, Flown] = {}

    def ticks(self, unit: str, seq: int = END) -> int:
        """Such an item has no charges and no cycles of its own."""
        flown = self._at.get(seq)
        if flown is None:
            flown = self._at[seq] = flown_at(self._hangar, self._tag, seq)
        return _flown_ticks(flown, self._carried, unit)


class PackLife:
    """The life of a pack: its flights and charges, and the charge that went through it."""

    def __init__(self, pack: ItemNow) -> None:
        self._pack = pack
        self._carried = pack.item.carried or Carried()
        self.known = self._carried.basis != "unknown"
        self.began = pack.item.acquired or pack.item.made or _first_use(pack)
        self._charged = [charge.seq for charge in pack.charges]
        self._cycles: list[tuple[int, float]] | None = None

    def ticks(self, unit: str, seq: int = END) -> int:
        """The total of a unit up to and including that moment."""
        if unit == "charges":
            return bisect_right(self._charged, seq)
        if unit == "cycles":
            return round(self._cycles_at(seq) * PER_UNIT[unit])
        return _flown_ticks(self._pack.tally.at(seq), self._carried, unit)

    def _cycles_at(self, seq: int) -> float:
        if self._cycles is None:
            self._cycles = list(_cycles(self._pack))
        index = bisect_right(self._cycles, (seq, math.inf))
        return self._carried.cycles + (self._cycles[index - 1][1] if index else 0.0)


def _cycles(pack: ItemNow) -> Iterator[tuple[int, float]]:
    """Equivalent full cycles after each flight and charge."""
    rated_ah = pack.spec.capacity_ah
    if not rated_ah:
        return
    through = ThroughPack()
    events: list[FlightDone | ChargeDone] = [*pack.flights, *pack.charges]
    events.sort(key=lambda event: (event.seq, getattr(event, "row_index", 0)))
    for event in events:
        if isinstance(event, FlightDone):
            through.flown(share_of_flight_ah(event))
        else:
            through.charged(share_of_charge_ah(event))
        yield event.seq, through.through_ah / rated_ah


def _flown_ticks(flown: Flown, carried: Carried, unit: str) -> int:
    if unit == "hours":
        return round(flown.duration_s + carried.duration_s)
    if unit == "flights":
        return flown.flights + carried.flights
    if unit == "flying_days":
        return flown.flying_days
    return round(carried.cycles * PER_UNIT["cycles"]) if unit == "cycles" else 0


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
