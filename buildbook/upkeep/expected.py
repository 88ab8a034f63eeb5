"""When something will be due, as an interval of days, from the keeper's own recent rate of flying.

Method: days with flying come as a renewal process. From the gaps between the flying days of the
last year and from what one of them brings (flights, hours, charges), the time to the wanted amount
has a mean and a spread; the spread holds the chance of the days to come and that of having
estimated from few. The interval is a log-normal one with that mean and spread. Its coverage is
tested by simulation. Method: own, no source.
"""

import datetime
import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from buildbook.hangar.happened import FlightDone
from buildbook.hangar.state import ItemNow

LEVEL = 0.8
"""The share of intervals that should hold the true day."""

RECENT_DAYS = 365
MOST_FLYING_DAYS = 30
FEWEST_FLYING_DAYS = 5
FARTHEST_DAYS = 3 * 365
"""Beyond this an expected day says nothing; none is given."""

_HAIR = 1e-6  # of a day: what rounding may leave over

_Z = 1.2816  # the normal quantile of 0.9: an interval of 80 %
_FEW = 2.5  # how much wider the interval is where few days were seen; set by simulation


class Window(NamedTuple):
    """An early and a late day."""

    early: datetime.date
    late: datetime.date


NEVER = Window(datetime.date.max, datetime.date.max)
"""Not in any time that can be told: nothing is flown, or it is too far away."""


class Spread(NamedTuple):
    """A mean, and the variance as a share of the mean squared."""

    mean: float
    variation: float


class Pace(NamedTuple):
    """How often somebody flies, and what a flying day brings, by unit.

    days: the number of flying days that it rests on; 0 where nothing was flown for a year.
    """

    gap: Spread
    brings: Mapping[str, Spread]
    days: int


SILENT = Pace(Spread(0.0, 0.0), {}, 0)


def pace(days: Mapping[datetime.date, Mapping[str, float]], as_of: datetime.date) -> Pace | None:
    """The rate of the last year from what each flying day brought; None with little data.

    A silence since the last flying day that is longer than the mean gap counts as a gap.
    """
    recent = sorted(day for day in days if 0 <= (as_of - day).days <= RECENT_DAYS)
    if not recent:
        return SILENT
    recent = recent[-MOST_FLYING_DAYS:]
    if len(recent) < FEWEST_FLYING_DAYS:
        return None
    gaps = [float((after - day).days) for day, after in pairwise(recent)]
    silence = float((as_of - recent[-1]).days)
    if silence > sum(gaps) / len(gaps):
        gaps.append(silence)
    units = sorted({unit for day in recent for unit in days[day]})
    brings = {unit: _spread([days[day].get(unit, 0.0) for day in recent]) for unit in units}
    return Pace(_spread(gaps), brings, len(recent))


def window(pace: Pace, unit: str, amount: float, as_of: datetime.date) -> Window | None:
    """The 80 % interval of days on which ``amount`` more of a unit will have come.

    None where the unit was not recorded; an end that is too far away is ``date.max``.
    """
    if not pace.days:
        return NEVER
    brought = pace.brings.get(unit)
    if brought is None or brought.mean <= 0 or amount <= 0:
        return None
    wanted = max(1.0, amount / brought.mean + 0.5 * (1 + brought.variation) - 0.5)
    mean = wanted * pace.gap.mean
    known = 1.0 / pace.days
    variation = (pace.gap.variation + brought.variation) * (1.0 / wanted + known)
    sigma = math.sqrt(math.log1p(variation))
    middle = math.log(mean) - sigma * sigma / 2
    reach = _Z * (1 + _FEW / pace.days) * sigma
    early = math.exp(middle - reach)
    late = math.exp(middle + reach)
    return Window(_day(as_of, math.floor(early + _HAIR)), _day(as_of, math.ceil(late - _HAIR)))


def sooner(windows: Iterable[Window]) -> Window | None:
    """Whichever comes first: the earliest early day and late day, if the late one can be told."""
    found = list(windows)
    late = min((one.late for one in found), default=datetime.date.max)
    if late == datetime.date.max:
        return None
    return Window(min(one.early for one in found), late)


def _day(as_of: datetime.date, days: int) -> datetime.date:
    if days > FARTHEST_DAYS:
        return datetime.date.max
    return as_of + datetime.timedelta(days=max(1, days))


def flown_days(flights: Sequence[FlightDone]) -> dict[datetime.date, dict[str, float]]:
    """What each flying day of the year up to the last one brought: flights, hours, itself."""
    days: dict[datetime.date, dict[str, float]] = {}
    for flight in reversed(flights):
        if (flights[-1].on - flight.on).days > RECENT_DAYS:
            break
        day = days.setdefault(flight.on, {"flights": 0.0, "hours": 0.0, "flying_days": 1.0})
        day["flights"] += 1
        day["hours"] += flight.duration_s / 3600
    return days


def pack_days(pack: ItemNow) -> dict[datetime.date, dict[str, float]]:
    """What each flying day of a pack brought: charges and cycles as well."""
    days = flown_days(pack.flights)
    rated_ah = pack.spec.capacity_ah
    for flight in pack.flights:
        day = days.get(flight.on)
        if day is None:
            continue
        day["charges"] = day.get("charges", 0.0) + 1
        used_ah = flight.row.used_ah
        if used_ah is not None and rated_ah:
            share = used_ah / max(1, len(flight.row.packs)) / rated_ah
            day["cycles"] = day.get("cycles", 0.0) + share
    return days


def _spread(values: Sequence[float]) -> Spread:
    mean = sum(values) / len(values)
    if mean <= 0 or len(values) < 2:
        return Spread(mean, 1.0)
    variance = sum((value - mean) ** 2 for value in values) / (len(values) - 1)
    return Spread(mean, variance / mean**2)
