"""The charge that went through a pack, each ampere-hour counted once.

For each stretch between recorded charges the greater of what the flights used and what was put in
counts. Charges with no flight between them close one stretch together: a pack that is brought to
storage after a flight and filled before the next gets back in two parts what it gave once, and
one that was flown and charged twice on a day reads as two flights and two charges, as across
logs a day's flights come before its charges. Figures of several packs together are divided evenly.
"""

import datetime
from collections.abc import Iterable

import msgspec

from buildbook.report.history import ChargeDone, FlightDone


class Stretch(msgspec.Struct, frozen=True):
    """Flights and the charges that closed them; ``charged_on``: the day of the last of these."""

    used_ah: float = 0.0
    put_in_ah: float = 0.0
    flights: int = 0
    unknown_flights: int = 0
    charges: int = 0
    charged_on: datetime.date | None = None

    @property
    def through_ah(self) -> float:
        """What counts: the greater of used and put in."""
        return max(self.used_ah, self.put_in_ah)


class ThroughPack:
    """Counts the charge through one pack as its flights and charges come in."""

    __slots__ = ("_charged", "_closed_ah", "_put_in_ah", "_used_ah")

    def __init__(self) -> None:
        self._closed_ah = self._used_ah = self._put_in_ah = 0.0
        self._charged = False

    def flown(self, used_ah: float | None) -> None:
        """Count a flight by what it took from this pack."""
        if self._charged:
            self._closed_ah = self.through_ah
            self._used_ah = self._put_in_ah = 0.0
            self._charged = False
        self._used_ah += used_ah or 0.0

    def charged(self, put_in_ah: float | None) -> None:
        """Count a charge by what went into this pack."""
        self._charged = True
        self._put_in_ah += put_in_ah or 0.0

    @property
    def through_ah(self) -> float:
        """All that went through the pack so far."""
        return self._closed_ah + max(self._used_ah, self._put_in_ah)


def share_of_flight_ah(flight: FlightDone) -> float | None:
    """What a flight took from each of the packs that it was flown on."""
    used_ah = flight.row.used_ah
    return None if used_ah is None else used_ah / max(1, len(flight.row.packs))


def share_of_charge_ah(charge: ChargeDone) -> float | None:
    """What a charge put into each of the packs on the charger."""
    return None if charge.put_in_ah is None else charge.put_in_ah / charge.packs_together


def stretches(flights: Iterable[FlightDone], charges: Iterable[ChargeDone]) -> tuple[Stretch, ...]:
    """The stretches of one pack, oldest first; the sum of ``through_ah`` is its whole charge."""
    found = [Stretch()]
    events: list[FlightDone | ChargeDone] = sorted(
        [*flights, *charges],
        key=lambda event: (event.seq, getattr(event, "row_index", 0)),
    )
    for event in events:
        last = found[-1]
        if isinstance(event, FlightDone):
            if last.charges:
                last = Stretch()
                found.append(last)
            used_ah = share_of_flight_ah(event)
            found[-1] = msgspec.structs.replace(
                last,
                used_ah=last.used_ah + (used_ah or 0.0),
                flights=last.flights + 1,
                unknown_flights=last.unknown_flights + (used_ah is None),
            )
        else:
            found[-1] = msgspec.structs.replace(
                last,
                put_in_ah=last.put_in_ah + (share_of_charge_ah(event) or 0.0),
                charges=last.charges + 1,
                charged_on=event.on,
            )
    return tuple(stretch for stretch in found if stretch.flights or stretch.charges)
