"""Every recorded limit is read, and the first of all is named; worked out by hand.

The small quad takes 15 A a motor and 60 A together at 11.1 V, 166.5 W a motor: its bench table is
at the voltage of the pack and in the air of the field.
"""

from pathlib import Path

import pytest
from small_hangars import LITTLE, SPECS, benched, found, quad, refused

ESC = "continuous_current: 20 A, cells: 2S-4S"
MOTOR = "max_current: 18 A, bench"
HANGED = "positions:"
LEADS = "  - {from: each esc, to: motor, wire: 18 AWG, length: 60 mm}\n"


FULL = "with P-1 full 0.2 % over its rating; "
"""66.15 A of the pack's 66 A, as in the tests of the ends of a pack."""
ROOMY = ("discharge_rate: 30C", "discharge_rate: 40C")


def with_specs(*pairs: tuple[str, str]) -> dict[str, str]:
    """The small quad with other words in its specs."""
    files = benched()
    for old, new in pairs:
        assert old in files["parts/specs.yaml"]
        files["parts/specs.yaml"] = files["parts/specs.yaml"].replace(old, new)
    return files


def with_run() -> dict[str, str]:
    """The small quad with a run from each ESC to its motor."""
    files = benched()
    craft = files["aircraft/sedge/aircraft.yaml"]
    return files | {"aircraft/sedge/aircraft.yaml": craft.replace(HANGED, LEADS + HANGED)}


def test_the_power_that_a_motor_may_take_is_a_limit(tmp_path: Path) -> None:
    """166.5 W of 170 W leave 2.06 %, less than 3 A of 18 A; it is the first of all.

    A full pack holds 11.85 V at 66.15 A: 195.9 W a motor, 15.2 % over.
    """
    files = with_specs((MOTOR, "max_current: 18 A, max_power: 170 W, bench"))
    figure = found(quad(tmp_path, files), "motor_margin")

    assert pytest.approx(1 - 166.5 / 170, abs=1e-5) == figure.value
    assert (
        "least at front-left (M-1); with P-1 full 15.2 % over its rating; the power of "
        "the motor is past its rating"
    ) == figure.verdict
    assert figure.table is not None
    assert ("front-left", "M-1", "167 W", "170 W") == figure.table.rows[0][:4]
    assert ("front-left", "M-1", "15 A", "18 A") == figure.table.rows[4][:4]
    assert figure.formula.endswith("P at full throttle")


def test_the_power_alone_will_do(tmp_path: Path) -> None:
    """No current of the motor is recorded; ESC 25 %, pack 31.8 %, power 16.8 % left.

    A full pack lets it take 195.9 W of 200 W: 2.1 % left.
    """
    files = with_specs((MOTOR, "max_power: 200 W, bench"), ROOMY)
    figure = found(quad(tmp_path, files), "motor_margin")

    assert pytest.approx(1 - 166.5 / 200, abs=1e-5) == figure.value
    assert (
        f"least at front-left (M-1); with P-1 full 2.1 % left; {LITTLE}the power of the motor is "
        "the first limit"
    ) == figure.verdict


def test_what_an_esc_carries_for_seconds(tmp_path: Path) -> None:
    """Beside the continuous current 15 A of 30 A are half; alone it is what the margin is of."""
    both = with_specs((ESC, "continuous_current: 20 A, burst_current: 30 A, cells: 2S-4S"))
    alone = with_specs((ESC, "burst_current: 20 A, cells: 2S-4S"))
    figure = found(quad(tmp_path / "both", both), "esc_margin")
    burst = found(quad(tmp_path / "alone", alone), "esc_margin")

    assert pytest.approx(0.25, abs=1e-5) == figure.value
    left = figure.other["share left of what it carries for seconds"]
    assert pytest.approx(0.5, abs=1e-5) == left
    assert pytest.approx(0.25, abs=1e-5) == burst.value
    assert (
        "against what it carries for seconds; its continuous current is not recorded" in burst.notes
    )


def test_cells_that_an_esc_does_not_take_come_before_any_current(tmp_path: Path) -> None:
    """3S on ESCs for 4S to 6S."""
    files = with_specs(("cells: 2S-4S", "cells: 4S-6S"))
    files["aircraft/sedge/logbook.yaml"] += "- {on: 2026-03-01, flight: 6 min, pack: P-1}\n"
    figure = found(quad(tmp_path, files), "battery_margin")

    assert f"{FULL}P-1 is outside the cells of E-1" == figure.verdict


def test_servos_on_a_regulator_are_a_limit_too(tmp_path: Path) -> None:
    """0.99 A of 1 A leave 1 %, less than all else."""
    files = with_specs(ROOMY)
    files["parts/specs.yaml"] += (
        "- {spec: servo, kind: servo, mass: 9 g, max_current: 990 mA}\n"
        "- {spec: bec, kind: regulator, mass: 9 g, max_current: 1 A}\n"
    )
    files["parts/items.yaml"] += (
        "- {tag: S-1, spec: servo, acquired: 2026-01-01}\n"
        "- {tag: G-1, spec: bec, acquired: 2026-01-01}\n"
    )
    files["aircraft/sedge/logbook.yaml"] += (
        "- {on: 2026-02-02, fit: {centre: {servo: S-1, regulator: G-1}}}\n"
    )

    assert (
        "with P-1 full 24.8 % left; the regulator is the first limit"
        == found(quad(tmp_path, files), "battery_margin").verdict
    )


def test_between_esc_and_motor_flows_the_current_of_the_motor(tmp_path: Path) -> None:
    """In a hover a motor takes its share of the pack's current over the throttle.

    121.62 W over 11.1 V are 10.957 A together, 2.739 A each; at 44.927 % throttle 6.097 A flow in
    the leads of a motor. At full throttle they are the same 15 A.
    """
    files = benched()
    craft = files["aircraft/sedge/aircraft.yaml"]
    files["aircraft/sedge/aircraft.yaml"] = craft.replace(HANGED, LEADS + HANGED)
    answers = quad(tmp_path, files)
    hover = found(answers, "wire_load", "each esc to motor, hover")
    before = found(answers, "wire_load", "distribution to each esc, hover")

    assert pytest.approx(121.62 / 11.1 / 4, rel=1e-3) == before.value
    assert pytest.approx(121.62 / 11.1 / 4 / 0.44927, rel=1e-3) == hover.value
    assert (
        "between ESC and motor flows the motor's current: the pack's, over the throttle; the ESC "
        "is taken as without loss"
    ) in hover.notes
    full = found(answers, "wire_load", "each esc to motor, full throttle")
    assert pytest.approx(15, rel=1e-4) == full.value


def test_without_a_throttle_the_current_of_a_motor_is_not_known(tmp_path: Path) -> None:
    """Momentum theory alone gives the pack's current, not the motor's."""
    files = {**benched(), "parts/specs.yaml": SPECS}
    craft = files["aircraft/sedge/aircraft.yaml"]
    files["aircraft/sedge/aircraft.yaml"] = craft.replace(HANGED, LEADS + HANGED)

    why = refused(quad(tmp_path, files), "wire_load", "each esc to motor, hover")[0]
    assert why.startswith("neither a bench table nor the motor's constants give it: ")


def test_a_margin_is_warned_of_with_the_pack_that_gives_most(tmp_path: Path) -> None:
    """15 A of 17 A leave 11.8 %. Full, the 15 mΩ of P-1 let 16.54 A flow: 2.7 % left.

    The pack of the last flight, whose 60 mΩ were read, gives less, and is not the one to go by.
    """
    tired = (
        "- {on: 2026-02-20, charge: P-2, resistance: [20 mΩ, 20 mΩ, 20 mΩ]}\n"
        "- {on: 2026-03-01, flight: 300 s, pack: P-1}\n"
        "- {on: 2026-03-02, flight: 300 s, pack: P-2}\n"
    )
    files = with_specs(("max_current: 18 A, bench", "max_current: 17 A, bench"), ROOMY)
    files["aircraft/sedge/logbook.yaml"] += tired
    files["parts/items.yaml"] += "- {tag: P-2, spec: pack, acquired: 2026-01-02}\n"
    figure = found(quad(tmp_path, files), "motor_margin")

    assert (
        f"least at front-left (M-1); with P-1 full 2.7 % left; {LITTLE}the motor is the first limit"
    ) == figure.verdict
    assert pytest.approx(1 - 16.54 / 17, abs=1e-3) == figure.other["share left with a full pack"]


def test_margin_and_peak_current_name_one_limit(tmp_path: Path) -> None:
    """At 11.1 V the motor leaves 16.2 %, its power 16.8 %; full, 195.9 W leave 2.1 % of 200 W."""
    files = with_specs((MOTOR, "max_current: 17.9 A, max_power: 200 W, bench"), ROOMY)
    answers = quad(tmp_path, files)
    peak = found(answers, "peak_current", "P-1").verdict or ""

    assert "the power of the motor is the first limit, 2.1 % left" == peak.split("; ")[0]
    for name in ("motor_margin", "esc_margin", "battery_margin"):
        said = (found(answers, name).verdict or "").split("; ")
        assert "the power of the motor is the first limit" == said[-1]


@pytest.mark.parametrize(
    ("written", "believed"),
    [("2200 mAh", True), ("22000 mAh", False), ("22000 mAh\n  sure: true", True)],
)
def test_a_capacity_that_its_mass_cannot_hold_is_not_believed(
    tmp_path: Path, written: str, believed: bool
) -> None:
    """3 cells of 22 Ah in 350 g are 189 Ah a kilogram; LiPo has some 40, LiIon 75 (from memory).

    At ten times the capacity the pack would carry ten times the current, and fly so long.
    """
    files = benched()
    files["parts/specs.yaml"] = files["parts/specs.yaml"].replace("2200 mAh", written)
    answers = quad(tmp_path, files)

    for name in ("battery_margin", "flight_time", "timer_setting"):
        if believed:
            assert found(answers, name, "P-1").value
        else:
            why = "capacity of pack is 22000 mAh, more than 350 g of cells can hold"
            assert why == refused(answers, name, "P-1")[0]


def test_cells_that_hold_most_are_believed(tmp_path: Path) -> None:
    """A cell of 18 by 65 mm holds 3500 mAh in 48 g: sheets of makers, from memory."""
    pack = (
        "- {spec: pack, kind: battery, mass: 192 g, cells: 4S, capacity: 3500 mAh, "
        "chemistry: LiIon, discharge_rate: 30C}\n"
    )
    files = benched()
    head, _ = files["parts/specs.yaml"].split("- spec: pack")
    files["parts/specs.yaml"] = head + pack

    assert found(quad(tmp_path, files), "discharge_rate", "P-1, hover").value
