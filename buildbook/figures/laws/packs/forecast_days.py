"""The day on which a pack will be worn out: by charging as of late, and by age.

A pack fades by charges and by lying. What lying takes is first given back to the readings, the
rest is carried on with the charges, and both are put together on the day. Plain floats.
"""

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

import msgspec

from buildbook.basis.amounts import count
from buildbook.basis.days import YEAR_DAYS
from buildbook.figures.laws.numbers import checked
from buildbook.figures.laws.packs.fade import Fade, ShapeNow, fit_fade
from buildbook.figures.laws.packs.forecast import EndOfLife, State, reached_at
from buildbook.figures.laws.statistics.quantiles import chi_square_quantile

REST_LOSS = 0.025
"""Share of capacity that ten months take, as the root of time (SEI growth; quoted widely)."""
REST_LOSS_MONTHS = 10.0
REST_LOSS_TIMES = (0.5, 1.0, 2.0)
"""What it is held to be: half, as said, twice. Common practice, no source."""
_REST_WEIGHTS = (0.25, 0.5, 0.25)
# Three points that stand for a doubt: at the ends 5 of 18 each, in the middle 8 (Gauss-Legendre).
_AT, _WEIGHTS = (0.1127, 0.5, 0.8873), (5 / 18, 8 / 18, 5 / 18)
FARTHEST_DAYS = 20 * YEAR_DAYS
WIDEST = 4.0  # late over early limit, in days from today
SOON_DAYS = 90.0  # an interval that ends by then is told however wide
_COUNTED = 0.98


class DayForecast(msgspec.Struct, frozen=True):
    """Days from today until the capacity is below, by charging and age together.

    Where it is too early, the limits are there if they are known; an early one that lies beyond
    ``FARTHEST_DAYS`` is those. by_charging, by_lying: the days
    if it did not age from today on, and if it were not charged any more; None: not within
    ``FARTHEST_DAYS``.
    """

    state: State
    reason: str
    days: float | None
    low_days: float | None
    high_days: float | None
    level: float
    charges_a_day: float | None
    by_charging: float | None = None
    by_lying: float | None = None


class History(NamedTuple):
    """Readings with their days, and the charging: all day numbers on one calendar.

    born: the day from which the pack ages; charge_days: one a charge, any order.
    """

    numbers: Sequence[float]
    capacities_ah: Sequence[float]
    reading_days: Sequence[int]
    born: int
    charge_days: Sequence[int]


@checked
def rest_loss(years: float, *, loss: float = REST_LOSS, months: float = REST_LOSS_MONTHS) -> float:
    """Share of its first capacity that a lithium cell has lost by lying for so many years.

    years: 0 or more; loss: share lost in the first `months`, above 0. Source: growth of the film
    on the anode goes with the square root of time (quoted widely); 2.5 % in 10 months is 8.66 %
    in 120. ValueError: 'years must be 0 or more, got X'.
    """
    if not (years >= 0.0 and math.isfinite(years)):
        raise ValueError(f"years must be 0 or more, got {years:g}")
    return loss * math.sqrt(years * 12.0 / months)


@checked
def forecast_days(
    end: EndOfLife,
    history: History,
    *,
    number_now: float,
    today: int,
    window_days: int = 180,
    level: float = 0.8,
) -> DayForecast:
    """Days from today until the capacity stays below, by the keeper's recent charging and by age.

    number_now: charges so far, counted as in the forecast; today: day number. The rate is that of
    the last `window_days`, or since the first charge if that is later, with the doubt of the
    count of days with charging; without a charge in them the pack is taken to lie. Source:
    Garwood 1936 for the rate, `rest_loss` for age. ValueError: 'level must be between 0 and 1,
    got X', 'window must be 1 day or more, got N'.
    """
    if window_days < 1:
        raise ValueError(f"window must be 1 day or more, got {window_days}")
    if not 0.0 < level < 1.0:
        raise ValueError(f"level must be between 0 and 1, got {level:g}")
    if end.state == "too early":
        return DayForecast("too early", end.reason, None, None, None, level, None)
    if end.state == "reached":
        return DayForecast("reached", "", 0.0, 0.0, 0.0, level, None)
    rates, seen, lacking = _rates(history.charge_days, today, window_days)
    if lacking:
        return DayForecast("too early", lacking, None, None, None, level, None)
    worn = [_Worn(history, times, today) for times in REST_LOSS_TIMES]

    def below(days: float) -> float:
        return sum(
            _REST_WEIGHTS[at] * weight * pack.below(number_now + rate * days, days, end)
            for at, pack in enumerate(worn)
            for rate, weight in rates
        )

    tail = (1.0 - level) / 2.0
    low, middle, high = reached_at(below, (tail, 0.5, 1.0 - tail), first=1.0, last=FARTHEST_DAYS)
    if math.inf in (low, middle, high):
        lying = f"no charge in the last {window_days} days and " if not seen else ""
        reason = f"{lying}no end within {FARTHEST_DAYS / YEAR_DAYS:.0f} years for certain"
        return DayForecast("too early", reason, None, min(low, FARTHEST_DAYS), None, level, seen)
    if high > max(WIDEST * low, SOON_DAYS):
        wide = "the days lie too far apart to say"
        return DayForecast("too early", wide, None, low, high, level, seen)
    return DayForecast(
        "forecast",
        "",
        middle,
        low,
        high,
        level,
        seen,
        by_charging=_alone(lambda days: (seen * days, 0.0), worn, number_now, end),
        by_lying=_alone(lambda days: (0.0, days), worn, number_now, end),
    )


def _alone(
    of: Callable[[float], tuple[float, float]],
    worn: Sequence["_Worn"],
    number_now: float,
    end: EndOfLife,
) -> float | None:
    """The middle day if one of both were all. of: charges and days of age, by days from today."""

    def below(days: float) -> float:
        charges, lain = of(days)
        return sum(
            weight * pack.below(number_now + charges, lain, end)
            for weight, pack in zip(_REST_WEIGHTS, worn, strict=True)
        )

    found = reached_at(below, (0.5,), first=1.0, last=FARTHEST_DAYS)[0]
    return found if found <= FARTHEST_DAYS else None


class _Worn:
    """A pack whose readings are freed of what lying has taken from it."""

    def __init__(self, history: History, times: float, today: int) -> None:
        self._loss, self._born, self._today = REST_LOSS * times, history.born, today
        first = history.capacities_ah[0]
        self._freed_ah = first
        fade = fit_fade(
            history.numbers,
            [
                ah + first * self._lain(day)
                for ah, day in zip(history.capacities_ah, history.reading_days, strict=True)
            ],
        )
        self._fade = msgspec.structs.replace(fade, shapes=_main(fade))

    def _lain(self, day: float) -> float:
        years = max(day - self._born, 0.0) / YEAR_DAYS
        return rest_loss(years, loss=self._loss)

    def below(self, number: float, days: float, end: EndOfLife) -> float:
        """The chance to be below the threshold then."""
        lain_ah = self._freed_ah * self._lain(self._today + days)
        return self._fade.below(number, (end.threshold_ah + lain_ah) / self._fade.reference_ah)


def _main(fade: Fade) -> tuple[ShapeNow, ...]:
    """The shapes that matter for a day, which is less sure anyway."""
    kept, total = [], 0.0
    for one in fade.shapes:
        kept.append(one)
        total += one.chance
        if total > _COUNTED:
            break
    return tuple(msgspec.structs.replace(one, chance=one.chance / total) for one in kept)


Rates = tuple[tuple[float, float], ...]


def _rates(charge_days: Sequence[int], today: int, window_days: int) -> tuple[Rates, float, str]:
    """Charges a day with their weights, the rate as seen, and what is lacking."""
    recent = [day for day in charge_days if today - window_days < day <= today]
    if not recent:
        return ((0.0, 1.0),), 0.0, ""
    observed = min(window_days, today - min(charge_days) + 1)
    sessions = len(set(recent))
    if observed < 14 or sessions < 3:
        days = f"{count('day', sessions)} with charging in {count('day', observed)}"
        return (), 0.0, f"{days}, 3 in 14 are needed"
    rate = len(recent) / observed
    # As a count of sessions k is known: half a chi-square with 2 k + 1 degrees of freedom.
    likely = [chi_square_quantile(at, 2 * sessions + 1) / 2 / sessions for at in _AT]
    return tuple((rate * of, w) for of, w in zip(likely, _WEIGHTS, strict=True)), rate, ""
