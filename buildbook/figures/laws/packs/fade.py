"""How fast a pack fades now: level and slope of its capacity, rests and scatter told apart.

The slope of a real fade curve wanders, so old readings count for less: going back from the
last reading, the line may bend as an integrated random walk. A rest gives capacity back for
some charges: every step up that scatter does not explain may carry a decaying excess of its
own. What is left is scatter, partly correlated from charge to charge. All of that is one
covariance, and level and slope follow by generalised least squares.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec
import numpy as np
from numpy.typing import NDArray

from buildbook.figures.laws.numbers import finite_only

Floats = NDArray[np.float64]

# Readings older than this many say nothing more about the slope now.
MOST_READINGS = 150
# What packs lose a charge, as a share of capacity: 20 % in about 105 charges, within a factor
# of two for two packs in three. Common practice, no source; it matters while little is known.
USUAL_FADE = 0.0019
USUAL_FADE_LOG_SD = 0.8
# Standard deviation of the logarithm of the slope after one charge, growing with the root.
WANDER = 0.12
# Scatter of a capacity reading, as a share: a floor, and what few readings are held against.
SCATTER_FLOOR = 0.001
SCATTER_USUAL = 0.005
_SCATTER_USUAL_WEIGHT = 4
# A rise is taken for a rest above this share and this many times the scatter.
REST_LEAST = 0.006
REST_OVER_SCATTER = 4.0
# Half of the excess of a rest goes quickly, half slowly: decay in charges.
REST_DECAYS = (3.0, 10.0)
WAVE_DECAY = 6.0
_WAVE_OVER_SCATTER = (0.5, 1.5, 3.0, 6.0)


class LineNow(msgspec.Struct, frozen=True):
    """One reading of the data: level and loss per charge at the last reading."""

    level: float  # share of the reference capacity, without the excess of rests
    loss: float  # share a charge, positive when fading
    level_variance: float
    loss_variance: float
    covariance: float
    wave: float  # standard deviation of the correlated scatter
    log_likelihood: float


class Fade(msgspec.Struct, frozen=True):
    """A capacity series read as level, loss, rests and scatter; shares of `reference_ah`."""

    reference_ah: float
    last_number: float
    last_reading: float
    span: float  # charges between the first and the last reading used
    spacing: float  # median distance of readings, in charges
    scatter: float
    lines: tuple[LineNow, ...]  # one for each amount of correlated scatter tried
    rests: tuple[float, ...]  # sizes of the steps up
    set_aside: int  # single low readings left out


@finite_only
def fit_fade(numbers: Floats, capacities_ah: Floats) -> Fade:
    """Level and loss per charge now, from n >= 4 readings.

    numbers: ascending charge numbers; capacities_ah: Ah, above 0. Source: generalised least
    squares (Aitken 1935) with an integrated Wiener process for the bend (Wahba 1978), both
    from memory; the constants are set on simulated cells.
    """
    reference = float(np.median(capacities_ah[: min(5, len(capacities_ah))]))
    x, y = _merged(numbers, capacities_ah / reference)
    x, y = x[-MOST_READINGS:], y[-MOST_READINGS:]
    kept = _not_single_lows(x, y)
    set_aside = int(np.sum(~kept))
    x, y = x[kept], y[kept]
    scatter = _scatter(x, y)
    step = np.diff(y)
    risen = np.flatnonzero(step > max(REST_LEAST, REST_OVER_SCATTER * scatter)) + 1
    rests = [(float(x[at]), float(step[at - 1])) for at in risen]
    fixed = _bend_and_rests(x, WANDER * _usual_or_seen_loss(x, y), rests)
    lines = [_line_now(x, y, fixed, scatter, wave * scatter) for wave in _WAVE_OVER_SCATTER]
    return Fade(
        reference_ah=reference,
        last_number=float(x[-1]),
        last_reading=float(y[-1]),
        span=float(x[-1] - x[0]),
        spacing=float(np.median(np.diff(x))),
        scatter=scatter,
        lines=tuple(lines),
        rests=tuple(size for _, size in rests),
        set_aside=set_aside,
    )


def _merged(x: Floats, y: Floats) -> tuple[Floats, Floats]:
    """Readings at the same number as one, by their median."""
    single = np.unique(x)
    if len(single) == len(x):
        return x, y
    return single, np.array([np.median(y[x == at]) for at in single])


def _not_single_lows(x: Floats, y: Floats) -> NDArray[np.bool_]:
    """False for a reading far below both its neighbours: a discharge that ended early."""
    kept = np.ones(len(x), dtype=np.bool_)
    if len(x) >= 5:
        limit = max(0.04, 8.0 * _scatter(x, y))
        kept[1:-1] = y[1:-1] > np.minimum(y[:-2], y[2:]) - limit
    return kept


def _scatter(x: Floats, y: Floats) -> float:
    """Scatter of single readings, from each one's distance to the line through its neighbours."""
    near = (x[2:] - x[1:-1]) / (x[2:] - x[:-2])
    off = y[1:-1] - (near * y[:-2] + (1.0 - near) * y[2:])
    off = off / np.sqrt(1.0 + near**2 + (1.0 - near) ** 2)
    seen = float(np.median(np.abs(off))) / 0.6745 if len(off) else 0.0
    count, usual = len(off), _SCATTER_USUAL_WEIGHT
    blend = (count * seen**2 + usual * SCATTER_USUAL**2) / (count + usual)
    return max(math.sqrt(blend), SCATTER_FLOOR)


def _usual_or_seen_loss(x: Floats, y: Floats) -> float:
    """Rough loss a charge for the size of the bend: Theil-Sen, held to the usual while few."""
    first, second = np.triu_indices(len(x), k=1)
    seen = -float(np.median((y[second] - y[first]) / (x[second] - x[first])))
    seen = min(max(seen, 0.0004), 0.008)
    count = len(x)
    return math.exp((count * math.log(seen) + 10.0 * math.log(USUAL_FADE)) / (count + 10.0))


def _bend_and_rests(x: Floats, wander: float, rests: Sequence[tuple[float, float]]) -> Floats:
    """Covariance of what is not scatter, anchored at the last reading."""
    back = x[-1] - x
    small = np.minimum(back[:, None], back[None, :])
    large = np.maximum(back[:, None], back[None, :])
    cov: Floats = wander**2 * small**2 * (3.0 * large - small) / 6.0
    for at, size in rests:
        for decay in REST_DECAYS:
            excess = np.where(x >= at, np.exp(-np.maximum(x - at, 0.0) / decay), 0.0)
            cov += size**2 * np.outer(excess, excess)
    return cov


def _line_now(x: Floats, y: Floats, fixed: Floats, scatter: float, wave: float) -> LineNow:
    """Generalised least squares of level and loss for one amount of correlated scatter."""
    cov = fixed + wave**2 * np.exp(-np.abs(x[:, None] - x[None, :]) / WAVE_DECAY)
    cov[np.diag_indices(len(x))] += scatter**2
    root = np.linalg.cholesky(cov)
    columns = np.column_stack([np.ones_like(x), x[-1] - x, y])
    white = np.linalg.solve(root, columns)
    design, seen = white[:, :2], white[:, 2]
    normal = design.T @ design
    inverse = np.linalg.inv(normal)
    level, loss = inverse @ (design.T @ seen)
    rests = seen - design @ np.array([level, loss])
    squares = float(rests @ rests)
    # The scatter is itself only estimated: scaled by what is left, held to 1 while few.
    scale = max((squares + 4.0) / (len(x) + 2.0), 0.5)
    likelihood = -float(np.sum(np.log(np.diag(root)))) - 0.5 * squares
    return LineNow(
        level=float(level),
        loss=float(loss),
        level_variance=float(inverse[0, 0]) * scale,
        loss_variance=float(inverse[1, 1]) * scale,
        covariance=float(inverse[0, 1]) * scale,
        wave=wave,
        log_likelihood=likelihood - 0.5 * float(np.linalg.slogdet(normal)[1]),
    )
