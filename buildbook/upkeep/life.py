"""What an aircraft, an item or a pack had lived through at any moment of the log."""

import datetime
from bisect import bisect_right
from collections.abc import Mapping
from typing import NamedTuple, Protocol

from buildbook.hangar.cycles import ThroughPack, share_of_charge_ah, share_of_flight_ah
from buildbook.hangar.happened import ChargeDone, FlightDone
from buildbook.hangar.state import AircraftNow, Hangar, ItemNow
from buildbook.records.parts import Carried

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


class Lived(NamedTuple):
    """Totals at a moment, carried life included."""

    flights: int = 0
    duration_s: float = 0.0
    flying_days: int = 0
    charges: int = 0
    cycles: float = 0.0

    def ticks(self, unit: str) -> int:
        """The total of a unit in whole ticks (``PER_UNIT``)."""
        if unit == "hours":
            return round(self.duration_s)
        if unit == "cycles":
            return round(self.cycles * 1000)
        return int(getattr(self, unit))


class Life(Protocol):
    """A life: when it began, whether its beginning is known, and its totals at a moment."""

    @property
    def began(self) -> datetime.date | None:
        """The day from which the calendar runs, where it is known."""

    @property
    def known(self) -> bool:
        """Whether what it lived through before these records is known."""

    def at(self, seq: int) -> Lived:
        """The totals up to and including that moment."""


class AircraftLife:
    """The life of an airframe."""

    def __init__(self, aircraft: AircraftNow) -> None:
        self._tally = aircraft.tally
        self._carried = aircraft.record.carried or Carried()
        self.known = self._carried.basis != "unknown"
        self.began = aircraft.record.in_service or _first_day(aircraft)

    def at(self, seq: int) -> Lived:
        """The totals up to and including that moment."""
        flown, carried = self._tally.at(seq), self._carried
        return Lived(
            flown.flights + carried.flights,
            flown.duration_s + carried.duration_s,
            flown.flying_days,
        )


class ItemLife:
    """The life of an item that is fitted: its stays on aircraft."""

    def __init__(self, hangar: Hangar, item: ItemNow) -> None:
        self._hangar = hangar
        self._tag = item.tag
        self._carried = item.item.carried or Carried()
        self.known = self._carried.basis != "unknown"
        self.began = item.item.acquired or item.item.made or _first_stay(item)
        self._at: dict[int, Lived] = {}

    def at(self, seq: int) -> Lived:
        """The totals up to and including that moment."""
        found = self._at.get(seq)
        if found is None:
            duration_s, flights, days = self._hangar.flown_at(self._tag, seq)
            carried = self._carried
            found = Lived(flights + carried.flights, duration_s + carried.duration_s, days)
            self._at[seq] = found
        return found


class PackLife:
    """The life of a pack: its flights and charges, and the charge that went through it."""

    def __init__(self, pack: ItemNow) -> None:
        carried = pack.item.carried or Carried()
        self.known = carried.basis != "unknown"
        self.began = pack.item.acquired or pack.item.made or _first_use(pack)
        self._moments: list[int] = []
        self._totals: list[Lived] = []
        self._start = Lived(carried.flights, carried.duration_s, 0, 0, carried.cycles)
        self._run(pack)

    def _run(self, pack: ItemNow) -> None:
        rated_ah = pack.spec.capacity_ah
        through = ThroughPack()
        total, last_day = self._start, None
        events: list[FlightDone | ChargeDone] = [*pack.flights, *pack.charges]
        events.sort(key=lambda event: (event.seq, getattr(event, "row_index", 0)))
        for event in events:
            if isinstance(event, FlightDone):
                through.flown(share_of_flight_ah(event))
                total = total._replace(
                    flights=total.flights + 1,
                    duration_s=total.duration_s + event.duration_s,
                    flying_days=total.flying_days + (event.on != last_day),
                )
                last_day = event.on
            else:
                through.charged(event.on, share_of_charge_ah(event))
                total = total._replace(charges=total.charges + 1)
            if rated_ah:
                total = total._replace(cycles=self._start.cycles + through.through_ah / rated_ah)
            self._moments.append(event.seq)
            self._totals.append(total)

    def at(self, seq: int) -> Lived:
        """The totals up to and including that moment."""
        index = bisect_right(self._moments, seq)
        return self._totals[index - 1] if index else self._start


def life_of(hangar: Hangar, item: ItemNow) -> Life:
    """The life of an item, whatever it is."""
    return PackLife(item) if item.is_pack else ItemLife(hangar, item)


def _first_day(aircraft: AircraftNow) -> datetime.date | None:
    days = [line.entry.on for line in aircraft.log[:1]]
    days += [happened.on for happened in (*aircraft.events[:1], *aircraft.flights[:1])]
    return min(days, default=None)


def _first_stay(item: ItemNow) -> datetime.date | None:
    if item.stays:
        return item.stays[0].since
    return None if item.fitted is None else item.fitted.since


def _first_use(pack: ItemNow) -> datetime.date | None:
    return min((happened.on for happened in (*pack.charges[:1], *pack.flights[:1])), default=None)
