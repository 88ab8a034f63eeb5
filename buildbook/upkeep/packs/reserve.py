"""Flights that went on into the reserve of a pack: by the charge out of it, else by their time.

Flights on one charge count together where the log says so without doubt: charged full before, and
all on one day; a charge of that day without a time stands where it tells best of them. Each other
flight counts alone, so a charge that nobody wrote accuses nobody. A
flight that does not say what it used is judged by its time, at the draw of those like it that drew
little.

The last one stays open until a flight landed with the reserve beyond doubt: one that says what it
used, on a full charge of its own where full charges of that pack are written. A habit stays open
whatever the last flight was.
"""

import datetime
from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from operator import itemgetter
from typing import NamedTuple

from msgspec.structs import replace

from buildbook.basis import amounts
from buildbook.basis.problems import TOLD_DAYS, Problem
from buildbook.hangar.packs.doubts import MOST_USED
from buildbook.report.history import ChargeDone, FlightDone
from buildbook.report.packs.charge_tally import in_best_order, share_of_flight_ah
from buildbook.report.packs.health import RESERVE_SHARE
from buildbook.report.packs.like_conditions import like_readings, of_capacity
from buildbook.report.state import Hangar, ItemNow
from buildbook.report.upkeep.pack_findings import IntoReserve

PAST = 0.05
"""Of the capacity: a flight that went so little past the reserve is not told, for counters err.
Common practice, no source."""

LEAST, NEWEST = 4, 60
"""Flights of the aircraft before it that a flight without a figure is judged by."""

HABIT, HABIT_OF = 3, 6
"""Of its last flights so many into the reserve are a habit. Common practice, no source."""


class Judged(NamedTuple):
    """Flights that went into the reserve, oldest first, and the last if it is open still."""

    reached: tuple[tuple[FlightDone, IntoReserve], ...]
    open: tuple[FlightDone, IntoReserve] | None


NEVER = Judged((), None)
"""Of a pack of which nothing can be said."""


class _Out(NamedTuple):
    """Charge out of a pack after a flight. together: with flights before it; by_time: estimated.

    acquits: whether it shows, where it is little, that the pack landed with its reserve.
    """

    flight: FlightDone
    out_ah: float
    together: bool
    by_time: bool
    acquits: bool = False


def into_reserve(hangar: Hangar, pack: ItemNow) -> Judged:
    """All flights of a pack, judged by what it held then, less what the keeper leaves in it."""
    kept = hangar.ledger.keeper.reserve_share
    share = 1 - (RESERVE_SHARE if kept is None else kept)
    known = [one.measured_ah for one in pack.capacities]
    known += [pack.spec.capacity_ah] if pack.spec.capacity_ah else []
    if not known:
        return NEVER
    reached: list[tuple[FlightDone, IntoReserve]] = []
    least_ah, acquitted = min(known), False
    for out in _outs(hangar, pack, max(known)):
        acquitted = acquitted or out.acquits
        if out.out_ah <= (share + PAST) * least_ah:
            continue  # whatever it held
        held_ah = capacity_then_ah(pack, out.flight)
        if held_ah and round(out.out_ah / held_ah - share, 6) > PAST:
            found = IntoReserve(
                out_ah=out.out_ah,
                usable_ah=held_ah * share,
                together=out.together,
                flown_s=out.flight.motor_s if out.by_time else None,
                before=len(reached),
            )
            reached.append((out.flight, found))
            acquitted = False
    return Judged(tuple(reached), _still_open(pack, reached, acquitted))


def _still_open(
    pack: ItemNow, reached: Sequence[tuple[FlightDone, IntoReserve]], acquitted: bool
) -> tuple[FlightDone, IntoReserve] | None:
    """The last one; once one landed with the reserve, only where it is a habit."""
    if not reached or not acquitted:
        return reached[-1] if reached else None
    newest = {id(flight) for flight in pack.flights[-HABIT_OF:]}
    times = sum(id(flight) in newest for flight, _ in reached)
    flight, found = reached[-1]
    return (flight, replace(found, habit=times)) if times >= HABIT else None


def capacity_then_ah(pack: ItemNow, flight: FlightDone) -> float | None:
    """The capacity last measured under like conditions before a flight, else the rated one."""
    before = [done for done in pack.capacities if done.seq < flight.seq]
    like = like_readings(before, partial(of_capacity, pack)).alike
    return like[-1].measured_ah if like else pack.spec.capacity_ah


def reserve_warnings(
    hangar: Hangar, into: Callable[[ItemNow], Judged], each: bool = False
) -> Iterator[Problem]:
    """A warning for each pack: its last flight into the reserve, and how often before.

    into: ``into_reserve`` of a pack of this hangar. each: however long ago.
    """
    since = hangar.as_of - datetime.timedelta(days=TOLD_DAYS)
    for on, problem in _warnings(hangar, into):
        if each or on >= since:
            yield problem


def reserve_warnings_earlier(
    hangar: Hangar, into: Callable[[ItemNow], Judged]
) -> tuple[Problem, ...]:
    """Those that ``reserve_warnings`` leaves out, for they are of long ago."""
    since = hangar.as_of - datetime.timedelta(days=TOLD_DAYS)
    return tuple(problem for on, problem in _warnings(hangar, into) if on < since)


def _warnings(
    hangar: Hangar, into: Callable[[ItemNow], Judged]
) -> Iterator[tuple[datetime.date, Problem]]:
    for pack in hangar.items.values():
        told = into(pack).reached if pack.is_pack else ()
        told = tuple(one for one in told if one[0].uid not in hangar.sure)
        if not told:
            continue
        flight, found = told[-1]
        if found.out_ah > MOST_USED * (capacity_then_ah(pack, flight) or 0.0):
            continue  # told already: it gave more than it holds
        before = {0: "", 1: "; once before"}.get(found.before, f"; {found.before} times before")
        used, usable = f"{amounts.charge(found.out_ah)} used", amounts.charge(found.usable_ah)
        if found.flown_s is not None:
            used = f"about {amounts.charge(found.out_ah)} by its usual draw"
        yield (
            flight.on,
            Problem(
                f"{pack.tag} flown into its reserve on {flight.on}: {used}, {usable} to its "
                f"reserve{before}",
                flight.place,
                "warning",
                "set the timer by its page, and land earlier",
                (),
                flight.aircraft,
                of_flight=True,
            ),
        )


def _outs(hangar: Hangar, pack: ItemNow, most_ah: float) -> Iterator[_Out]:
    """The charge out after each flight that can be judged. most_ah: more it never held."""
    out_ah: float | None = None  # since a full charge, all on one day; None: not known
    day: datetime.date | None = None
    draws: dict[str, _Draws] = {}
    unwritten = not any(one.fills for one in pack.charges)
    charged = False  # full, since the flight before
    for event in in_best_order(pack.flights, pack.charges):
        if isinstance(event, ChargeDone):
            charged = event.fills and not event.between
            out_ah, day = (0.0 if charged else None), None
            continue
        acquits, charged = charged or unwritten, False
        used_ah = share_of_flight_ah(event)
        if used_ah is None:
            out_ah = None
            if event.aircraft not in draws:
                draws[event.aircraft] = _Draws(hangar, event.aircraft)
            about_ah = draws[event.aircraft].used_ah(event)
            if about_ah is not None:
                yield _Out(event, about_ah, together=False, by_time=True)
            continue
        together = bool(out_ah) and day == event.on
        sum_ah = used_ah + (out_ah or 0.0) if together else used_ah
        if together and sum_ah > MOST_USED * most_ah:  # a charge was not written
            sum_ah, together, out_ah = used_ah, False, None
        else:
            out_ah = sum_ah if out_ah is not None and day in (None, event.on) else None
        day = event.on
        yield _Out(event, sum_ah, together, by_time=False, acquits=acquits)


class _Draws:
    """What the flights of an aircraft drew in a second, in the order of the log."""

    def __init__(self, hangar: Hangar, slug: str) -> None:
        aircraft = hangar.aircraft.get(slug)
        flights = () if aircraft is None else aircraft.flights
        used = [one for one in flights if one.row.used_ah and one.motor_s > 0]
        self._by_motor = any(one.motor_run_s for one in used)
        self._of: Mapping[bool, list[tuple[int, float]]] = {
            loaded: [
                (one.seq, (one.row.used_ah or 0.0) / one.motor_s)
                for one in used
                if bool(one.payload_kg) == loaded
                and (not self._by_motor or one.motor_run_s is not None)
            ]
            for loaded in (False, True)
        }

    def used_ah(self, flight: FlightDone) -> float | None:
        """What it took from each pack at a draw that a quarter of those before it stayed under."""
        if self._by_motor and flight.motor_run_s is None:
            return None
        known = self._of[bool(flight.payload_kg)]
        end = bisect_left(known, flight.seq, key=itemgetter(0))
        rates = sorted(rate for _, rate in known[max(0, end - NEWEST) : end])
        if len(rates) < LEAST:
            return None
        return rates[len(rates) // 4] * flight.motor_s / max(1, len(flight.row.packs))
