"""Running totals of flying, which can be asked for any moment of the log."""

import datetime
from bisect import bisect_right
from typing import NamedTuple


class Flown(NamedTuple):
    """What has been flown up to a moment."""

    duration_s: float = 0.0
    flights: int = 0
    flying_days: int = 0

    def __add__(self, other: object) -> "Flown":
        if not isinstance(other, Flown):
            return NotImplemented
        return Flown(
            self.duration_s + other.duration_s,
            self.flights + other.flights,
            self.flying_days + other.flying_days,
        )

    def __sub__(self, other: "Flown") -> "Flown":
        return Flown(
            self.duration_s - other.duration_s,
            self.flights - other.flights,
            self.flying_days - other.flying_days,
        )


NOTHING = Flown()


class Tally:
    """Totals after each flight, in the order of the log."""

    __slots__ = ("_days", "_sequence", "_totals")

    def __init__(self) -> None:
        self._sequence: list[int] = []
        self._totals: list[Flown] = []
        self._days: list[datetime.date] = []

    def add(self, seq: int, on: datetime.date, duration_s: float) -> None:
        """Count one flight; flights must come in the order of the log."""
        last = self._totals[-1] if self._totals else NOTHING
        new_day = not self._days or self._days[-1] != on
        self._sequence.append(seq)
        self._days.append(on)
        self._totals.append(
            Flown(last.duration_s + duration_s, last.flights + 1, last.flying_days + new_day)
        )

    def at(self, seq: int) -> Flown:
        """The totals up to and including that moment."""
        index = bisect_right(self._sequence, seq)
        return self._totals[index - 1] if index else NOTHING

    @property
    def total(self) -> Flown:
        """The totals up to the end of the log."""
        return self._totals[-1] if self._totals else NOTHING

    @property
    def last_day(self) -> datetime.date | None:
        """The day of the last flight."""
        return self._days[-1] if self._days else None
