"""Packs whose true fade is known: life, shape, scatter and outliers drawn from a seed.

Every pack loses 20 % in ``life`` charges, by a straight line, a square root, two phases (the
first two to four times as fast, turning at a tenth to four tenths of life) or a knee (from four to
nine tenths of life on two to five times as fast). A reading scatters by 0.5 to 2 % of the
capacity; three in a hundred are off by 2 to 15 %, mostly low: a discharge that ended early. All
ranges are plain guesses, wide on purpose; no published cell was used to draw them.
"""

from typing import NamedTuple

import numpy as np

from buildbook.figures.laws.packs.forecast import EndOfLife, forecast_end_of_life

FADES = ("linear", "square root", "two phases", "knee")
LIVES = (50, 150, 400, 800, 1500)
EVERY = (1, 10)
SHARES = (0.25, 0.5, 0.75)
OUTLIERS = 0.03


class SimulatedPack(NamedTuple):
    """Readings up to a share of the life of one pack, and its true end."""

    fade: str
    life: float
    every: int
    share: float
    foreseeable: bool  # no change of pace lies after the last reading
    numbers: list[float]
    capacities_ah: list[float]
    threshold_ah: float
    scatter: float  # standard deviation of a reading, as a share of the capacity


class Judged(NamedTuple):
    """A pack and what was forecast of it."""

    pack: SimulatedPack
    nominal_life: int
    end: EndOfLife

    @property
    def stated(self) -> bool:
        """Whether a number was told."""
        return self.end.state == "forecast"

    def held(self, at: int) -> bool:
        """Whether an interval (0: 80 %, 1: 95 %) holds the true end."""
        return self.end.intervals[at].low <= self.pack.life <= self.end.intervals[at].high


def simulated_pack(rng, fade, life, every, share):
    """One pack of 2 Ah, read after every so many charges up to a share of its life."""
    numbers = np.arange(0.0, share * life + 1e-9, every)
    turn, ratio = life, 1.0
    if fade == "two phases":
        turn, ratio = rng.uniform(0.1, 0.4) * life, 1 / rng.uniform(2.0, 4.0)
    elif fade == "knee":
        turn, ratio = rng.uniform(0.4, 0.9) * life, rng.uniform(2.0, 5.0)

    def shape(at):
        if fade == "square root":
            return np.sqrt(at)
        return np.minimum(at, turn) + ratio * np.maximum(at - turn, 0.0)

    true = 1.0 - 0.2 * shape(numbers) / shape(life)
    scatter = np.exp(rng.uniform(np.log(0.005), np.log(0.02)))
    seen = true + scatter * rng.standard_normal(len(numbers))
    off = rng.random(len(numbers)) < OUTLIERS
    size = rng.uniform(0.04, 0.15, len(numbers)) * np.where(rng.random(len(numbers)) < 0.8, -1, 0.5)
    seen = seen + np.where(off, size, 0.0)
    return SimulatedPack(
        fade,
        float(life),
        every,
        share,
        fade in ("linear", "square root") or turn <= numbers[-1],
        numbers.tolist(),
        (2.0 * np.maximum(seen, 0.05)).tolist(),
        1.6,
        float(scatter),
    )


def judged_packs(seed, each):
    """So many packs of every life, fade, distance of readings and share of life, with forecasts.

    Lives between the shortest and the longest are drawn within a fifth of the nominal one.
    """
    rng = np.random.default_rng(seed)
    found = []
    for nominal in LIVES:
        for fade in FADES:
            for every in EVERY:
                for share in SHARES:
                    for _ in range(each):
                        ends = nominal in (LIVES[0], LIVES[-1])
                        life = nominal * (1.0 if ends else np.exp(rng.uniform(-0.2, 0.2)))
                        pack = simulated_pack(rng, fade, life, every, share)
                        end = forecast_end_of_life(
                            pack.numbers, pack.capacities_ah, threshold_ah=pack.threshold_ah
                        )
                        found.append(Judged(pack, nominal, end))
    return found


def coverage(packs):
    """How many were forecast, and what share of these the 80 % and the 95 % intervals hold."""
    stated = [one for one in packs if one.stated]
    held = [sum(one.held(at) for one in stated) / max(len(stated), 1) for at in (0, 1)]
    return len(stated), held[0], held[1]
