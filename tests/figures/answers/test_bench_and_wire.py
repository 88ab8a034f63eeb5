"""A bench table, currents against ratings, and the wire, on the small quad."""

import math
from pathlib import Path

import pytest
from small_hangars import SMALL, SPECS, benched, found, quad, refused

from buildbook.report.figure import Answers
from buildbook.words.measures.figure_values import value_words


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> Answers:
    """The small quad with its bench table, which is at 11.1 V, the nominal voltage of the pack."""
    return quad(tmp_path_factory.mktemp("benched"), benched())


def test_thrust_to_weight_off_the_bench(answers: Answers) -> None:
    """4·8.4 N over 1.2·9.80665 N = 2.8552. The bench voltage and density are those of the field."""
    figure = found(answers, "thrust_to_weight")

    assert pytest.approx(4 * 8.4 / (1.2 * 9.80665), rel=1e-5) == figure.value
    assert figure.formula.startswith("τ = F / (m·g), where g = 9.80665 m/s²; F: last row")


def test_watts_per_kilogram_off_the_bench(answers: Answers) -> None:
    """4 · 15 A · 11.1 V over 1.2 kg are 555 W/kg, by hand; the masses are those of the specs."""
    figure = found(answers, "specific_power")

    assert pytest.approx(555.0, rel=1e-5) == figure.value
    assert ("W/kg", "spec") == (figure.unit, figure.basis)
    assert "555 W/kg" == value_words(figure, 555.0)


def test_hover_off_the_bench(answers: Answers) -> None:
    """2.942 N lie between the rows of 2.4 N (22.2 W, 40 %) and 4.6 N (55.5 W, 60 %).

    Share of the way (2.942 - 2.4)/2.2 = 0.24636: 30.404 W each, 121.62 W, throttle 0.44927.
    Linear interpolation in thrust; a 4e-6 difference of density is left out here.
    """
    way = (1.2 * 9.80665 / 4 - 2.4) / 2.2
    power = 4 * (22.2 + way * 33.3)

    assert pytest.approx(power, rel=1e-4) == found(answers, "hover_power").value
    assert pytest.approx(power / 11.1, rel=1e-4) == found(answers, "hover_current").value
    assert pytest.approx(0.4 + way * 0.2, rel=1e-4) == found(answers, "hover_throttle").value


def test_momentum_theory_stands_beside_the_bench(answers: Answers) -> None:
    """88.135 W at the shafts by theory (check values, section 3), 118.94 W from the pack at the
    default efficiencies 0.78 and 0.95, against the bench, with the difference."""
    figure = found(answers, "hover_power")
    assert figure.value is not None

    drawn_w = 88.135 / (0.78 * 0.95)
    assert pytest.approx(drawn_w, rel=1e-4) == figure.other["by momentum theory, W"]
    assert (
        pytest.approx(drawn_w / figure.value - 1, rel=1e-2, abs=1e-4)
        == (figure.other["by momentum theory, difference"])
    )


def test_margins_and_the_first_limit(answers: Answers) -> None:
    """15 A of 20 A at the ESC: 0.25; of 18 A at the motor: 1/6; 60 A of 66 A at the pack: 1/11."""
    assert pytest.approx(0.25, rel=1e-4) == found(answers, "esc_margin").value
    assert pytest.approx(1 / 6, rel=1e-4) == found(answers, "motor_margin").value
    battery = found(answers, "battery_margin", "P-1")
    assert pytest.approx(1 / 11, rel=1e-4) == battery.value
    assert ("with P-1 full 0.2 % over its rating") == battery.verdict


def test_discharge_rate_against_the_rating(answers: Answers) -> None:
    """60 A of 2.2 Ah are 27.27C, 91 % of 30C."""
    figure = found(answers, "discharge_rate", "P-1, full throttle")

    assert pytest.approx(60 / 2.2, rel=1e-4) == figure.value
    assert "91 % of its rating of 30C" == figure.verdict


def test_drop_and_loss_of_the_main_run_when_hot(answers: Answers) -> None:
    """12 AWG, 0.30 m out and back, 60 A, 80 °C: 0.11591 V; loss 60 A times that, 6.9546 W.

    Source: check values, section 6 (ASTM B258, IACS copper).
    """
    drop = found(answers, "wire_drop", "pack to distribution, full throttle")
    loss = found(answers, "wire_loss", "pack to distribution, full throttle")

    assert pytest.approx(0.11591, rel=1e-3) == drop.value
    assert pytest.approx(6.9546, rel=1e-3) == loss.value
    assert "1 % of the pack's voltage" == drop.verdict
    assert {"share of the pack's voltage": pytest.approx(0.11591 / 11.1, rel=1e-3)} == drop.other
    assert "rests on what is assumed: hot copper" in drop.notes


def test_each_esc_carries_its_own_motor(answers: Answers) -> None:
    """16 AWG, 0.24 m out and back, 15 A at 20 °C: 0.7114 W (check values, section 6); hot 1.2358
    times as much, and four of them."""
    loss = found(answers, "wire_loss", "distribution to each esc, full throttle")

    assert pytest.approx(4 * 0.7114 * 1.2358, rel=1e-3) == loss.value
    assert "4 runs together" in loss.notes


def test_load_of_the_copper(answers: Answers) -> None:
    """60 A on 3.3088 mm² are 18.1 A/mm²; what is usual is marked as common practice."""
    load = found(answers, "wire_load", "pack to distribution, full throttle")

    assert pytest.approx(60.0, rel=1e-4) == load.value
    assert "18.1 A/mm², more than is usual" == load.verdict
    assert (
        "many builders keep short leads at 5 to 15 A/mm²: common practice, no source"
    ) in load.notes


def test_the_whole_way_is_the_sum_of_the_runs(answers: Answers) -> None:
    """One of each run in a row."""
    runs = ("pack to distribution", "distribution to each esc")
    parts = [found(answers, "wire_drop", f"{run}, full throttle").value or 0.0 for run in runs]

    assert pytest.approx(sum(parts)) == found(answers, "wire_drop", "all runs, full throttle").value


def test_tips_at_full_throttle(answers: Answers) -> None:
    """6600 rpm of 0.254 m: π·0.254·110 = 87.78 m/s, Mach 0.2579 at 340.29 m/s (ISA)."""
    speed = math.pi * 0.254 * 110

    assert pytest.approx(speed, rel=1e-5) == found(answers, "tip_speed", "full throttle").value
    mach = found(answers, "tip_mach", "full throttle")
    assert pytest.approx(speed / 340.294, rel=1e-5) == mach.value
    assert "below the loud band" == mach.verdict


def test_without_a_bench_motor_and_propeller_are_solved_together(tmp_path: Path) -> None:
    """870 rpm/V, 90 mΩ, 0.5 A idle on a 10x4.7 with C_T 0.1229 and C_P 0.0497 at 11.1 V.

    The speed must balance the torques: C_P·ρ·n²·D⁵/(2π) = K_Q·(I - I_0) with I = (U - n/K_V)/R
    (equivalent circuit of the motor); the coefficients are those of the measured propeller at
    5000 rpm (Brandt and Selig 2011). Solved here by bisection, apart from the law.
    """
    constants = "max_current: 18 A, kv: 870 rpm/V, resistance: 90 mΩ, no_load_current: 0.5 A}"
    specs = SPECS.replace("max_current: 18 A}", constants).replace(
        "figure_of_merit: 0.65", "thrust_coefficient: 0.1229, power_coefficient: 0.0497"
    )
    answers = quad(tmp_path, {**SMALL, "parts/specs.yaml": specs})

    def surplus(turning: float) -> float:
        current = (11.1 - 60 * turning / 870) / 0.09
        motor = (current - 0.5) * 60 / (2 * math.pi * 870)
        return motor - 0.0497 * 1.225 * turning**2 * 0.254**5 / (2 * math.pi)

    low, high = 1.0, 200.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if surplus(middle) > 0 else (low, middle)
    thrust = 0.1229 * 1.225 * low**2 * 0.254**4

    figure = found(answers, "thrust_to_weight")
    assert pytest.approx(4 * thrust / (1.2 * 9.80665), rel=1e-4) == figure.value
    watts = 4 * 11.1 * (11.1 - 60 * low / 870) / 0.09
    assert pytest.approx(watts / 1.2, rel=1e-4) == found(answers, "specific_power").value
    assert pytest.approx(math.pi * 0.254 * low, rel=1e-4) == (
        found(answers, "tip_speed", "full throttle").value
    )
    assert "by motor constants, W" in found(answers, "hover_power").other
    throttle = found(answers, "hover_throttle").value
    assert throttle is not None
    assert 0.3 < throttle < 0.7


def test_voltage_of_the_alarm(answers: Answers) -> None:
    """At 20 % a rested LiPo cell has 3.73 V; less the drop of about 11 A in 5 mΩ: 3.67 V."""
    figure = found(answers, "alarm_voltage", "P-1")

    assert pytest.approx(3.73 - 121.6 / (3 * 3.67) * 0.005, abs=0.003) == figure.other["a cell, V"]
    assert pytest.approx(3 * figure.other["a cell, V"]) == figure.value


def test_the_whole_way_takes_one_arm_even_if_each_is_written(tmp_path: Path) -> None:
    """Four leads by name, the rear-left one twice as long: pack lead and that lead in a row.

    15 A in 16 AWG, 0.24 m out and back, hot: 0.04743·1.2358 V; twice for the long one.
    """
    leads = "".join(
        f"  - {{from: distribution, to: {station} esc, wire: 16 AWG, length: {length} mm}}\n"
        for station, length in (
            ("front-left", 120),
            ("front-right", 120),
            ("rear-right", 120),
            ("rear-left", 240),
        )
    )
    each = "  - {from: distribution, to: each esc, wire: 16 AWG, length: 120 mm}\n"
    files = benched()
    assert each in files["aircraft/sedge/aircraft.yaml"]
    files["aircraft/sedge/aircraft.yaml"] = files["aircraft/sedge/aircraft.yaml"].replace(
        each, leads
    )
    answers = quad(tmp_path, files)
    long_lead = found(answers, "wire_drop", "distribution to rear-left esc, full throttle")

    assert pytest.approx(2 * 0.04743 * 1.2358, rel=1e-3) == long_lead.value
    assert pytest.approx(0.11591 + 2 * 0.04743 * 1.2358, rel=1e-3) == (
        found(answers, "wire_drop", "all runs, full throttle").value
    )
    assert pytest.approx(15.0, rel=1e-3) == (
        found(answers, "wire_load", "distribution to front-left esc, full throttle").value
    )


def test_a_run_that_feeds_no_motor_cannot_be_said(tmp_path: Path) -> None:
    """What a camera takes is not known."""
    files = benched()
    camera = "  - {from: distribution, to: camera, wire: 22 AWG, length: 200 mm}\npositions:"
    files["aircraft/sedge/aircraft.yaml"] = files["aircraft/sedge/aircraft.yaml"].replace(
        "positions:", camera
    )

    assert (
        "what flows from distribution to camera is not known: no ESC or motor is behind it",
        "aircraft/sedge/aircraft.yaml:14",
    ) == refused(quad(tmp_path / "a", files), "wire_load", "distribution to camera, hover")
    whole = found(quad(tmp_path / "b", files), "wire_drop", "all runs, full throttle")
    assert (
        whole.value
        == found(quad(tmp_path / "c", benched()), "wire_drop", "all runs, full throttle").value
    )


def test_one_run_in_an_alteration_replaces_all_and_that_is_said(tmp_path: Path) -> None:
    """Named keys replace (file contract): only the pack lead is left, and nothing behind it."""
    log = (
        "- on: 2026-03-01\n  alteration: thicker pack lead\n  wiring:\n"
        "    - {from: pack, to: distribution, wire: 10 AWG, length: 150 mm}\n"
    )
    answers = quad(tmp_path, benched(log))

    assert (
        "what flows from pack to distribution is not known: no ESC or motor is behind it; "
        "an alteration replaced the whole wiring: name every run there",
        "aircraft/sedge/logbook.yaml:11",
    ) == refused(answers, "wire_drop", "pack to distribution, hover")
    assert (
        "no run leads to an ESC or motor: write the 'wiring' as far as there; "
        "an alteration replaced the whole wiring: name every run there"
    ) == refused(answers, "wire_drop", "all runs, hover")[0]


def test_discharge_rate_is_of_the_rated_capacity(tmp_path: Path) -> None:
    """A worn pack: the rating holds for the capacity on the label, as the margin does."""
    log = "- {on: 2026-03-01, capacity: P-1, measured: 1760 mAh}\n"
    answers = quad(tmp_path, benched(log))
    rate = found(answers, "discharge_rate", "P-1, full throttle")

    assert pytest.approx(60 / 2.2, rel=1e-3) == rate.value
    assert "91 % of its rating of 30C" == rate.verdict
    assert pytest.approx(1 - 60 / 66, abs=1e-3) == found(answers, "battery_margin", "P-1").value


def test_a_nominal_voltage_of_the_spec_is_that_of_a_cell(tmp_path: Path) -> None:
    """3.8 V a cell, three in a row."""
    files = benched()
    files["parts/specs.yaml"] = files["parts/specs.yaml"].replace(
        "  cell_resistance: 5 mΩ", "  cell_resistance: 5 mΩ\n  nominal_cell_voltage: 3.8 V"
    )
    inputs = {one.name: one for one in found(quad(tmp_path, files), "thrust_to_weight").inputs}

    assert pytest.approx(11.4) == inputs["nominal voltage of P-1"].value


def test_unbalanced_spins_turn_the_aircraft(tmp_path: Path) -> None:
    """Three of four turn one way: two rotors' worth of torque, each with a quarter of 1.2 kg.

    Source: torque over thrust is the yaw row of the allocation matrix (check values, section 8).
    """
    files = benched()
    files["aircraft/sedge/aircraft.yaml"] = files["aircraft/sedge/aircraft.yaml"].replace(
        "rear-left:   {spin: cw,", "rear-left:   {spin: ccw,"
    )
    answers = quad(tmp_path, files)
    matrix = found(answers, "allocation", "matrix").table
    assert matrix is not None
    arm = abs(float(matrix.rows[3][1] or 0.0))

    assert 0.0 < arm
    assert pytest.approx(2 * arm * 1.2 * 9.80665 / 4) == abs(
        found(answers, "rotation_balance").other["yaw moment at equal thrust, N·m"]
    )
