"""Cycle counts of a pack from what its log says went out and in. Plain floats, no numpy."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

import msgspec

from buildbook.figures.laws.numbers import finite_only


class PackEvent(msgspec.Struct, frozen=True):
    """One flight or charge of a pack, in the order of the log."""

    is_charge: bool
    charge_ah: float | None  # used by the flight or put in by the charge; None when not recorded


class ChargeCount(msgspec.Struct, frozen=True):
    """What a pack has been through, each ampere-hour counted once."""

    charge_ah: float  # moved through the pack
    charges: int  # recorded charges
    flights: int
    stretches: int  # between recorded charges, the open one at the end included
    unknown_flights: int  # flights that no recorded figure accounts for
    at_least: bool  # true when unknown flights or charges make the sum a lower bound


@finite_only
def count_charge(log: Iterable[PackEvent]) -> ChargeCount:
    """Charge through a pack, in Ah: per stretch the greater of used and put in.

    log: any number of events, in order; a charge closes the stretch of the flights before it.
    A flight without a figure is accounted for by the charge that closes its stretch, if that
    one has a figure. Source: the definition in the design of the figures; common practice,
    no source. ValueError: 'charge must be 0 Ah or more, got X'.
    """
    total, charges, flights, stretches, unknown_flights = 0.0, 0, 0, 0, 0
    used, unknown, pending = 0.0, 0, 0
    at_least = False
    for event in log:
        amount = _checked(event.charge_ah)
        if not event.is_charge:
            flights += 1
            pending += 1
            used += amount or 0.0
            unknown += amount is None
            continue
        charges += 1
        stretches += 1
        total += max(used, amount or 0.0)
        if amount is None and (unknown or not pending):
            at_least = True
            unknown_flights += unknown
        used, unknown, pending = 0.0, 0, 0
    if pending:
        stretches += 1
        total += used
        unknown_flights += unknown
        at_least = at_least or unknown > 0
    return ChargeCount(total, charges, flights, stretches, unknown_flights, at_least)


@finite_only
def equivalent_full_cycles(charge_ah: float, rated_capacity_ah: float) -> float:
    """Equivalent full cycles: charge through the pack over its rated capacity.

    charge_ah >= 0; rated_capacity_ah > 0. Source: check B14 on the NASA battery set
    (Saha and Goebel 2007). ValueError: 'rated capacity must be above 0 Ah, got X'.
    """
    _checked(charge_ah)
    if not (rated_capacity_ah > 0.0 and math.isfinite(rated_capacity_ah)):
        raise ValueError(f"rated capacity must be above 0 Ah, got {rated_capacity_ah:g}")
    return charge_ah / rated_capacity_ah


@finite_only
def cycles_from_states(states_share: Sequence[float]) -> float:
    """Equivalent full cycles from a record of the state of charge.

    states_share: states of charge as shares of 1, in order of time. Source: half of the path
    length, which every depth counter after ASTM E1049-85 must give too.
    ValueError: 'state of charge must be between 0 and 1, got X'.
    """
    for state in states_share:
        if not 0.0 <= state <= 1.0:
            raise ValueError(f"state of charge must be between 0 and 1, got {state:g}")
    steps = pairwise(states_share)
    return sum(abs(after - before) for before, after in steps) / 2.0


def _checked(charge_ah: float | None) -> float | None:
    if charge_ah is not None and not (charge_ah >= 0.0 and math.isfinite(charge_ah)):
        raise ValueError(f"charge must be 0 Ah or more, got {charge_ah:g}")
    return charge_ah
