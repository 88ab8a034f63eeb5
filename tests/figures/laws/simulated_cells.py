"""Cells that fade in many ways, drawn from a seed: what the forecast is calibrated on.

Fade is a power of the charge number, in half of the cells with a slow or fast start, its rate
wandering by about a quarter, in one of seven cells with a knee. Rests give capacity back, which
is lost again within some charges. Readings scatter, partly correlated. All ranges are common
practice or plain guesses, wide on purpose; no published cell was used to draw them.
"""

from typing import NamedTuple

import numpy as np


class SimulatedCell(NamedTuple):
    """One cell with every reading, its threshold, and the number from which it stays below."""

    numbers: np.ndarray
    capacities_ah: np.ndarray
    threshold_ah: float
    end: float


def simulated_cells(seed, count, *, median_life=130.0, life_log_sd=0.65):
    """So many cells whose end is seen in the record and comes after 24 charges or more."""
    rng = np.random.default_rng(seed)
    found = []
    while len(found) < count:
        capacities = _capacities_ah(rng, median_life * np.exp(life_log_sd * rng.standard_normal()))
        own = 0.8 * capacities[0]
        threshold = (own, 1.6 * rng.uniform(0.93, 1.03), 1.4 * rng.uniform(0.93, 1.03))[
            rng.integers(3)
        ]
        above = np.flatnonzero(capacities >= threshold)
        if len(above) and 22 <= above[-1] < len(capacities) - 1:
            numbers = np.arange(1.0, len(capacities) + 1.0)
            found.append(SimulatedCell(numbers, capacities, float(threshold), above[-1] + 2.0))
    return found


def _capacities_ah(rng, life):
    """Capacities of one cell of 2 Ah that loses 20 % in about `life` charges."""
    number = np.arange(int(min(3.0 * life + 40, 900)))
    power = np.exp(0.1 + 0.25 * rng.standard_normal())
    loss = power * (np.maximum(number, 1) / life) ** (power - 1)
    if rng.random() < 0.5:
        start, turn = rng.uniform(0.3, 1.2), rng.uniform(0.15, 0.4) * life
        loss *= start + (1 - start) / (1 + np.exp(-(number - turn) / (0.3 * turn)))
    loss *= np.exp(_wave(rng, len(number), 0.25, rng.uniform(20, 60)))
    if rng.random() < 0.15:
        knee = rng.uniform(0.7, 1.3) * life
        loss *= 1 + rng.uniform(0.5, 2) / (1 + np.exp(-(number - knee) / 8))
    rests = _rests(rng, len(number))
    wave = _wave(rng, len(number), 0.003 * np.exp(0.5 * rng.standard_normal()), rng.uniform(3, 10))
    scatter = 0.0025 * np.exp(0.5 * rng.standard_normal()) * rng.standard_normal(len(number))
    capacities = 2.0 * (1 - 0.2 / life * np.cumsum(loss) + rests + wave + scatter)
    worn_out = np.flatnonzero(capacities < 0.6)
    return capacities[: worn_out[0]] if len(worn_out) else capacities


def _rests(rng, count):
    """What rests give back: steps at random charges, decaying."""
    rate, size, decay = rng.gamma(2, 0.025), rng.uniform(0.008, 0.03), rng.uniform(2, 12)
    steps = (rng.random(count) < rate) * rng.exponential(size, count)
    return _decayed(steps, decay)


def _wave(rng, count, sd, decay):
    """A stationary first-order wave of standard deviation `sd`."""
    steps = sd * np.sqrt(1 - np.exp(-2 / decay)) * rng.standard_normal(count)
    steps[0] = sd * rng.standard_normal()
    return _decayed(steps, decay)


def _decayed(steps, decay):
    keep, level, out = np.exp(-1 / decay), 0.0, np.empty(len(steps))
    for at, step in enumerate(steps):
        level = level * keep + step
        out[at] = level
    return out
