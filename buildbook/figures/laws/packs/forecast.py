"""When a pack will stay below a share of its capacity for good, and how sure that is.

Method, in words that a builder can argue with: level and loss per charge now come from `fade`.
The loss is held against what packs do in general, which matters while little is known. Then a
thousand futures are drawn from a fixed seed: the loss wanders on, drawn slowly
towards the usual, while scatter and rests go on as seen. In each future the number after the
last reading at or above the threshold is noted. The middle of these is the forecast and their
quantiles are the interval. The constants were set on simulated cells and then held against
published ones.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import msgspec
import numpy as np
from numpy.typing import NDArray

from buildbook.basis.amounts import count
from buildbook.figures.laws.numbers import finite_only
from buildbook.figures.laws.packs.fade import (
    SCATTER_USUAL,
    USUAL_FADE,
    USUAL_FADE_LOG_SD,
    WANDER,
    WAVE_DECAY,
    Fade,
    fit_fade,
)
from buildbook.figures.laws.statistics.counts import event_limits
from buildbook.figures.laws.statistics.trend import below_for_good

Floats = NDArray[np.float64]
State = Literal["forecast", "reached", "too early"]

LEAST_READINGS = 4
LEAST_SPAN = 10.0  # charges between the first and the last reading
WIDEST = 5.0  # ratio of the 80 % limits beyond which a number would say nothing
HORIZON = 1_000  # charges ahead
DRAWS = 1_000
# In the long run a pack's loss is drawn towards a mean of its own and the usual, a little higher
# since fade tends to quicken, and different from pack to pack; in charges and on the log scale.
PULL_CHARGES = 100.0
USUAL_SHARE = 0.6
QUICKENING = 0.25
LONG_RUN_LOG_SD = 0.5
# What a rest gives back where none was seen, how much more or less than seen, decay in charges.
REST_USUAL = 0.012
REST_SIZE_LOG_SD = 0.5
REST_DECAY = 7.0
# Readings closer than this are a record of every charge; wider ones are checks now and then.
DENSE_SPACING = 3.0
_STEP = 4.0
_WINDOW = 130
_BEFORE = 20.0
_SEED = 20_071


class LifeInterval(msgspec.Struct, frozen=True):
    """Limits of a forecast."""

    level: float
    low: float
    high: float


class EndOfLife(msgspec.Struct, frozen=True):
    """A forecast of the number from which the capacity stays below a threshold."""

    state: State
    reason: str  # why it is too early, else ""
    threshold_ah: float
    number: float | None  # counted as the readings were; None when it is too early
    intervals: tuple[LifeInterval, ...]  # one for each level asked for
    capacity_now_ah: float | None  # without the excess of a rest
    loss_now_ah: float | None  # a charge
    readings: int
    set_aside: int


class DayForecast(msgspec.Struct, frozen=True):
    """A number of charges turned into days from today."""

    state: State
    reason: str
    days: float | None
    low_days: float | None
    high_days: float | None
    level: float
    charges_a_day: float | None


@finite_only
def forecast_end_of_life(
    numbers: Sequence[float],
    capacities_ah: Sequence[float],
    *,
    threshold_ah: float,
    levels: Sequence[float] = (0.8, 0.95),
) -> EndOfLife:
    """The charge number from which capacity stays below `threshold_ah` for good.

    numbers: charge or discharge numbers, ascending, uneven steps welcome; capacities_ah: as many,
    above 0, all to the same cut-off voltage; levels: each between 0 and 1. Where readings lie more
    than three charges apart, usual rests and scatter stand in for those not seen. Source: none
    published as a whole, parts in `fade`; checked on the NASA battery set and simulated cells.
    ValueError: 'numbers and capacities differ in length, N and M', 'capacities must be above
    0 Ah', 'numbers must ascend', 'threshold must be above 0 Ah, got X', 'level must be between 0
    and 1, got X'.
    """
    x, y = _checked(numbers, capacities_ah, threshold_ah, levels)
    if len(x) < LEAST_READINGS:
        return _too_early(
            threshold_ah, len(x), f"{count('reading', len(x))}, {LEAST_READINGS} are needed"
        )
    different = len(np.unique(x))
    if different < LEAST_READINGS:
        few = f"{count('charge number', different)} with readings, {LEAST_READINGS} are needed"
        return _too_early(threshold_ah, len(x), few)
    if x[-1] - x[0] < LEAST_SPAN:
        span = f"readings span {x[-1] - x[0]:g} charges, {LEAST_SPAN:g} are needed"
        return _too_early(threshold_ah, len(x), span)
    fade = fit_fade(x, y)
    drawn = np.sort(_draw_ends(fade, x, y, threshold_ah))
    low, middle, high = (float(q) for q in np.quantile(drawn, (0.1, 0.5, 0.9)))
    done = below_for_good(numbers, capacities_ah, threshold_ah)
    reached = done is not None and high <= done
    if not reached:
        if high >= fade.last_number + HORIZON:
            return _too_early(threshold_ah, len(x), f"not within {HORIZON} charges", fade)
        since = float(x[0]) - 1.0
        if high - since > WIDEST * max(low - since, 1.0):
            wide = f"anywhere from {low:.0f} to {high:.0f}, too wide to say"
            return _too_early(threshold_ah, len(x), wide, fade)
    return EndOfLife(
        state="reached" if reached else "forecast",
        reason="",
        threshold_ah=threshold_ah,
        number=float(round(middle)),
        intervals=tuple(_interval(drawn, level) for level in levels),
        capacity_now_ah=_now(fade)[0],
        loss_now_ah=_now(fade)[1],
        readings=len(x),
        set_aside=fade.set_aside,
    )


@finite_only
def forecast_days(
    end: EndOfLife,
    *,
    number_now: float,
    charge_days: Sequence[int],
    today: int,
    window_days: int = 180,
    level: float = 0.8,
) -> DayForecast:
    """Days from today until the forecast number, by the keeper's recent rate of charging.

    number_now: charges so far, counted as in the forecast; charge_days: day number of every
    charge, any order, one entry a charge; today: day number; level: one of the forecast's. The
    rate is that of the last `window_days`, or since the first charge if that is later. Its doubt
    is that of the count of days with charging, as charges of one day belong together; the two
    doubts are added as squares of logarithms. Source: Garwood 1936; the sum is common practice,
    no source. ValueError: 'level X is not in the forecast', 'window must be 1 day or more, got N'.
    """
    if window_days < 1:
        raise ValueError(f"window must be 1 day or more, got {window_days}")
    if end.state == "too early" or end.number is None:
        return DayForecast("too early", end.reason, None, None, None, level, None)
    limits = next((i for i in end.intervals if i.level == level), None)
    if limits is None:
        raise ValueError(f"level {level:g} is not in the forecast")
    if end.state == "reached":
        return DayForecast("reached", "", 0.0, 0.0, 0.0, level, None)
    recent = [day for day in charge_days if today - window_days < day <= today]
    if not recent:
        reason = f"no charge in the last {window_days} days"
        return DayForecast("too early", reason, None, None, None, level, None)
    first = min(charge_days)
    observed = min(window_days, today - first + 1)
    if observed < 14 or len(set(recent)) < 3:
        with_charging = count("day", len(set(recent)))
        reason = f"{with_charging} with charging in {count('day', observed)}, 3 in 14 are needed"
        return DayForecast("too early", reason, None, None, None, level, None)
    rate = len(recent) / observed
    sessions = len(set(recent))
    doubt = event_limits(sessions, level=level)
    left = max(end.number - number_now, 0.0)
    soonest = max(limits.low - number_now, 0.0)
    latest = max(limits.high - number_now, 0.0)
    days = left / rate
    return DayForecast(
        "forecast",
        "",
        days,
        _joined(left, soonest, sessions, doubt.high) / rate,
        _joined(left, latest, sessions, doubt.low) / rate,
        level,
        rate,
    )


def _joined(middle: float, limit: float, sessions: float, session_limit: float) -> float:
    """A limit of charges left, moved further by the doubt of the rate."""
    if middle <= 0.0 or limit <= 0.0:
        return limit * sessions / session_limit
    width = math.hypot(math.log(limit / middle), math.log(session_limit / sessions))
    return middle * math.exp(math.copysign(width, limit - middle))


def _draw_ends(fade: Fade, x: Floats, y: Floats, threshold_ah: float) -> Floats:
    """Drawn numbers after the last reading at or above the threshold."""
    rng = np.random.default_rng(_SEED)
    level, loss, wave = _draw_now(fade, rng)
    threshold = threshold_ah / fade.reference_ah
    ahead, loss_then = _crossings(level - threshold, loss, rng)
    if fade.spacing > DENSE_SPACING:
        fade, wave = _between_checks(fade), np.minimum(wave, SCATTER_USUAL)
    excess = np.maximum(fade.last_reading - level, 0.0)
    last = _last_above(fade, ahead, loss_then, wave, excess, rng)
    held = np.flatnonzero(y >= threshold_ah)
    following = held[-1] + 1 if len(held) else 0
    seen = float(x[following]) if following < len(x) else fade.last_number + 1.0
    ends: Floats = np.where(last > 0.0, fade.last_number + last + 1.0, seen)
    return ends


def _between_checks(fade: Fade) -> Fade:
    """What goes on between capacity checks far apart: the usual scatter and rests, none seen.

    The scatter of the checks themselves is mostly that of checking.
    """
    scatter = min(fade.scatter, SCATTER_USUAL)
    return msgspec.structs.replace(fade, scatter=scatter, rests=(), span=0.0)


def _draw_now(fade: Fade, rng: np.random.Generator) -> tuple[Floats, Floats, Floats]:
    """Level, loss and wave now: the loss by its likelihood times what is usual, on a log grid."""
    middle, sd = math.log(USUAL_FADE), USUAL_FADE_LOG_SD
    logs = np.linspace(middle - 4.0 * sd, middle + 3.5 * sd, 400)
    grid = np.exp(logs)
    usual = np.exp(-0.5 * ((logs - middle) / sd) ** 2)
    best = max(line.log_likelihood for line in fade.lines)
    density = np.array(
        [
            math.exp(line.log_likelihood - best)
            * np.exp(-0.5 * (grid - line.loss) ** 2 / line.loss_variance)
            / math.sqrt(line.loss_variance)
            * usual
            for line in fade.lines
        ]
    )
    density += 1e-300
    total = np.cumsum(density.sum(axis=0))
    at = np.searchsorted(total / total[-1], (np.arange(DRAWS) + 0.5) / DRAWS).clip(0, 399)
    loss = grid[at]
    share = np.cumsum(density[:, at], axis=0) / density[:, at].sum(axis=0)
    which = np.sum(rng.random(DRAWS) > share, axis=0).clip(0, len(fade.lines) - 1)

    def each(values: list[float]) -> Floats:
        picked: Floats = np.array(values)[which]
        return picked

    both = each([line.covariance / line.loss_variance for line in fade.lines])
    own = each(
        [
            math.sqrt(max(line.level_variance - line.covariance**2 / line.loss_variance, 0.0))
            for line in fade.lines
        ]
    )
    level = each([line.level for line in fade.lines])
    level = level + both * (loss - each([line.loss for line in fade.lines]))
    level = level + own * rng.standard_normal(DRAWS)
    return level, loss, each([line.wave for line in fade.lines])


def _crossings(margin: Floats, loss: Floats, rng: np.random.Generator) -> tuple[Floats, Floats]:
    """Charges until the fade line has used up its margin, and the loss then.

    A margin already used gives a number of charges ago, by the loss now.
    """
    steps = int(HORIZON / _STEP)
    keep = math.exp(-_STEP / PULL_CHARGES)
    log_loss = np.log(loss)
    target = USUAL_SHARE * math.log(USUAL_FADE) + (1.0 - USUAL_SHARE) * log_loss
    target = target + QUICKENING + LONG_RUN_LOG_SD * rng.standard_normal(DRAWS)
    ahead = np.where(margin > 0.0, float(HORIZON), margin / loss)
    loss_then = loss.copy()
    left = margin.copy()
    open_ = margin > 0.0
    for step in range(steps):
        jolt = WANDER * math.sqrt(_STEP) * rng.standard_normal(DRAWS)
        log_loss = target + (log_loss - target) * keep + jolt
        now = np.exp(log_loss)
        over = open_ & (left <= now * _STEP)
        ahead[over] = step * _STEP + left[over] / now[over]
        loss_then[over] = now[over]
        left = left - now * _STEP
        open_ = open_ & ~over
        if not open_.any():
            break
    return ahead, loss_then


def _last_above(
    fade: Fade,
    ahead: Floats,
    loss_then: Floats,
    wave: Floats,
    excess_now: Floats,
    rng: np.random.Generator,
) -> Floats:
    """Charges until the last reading at or above the threshold, with scatter and rests.

    0 where no reading to come is.
    """
    start = np.maximum(np.floor(ahead) - _BEFORE, 1.0)
    rest_rate = rng.gamma(len(fade.rests) + 0.5, 1.0 / (fade.span + 20.0), DRAWS)
    sizes = np.array([*fade.rests, REST_USUAL])
    keep = math.exp(-1.0 / WAVE_DECAY)
    rolling = wave * rng.standard_normal(DRAWS)
    spread = np.exp(REST_SIZE_LOG_SD * rng.standard_normal(DRAWS))
    excess = np.where(start > 1.0, 0.0, excess_now)
    last = np.where(start > 1.0, np.ceil(ahead) - 1.0, 0.0)
    for step in range(_WINDOW):
        at = start + step
        jolt = math.sqrt(1.0 - keep**2) * rng.standard_normal(DRAWS)
        rolling = keep * rolling + wave * jolt
        rested = rng.random(DRAWS) < rest_rate
        size = sizes[rng.integers(len(sizes), size=DRAWS)] * spread
        excess = excess * math.exp(-1.0 / REST_DECAY) + rested * size
        over = loss_then * (ahead - at) + rolling + excess
        over = over + fade.scatter * rng.standard_normal(DRAWS)
        last = np.where(over >= 0.0, np.maximum(at, last), last)
    return last


def _interval(drawn: Floats, level: float) -> LifeInterval:
    tail = (1.0 - level) / 2.0
    low, high = np.quantile(drawn, (tail, 1.0 - tail))
    return LifeInterval(level, float(math.floor(low)), float(math.ceil(high)))


def _now(fade: Fade) -> tuple[float, float]:
    """Level and loss of the likeliest line, in Ah."""
    line = max(fade.lines, key=lambda each: each.log_likelihood)
    return line.level * fade.reference_ah, line.loss * fade.reference_ah


def _too_early(
    threshold_ah: float, readings: int, reason: str, fade: Fade | None = None
) -> EndOfLife:
    level, loss = _now(fade) if fade is not None else (None, None)
    aside = fade.set_aside if fade is not None else 0
    return EndOfLife("too early", reason, threshold_ah, None, (), level, loss, readings, aside)


def _checked(
    numbers: Sequence[float],
    capacities_ah: Sequence[float],
    threshold_ah: float,
    levels: Sequence[float],
) -> tuple[Floats, Floats]:
    if len(numbers) != len(capacities_ah):
        raise ValueError(
            f"numbers and capacities differ in length, {len(numbers)} and {len(capacities_ah)}"
        )
    x = np.asarray(numbers, dtype=np.float64)
    y = np.asarray(capacities_ah, dtype=np.float64)
    if not (np.isfinite(y).all() and (y > 0.0).all()):
        raise ValueError("capacities must be above 0 Ah")
    if not (np.isfinite(x).all() and (np.diff(x) >= 0.0).all()):
        raise ValueError("numbers must ascend")
    if not (threshold_ah > 0.0 and math.isfinite(threshold_ah)):
        raise ValueError(f"threshold must be above 0 Ah, got {threshold_ah:g}")
    for level in levels:
        if not 0.0 < level < 1.0:
            raise ValueError(f"level must be between 0 and 1, got {level:g}")
    return x, y
