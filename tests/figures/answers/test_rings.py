"""Rings of rotors, coaxial ones too: the loss of a rotor, what a pair takes, every layout."""

import math
from itertools import pairwise
from pathlib import Path

import pytest
from full_hangars import coaxial
from small_hangars import KEEPER, SPECS, found, opened

from buildbook.figures.answers.registry import figures_of_aircraft
from buildbook.records.layouts import LAYOUTS
from buildbook.report.figure import Answers

RING = ("front", "front-right", "rear-right", "rear", "rear-left", "front-left")
# Masses of 1.535 kg together: frame 675 g, six arms of 80 g, controller 30 g, pack 350 g.
HEXA = SPECS.replace(
    "{spec: frame, kind: frame, mass: 500 g}", "{spec: frame, kind: frame, mass: 675 g}"
)
BENCH = """\
throttle_%,voltage_V,current_A,thrust_N,rpm
20,11.1,0.5,0.8,2000
60,11.1,5.0,4.0,4600
100,11.1,10.0,6.125,5700
"""


def ring_files(layout: str, stations: dict[str, str]) -> dict[str, str]:
    """Rotors with those spins, each of 6.125 N at most, arms of 275 mm; six weigh 1.535 kg."""
    items = ["- {tag: F-1, spec: frame, acquired: 2026-01-01}"]
    items += [
        f"- {{tags: {mark}-1..{mark}-8, spec: {spec}, acquired: 2026-01-01}}"
        for mark, spec in (("M", "motor"), ("E", "esc"), ("R", "prop-cw"), ("L", "prop-ccw"))
    ]
    items += [
        "- {tag: C-1, spec: controller, acquired: 2026-01-01}",
        "- {tag: P-1, spec: pack, acquired: 2026-01-01}",
    ]
    slots = "".join(
        f"    {station}: {{motor: M-{number}, esc: E-{number}, "
        f"propeller: {'R' if spin == 'cw' else 'L'}-{number}}}\n"
        for number, (station, spin) in enumerate(stations.items(), 1)
    )
    plans = "".join(f"  {station}: {{spin: {spin}}}\n" for station, spin in stations.items())
    specs = HEXA.replace("max_current: 18 A}", "max_current: 18 A, bench: motor.csv}")
    return {
        "hangar.yaml": KEEPER,
        "bench/motor.csv": BENCH,
        "parts/specs.yaml": specs,
        "parts/items.yaml": "\n".join(items) + "\n",
        "aircraft/ring/aircraft.yaml": (
            f"aircraft: Ring\nkind: multirotor\nlayout: {layout}\ndiagonal: 550 mm\n"
            f"stations:\n{plans}positions:\n  pack: [0 mm, 0 mm, 0 mm]\n"
        ),
        "aircraft/ring/logbook.yaml": (
            "- on: 2026-02-01\n  fit:\n    centre: {frame: F-1, controller: C-1}\n" + slots
        ),
    }


def ring(folder: Path, layout: str, stations: dict[str, str]) -> Answers:
    """The figures of such a ring."""
    return figures_of_aircraft(opened(folder, ring_files(layout, stations)), "ring")


PAIRS = {
    f"{arm}-{tier}": spin
    for arm in ("front-left", "front-right", "rear")
    for tier, spin in (("upper", "cw"), ("lower", "ccw"))
}
"""Three pairs, one rotor above the other."""


def spins(letters: str) -> dict[str, str]:
    """Spins of the ring from the nose clockwise: P is counter-clockwise."""
    return {
        station: "ccw" if letter == "P" else "cw"
        for station, letter in zip(RING, letters, strict=True)
    }


def alternating(name: str) -> dict[str, str]:
    """Neighbours of a layout, and the two of a pair, turn opposite ways."""
    layout = LAYOUTS[name].stations
    bearings = [round(math.atan2(at.right, at.forward) % math.tau, 4) for at in layout]
    arms = sorted(set(bearings))
    return {
        at.name: "ccw" if (arms.index(bearing) + (at.tier == "lower")) % 2 else "cw"
        for at, bearing in zip(layout, bearings, strict=True)
    }


def test_alternating_spins_hold_no_single_loss(tmp_path: Path) -> None:
    """PNPNPN is not fully controllable after any single loss.

    Source: Du, Quan, Yang and Cai 2015, doi 10.2514/1.G000731; check values, section 8.
    """
    figure = found(ring(tmp_path, "hexa-plus", spins("PNPNPN")), "rotor_loss")

    assert 0 == figure.value
    assert (
        "after losing any one motor not all of roll, pitch, yaw and height can be held"
    ) == figure.verdict
    assert "geometry and greatest thrust only: your controller may not do it" in figure.notes


def test_a_loss_that_rests_on_a_default_says_so(tmp_path: Path) -> None:
    """The thrust of a pair one above the other goes with its interference, which is a default."""
    figure = found(figures_of_aircraft(opened(tmp_path, coaxial()), "ring"), "rotor_loss")

    assert figure.basis == "default"
    assert figure.notes[0].startswith("rests on what is assumed: ")
    assert "interference of a pair" in figure.notes[0]


def test_paired_spins_hold_four_of_six_losses(tmp_path: Path) -> None:
    """PPNNPN holds the loss of rotors 1 to 4 of the ring, not of 5 and 6. Source: as above."""
    figure = found(ring(tmp_path, "hexa-plus", spins("PPNNPN")), "rotor_loss")

    assert 4 == figure.value
    assert (
        "could be held after losing front, front-right, rear-right, rear; "
        "not after losing front-left, rear-left"
    ) == figure.verdict


def test_a_pair_takes_more_than_two_apart(tmp_path: Path) -> None:
    """One above the other: 1.281 times the power of two apart, with its range in the notes.

    Source: Leishman, Principles of Helicopter Aerodynamics, chapter 2 (from memory): the lower
    rotor half in the contracted wake of the upper.
    """
    apart = found(ring(tmp_path / "a", "hexa-plus", spins("PNPNPN")), "hover_power")
    above = found(ring(tmp_path / "b", "y6", PAIRS), "hover_power")
    theory = "by momentum theory, W"

    assert pytest.approx(1.281 * apart.other[theory]) == above.other[theory]
    assert (
        "rotors one above the other: a pair takes 1.28 times the induced power of two apart, a "
        "default (1.16 to 1.41)"
    ) in above.notes


def test_a_pair_off_the_bench(tmp_path: Path) -> None:
    """The row is read at F·κ^(2/3), for throttle and power; full thrust is F·κ^(-2/3).

    Three pairs carry what six rotors apart carry; the bench is that of the ring, κ 1.281: a row
    of 1.1795 times the thrust in a hover, and 0.8478 of the thrust at full throttle.
    """
    apart = ring(tmp_path / "a", "hexa-plus", spins("PNPNPN"))
    above = ring(tmp_path / "b", "y6", PAIRS)
    mass = found(apart, "all_up_mass").value
    assert mass is not None
    pull = mass * 9.80665 / 6 * 1.281 ** (2 / 3)
    rows = [[float(cell) for cell in row.split(",")] for row in BENCH.splitlines()[1:]]
    low, high = next((a, b) for a, b in pairwise(rows) if a[3] <= pull <= b[3])
    way = (pull - low[3]) / (high[3] - low[3])

    throttle = found(above, "hover_throttle")
    assert pytest.approx((low[0] + way * (high[0] - low[0])) / 100, rel=1e-4) == throttle.value
    watts = 6 * 11.1 * (low[2] + way * (high[2] - low[2]))
    assert pytest.approx(watts, rel=1e-2) == found(above, "hover_power").value
    alone = found(apart, "thrust_to_weight").value
    assert alone is not None
    both = found(above, "thrust_to_weight")
    assert pytest.approx(0.84780 * alone, rel=1e-4) == both.value
    assert ("default", "rests on what is assumed: interference of a pair") == (
        both.basis,
        both.notes[0],
    )


@pytest.mark.parametrize("name", sorted(name for name, one in LAYOUTS.items() if not one.free))
def test_every_layout_is_worked_out(tmp_path: Path, name: str) -> None:
    """Spins alternate: they cancel where the number is even, else a tail servo holds yaw."""
    stations = alternating(name)
    answers = ring(tmp_path, name, stations)
    figure = found(answers, "rotation_balance")
    shares = answers.find("allocation", "hover shares")

    if LAYOUTS[name].tail_servo:
        assert "a tail servo holds yaw" == figure.verdict
        assert shares is None
    else:
        assert (
            "the spins cancel; roll, pitch, yaw and height are all controllable" == figure.verdict
        )
        assert shares is not None
        assert shares.table is not None
        assert pytest.approx(1.0) == sum(float(row[1] or 0.0) for row in shares.table.rows)
    assert (len(stations) in (6, 8)) == (answers.find("rotor_loss") is not None)
    assert found(answers, "hover_power").value
