"""Inertia with wings, arms and fuselage as bodies; usable energy; swaps of like for like."""

from pathlib import Path

import pytest
from small_hangars import LOG, SMALL, benched, found, opened, pack, quad, refused
from test_weighed import FLOWN, plane

from buildbook.figures.answers.registry import figures_of_aircraft

PARTS = """\
- {spec: panel, kind: wing, mass: 300 g}
- {spec: hull, kind: frame, mass: 240 g}
- {spec: tailplane, kind: tail, mass: 60 g}
"""
ITEMS = """\
- {tag: W-1, spec: panel, acquired: 2026-01-01}
- {tag: F-1, spec: hull, acquired: 2026-01-01}
- {tag: T-1, spec: tailplane, acquired: 2026-01-01}
"""
FIT = "- {on: 2026-02-01, fit: {wing: {wing: W-1}, hull: {frame: F-1}, tail: {tail: T-1}}}\n"
AT = """\
positions:
  pack: [0 mm, 0 mm, 0 mm]
  wing: [0 mm, 0 mm, 0 mm]
  hull: [0 mm, 0 mm, 0 mm]
  nose: [400 mm, 0 mm, 0 mm]
  tail: [-800 mm, 0 mm, 0 mm]
"""


def winged(span: str = ", span: 1200 mm") -> dict[str, str]:
    """Wing, fuselage and pack about one point, the tail behind it."""
    files = plane(FIT + FLOWN)
    craft = files["aircraft/teal/aircraft.yaml"]
    start, rest = craft.split("positions:")
    wing = "wing:" + rest.split("wing:")[1].replace(
        "mean_chord: 220 mm", f"mean_chord: 220 mm{span}"
    )
    files["aircraft/teal/aircraft.yaml"] = start + AT + wing
    files["parts/specs.yaml"] += PARTS
    files["parts/items.yaml"] += ITEMS
    return files


def test_wing_and_fuselage_are_bodies(tmp_path: Path) -> None:
    """An even plate has m·b²/12 and m·c²/12, an even rod m·l²/12; then parallel axes.

    Wing 0.3 kg of 1.2 x 0.22 m, fuselage 0.24 kg of 1.2 m from nose to tail, pack 0.21 kg, tail
    0.06 kg 0.8 m behind: the balance is 0.06·0.8/0.81 = 59.26 mm aft of the rest.
    """
    answers = figures_of_aircraft(opened(tmp_path, winged()), "teal")
    about = {
        axis: found(answers, "balance", f"inertia about the {axis} axis").value
        for axis in ("forward", "right", "down")
    }
    aft = 0.06 * 0.8 / 0.81
    along = 0.24 * 1.2**2 / 12 + 0.75 * aft**2 + 0.06 * (0.8 - aft) ** 2

    assert pytest.approx(0.3 * 1.2**2 / 12) == about["forward"]
    assert pytest.approx(0.3 * 0.22**2 / 12 + along) == about["right"]
    assert pytest.approx(0.3 * (1.2**2 + 0.22**2) / 12 + along) == about["down"]


@pytest.mark.parametrize(
    ("files", "why"),
    [
        (
            plane(FLOWN),
            "its inertia needs the wing as a part: write it as an item of kind wing and fit it",
        ),
        (
            winged(""),
            "the span of the wing is not recorded: write 'span' under 'wing' in aircraft.yaml",
        ),
    ],
    ids=["no wing", "no span"],
)
def test_without_the_wing_no_inertia(tmp_path: Path, files: dict[str, str], why: str) -> None:
    """A wing as a point would be far too little."""
    answers = figures_of_aircraft(opened(tmp_path, files), "teal")

    for axis in ("forward", "right", "down"):
        assert why == refused(answers, "balance", f"inertia about the {axis} axis")[0]


def test_usable_energy_is_that_of_the_capacity_as_measured(tmp_path: Path) -> None:
    """1760 mAh of 2200 mAh are left: 1.76 · 11.1 · 0.8 = 15.63 Wh; rated stays 24.42 Wh."""
    log = "- {on: 2026-03-01, capacity: P-1, measured: 1760 mAh}\n"
    answers = pack(tmp_path, benched(log))

    assert pytest.approx(1.76 * 11.1 * 0.8) == found(answers, "pack_energy", "usable").value
    assert pytest.approx(24.42) == found(answers, "pack_energy", "rated").value


def test_a_swap_of_like_for_like_leaves_a_weighed_mass_measured(tmp_path: Path) -> None:
    """M-1 of the spec goes, M-9 of the same kind comes, which was weighed: 1210 g stay 1210 g."""
    log = (
        "- {on: 2026-03-01, weigh: 1210 g, pack: P-1}\n"
        "- {on: 2026-03-02, fit: {front-left: {motor: M-9}}, instead_of: {M-1: scrapped}}\n"
    )
    files = {**SMALL, "aircraft/sedge/logbook.yaml": LOG + log}
    files["parts/items.yaml"] += "- {tag: M-9, spec: motor, mass: 51 g, acquired: 2026-01-01}\n"
    figure = found(quad(tmp_path, files), "all_up_mass")

    assert (pytest.approx(1.210), "measured") == (figure.value, figure.basis)


def test_an_alarm_that_rests_on_a_default_curve_says_so(tmp_path: Path) -> None:
    """No curve of the keeper's own pack is known: the usual one of its chemistry."""
    figure = found(quad(tmp_path, benched()), "alarm_voltage", "P-1")

    assert "default" == figure.basis
    assert "rested voltage at 20 % of its charge" in figure.notes[0]
    rested = next(one for one in figure.inputs if one.name.startswith("rested voltage"))
    assert (pytest.approx(3 * 3.73), "default") == (rested.value, rested.basis)


def test_the_efficiency_of_a_motor_is_recorded_and_shown(tmp_path: Path) -> None:
    """88.135 W at the shafts (check values, section 3); 0.85 and 0.96 of it are recorded.

    Without them 0.78 and 0.95 stand there as defaults, with their range, as inputs of the time.
    """
    files = dict(SMALL)
    usual = quad(tmp_path / "usual", files)
    files["parts/specs.yaml"] = (
        files["parts/specs.yaml"]
        .replace("max_current: 18 A", "max_current: 18 A, efficiency: 85 %")
        .replace("cells: 2S-4S", "cells: 2S-4S, efficiency: 96 %")
    )
    own = quad(tmp_path / "own", files)

    assert pytest.approx(88.135 / 0.85 / 0.96, rel=1e-4) == found(own, "hover_power").value
    told = {one.name: one for one in found(usual, "flight_time", "P-1").inputs}
    assert (0.78, "default") == (
        told["efficiency of the motors"].value,
        told["efficiency of the motors"].basis,
    )
    assert (
        "70 % to 86 %, from memory; a bench table, or 'efficiency' in the spec, replaces it"
    ) == told["efficiency of the motors"].note
    mine = {one.name: one for one in found(own, "flight_time", "P-1").inputs}
    assert (0.85, "spec") == (
        mine["efficiency of motor"].value,
        mine["efficiency of motor"].basis,
    )
