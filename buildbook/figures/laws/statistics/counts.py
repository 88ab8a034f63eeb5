"""Rates of rare events with exact limits: incidents per flight, time between failures.

Plain floats, no numpy. An event count is taken as Poisson: events are independent of each
other and equally likely in every hour or flight.
"""

from __future__ import annotations

import math
from typing import Literal

import msgspec

from buildbook.figures.laws.numbers import checked
from buildbook.figures.laws.statistics.quantiles import chi_square_quantile

Sides = Literal["two-sided", "one-sided"]


class EventLimits(msgspec.Struct, frozen=True):
    """Limits of the expected number of events."""

    events: int
    low: float
    high: float
    level: float
    sides: Sides  # one-sided: only `high` is a limit, `low` is 0


class EventRate(msgspec.Struct, frozen=True):
    """Events per unit of exposure; with no event only an upper bound is known."""

    events: int
    exposure: float  # in the caller's unit: flights, hours
    per: float  # the rate is given per this many units, for example 100 flights
    rate: float | None  # None when no event was seen: "none yet", never "0 per hour"
    low: float
    high: float
    level: float
    sides: Sides


class MeanTimeBetween(msgspec.Struct, frozen=True):
    """Mean time between failures, in the unit of the observed time."""

    failures: int
    observed: float
    estimate: float | None  # None without a failure
    low: float
    high: float | None  # None without a failure: no upper limit exists
    level: float
    sides: Sides


@checked
def event_limits(events: int, *, level: float = 0.95) -> EventLimits:
    """Exact two-sided limits of a Poisson mean after `events` were seen.

    events >= 0; 0 < level < 1. Source: Garwood 1936, Biometrika 28:437-442.
    ValueError: 'events must be 0 or more, got N', 'level must be between 0 and 1, got X'.
    """
    _check(events, level)
    tail = (1.0 - level) / 2.0
    low = chi_square_quantile(tail, 2 * events) / 2.0 if events else 0.0
    high = chi_square_quantile(1.0 - tail, 2 * events + 2) / 2.0
    return EventLimits(events, low, high, level, "two-sided")


@checked
def event_upper_bound(events: int, *, level: float = 0.95) -> EventLimits:
    """One-sided upper limit of a Poisson mean; -log(1 - level) when no event was seen.

    events >= 0; 0 < level < 1. Source: Garwood 1936. ValueError: as `event_limits`.
    """
    _check(events, level)
    high = chi_square_quantile(level, 2 * events + 2) / 2.0
    return EventLimits(events, 0.0, high, level, "one-sided")


@checked
def event_rate(events: int, exposure: float, *, per: float = 1.0, level: float = 0.95) -> EventRate:
    """Events per `per` units of exposure, with exact Poisson limits.

    exposure > 0 in flights or hours; per > 0 in the same unit. Without an event the limit is
    one-sided and `rate` is None; as the kind of limit then depends on the count, 92.5 % at
    least are covered by 95 % limits, not 95 %. Source: Garwood 1936.
    ValueError: as `event_limits`; 'exposure must be above 0, got X'.
    """
    if not (exposure > 0.0 and math.isfinite(exposure)):
        raise ValueError(f"exposure must be above 0, got {exposure:g}")
    if not (per > 0.0 and math.isfinite(per)):
        raise ValueError(f"per must be above 0, got {per:g}")
    limits = event_limits(events, level=level) if events else event_upper_bound(0, level=level)
    scale = per / exposure
    rate = events * scale if events else None
    return EventRate(
        events, exposure, per, rate, limits.low * scale, limits.high * scale, level, limits.sides
    )


@checked
def mean_time_between(observed: float, failures: int, *, level: float = 0.95) -> MeanTimeBetween:
    """Mean time between failures with limits, for an observation ended at a chosen time.

    observed > 0, any unit; failures >= 0. Without a failure only the one-sided lower limit
    exists: observed / -log(1 - level). Source: NIST e-Handbook 8.4.5.1.
    ValueError: as `event_limits`; 'observed time must be above 0, got X'.
    """
    if not (observed > 0.0 and math.isfinite(observed)):
        raise ValueError(f"observed time must be above 0, got {observed:g}")
    if failures == 0:
        bound = event_upper_bound(0, level=level)
        return MeanTimeBetween(0, observed, None, observed / bound.high, None, level, "one-sided")
    limits = event_limits(failures, level=level)
    return MeanTimeBetween(
        failures,
        observed,
        observed / failures,
        observed / limits.high,
        observed / limits.low,
        level,
        "two-sided",
    )


def _check(events: int, level: float) -> None:
    if events < 0:
        raise ValueError(f"events must be 0 or more, got {events}")
    if not 0.0 < level < 1.0:
        raise ValueError(f"level must be between 0 and 1, got {level:g}")
