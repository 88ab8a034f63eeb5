"""What was out of a pack at the end of each flight, counted since it was charged."""

from collections.abc import Mapping

from buildbook.report.history import ChargeDone, FlightDone
from buildbook.report.packs.charge_tally import in_order, share_of_flight_ah
from buildbook.report.state import ItemNow

Flown = tuple[int, int]
"""A flight by its place in the log: its entry, and its row there."""


def flown_as(flight: FlightDone) -> Flown:
    """How a flight is looked up."""
    return (flight.seq, flight.row_index)


def out_since_charged_ah(pack: ItemNow, capacity_ah: float) -> Mapping[Flown, float | None]:
    """Charge in Ah by flight; None where a flight since then, or the charge, does not say it.

    Of a pack without any charge in the log each day begins full; where more would be out than it
    holds, a charge was not written, and the flight is counted alone.
    """
    found: dict[Flown, float | None] = {}
    out_ah: float | None = 0.0
    flown: FlightDone | None = None
    for event in in_order(pack.flights, pack.charges):
        if isinstance(event, ChargeDone):
            out_ah = 0.0 if event.to in (None, "full") else None
            continue
        if not pack.charges and flown is not None and flown.on != event.on:
            out_ah = 0.0
        used_ah, flown = share_of_flight_ah(event), event
        out_ah = None if out_ah is None or used_ah is None else out_ah + used_ah
        if out_ah is not None and used_ah is not None and out_ah > capacity_ah:
            out_ah = used_ah
        found[flown_as(event)] = out_ah
    return found
