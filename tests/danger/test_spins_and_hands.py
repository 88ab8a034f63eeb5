"""A1: the hand of a propeller contradicts the spin of its station."""

from pathlib import Path

import pytest
from hangar_on_disk import (
    AIRCRAFT,
    ALL_CHECKS,
    QUIET,
    SET_UP,
    Hangar,
    with_log,
    with_parts,
    with_text,
)

FRONT_RIGHT = "    front-right: {motor: M-02, esc: E-02, propeller: R-01}"
WRONG = FRONT_RIGHT.replace("R-01", "L-03")


def test_a_wrong_hand_fails_the_fit_though_it_was_passed(tmp_path: Path) -> None:
    """A ccw propeller where cw is planned, and ``propeller-fit: pass``: grounded, everywhere."""
    hangar = Hangar(tmp_path, with_text("aircraft/sedge/logbook.yaml", FRONT_RIGHT, WRONG))

    wrong = "L-03 is ccw, not cw"
    said = f"propeller fit at front-right: failed, {wrong}"
    place = hangar.line("aircraft/sedge/logbook.yaml", "propeller: L-03")
    assert ("grounded", [said]) == (hangar.state(), hangar.reasons())
    assert 3 == hangar.due[0]
    assert "Sedge: propeller fit at front-right - failed" in hangar.due[1]
    assert f"{wrong} {place}" in hangar.due[1]
    (row,) = hangar.rows("propeller-fit")
    assert ("check", "failed", "front-right", place) == (
        row["kind"],
        row["state"],
        row["station"],
        row["place"],
    )
    assert f"warning: sedge: front-right: {wrong} @ {place}\n" in hangar.check
    assert [] == hangar.silent_pages("propeller fit", "sedge", SET_UP)
    assert "Grounded, leave at home" in hangar.page("cards/sedge-field.html")


def test_a_right_hand_is_quiet_again(tmp_path: Path) -> None:
    """Another propeller of the right hand, looked at: nothing is left of it."""
    mended = """\
- on: 2026-06-19
  fit: {front-right: {propeller: R-04}}
  instead_of: {L-03: serviceable}
- on: 2026-06-19
  check: [propeller-fit, propeller-balance]
  result: pass
- {on: 2026-06-19, flight: 5:00, pack: P-01, purpose: check, result: pass}
"""
    hangar = Hangar(tmp_path, with_text("aircraft/sedge/logbook.yaml", FRONT_RIGHT, WRONG, mended))

    assert ("nothing open", []) == (hangar.state(), hangar.reasons())


def test_a_plan_without_yaw_fails_the_spin_directions(tmp_path: Path) -> None:
    """Pairs alike front and rear: rank 3, so no pass of spin-directions counts."""
    plan = AIRCRAFT.replace("front-right: {spin: cw", "front-right: {spin: ccw").replace(
        "rear-right: {spin: ccw", "rear-right: {spin: cw"
    )
    log = QUIET["aircraft/sedge/logbook.yaml"]
    swapped = log.replace("propeller: R-01", "propeller: L-03").replace(
        "propeller: L-02", "propeller: R-03"
    )
    files = {"aircraft/sedge/aircraft.yaml": plan, "aircraft/sedge/logbook.yaml": swapped}
    hangar = Hangar(tmp_path, with_log("", **files))

    assert "grounded" == hangar.state()
    assert [
        f"spin directions at {station}: failed, the planned spins leave no yaw control"
        for station in ("front-left", "front-right", "rear-left", "rear-right")
    ] == hangar.reasons()
    assert 1 == hangar.check.count("the planned spins leave no yaw control")
    assert [] == hangar.silent_pages("spin directions", "sedge", SET_UP)


def test_a_plan_that_cannot_hang_level_without_turning_fails_too(tmp_path: Path) -> None:
    """Three one way and one the other: rank 4, yet two of them would have to carry nothing.

    Moments about the middle of a square, by hand: equal left and right, front and rear leaves
    diagonal pairs alike, and no yaw then asks the pair that turns alike for nothing.
    """
    plan = AIRCRAFT.replace("front-right: {spin: cw", "front-right: {spin: ccw")
    log = QUIET["aircraft/sedge/logbook.yaml"].replace("propeller: R-01", "propeller: L-03")
    files = {"aircraft/sedge/aircraft.yaml": plan, "aircraft/sedge/logbook.yaml": log}
    hangar = Hangar(tmp_path, with_log("", **files))

    assert "grounded" == hangar.state()
    assert "spin directions at rear-left: failed, the planned spins leave no yaw control" in (
        hangar.reasons()
    )
    assert [] == hangar.silent_pages("spin directions", "sedge", SET_UP)


STATIONS = AIRCRAFT[AIRCRAFT.index("stations:") : AIRCRAFT.index("receiver:")]
FITTED = QUIET["aircraft/sedge/logbook.yaml"][
    : QUIET["aircraft/sedge/logbook.yaml"].index("centre")
]


def _custom(motors: dict[str, str], servo: str = "") -> dict[str, str]:
    """Sedge with so many rotors at places of its own. motors: where and how each of them turns."""
    plan, fitted = "stations:\n", "- on: 2026-05-01\n  fit:\n"
    for number, (name, said) in enumerate(motors.items(), 1):
        plan += f"  {name}: {{{said}, output: {number}}}\n"
        hand = "L" if " ccw" in said else "R"
        fitted += (
            f"    {name}: {{motor: M-0{number}, esc: E-0{number}, propeller: {hand}-0{number}}}\n"
        )
    craft = AIRCRAFT.replace(STATIONS, plan).replace("quad-x", "custom")
    log = QUIET["aircraft/sedge/logbook.yaml"].replace(FITTED, fitted + servo + "    ")
    files = {"aircraft/sedge/aircraft.yaml": craft, "aircraft/sedge/logbook.yaml": log}
    parts = ("- {spec: servo, kind: servo, mass: 9 g}\n", "- {tag: V-01, spec: servo}\n")
    return with_parts(with_log("", **files), *parts)


AHEAD = "at: [200 mm, 0 mm, 0 mm]"
THREE = {
    "nose": f"spin: ccw, {AHEAD}",
    "left": "spin: cw, at: [-100 mm, -170 mm, 0 mm]",
    "right": "spin: ccw, at: [-100 mm, 170 mm, 0 mm]",
}


@pytest.mark.parametrize(
    ("motors", "servo", "state"),
    [
        ({"ahead": f"spin: ccw, {AHEAD}", "aft": "spin: cw, at: [-200 mm, 0 mm, 0 mm]"}, "", "ok"),
        (
            {
                "top": "spin: ccw, at: [0 mm, 0 mm, -30 mm]",
                "low": "spin: cw, at: [0 mm, 0 mm, 30 mm]",
            },
            "",
            "ok",
        ),
        (THREE, "", "failed"),
        (THREE, "    mast: {servo: V-01}\n", "ok"),
    ],
)
def test_what_a_servo_steers_needs_no_yaw_by_its_spins(
    tmp_path: Path, motors: dict[str, str], servo: str, state: str
) -> None:
    """Tandem and coaxial helicopters by vanes or blades, a tricopter by its servo."""
    hangar = Hangar(tmp_path, _custom(motors, servo))

    assert "no problems" in hangar.check
    states = {row["state"] for row in hangar.json["rows"] if row["name"] == "spin-directions"}
    assert {state} == states
    assert (state == "failed") == ("leave no yaw control" in hangar.check)
    assert "rank below 4" not in hangar.page("aircraft/sedge/figures.html") or state == "failed"


def _plane(hand: str) -> dict[str, str]:
    checks = ALL_CHECKS.replace("correction-sense, ", "correction-sense, surface-sense, hinges, ")
    return {
        "hangar.yaml": QUIET["hangar.yaml"],
        "parts/specs.yaml": QUIET["parts/specs.yaml"],
        "parts/items.yaml": QUIET["parts/items.yaml"],
        "aircraft/heron/aircraft.yaml": """\
aircraft: Heron
kind: aeroplane
layout: aeroplane
programme: small-aeroplane
stations:
  nose: {spin: cw}
radio: {failsafe: {throttle: cut}}
""",
        "aircraft/heron/logbook.yaml": f"""\
- on: 2026-05-01
  fit:
    nose: {{motor: M-01, esc: E-01, propeller: {hand}}}
    centre: {{frame: F-01, receiver: X-01}}
{checks}""",
    }


def test_on_an_aeroplane_equal_words_contradict(tmp_path: Path) -> None:
    """Spin is seen from behind, hand from ahead: a row and a warning, and nothing grounds."""
    hangar = Hangar(tmp_path, _plane("R-01"))

    wrong = "R-01 is cw, not ccw"
    said = f"propeller fit at nose: failed, {wrong}"
    assert said in hangar.reasons("heron")
    assert "grounded" != hangar.state("heron")
    assert f"heron: nose: {wrong}" in hangar.check
    assert 3 == hangar.due[0]


def test_on_an_aeroplane_unequal_words_agree(tmp_path: Path) -> None:
    """The usual propeller on the usual motor: nothing."""
    hangar = Hangar(tmp_path, _plane("L-01"))

    assert [] == hangar.rows("propeller-fit")
    assert "propeller-fit" not in hangar.check
