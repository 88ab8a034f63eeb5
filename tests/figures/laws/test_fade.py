"""Level, loss, rests and scatter told apart."""

import numpy as np
import pytest

from buildbook.figures.laws.packs.fade import fit_fade


def likeliest(fade):
    """The line with the highest likelihood."""
    return max(fade.lines, key=lambda line: line.log_likelihood)


def fading(count, *, loss=0.002, scatter=0.002, seed=1):
    """Numbers and capacities of a pack of 1.5 Ah."""
    numbers = np.arange(count, dtype=float)
    noise = scatter * np.random.default_rng(seed).standard_normal(count)
    return numbers, 1.5 * (1.0 - loss * numbers + noise)


def test_level_and_loss_of_a_straight_fade():
    """A fifth of a percent a charge, seen fifty times."""
    fade = fit_fade(*fading(50))
    line = likeliest(fade)

    assert 1.0 - 0.002 * 49 == pytest.approx(line.level * fade.reference_ah / 1.5, abs=0.004)
    assert 0.002 == pytest.approx(line.loss, rel=0.2)
    assert 0.002 == pytest.approx(fade.scatter, rel=0.3)
    assert (49.0, 49.0, 1.0) == (fade.last_number, fade.span, fade.spacing)


def test_the_loss_now_is_that_of_late():
    """A fade that doubles half-way: the loss now is the later one."""
    numbers, capacities = fading(80)
    capacities[40:] -= 1.5 * 0.002 * np.arange(40)

    assert 0.004 == pytest.approx(likeliest(fit_fade(numbers, capacities)).loss, rel=0.2)


def test_steps_up_are_kept_apart_from_the_level():
    """Fresh from a rest, the pack's level is what it was before."""
    numbers, capacities = fading(60)
    rested = capacities.copy()
    rested[57:] += 1.5 * 0.04 * np.exp(-np.arange(3) / 5)
    plain, seen = fit_fade(numbers, capacities), fit_fade(numbers, rested)

    assert () == plain.rests
    assert 1 == len(seen.rests)
    assert 0.04 == pytest.approx(seen.rests[0], abs=0.008)
    assert likeliest(plain).level == pytest.approx(likeliest(seen).level, abs=0.012)


def test_few_readings_are_held_against_the_usual_scatter():
    """Four readings on a line do not prove that there is no scatter."""
    fade = fit_fade(np.array([0.0, 10.0, 20.0, 30.0]), np.array([2.0, 1.96, 1.92, 1.88]))

    assert 0.003 <= fade.scatter <= 0.005


def test_the_doubt_shrinks_with_readings():
    """Loss known better from more readings over the same charges."""
    numbers, capacities = fading(61)
    many, few = fit_fade(numbers, capacities), fit_fade(numbers[::12], capacities[::12])

    assert likeliest(many).loss_variance < likeliest(few).loss_variance


def test_a_long_record_costs_no_more_than_its_last_part():
    """Only the last 150 readings enter."""
    fade = fit_fade(*fading(400, loss=0.0005))

    assert 149.0 == fade.span


@pytest.mark.parametrize(
    ("own", "least"),
    [(0.004, True), (0.0, False)],
    ids=["each reading for itself", "from reading to reading"],
)
def test_the_likelihood_tells_scatter_from_waves(own, least):
    """Readings that scatter apart favour the least wave, readings that roll a larger one."""
    rng = np.random.default_rng(8)
    rolling = np.zeros(120)
    for at in range(1, 120):
        rolling[at] = np.exp(-1 / 6) * rolling[at - 1] + 0.004 * rng.standard_normal()
    numbers, straight = fading(120, scatter=0.0)
    noise = own * rng.standard_normal(120) if own else rolling
    fade = fit_fade(numbers, straight + 1.5 * noise)
    waves = sorted(line.wave for line in fade.lines)

    assert least == (likeliest(fade).wave == waves[0])


def test_uneven_readings_on_a_line_do_not_scatter():
    """Nothing but the usual scatter that few readings are held against: 5, 4 of 10 parts."""
    numbers = np.array([0.0, 1.0, 10.0, 12.0, 30.0, 33.0, 60.0, 90.0])
    fade = fit_fade(numbers, 2.0 - 0.004 * numbers)

    assert 0.005 * (4 / 10) ** 0.5 == pytest.approx(fade.scatter, rel=1e-6)
