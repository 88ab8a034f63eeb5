"""When a pack will stay below a share of its capacity for good, and how sure that is.

Method, in words that a builder can argue with: every shape that a fade may have (`fade_shapes`)
is carried on, each with the doubt of its own fit, and counts as much as the readings say. Nothing
is assumed about how long packs live. Where the answer may lie too far apart, or no end is in
sight, it is too early to say. A change of pace after the last reading is foreseen by nobody.
Plain floats: `due` may use this module.
"""

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Literal

import msgspec

from buildbook.basis.amounts import count
from buildbook.figures.laws.numbers import checked
from buildbook.figures.laws.packs.fade import Fade, fit_fade

State = Literal["forecast", "reached", "too early"]

LEAST_READINGS = 4
LEAST_SPAN = 10.0  # charges between the first and the last reading
WIDEST = 2.5  # late over early 80 % limit, since the first reading, beyond which nothing is told
SURELY = 0.9  # chance that the capacity is below now from which the end is reached
_GRID = 1.12
_FARTHEST = 64.0  # times the record


class LifeInterval(msgspec.Struct, frozen=True):
    """Limits of a forecast."""

    level: float
    low: float
    high: float


class EndOfLife(msgspec.Struct, frozen=True):
    """A forecast of the number from which the capacity stays below a threshold.

    shape_share, pace_share: of the 80 % interval, how much is there only because the shape of the
    fade is not known, and because its pace may wander; 0 where nothing is forecast.
    """

    state: State
    reason: str  # why it is too early, else ""
    threshold_ah: float
    number: float | None  # counted as the readings were; None when it is too early
    intervals: tuple[LifeInterval, ...]  # one for each level asked for
    capacity_now_ah: float | None  # without what comes and goes
    loss_now_ah: float | None  # a charge
    readings: int
    set_aside: int
    wander: float = 0.0  # of the pace to come, as a share of it
    shape_share: float = 0.0
    pace_share: float = 0.0


@checked
def forecast_end_of_life(
    numbers: Sequence[float],
    capacities_ah: Sequence[float],
    *,
    threshold_ah: float,
    levels: Sequence[float] = (0.8, 0.95),
) -> EndOfLife:
    """The charge number from which capacity stays below `threshold_ah` for good.

    numbers: charge or discharge numbers, ascending, uneven steps welcome; capacities_ah: as many,
    above 0, under like conditions; levels: each between 0 and 1. Source: none published as a
    whole, parts in `fade`; held by simulation and by the NASA battery set.
    ValueError: 'numbers and capacities differ in length, N and M', 'capacities must be above
    0 Ah', 'numbers must ascend', 'threshold must be above 0 Ah, got X', 'level must be between 0
    and 1, got X'.
    """
    _check(numbers, capacities_ah, threshold_ah, levels)
    few, since = _too_few(numbers), below_since(numbers, capacities_ah, threshold_ah)
    if few and since is not None:
        return _reached(None, threshold_ah, since, levels, len(numbers))
    if few:
        return _too_early(threshold_ah, len(numbers), few)
    try:
        fade = fit_fade(numbers, capacities_ah)
    except ValueError as refused:
        return _too_early(threshold_ah, len(numbers), str(refused))
    threshold = threshold_ah / fade.reference_ah
    if since is not None and fade.below(fade.last_number, threshold) >= SURELY:
        return _reached(fade, threshold_ah, since, levels, fade.readings)
    tails = [(1.0 - level) / 2.0 for level in levels]
    wanted = (0.1, 0.5, 0.9, *tails, *(1.0 - tail for tail in tails))
    early, middle, late, *limits = _ends(fade, threshold, wanted)
    held = [n for n, ah in zip(numbers, capacities_ah, strict=True) if ah >= threshold_ah]
    floor = (held[-1] if held else fade.first_number) + 1.0
    if math.inf in (middle, late, *limits):
        where = f"from {max(early, floor):.0f} on, no end in sight"
        where = "no fade to be seen yet" if math.inf in (early, middle) else where
        return _too_early(threshold_ah, len(numbers), where, fade)
    since_first = fade.first_number
    if late - since_first > WIDEST * max(early - since_first, 1.0):
        wide = f"anywhere from {max(early, floor):.0f} to {late:.0f}, too wide to say"
        return _too_early(threshold_ah, len(numbers), wide, fade)
    low, high = limits[: len(levels)], limits[len(levels) :]
    return EndOfLife(
        state="forecast",
        reason="",
        threshold_ah=threshold_ah,
        number=max(float(round(middle)), floor),
        intervals=tuple(
            LifeInterval(level, float(max(math.floor(a), floor)), float(max(math.ceil(b), floor)))
            for level, a, b in zip(levels, low, high, strict=True)
        ),
        capacity_now_ah=_now(fade)[0],
        loss_now_ah=_now(fade)[1],
        readings=len(numbers),
        set_aside=fade.set_aside,
        wander=fade.wander,
        shape_share=_share(fade, threshold, late - early, shape=True),
        pace_share=_share(fade, threshold, late - early, shape=False),
    )


@checked
def below_since(
    numbers: Sequence[float], capacities_ah: Sequence[float], threshold_ah: float
) -> float | None:
    """The first number of the last readings running that are below; None from fewer than two.

    numbers: ascending; one unit for capacities and threshold. Source: definition, check B10.
    """
    low = 0
    for capacity in reversed(capacities_ah):
        if capacity >= threshold_ah:
            break
        low += 1
    return float(numbers[len(numbers) - low]) if low >= 2 else None


@checked
def reached_at(
    below: Callable[[float], float], chances: Sequence[float], *, first: float, last: float
) -> list[float]:
    """Where a rising chance reaches each of some values, between first and last; else infinite.

    below: chance by distance; chances: between 0 and 1; first: above 0, where the search begins.
    Source: straight lines between steps of an eighth.
    """
    at = [first]
    while at[-1] < last:
        at.append(at[-1] * _GRID)
    risen = lru_cache(maxsize=None)(lambda step: below(at[step]))  # each is hundreds of shapes
    steps = range(len(at))
    found = []
    for chance in chances:
        step = bisect_left(steps, chance, key=risen)
        if step == len(at):
            found.append(math.inf)
        elif step == 0:
            found.append(first)
        else:
            share = (chance - risen(step - 1)) / (risen(step) - risen(step - 1))
            found.append(at[step - 1] + share * (at[step] - at[step - 1]))
    return found


def _ends(fade: Fade, threshold: float, chances: Sequence[float], **how: bool) -> list[float]:
    """Numbers by which the capacity is below with each of some chances."""
    span = fade.last_number - fade.first_number
    found = reached_at(
        lambda ahead: fade.below(fade.first_number + ahead, threshold, **how),
        chances,
        first=0.02 * span,
        last=_FARTHEST * span,
    )
    return [fade.first_number + ahead for ahead in found]


def _share(fade: Fade, threshold: float, width: float, *, shape: bool) -> float:
    """By which share the interval were narrower without a doubt: of the shape, or of the pace."""
    if not shape and fade.wander == 0.0:
        return 0.0
    if shape:
        likeliest = msgspec.structs.replace(fade.likeliest, chance=1.0)
        fade = msgspec.structs.replace(fade, shapes=(likeliest,))
    early, late = _ends(fade, threshold, (0.1, 0.9), steady=not shape)
    return max(1.0 - (late - early) / width, 0.0) if width > 0.0 else 0.0


def _reached(
    fade: Fade | None,
    threshold_ah: float,
    since: float,
    levels: Sequence[float],
    readings: int,
) -> EndOfLife:
    """It has stayed below since a number of the record. fade: None of too few readings for one."""
    level, loss = (None, None) if fade is None else _now(fade)
    return EndOfLife(
        state="reached",
        reason="",
        threshold_ah=threshold_ah,
        number=since,
        intervals=tuple(LifeInterval(one, since, since) for one in levels),
        capacity_now_ah=level,
        loss_now_ah=loss,
        readings=readings,
        set_aside=0 if fade is None else fade.set_aside,
    )


def _now(fade: Fade) -> tuple[float, float]:
    """Level and loss a charge at the last reading, by the likeliest shape, in Ah."""
    one, span = fade.likeliest, fade.last_number - fade.first_number
    pace = (one.shape.at(1.0) - one.shape.at(0.99)) / (0.01 * span)
    return (one.start - one.loss) * fade.reference_ah, one.loss * pace * fade.reference_ah


def _too_few(numbers: Sequence[float]) -> str:
    if len(numbers) < LEAST_READINGS:
        return f"{count('reading', len(numbers))}, {LEAST_READINGS} are needed"
    different = len(set(numbers))
    if different < LEAST_READINGS:
        few = count("charge number", different)
        return f"{few} with readings, {LEAST_READINGS} are needed"
    if numbers[-1] - numbers[0] < LEAST_SPAN:
        return f"readings span {numbers[-1] - numbers[0]:g} charges, {LEAST_SPAN:g} are needed"
    return ""


def _too_early(
    threshold_ah: float, readings: int, reason: str, fade: Fade | None = None
) -> EndOfLife:
    level, loss = _now(fade) if fade is not None else (None, None)
    aside = fade.set_aside if fade is not None else 0
    return EndOfLife("too early", reason, threshold_ah, None, (), level, loss, readings, aside)


def _check(
    numbers: Sequence[float],
    capacities_ah: Sequence[float],
    threshold_ah: float,
    levels: Sequence[float],
) -> None:
    if len(numbers) != len(capacities_ah):
        raise ValueError(
            f"numbers and capacities differ in length, {len(numbers)} and {len(capacities_ah)}"
        )
    if not all(math.isfinite(value) and value > 0.0 for value in capacities_ah):
        raise ValueError("capacities must be above 0 Ah")
    ascend = all(one <= other for one, other in pairwise(numbers))
    if not (ascend and all(map(math.isfinite, numbers))):
        raise ValueError("numbers must ascend")
    if not (threshold_ah > 0.0 and math.isfinite(threshold_ah)):
        raise ValueError(f"threshold must be above 0 Ah, got {threshold_ah:g}")
    for level in levels:
        if not 0.0 < level < 1.0:
            raise ValueError(f"level must be between 0 and 1, got {level:g}")
