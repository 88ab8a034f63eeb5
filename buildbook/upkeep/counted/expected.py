"""When something will be due, as an interval of days, from the keeper's own recent rate of flying.

Method: days with flying come as a renewal process. From the gaps between the flying days of the
last year, the later ones weighing more, and from what a flying day brings (flights, hours,
charges), the time to the wanted amount has a mean and a spread. The spread holds three things: the
chance of the days to come, that of having estimated from few, and the overdispersion of the rate
itself (seasons, repairs; the term: McCullagh and Nelder, Generalized Linear Models, from memory),
seen in how the flying days of one month differ from those of another. The
interval is a log-normal one with that mean and spread. Own method, no source: its weights were set
so that it holds the true day in 75 to 90 % of cases for simulated keepers of very different
habits, and the tests hold it to that.
"""

import datetime
import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from buildbook.basis.counting import UNITS
from buildbook.report.history import FlightDone
from buildbook.report.packs.charge_tally import share_of_flight_ah
from buildbook.report.state import Hangar, ItemNow
from buildbook.report.tally import Flown
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.work import Row, WorkList

RECENT_DAYS = 365
FEWEST_FLYING_DAYS = 5
FARTHEST_DAYS = 3 * 365
"""Beyond this an expected day says nothing; none is given."""

_BY_FLYING = [
    (unit.key, Flown._fields.index(unit.counter), unit.ticks)
    for unit in UNITS.values()
    if unit.counts == "flying"
]

_HAIR = 1e-6  # of a day: what rounding may leave over

_Z = 1.2816  # the normal quantile of 0.9: an interval of 80 %
_HALF_WEIGHT_DAYS = 45.0  # a gap so long ago counts half
_FEW = 1.0  # how much wider the interval is where few days were seen
_MONTH_DAYS = 30
_OVERDISPERSION = 0.08  # of the rate, before anything is seen; it counts as four months
_OVERDISPERSION_MONTHS = 4
_OVERDISPERSION_WEIGHT = 2.5
_OVERDISPERSION_DAYS = 45.0  # over such a time half of it counts


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

    worth: how many flying days it rests on, older ones counting less; 0 where nothing was flown
    for a year. overdispersion: the variance of the rate itself, as a share of the rate squared.
    """

    gap: Spread
    brings: Mapping[str, Spread]
    worth: float
    overdispersion: float


SILENT = Pace(Spread(0.0, 0.0), {}, 0.0, 0.0)


def pace(days: Mapping[datetime.date, Mapping[str, float]], as_of: datetime.date) -> Pace | None:
    """The rate of the last year from what each flying day brought; None with little data.

    A silence since the last flying day that is longer than the mean gap counts as a gap.
    """
    recent = sorted(day for day in days if 0 <= (as_of - day).days <= RECENT_DAYS)
    if not recent:
        return SILENT
    if len(recent) < FEWEST_FLYING_DAYS:
        return None
    gaps = [float((after - day).days) for day, after in pairwise(recent)]
    ages = [(as_of - day).days for day in recent[1:]]
    silence = (as_of - recent[-1]).days
    if silence > sum(gaps) / len(gaps):
        gaps.append(float(silence))
        ages.append(0)
    weights = [0.5 ** (age / _HALF_WEIGHT_DAYS) for age in ages]
    total = sum(weights)
    mean = sum(weight * gap for weight, gap in zip(weights, gaps, strict=True)) / total
    spread = _spread(gaps)
    units = sorted(set().union(*(days[day] for day in recent)))
    brings = {unit: _spread([days[day].get(unit, 0.0) for day in recent]) for unit in units}
    worth = total**2 / sum(weight * weight for weight in weights)
    overdispersion = _overdispersion(recent, as_of, spread.variation)
    return Pace(Spread(mean, spread.variation), brings, worth, overdispersion)


def _overdispersion(
    recent: Sequence[datetime.date], as_of: datetime.date, variation: float
) -> float:
    """How much more the months differ than the gaps alone would make them; drawn to a guess."""
    months = (as_of - recent[0]).days // _MONTH_DAYS
    seen = 0.0
    if months >= 3:
        counts = [0] * months
        for day in recent:
            month = (as_of - day).days // _MONTH_DAYS
            if month < months:
                counts[month] += 1
        mean = sum(counts) / months
        variance = sum((count - mean) ** 2 for count in counts) / (months - 1)
        if mean > 0:  # else all flying was before the oldest whole month
            seen = max(0.0, variance - min(variation, 1.0) * mean) / mean**2
    return (months * seen + _OVERDISPERSION_MONTHS * _OVERDISPERSION) / (
        months + _OVERDISPERSION_MONTHS
    )


def window(pace: Pace, unit: str, amount: float, as_of: datetime.date) -> Window | None:
    """The 80 % interval of days on which ``amount`` more of a unit will have come.

    None where the unit was not recorded; an end that is too far away is ``date.max``.
    """
    if not pace.worth:
        return NEVER
    brought = pace.brings.get(unit)
    if brought is None or brought.mean <= 0 or amount <= 0:
        return None
    wanted = max(1.0, amount / brought.mean + 0.5 * (1 + brought.variation) - 0.5)
    mean = wanted * pace.gap.mean
    chance = (pace.gap.variation + brought.variation) * (1.0 / wanted + 1.0 / pace.worth)
    weight = _OVERDISPERSION_WEIGHT * mean / (mean + _OVERDISPERSION_DAYS)
    sigma = math.sqrt(math.log1p(chance) + weight * math.log1p(pace.overdispersion))
    middle = math.log(mean) - sigma * sigma / 2
    reach = _Z * (1 + _FEW / pace.worth) * sigma
    early = math.exp(middle - reach)
    late = math.exp(min(middle + reach, 20.0))
    return Window(_day(as_of, math.floor(early + _HAIR)), _day(as_of, math.ceil(late - _HAIR)))


def sooner(windows: Iterable[Window]) -> tuple[datetime.date, datetime.date] | None:
    """Whichever comes first: the earliest early day and late day, if the late one can be told."""
    found = list(windows)
    late = min((one.late for one in found), default=datetime.date.max)
    if late == datetime.date.max:
        return None
    return min(one.early for one in found), late


def _day(as_of: datetime.date, days: int) -> datetime.date:
    if days > FARTHEST_DAYS:
        return datetime.date.max
    return as_of + datetime.timedelta(days=max(1, days))


def flown_days(
    flights: Sequence[FlightDone], *, driven: bool = False
) -> dict[datetime.date, dict[str, float]]:
    """What each flying day of the year up to the last one brought, by unit that flying counts.

    driven: to a part that serves while the motors run.
    """
    flown: dict[datetime.date, tuple[float, int]] = {}
    for flight in reversed(flights):
        on = flight.on
        if (flights[-1].on - on).days > RECENT_DAYS:
            break
        before_s, before = flown.get(on, (0.0, 0))
        seconds = flight.motor_s if driven else flight.row.duration_s
        flown[on] = (before_s + seconds, before + 1)
    found = {}
    for day, (duration_s, times) in flown.items():
        brought = (duration_s, times, 1)  # as ``Flown`` begins
        found[day] = {key: brought[at] / ticks for key, at, ticks in _BY_FLYING}
    return found


def pack_days(pack: ItemNow) -> dict[datetime.date, dict[str, float]]:
    """What each flying day of a pack brought: charges and cycles as well."""
    days = flown_days(pack.flights)
    rated_ah = pack.spec.capacity_ah
    for flight in reversed(pack.flights):
        day = days.get(flight.on)
        if day is None:
            break
        day["charges"] = day.get("charges", 0.0) + 1
        used_ah = share_of_flight_ah(flight)
        if used_ah is not None and rated_ah:
            day["cycles"] = day.get("cycles", 0.0) + used_ah / rated_ah
    return days


def _spread(values: Sequence[float]) -> Spread:
    mean = sum(values) / len(values)
    if mean <= 0 or len(values) < 2:
        return Spread(mean, 1.0)
    if values.count(values[0]) == len(values):
        return Spread(mean, 0.0)
    variance = sum((value - mean) ** 2 for value in values) / (len(values) - 1)
    return Spread(mean, variance / mean**2)


def falls_due(
    listed: WorkList, hangar: Hangar, slug: str, duration_s: float, packs: tuple[str, ...] = ()
) -> tuple[Row, ...]:
    """Rows of an aircraft, and of the packs to be flown, that this flight would bring to due.

    duration_s: the planned flight, compared in whole seconds. A row that reaches its limit just
    at the end of the flight counts. What is due already is in the work list as it stands.
    Source: AMC M.A.301(a), nothing overdue or falling due during the flight.
    """
    flown_today = bool(hangar.aircraft[slug].flights) and (
        hangar.aircraft[slug].flights[-1].on == hangar.as_of
    )
    brings = Flown(duration_s, 1, 0 if flown_today else 1)
    return tuple(
        row
        for row in listed.rows
        if (row.aircraft == slug or (row.aircraft is None and row.tag in packs))
        and reached_by(row, brings)
    )


def reached_by(row: Row, brings: Flown) -> bool:
    """Whether flying that much brings a row to due that is not so yet; just at its end counts."""
    if row.rank not in ranks.NOT_DUE:
        return False
    for key, left in row.left.items():
        unit = UNITS.get(key)
        if unit is None or unit.counts != "flying":
            continue
        brought = unit.in_ticks(getattr(brings, unit.counter))
        if brought and round(left * unit.ticks) <= brought:
            return True
    return False
