"""What an item has flown, from its stays on aircraft and the tallies of those aircraft."""

from collections.abc import Callable, Iterable, Sequence

import msgspec

from buildbook.records.parts import DRIVE
from buildbook.report.history import FlightDone, Overhauled, Stay
from buildbook.report.state import Hangar
from buildbook.report.tally import NOTHING, Flown, Tally

LEAST_FITTED = 4  # flights from which a rate can be fitted at all


def flown_on_stays(
    stays: Iterable[Stay], tally_of: Callable[[str], Tally], upto: int | None = None
) -> Flown:
    """Seconds, flights and flying days of all stays up to a moment (None: to the end).

    A day on which two stays flew counts once.
    """
    total, last_day = NOTHING, None
    for stay in stays:
        if upto is not None and stay.since_seq > upto:
            break
        end = stay.until_seq
        if upto is not None:
            end = upto if end is None else min(end, upto)
        flown, first_day, last = tally_of(stay.aircraft).between(stay.since_seq, end)
        total += flown
        if first_day is not None:
            if first_day == last_day:
                total = total._replace(flying_days=total.flying_days - 1)
            last_day = last
    return total


def in_service(flown: Flown, kind: str) -> Flown:
    """The same for a part of a kind: of a driven one the time that the motors ran.

    A frame or a servo serves all the flight.
    """
    if kind not in DRIVE:
        return flown._replace(untold_s=0.0) if flown.untold_s else flown
    if not flown.gliding_s:
        return flown
    return flown._replace(duration_s=flown.duration_s - flown.gliding_s, gliding_s=0.0)


def timed_alike(flights: Sequence[FlightDone]) -> list[FlightDone]:
    """Those that say how long the motor ran, where most or enough to fit do; else the others."""
    driven = [flight for flight in flights if flight.motor_run_s]
    if 2 * len(driven) > len(flights) or len(driven) >= LEAST_FITTED:
        return driven
    return [flight for flight in flights if not flight.motor_run_s]


def with_flown(last: Overhauled, flown: Flown) -> Overhauled:
    """An overhaul with what was flown since."""
    return msgspec.structs.replace(last, duration_s=flown.duration_s, flights=flown.flights)


def flown_at(hangar: Hangar, tag: str, seq: int) -> Flown:
    """Seconds, flights and flying days of an item up to an entry, carried life left out.

    An item that is fitted gets its time from the stays on aircraft, a pack from its flights; the
    time of motors, ESCs and propellers is that in which the motors ran.
    """
    item = hangar.items[tag]
    if item.is_pack:
        return item.tally.at(seq)
    flown = flown_on_stays(item.stays, lambda slug: hangar.aircraft[slug].tally, seq)
    return in_service(flown, item.spec.kind)
