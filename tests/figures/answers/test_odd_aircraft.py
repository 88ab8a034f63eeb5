"""Ten odd but honest aircraft: what can be worked out is right, the rest is said to be lacking.

Expected values are worked out by hand beside each, from definitions and the lift equation.
"""

import math
from collections.abc import Mapping
from pathlib import Path

import pytest
from odd_hangars import (
    COAXIAL,
    GLIDER,
    HEAVY,
    HYDROPLANE,
    INDOOR,
    NO_PLANE,
    NOTHING,
    TAIL_DRAGGER,
    TANDEM,
    TRICOPTER,
)
from small_hangars import found, opened, refused

from buildbook.figures.answers.registry import figures_of_aircraft
from buildbook.report.figure import Answers, CannotSay

G = 9.80665
OZ = 0.028349523125


def odd(folder: Path, files: Mapping[str, str]) -> Answers:
    """The figures of the odd aircraft; no value of any is infinite or no number."""
    answers = figures_of_aircraft(opened(folder, files), "odd")
    for figure in answers.figures:
        rows = figure.table.rows if figure.table else ()
        numbers = (figure.value, figure.low, figure.high, *figure.other.values(), *sum(rows, ()))
        assert [one for one in numbers if isinstance(one, float) and not math.isfinite(one)] == []
    return answers


def test_a_glider_without_motor_that_nobody_weighed(tmp_path: Path) -> None:
    """No mass, so nothing that rests on it; the parts that have one are told as a part."""
    answers = odd(tmp_path, GLIDER)
    lacks = "mass of W-1 is not recorded: write 'mass' in its spec w or in the item"

    for name in ("all_up_mass", "wing_loading", "stall_speed", "mass_class"):
        assert lacks == refused(answers, name)[0]
    assert lacks == refused(answers, "servo_torque", "rudder")[0]
    assert "each share is of what has a mass" in found(answers, "mass_budget").notes
    assert "no motor station is known: write 'stations'" in refused(answers, "climb_rate")[0]


def test_a_tail_dragger_without_wing_area_and_propeller_data(tmp_path: Path) -> None:
    """Its mass is known, and neither loading, stall nor thrust."""
    answers = odd(tmp_path, TAIL_DRAGGER)

    assert "280 g below the limit" == found(answers, "all_up_mass", "P-1").verdict
    area = "the wing area is not recorded: write 'area' under 'wing' in aircraft.yaml"
    for name in ("wing_loading", "stall_speed", "banked_stall_speed"):
        assert area == refused(answers, name)[0]
    assert "resistance of m is not recorded" in refused(answers, "thrust_to_weight")[0]
    assert "the place of fuselage is not recorded" in refused(answers, "balance")[0]


def test_a_tricopter_whose_servo_holds_yaw(tmp_path: Path) -> None:
    """700 g on three disks of 254 mm; spins that do not cancel are no fault of it."""
    answers = odd(tmp_path, TRICOPTER)
    rotation = found(answers, "rotation_balance")

    disk = math.pi * 0.254**2 / 4
    assert pytest.approx(0.640 * G / 3 / disk) == found(answers, "disk_loading").value
    assert (3, "a tail servo holds yaw", None) == (rotation.value, rotation.verdict, rotation.fault)
    assert "are not worked out" in refused(answers, "allocation", "hover shares")[0]


def test_two_wings_one_behind_the_other(tmp_path: Path) -> None:
    """50000 - 55000 + 42000 + 9000 g·mm over 1305 g: 35.25 mm ahead, 147.1 % of 180 mm."""
    answers = odd(tmp_path, TANDEM)
    balance = found(answers, "balance", "mean chord")

    assert pytest.approx(0.03525, rel=1e-3) == found(answers, "balance", "forward").value
    assert pytest.approx((300 - 35.249) / 180, rel=1e-4) == balance.value
    assert "behind the aft limit" == balance.verdict
    shift = found(answers, "battery_shift").verdict or ""
    assert shift.endswith("ahead of the nose: the pack alone does not do it")


def test_three_blades_one_above_the_other(tmp_path: Path) -> None:
    """Of a pair each gives 1.281^(-2/3) of the thrust apart; 2500 - 1980 g are left to carry."""
    pair = found(odd(tmp_path / "pair", COAXIAL), "thrust_to_weight")
    interference = next(one.value for one in pair.inputs if one.name == "interference of a pair")
    payload = found(odd(tmp_path / "load", COAXIAL), "payload", "P-1")

    assert 1.281 == interference
    assert pytest.approx(6 * apart_n(14.8) * 1.281 ** (-2 / 3) / (1.98 * G), rel=1e-4) == pair.value
    assert pytest.approx(0.52) == payload.value


def apart_n(volts: float) -> float:
    """Thrust of its 10x5 at full throttle: 700 rpm/V, 0.12 Ω, 0.6 A; shaft and propeller meet."""
    return 0.17 * 1.225 * full_rev_s(volts, 700 / 60, 0.12, 0.6, 0.09, 0.254) ** 2 * 0.254**4


def full_rev_s(
    volts: float, kv: float, ohm: float, idle_a: float, power: float, span_m: float
) -> float:
    """Where (I - I_0)·n/K_V, with I = (U - n/K_V)/R, is C_P·ρ·n³·D⁵, by halving."""
    low, high = 0.0, volts * kv
    for _ in range(100):
        turns = (low + high) / 2
        back = turns / kv
        spare = ((volts - back) / ohm - idle_a) * back - power * 1.225 * turns**3 * span_m**5
        low, high = (turns, high) if spare > 0 else (low, turns)
    return low


def test_twelve_kilograms_and_eleven_kilowatts(tmp_path: Path) -> None:
    """12 cells of 3.7 V on 190 rpm/V turn a 24x12; far past 5000 W, and said so."""
    answers = odd(tmp_path, HEAVY)
    turns = full_rev_s(44.4, 190 / 60, 0.02, 2.0, 0.05, 24 * 0.0254)
    watts = 44.4 * (44.4 - turns * 60 / 190) / 0.02
    margin, stall = found(answers, "motor_margin"), found(answers, "stall_speed")

    assert 10_000 < watts
    assert pytest.approx(1 - watts / 5000, rel=1e-3) == margin.value
    assert "past its rating" in (margin.verdict or "")
    ends = [math.sqrt(2 * 12.4 * G / (1.225 * 1.1 * lift)) for lift in (1.4, 1.1, 0.8)]
    assert pytest.approx(ends) == [stall.low, stall.value, stall.high]
    # 28 % of 430 mm are wanted, 120.4 mm; it balances at 190: 69.6 mm · 12.4/1.5.
    assert pytest.approx(0.0696 * 12.4 / 1.5) == found(answers, "battery_shift").value


def test_thirty_grams(tmp_path: Path) -> None:
    """On 6 dm²: 5 g/dm², and √(2·0.03·9.80665/(1.225·0.06·1.1)) = 2.70 m/s."""
    answers = odd(tmp_path, INDOOR)

    assert pytest.approx(5.0) == found(answers, "wing_loading").other["g/dm²"]
    assert pytest.approx(2.698, rel=1e-3) == found(answers, "stall_speed").value


def test_floats_in_ounces_inches_and_miles_an_hour(tmp_path: Path) -> None:
    """69 oz on 580 in²; -164 + 60 + 12 - 30 + 72 = -50 oz·in: 0.7246 in aft, 7.2 % of 10 in.

    Elevator at 60 mph: ρV²/2 · 2² in² · 20 in · 0.0151 · 14.4775° (asin of a quarter).
    """
    answers = odd(tmp_path, HYDROPLANE)

    assert pytest.approx(69 * OZ) == found(answers, "all_up_mass", "P-1").value
    loading = 69 * OZ * G / (580 * 0.0254**2)
    assert pytest.approx(loading) == found(answers, "wing_loading").value
    assert pytest.approx(50 / 69 / 10) == found(answers, "balance", "mean chord").value
    air = 1.225 * (60 * 0.44704) ** 2 / 2
    needed = air * 4 * 20 * 0.0254**3 * 0.0151 * 14.4775
    torque = found(answers, "servo_torque", "elevator")
    assert pytest.approx(needed, rel=1e-4) == torque.value
    rated = 50 * OZ * G * 0.0254
    assert (torque.verdict or "").startswith(f"up to {100 * needed / rated:.0f} % of the ")


@pytest.mark.parametrize("files", [NOTHING, NO_PLANE], ids=["multirotor", "aeroplane"])
def test_an_aircraft_of_which_nothing_is_known(tmp_path: Path, files: Mapping[str, str]) -> None:
    """The air, no hours and no flights; all else says what to write."""
    answers = odd(tmp_path, files)

    assert {"air_density", "density_altitude", "aircraft_hours", "aircraft_flights"} == {
        one.name for one in answers.figures
    }
    assert [] == [one for one in answers.cannot_say if not _tells(one)]


def _tells(said: CannotSay) -> bool:
    """Whether it says what is lacking in words of a keeper."""
    words = (" write ", "is known", "it takes", "nothing was flown", "see motor_endurance")
    return any(one in f" {said.because} " for one in words)
