"""What the log shows of a pack in flight: how low it came, how far it sagged, what was out of it.

It sagged from what stood after a flight to the lowest in it.
"""

from collections.abc import Mapping, Sequence

import msgspec

from buildbook.basis import amounts
from buildbook.basis.place import Place
from buildbook.figures.answers.craft import Craft
from buildbook.figures.answers.flight.cold import flown_cold
from buildbook.figures.answers.flight.rates import glides, lately
from buildbook.figures.answers.gathering import default, measured, number
from buildbook.figures.answers.packs.packs import (
    MOST_IN_COLD,
    ROOM_K,
    capacity,
    cutoff,
    reserve,
    times_in_cold,
    usable_ah,
)
from buildbook.figures.answers.working import by_method
from buildbook.figures.laws.numbers import median
from buildbook.hangar.packs.doubts import is_cold
from buildbook.report.figure import Figure, Input, Name
from buildbook.report.history import ChargeDone, FlightDone
from buildbook.report.packs.charge_tally import in_order, share_of_flight_ah
from buildbook.report.state import ItemNow

MEDIAN_OF = 3  # flights from which on the middle one is taken; of fewer the greatest
IN_COLDER = "brought to the colder air of the field"
IN_LOG = by_method(
    "where the log shows more: voltage after a flight less the lowest in it, the median of three "
    "flights or more, of fewer the greatest",
    "own",
)


class LoggedSag(msgspec.Struct, frozen=True, kw_only=True):
    """Volts lost under load by the log, from so many flights; place: of the newest.

    ohm: over the current of those of them that wrote what they used; None: none did. colder: it is
    of air colder than theirs. cold: how many of them were flown in the cold, in words.
    """

    sag_v: float
    flights: int
    place: Place
    ohm: float | None = None
    colder: bool = False
    cold: tuple[str, ...] = ()

    @property
    def given(self) -> Input:
        """As what goes into a figure."""
        if not self.colder:
            return measured("sag in the log", self.sag_v, "V", self.place)
        name = Name("sag in the log", further=IN_COLDER)
        return default(name, self.sag_v, "V", MOST_IN_COLD, self.place)

    @property
    def words(self) -> str:
        """Of how many flights it is what."""
        more = (*self.cold, *((IN_COLDER,) if self.colder else ()))
        if self.flights == 1:
            return ", ".join(("on one flight", *more))
        which = "the median" if self.flights >= MEDIAN_OF else "the greatest"
        return ", ".join((f"{which} of {amounts.count('flight', self.flights)}", *more))


def sag_in_log(craft: Craft, pack: ItemNow, at_k: float | None = None) -> LoggedSag | None:
    """Off the flights since the last change that say both voltages, else off all that do.

    at_k: as it would be in air so cold, at most: there off the cold flights, where there are any.
    """
    read = flights_with_lowest(craft, pack)
    flights = tuple(lately(craft, [one for one in read if _after_v(one) > lowest_v(one) > 0]))
    if at_k is not None and is_cold(at_k):
        flights = tuple(one for one in flights if is_cold(_flown_at_k(craft, one))) or flights
    times = [
        1.0 if at_k is None else times_in_cold(pack, at_k, _flown_at_k(craft, one))
        for one in flights
    ]
    if not flights:
        return None
    drawn_a = [flown_a(one) if _is_timed(craft, one) else 0.0 for one in flights]
    sag_v, ohm = _middle_of(flights, times, drawn_a)
    return LoggedSag(
        sag_v=sag_v,
        flights=len(flights),
        place=flights[-1].place,
        ohm=ohm or None,
        colder=(sag_v, ohm) != _middle_of(flights, [1.0] * len(times), drawn_a),
        cold=flown_cold(flights, "them"),
    )


def _middle_of(
    flights: Sequence[FlightDone], times: Sequence[float], drawn_a: Sequence[float]
) -> tuple[float, float]:
    """Sag in V and resistance in Ω by flights, each so many times; 0 Ω where none says its use."""
    sags = [
        (_after_v(one) - lowest_v(one)) * more for one, more in zip(flights, times, strict=True)
    ]
    ohms = [sag_v / amps for sag_v, amps in zip(sags, drawn_a, strict=True) if amps]
    sag_v, ohm = (
        median(found) if len(found) >= MEDIAN_OF else max(found, default=0.0)
        for found in (sags, ohms)
    )
    return sag_v, ohm


def _is_timed(craft: Craft, flight: FlightDone) -> bool:
    """Whether the log says for how long it drew: of a glider only with the time of its motor."""
    return bool(flight.motor_run_s) or not glides(craft)


def flown_a(flight: FlightDone) -> float:
    """The current in A of one of its packs on average; 0 where what it used was not written."""
    used_ah = share_of_flight_ah(flight)
    return used_ah * 3600 / flight.motor_s if used_ah and flight.motor_s > 0 else 0.0


def _flown_at_k(craft: Craft, flight: FlightDone) -> float:
    """The temperature in K that it was flown in; where nobody wrote it, the field's or a room's."""
    return flight.temperature_k or craft.keeper.field_temperature_k or ROOM_K


def _after_v(flight: FlightDone) -> float:
    """What stood after a flight; 0 where it was not written."""
    return flight.volts.after_v or 0.0 if flight.volts else 0.0


def flights_with_lowest(craft: Craft, pack: ItemNow) -> tuple[FlightDone, ...]:
    """The flights on this pack of which the lowest voltage was written."""
    return tuple(
        flight
        for flight in craft.now.flights
        if pack.tag in flight.row.packs
        and flight.volts is not None
        and flight.volts.lowest_v is not None
    )


LOWEST_V = "lowest in the log, V"
"""What ``other`` of a figure has for the lowest of several flights."""


def lowest_v(flight: FlightDone) -> float:
    """The lowest voltage of a flight that has one."""
    return flight.volts.lowest_v or 0.0 if flight.volts else 0.0


Flown = tuple[int, int]
"""A flight by its place in the log: its entry, and its row there."""


def flown_as(flight: FlightDone) -> Flown:
    """How a flight is looked up."""
    return (flight.seq, flight.row_index)


def longest_beside(longest_s: float | None, *, by_motor: bool = False) -> dict[str, float]:
    """The longest flight or motor run, as ``other`` of a time has it."""
    what = "motor run" if by_motor else "flight"
    return {} if longest_s is None else {f"longest {what}, s": longest_s}


def longest_kept_s(
    craft: Craft, pack: ItemNow, flights: Sequence[FlightDone], *, by_motor: bool = False
) -> float | None:
    """The longest in s of these flights on this pack that left the reserve; None: none did.

    by_motor: how long its motor ran.
    """
    size_ah, usable = number(capacity(pack)), usable_ah(craft.keeper, pack)
    out_ah = out_since_charged_ah(pack, size_ah)
    own = [one for one in flights if pack.tag in one.row.packs]
    kept = (one for one in own if (out_ah.get(flown_as(one)) or one.row.used_ah or 0) <= usable)
    times = (one.motor_s if by_motor else one.duration_s for one in kept)
    return max(times, default=None)


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
            out_ah = 0.0 if event.fills else None
            continue
        if not pack.charges and flown is not None and flown.on != event.on:
            out_ah = 0.0
        used_ah, flown = share_of_flight_ah(event), event
        out_ah = None if out_ah is None or used_ah is None else out_ah + used_ah
        if out_ah is not None and used_ah is not None and out_ah > capacity_ah:
            out_ah = used_ah
        found[flown_as(event)] = out_ah
    return found


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


def why_short(craft: Craft, pack: ItemNow, figure: Figure) -> tuple[str, ...]:
    """What is said where ``cut_short`` made a time shorter."""
    if TIME not in figure.other:
        return ()
    return (
        f"a flight {_in_cold(figure)}stood at {cutoff(craft.now, pack).whose}, "
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
    read = tuple(one for one in read if _is_timed(craft, one))
    limit = cutoff(craft.now, pack).pack_v + CLOSE_V
    ended = [flight for flight in read if flight.motor_s > 0 and lowest_v(flight) <= limit]
    return min(ended, key=lambda flight: flight.motor_s, default=None)
