"""The lowest voltage that was read of a pack on its flights."""

from buildbook.figures.answers.craft import Craft
from buildbook.report.history import FlightDone
from buildbook.report.state import ItemNow


def flights_with_lowest(craft: Craft, pack: ItemNow) -> tuple[FlightDone, ...]:
    """The flights on this pack of which the lowest voltage was written."""
    return tuple(
        flight
        for flight in craft.now.flights
        if pack.tag in flight.row.packs
        and flight.volts is not None
        and flight.volts.lowest_v is not None
    )


def lowest_v(flight: FlightDone) -> float:
    """The lowest voltage of a flight that has one."""
    return flight.volts.lowest_v or 0.0 if flight.volts else 0.0
