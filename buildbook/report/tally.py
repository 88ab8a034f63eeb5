"""Running totals of flying, which can be asked for any moment of the log."""

import datetime
from bisect import bisect_right
from functools import partial
from typing import NamedTuple


class Flown(NamedTuple):
    """What has been flown up to a moment.

    gliding_s: of that, with the motors off; untold_s: of flights that do not say how long these
    ran, where others of that aircraft do.
    """

    duration_s: float = 0.0
    flights: int = 0
    flying_days: int = 0
    gliding_s: float = 0.0
    untold_s: float = 0.0

    def __add__(self, other: object) -> "Flown":
        if not isinstance(other, Flown):
            return NotImplemented
        return Flown(
            self.duration_s + other.duration_s,
            self.flights + other.flights,
            self.flying_days + other.flying_days,
            self.gliding_s + other.gliding_s,
            self.untold_s + other.untold_s,
        )

    def __sub__(self, other: "Flown") -> "Flown":
        return Flown(
            self.duration_s - other.duration_s,
            self.flights - other.flights,
            self.flying_days - other.flying_days,
            self.gliding_s - other.gliding_s,
            self.untold_s - other.untold_s,
        )


NOTHING = Flown()


# Quicker than by its name, as the fold makes two for each flight.
_flown = partial(tuple.__new__, Flown)


class Window(NamedTuple):
    """What was flown between two moments, and the first and last day of it."""

    flown: Flown = NOTHING
    first_day: datetime.date | None = None
    last_day: datetime.date | None = None


class Tally:
    """Totals after each flight, in the order of the log."""

    __slots__ = ("_days", "_sequence", "_tells", "_totals")

    def __init__(self) -> None:
        self._sequence: list[int] = []
        self._totals: list[Flown] = []
        self._days: list[datetime.date] = []
        self._tells = False

    def add(
        self, seq: int, on: datetime.date, duration_s: float, motor_s: float | None = None
    ) -> None:
        """Count one flight; flights must come in the order of the log.

        motor_s: how long the motors ran; None is not told, and counts as all of it.
        """
        if motor_s is not None and not self._tells:
            self._tells = True
            self._totals = [total._replace(untold_s=total.duration_s) for total in self._totals]
        if self._days:
            so_far, last_day = self._totals[-1], self._days[-1]
        else:
            so_far, last_day = NOTHING, None
        flown_s, flights, days, gliding_s, untold_s = so_far
        if motor_s is not None:
            gliding_s += duration_s - motor_s
        elif self._tells:
            untold_s += duration_s
        self._sequence.append(seq)
        self._days.append(on)
        flown = (flown_s + duration_s, flights + 1, days + (on != last_day), gliding_s, untold_s)
        self._totals.append(_flown(flown))

    def at(self, seq: int) -> Flown:
        """The totals up to and including that moment."""
        index = bisect_right(self._sequence, seq)
        return self._totals[index - 1] if index else NOTHING

    def between(self, after: int, upto: int | None = None) -> Window:
        """What was flown after one moment, up to and including another (None: to the end).

        A day that had flights before the first moment too is a flying day of the window.
        """
        start = bisect_right(self._sequence, after)
        end = len(self._sequence) if upto is None else bisect_right(self._sequence, upto)
        if start >= end:
            return Window()
        flown = self._totals[end - 1] - (self._totals[start - 1] if start else NOTHING)
        if start and self._days[start] == self._days[start - 1]:
            flown = flown._replace(flying_days=flown.flying_days + 1)
        return Window(flown, self._days[start], self._days[end - 1])

    @property
    def total(self) -> Flown:
        """The totals up to the end of the log."""
        return self._totals[-1] if self._totals else NOTHING
