"""How far a pack sagged on its own flights: what stood after a flight, less the lowest in it."""

from statistics import median

import msgspec

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import flown_cold
from buildbook.figures.answers.flight.lowest import flights_with_lowest, lowest_v
from buildbook.figures.answers.flight.rates import lately
from buildbook.figures.answers.working import by_method
from buildbook.report.history import FlightDone
from buildbook.report.state import ItemNow

MEDIAN_OF = 3  # flights from which on the middle one is taken; of fewer the greatest
IN_LOG = by_method(
    "where the log shows more: voltage after a flight less the lowest in it, the median of three "
    "flights or more, of fewer the greatest",
    "own",
)


class LoggedSag(msgspec.Struct, frozen=True, kw_only=True):
    """Volts lost under load by the log, from so many flights; place: of the newest.

    cold: how many of them were flown in the cold, in words.
    """

    sag_v: float
    flights: int
    place: Place
    cold: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """Of how many flights it is what."""
        if self.flights == 1:
            return ", ".join(("on one flight", *self.cold))
        which = "the median" if self.flights >= MEDIAN_OF else "the greatest"
        return ", ".join((f"{which} of {amounts.count('flight', self.flights)}", *self.cold))


def sag_in_log(craft: Craft, pack: ItemNow) -> LoggedSag | None:
    """Off the flights since the last change that say both voltages, else off all that do."""
    read = flights_with_lowest(craft, pack)
    flights = lately(craft, [one for one in read if _after_v(one) > lowest_v(one) > 0])
    sags = [_after_v(flight) - lowest_v(flight) for flight in flights]
    if not sags:
        return None
    sag_v = median(sags) if len(sags) >= MEDIAN_OF else max(sags)
    cold = flown_cold(flights, "them")
    return LoggedSag(sag_v=sag_v, flights=len(sags), place=flights[-1].place, cold=cold)


def _after_v(flight: FlightDone) -> float:
    """What stood after a flight; 0 where it was not written."""
    return flight.volts.after_v or 0.0 if flight.volts else 0.0
