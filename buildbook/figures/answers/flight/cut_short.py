"""What a pack's own flights allow: one that stood at its cut-off ends every plan before it."""

import msgspec

from buildbook.basis import amounts
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.pack_in_flight import flights_with_lowest, lowest_v
from buildbook.figures.answers.flight.rates import lately
from buildbook.figures.answers.gathering import measured, number
from buildbook.figures.answers.packs.packs import cutoff_v, reserve
from buildbook.hangar.packs.doubts import is_cold
from buildbook.report.figure import Figure
from buildbook.report.history import FlightDone
from buildbook.report.state import ItemNow

CLOSE_V = 1e-6  # 3 cells of 3.4 V are 10.2 V, whatever the last bit
TIME, LOWEST = "time to the cut-off, s", "lowest at the cut-off, V"
COLD = "temperature at the cut-off, K"


def cut_short(craft: Craft, pack: ItemNow, figure: Figure) -> Figure:
    """A time until the reserve, no longer than the pack's own flights allow.

    Where a flight stood at the cut-off after t, all that the pack gives is t, and the reserve
    is kept of that. A limit of the interval that lies above is no limit any more.
    """
    ended = _shortest_at_cutoff(craft, pack)
    if ended is None or figure.value is None:
        return figure
    kept = reserve(craft.keeper)
    allowed = ended.motor_s * (1 - number(kept))
    if figure.value <= allowed:
        return figure
    other = {TIME: ended.motor_s, LOWEST: lowest_v(ended)}
    if ended.temperature_k is not None and is_cold(ended.temperature_k):
        other[COLD] = ended.temperature_k
    return msgspec.structs.replace(
        figure,
        value=allowed,
        low=allowed if figure.low is None else min(figure.low, allowed),
        high=None if figure.high is None else max(allowed, min(figure.high, ended.motor_s)),
        level=None,
        inputs=(*figure.inputs, measured("time to the cut-off", ended.motor_s, "s", ended.place)),
        sensitivity=(),
        other={**figure.other, **other},
        in_verdict=(*figure.in_verdict, *other),
    )


def why_short(figure: Figure) -> tuple[str, ...]:
    """What is said where ``cut_short`` made a time shorter."""
    if TIME not in figure.other:
        return ()
    return (
        f"a flight {_in_cold(figure)}stood at its cut-off, "
        f"{amounts.voltage(figure.other[LOWEST])}, after "
        f"{amounts.duration(figure.other[TIME])}: at most that, less the reserve",
    )


def _in_cold(figure: Figure) -> str:
    kelvin = figure.other.get(COLD)
    return "" if kelvin is None else f"at {amounts.temperature(kelvin)} "


def _shortest_at_cutoff(craft: Craft, pack: ItemNow) -> FlightDone | None:
    """The shortest of its flights of late on which it was read at its cut-off or under."""
    read = lately(craft, flights_with_lowest(craft, pack))
    if not read:
        return None
    limit = cutoff_v(pack) + CLOSE_V
    ended = [flight for flight in read if flight.motor_s > 0 and lowest_v(flight) <= limit]
    return min(ended, key=lambda flight: flight.motor_s, default=None)
