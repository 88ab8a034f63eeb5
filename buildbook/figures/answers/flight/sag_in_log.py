"""How far a pack sagged on its own flights: what stood after a flight, less the lowest in it."""

from statistics import median

import msgspec

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.rates import since_the_change
from buildbook.figures.answers.working import by_method
from buildbook.report.state import ItemNow

MEDIAN_OF = 3  # flights from which on the middle one is taken; of fewer the greatest
IN_LOG = by_method(
    "where the log shows more: voltage after a flight less the lowest in it, the median of three "
    "flights or more, of fewer the greatest",
    "own",
)


class LoggedSag(msgspec.Struct, frozen=True, kw_only=True):
    """Volts lost under load by the log, from so many flights; place: of the newest."""

    sag_v: float
    flights: int
    place: Place

    @property
    def words(self) -> str:
        """Of how many flights it is what."""
        if self.flights == 1:
            return "on one flight"
        which = "the median" if self.flights >= MEDIAN_OF else "the greatest"
        return f"{which} of {amounts.count('flight', self.flights)}"


def sag_in_log(craft: Craft, pack: ItemNow) -> LoggedSag | None:
    """Off the flights since the last change that say both voltages, else off all that do."""
    read = [
        flight
        for flight in craft.now.flights
        if pack.tag in flight.row.packs
        and flight.volts is not None
        and (flight.volts.after_v or 0.0) > (flight.volts.lowest_v or 0.0) > 0
    ]
    flights = since_the_change(craft, read) or tuple(read)
    sags = [
        (flight.volts.after_v or 0.0) - (flight.volts.lowest_v or 0.0)
        for flight in flights
        if flight.volts is not None
    ]
    if not sags:
        return None
    sag_v = median(sags) if len(sags) >= MEDIAN_OF else max(sags)
    return LoggedSag(sag_v=sag_v, flights=len(sags), place=flights[-1].place)
