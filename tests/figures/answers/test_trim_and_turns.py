"""Balance brought where it is wanted, payload, turns, climb and pitch speed; by hand or published.

The aeroplane is the own example of the check values, section 2: 886 g, balance 78.07 mm aft,
battery 210 g at 35 mm, nose 60 mm ahead. For 70.0 mm the battery moves to 0.95 mm, or 55.0 g go to
the nose.
"""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_hangars import BENCH, SMALL, SPECS, benched, found, opened, quad, refused
from test_ends_of_pack import COLD_OHM, FROZEN_OHM, LEADS, held
from test_motor_time import FITTED, GLIDER, flights
from test_propeller_tables import table
from test_time_in_the_cold import seconds
from test_weighed import FLOWN, plane

from buildbook.basis import amounts
from buildbook.figures.answers.flight.climb import climb_m_s
from buildbook.figures.answers.registry import figures_of_aircraft
from buildbook.report.figure import Answers
from buildbook.words.measures.figure_values import value_words

# The middle of these is 13.636 % of the chord of 220 mm behind 40 mm: 70.0 mm.
AT_70 = "bounds: {forward_cg: 13 %, aft_cg: 14.27273 %}"
STILL = """\
throttle_%,voltage_V,current_A,thrust_g,rpm
50,11.1,8.0,500,6364
75,11.1,16.0,750,7794
100,11.1,26.0,1000,9000
"""
LIMITS = "bounds: {forward_cg: 15 %, aft_cg: 25 %}"


def model(folder: Path, bounds: str = AT_70) -> Answers:
    """The published model with limits of its balance."""
    files = plane(FLOWN)
    craft = files["aircraft/teal/aircraft.yaml"]
    assert LIMITS in craft
    files["aircraft/teal/aircraft.yaml"] = craft.replace(LIMITS, bounds)
    return figures_of_aircraft(opened(folder, files), "teal")


def test_move_the_battery(tmp_path: Path) -> None:
    """From 35 mm to 0.95 mm aft of the reference point (check values, section 2)."""
    figure = found(model(tmp_path), "battery_shift")

    assert pytest.approx(0.03405, abs=1e-5) == figure.value
    assert "move P-1 forward" == figure.verdict
    assert "to 13.6 % of the mean chord, the middle of the limits" in figure.notes
    assert "place of P-1 from the reference point" == figure.inputs[-1].name
    assert pytest.approx(0.035) == figure.inputs[-1].value


def test_a_battery_that_would_have_to_fly_ahead_of_the_nose(tmp_path: Path) -> None:
    """To 41.1 mm: 36.97 mm · 886/210 = 156 mm from 35 mm aft to 121 mm ahead; the nose is at 60."""
    answers = model(tmp_path, "bounds: {forward_cg: 0 %, aft_cg: 1 %}")
    figure = found(answers, "battery_shift")

    assert pytest.approx((78.07 - 41.1) * 886 / 210 / 1000, rel=1e-3) == figure.value
    assert (
        "move P-1 forward, which is ahead of the nose: the pack alone does not do it"
        == figure.verdict
    )


def test_ballast_at_the_nose(tmp_path: Path) -> None:
    """55.0 g at -60 mm (check values, section 2)."""
    figure = found(model(tmp_path), "ballast")

    assert pytest.approx(0.0550, abs=1e-5) == figure.value
    assert "at the nose" == figure.verdict


def test_a_balance_within_its_limits_says_so(tmp_path: Path) -> None:
    """17.30 % lies between 15 and 25 %; the middle would be 84 mm: 25.0 mm aft."""
    answers = model(tmp_path, LIMITS)
    shift, ballast = found(answers, "battery_shift"), found(answers, "ballast")

    assert (None, None) == (shift.value, ballast.value)
    assert (
        "within its limits: nothing to move; P-1 25 mm aft would bring it to the middle"
    ) == shift.verdict
    assert "within its limits: none is needed" == ballast.verdict
    to_middle = (0.084 - 0.0780700) * 886 / 210
    assert pytest.approx(to_middle, rel=1e-3) == shift.other["to the middle, m"]


@pytest.mark.parametrize("bounds", ["", "bounds: {forward_cg: 13 %}", "bounds: {max_mass: 2 kg}"])
def test_without_limits_nobody_asks_where_the_balance_should_be(
    tmp_path: Path, bounds: str
) -> None:
    """Neither told nor said to be lacking: not of an aeroplane, nor of a multirotor."""
    for answers in (model(tmp_path / "model", bounds), quad(tmp_path / "quad")):
        named = {one.name for one in (*answers.figures, *answers.cannot_say)}
        assert named.isdisjoint({"battery_shift", "ballast"})


def test_limits_that_are_shares_of_a_chord_want_that_chord(tmp_path: Path) -> None:
    """Then it is said what lacks."""
    files = plane(FLOWN)
    craft = files["aircraft/teal/aircraft.yaml"]
    assert "mean_chord: 220 mm, " in craft
    files["aircraft/teal/aircraft.yaml"] = craft.replace("mean_chord: 220 mm, ", "")
    answers = figures_of_aircraft(opened(tmp_path, files), "teal")

    assert (
        "the mean chord and leading edge are not recorded: write 'mean_chord' and 'leading_edge' "
        "under 'wing' in aircraft.yaml"
    ) == refused(answers, "battery_shift")[0]


ABOUT = "bounds: {max_mass: 1300 g, forward_cg: 5 mm, aft_cg: -5 mm}"


def test_a_multirotor_is_wanted_in_the_middle_of_its_limits(tmp_path: Path) -> None:
    """350 g 24 mm ahead in 1200 g: 7 mm off, so 24 mm back."""
    files = dict(SMALL)
    craft = files["aircraft/sedge/aircraft.yaml"].replace("bounds: {max_mass: 1300 g}", ABOUT)
    files["aircraft/sedge/aircraft.yaml"] = craft
    even = found(quad(tmp_path / "b", files), "battery_shift")
    files["aircraft/sedge/aircraft.yaml"] = craft.replace("[0 mm, 0 mm, 30", "[24 mm, 0 mm, 30")
    figure = found(quad(tmp_path, files), "battery_shift")

    assert pytest.approx(0.024) == figure.value
    assert "move P-1 aft" == figure.verdict
    assert "within its limits: nothing to move" == even.verdict


def test_payload_at_the_wanted_thrust_to_weight(tmp_path: Path) -> None:
    """4 · 8.4 N over 2 · 9.80665 less 1.2 kg: 513.1 g by default; at 2.5, which is set, 170.5 g.

    Less is left at the reserve, so that comes first. The keeper's 1300 g leave 100 g; the cells
    are above nominal for most of the time.
    Hover with those 100 g: 24.42 Wh · 0.8 at the power of the bench for 1.3 kg, 3.1872 N a motor,
    on the line from 22.2 W at 2.4 N to 55.5 W at 4.6 N.
    """
    files = benched()
    craft = files["aircraft/sedge/aircraft.yaml"]
    free = {
        **files,
        "aircraft/sedge/aircraft.yaml": craft.replace("bounds: {max_mass: 1300 g}\n", ""),
    }
    usual = found(quad(tmp_path / "usual", free), "payload", "P-1")
    limited = found(quad(tmp_path / "limited", files), "payload", "P-1")
    files["aircraft/sedge/aircraft.yaml"] = craft.replace(
        "max_mass: 1300 g", "max_mass: 1300 g, thrust_to_weight: 2.5"
    )
    wanted = found(quad(tmp_path / "set", files), "payload", "P-1")

    assert pytest.approx(AT_RESERVE_KG, rel=1e-3) == usual.value
    by_thrust = usual.other["by the thrust to weight, kg"]
    assert pytest.approx(33.6 / (2 * 9.80665) - 1.2, rel=1e-4) == by_thrust
    assert "voltage at the motors at the reserve" in {one.name for one in usual.inputs}
    assert pytest.approx(0.1) == limited.value
    assert {"all-up mass with P-1", "maximum mass"} == {one.name for one in limited.inputs}
    pull = 1.3 * 9.80665 / 4
    watts = 4 * (22.2 + 33.3 * (pull - 2.4) / 2.2)
    assert (
        pytest.approx(24.42 * 0.8 / watts * 3600, rel=0.06)
        == limited.other["hover at your own limit, s"]
    )
    assert pytest.approx((AT_RESERVE_KG + 1.2) * 2 / 2.5 - 1.2, rel=1e-3) == wanted.value
    assert (
        f"at the reserve, to a thrust to weight of 2.5, {AT_RESERVE_V:.2f} V left; "
        "at 0 °C nothing; 170 g at 11.10 V; 100 g to your own mass limit; nothing to spare"
    ) == wanted.verdict
    assert "at 11.10 V, the nominal voltage of P-1" not in usual.notes


# At the reserve 11.19 V at rest leave what the pack takes at its plug, and less at the motors by
# what the leads take; thrust goes with the voltage there to the power 1.65 (Cao and Strawson 2018,
# as the laws of the bench).
AT_MOTORS_V, RESERVE_A = held(11.19, COLD_OHM + LEADS)
AT_RESERVE_V = 11.19 - COLD_OHM * RESERVE_A
AT_RESERVE_KG = 33.6 * (AT_MOTORS_V / 11.1) ** 1.65 / (2 * 9.80665) - 1.2
FROZEN_V, _ = held(11.19, FROZEN_OHM + LEADS)
FROZEN_KG = 33.6 * (FROZEN_V / 11.1) ** 1.65 / (2 * 9.80665) - 1.2


def test_payload_as_flown_where_the_log_tells_the_draw(tmp_path: Path) -> None:
    """1000 mAh in 5 minutes are 12 A: 80 % of 2200 mAh last 528 s; at 1300 of 1200 g 468.3 s.

    528 s · (1.2/1.3)^1.5 = 468.26 s. Without a limit of mass what the reserve
    allows goes along. It is planned with the low end, for a pack at the field's
    15 °C: 2.5 % less capacity, and exp(4209.5 · 0.00005919) = 1.283 times the resistance.
    """
    log = "".join(
        f"- {{on: 2026-03-{day:02d}, flight: 300 s, pack: P-1, used: 1000 mAh}}\n"
        for day in range(1, 13)
    )
    files = benched(log)
    limited = found(quad(tmp_path / "limited", files), "payload", "P-1")
    craft = files["aircraft/sedge/aircraft.yaml"]
    files["aircraft/sedge/aircraft.yaml"] = craft.replace("bounds: {max_mass: 1300 g}\n", "")
    free = found(quad(tmp_path / "free", files), "payload", "P-1")
    low = 528.0 * seconds(0.015 * 1.283, 133.2, 0.975) / seconds(0.015, 133.2, 1.0)

    assert (
        "to your own mass limit; 513 g to a thrust to weight of 2; "
        f"{1000 * AT_RESERVE_KG:.0f} g at the reserve, {AT_RESERVE_V:.2f} V left; "
        f"at 0 °C {1000 * FROZEN_KG:.0f} g; "
        f"plan with {amounts.duration(low * 468.26 / 528)} with it, {amounts.duration(low)} "
        "without, as flown"
    ) == limited.verdict
    assert {
        "by the thrust to weight, kg": 0.51312,
        "at the reserve, kg": AT_RESERVE_KG,
        "at the reserve at 0 °C, kg": FROZEN_KG,
        "held at the reserve, V": AT_RESERVE_V,
        "at the motors then, V": AT_MOTORS_V,
        "hover without it, s": 528.0,
        "plan without it, s": low,
        "hover at your own limit, s": 468.26,
        "plan with it, s": low * 468.26 / 528,
    } == pytest.approx(limited.other, rel=2e-4)
    assert (
        f"at the reserve, to a thrust to weight of 2, {AT_RESERVE_V:.2f} V left; "
        f"at 0 °C {1000 * FROZEN_KG:.0f} g; 513 g at 11.10 V; "
        f"plan with {amounts.duration(low * (1.2 / (1.2 + AT_RESERVE_KG)) ** 1.5)} "
        f"with it, {amounts.duration(low)} without, as flown"
    ) == free.verdict


def test_nothing_to_spare(tmp_path: Path) -> None:
    """Thrust to weight is 2.855; 3 is wanted: 57.8 g too heavy."""
    files = benched()
    craft = files["aircraft/sedge/aircraft.yaml"]
    files["aircraft/sedge/aircraft.yaml"] = craft.replace(
        "max_mass: 1300 g", "max_mass: 1300 g, thrust_to_weight: 3"
    )
    figure = found(quad(tmp_path, files), "payload", "P-1")

    assert pytest.approx(33.6 / (3 * 9.80665) - 1.2, rel=1e-3) == figure.value
    assert "to a thrust to weight of 3; nothing to spare" == figure.verdict


def test_stall_in_a_turn(tmp_path: Path) -> None:
    """886 g on 0.30 m², C_Lmax 1.2: √(2·0.886·9.80665/(1.225·0.30·1.2)) = 6.2773 m/s; 60°: √2.

    Source: lift equation; load factor 1/cos φ, FAA Airplane Flying Handbook (from memory).
    """
    figure = found(model(tmp_path), "banked_stall_speed")
    level = (2 * 0.886 * 9.80665 / (1.225 * 0.30 * 1.2)) ** 0.5

    assert pytest.approx(level * 1.41421, rel=1e-4) == figure.value
    assert figure.table is not None
    shares = {row[0]: float(row[1] or 0.0) / level for row in figure.table.rows}
    assert (
        pytest.approx(
            {"0°": 1, "15°": 1.01749, "30°": 1.0746, "45°": 1.1892, "60°": 1.4142, "75°": 1.9656},
            rel=1e-4,
        )
        == shares
    )


def test_stall_without_a_lift_coefficient_lies_in_a_range(tmp_path: Path) -> None:
    """Of 1.1, at 1.4 and 0.8: √(2·0.886·9.80665/(1.225·0.30·C_L)); common practice, no source."""
    files = plane(FLOWN)
    craft = files["aircraft/teal/aircraft.yaml"]
    files["aircraft/teal/aircraft.yaml"] = craft.replace(", max_lift_coefficient: 1.2", "")
    answers = figures_of_aircraft(opened(tmp_path, files), "teal")
    level, turn = found(answers, "stall_speed"), found(answers, "banked_stall_speed")

    assert "default" == level.basis
    expected = [(2 * 0.886 * 9.80665 / (1.225 * 0.30 * lift)) ** 0.5 for lift in (1.4, 1.1, 0.8)]
    assert pytest.approx(expected) == [level.low, level.value, level.high]
    assert pytest.approx([2**0.5 * one for one in expected]) == [turn.low, turn.value, turn.high]


def test_climb_of_a_glider_by_its_log(tmp_path: Path) -> None:
    """24 A at 10.767 V are 258.41 W; 0.78 · 0.95 · 0.55 of it is useful, level flight takes 1/10.

    Half full a rested LiPo cell has 3.82 V (common practice, no source): 11.46 V less 24 A of
    28.867 mΩ, three cells of 0.015 Ω·Ah over 2 Ah (likewise) at 15 °C: 1.28296 times what they
    have at 20 °C (test_ends_of_pack).

    Level flight: the weight at 1.4 times the stall speed over a glide ratio of 10.
    """
    craft = GLIDER["aircraft/kite/aircraft.yaml"] + (
        "wing: {area: 0.40 m², max_lift_coefficient: 1.15}\n"
    )
    log = FITTED + flights(12)
    files = {
        **GLIDER,
        "aircraft/kite/aircraft.yaml": craft,
        "aircraft/kite/logbook.yaml": log,
        "hangar.yaml": GLIDER["hangar.yaml"] + "field_elevation: 0 m\nfield_temperature: 15 °C\n",
    }
    answers = figures_of_aircraft(opened(tmp_path, files), "kite")
    figure = found(answers, "climb_rate")
    mass = found(answers, "all_up_mass").value
    assert mass is not None
    weight = mass * 9.80665
    stall = (2 * weight / (1.225 * 0.40 * 1.15)) ** 0.5

    useful = 258.41 * 0.78 * 0.95 * 0.55
    assert pytest.approx(useful / weight - 1.4 * stall / 10, rel=1e-3) == figure.value
    least = 258.41 * 0.70 * 0.92 * 0.40 / weight - 1.7 * stall / 6
    # 11.60 m/s by the power at 1.7 times the stall speed, which are 11.22 m/s: straight up.
    assert 11.5 < 258.41 * 0.86 * 0.97 * 0.70 / weight - 1.7 * stall / 16 < 11.6
    assert pytest.approx((least, 1.7 * stall), rel=1e-3) == (figure.low, figure.high)
    note = "the thrust standing still is not known: held to the speed of flight alone"
    assert note in figure.notes
    assert figure.formula.endswith("; w at most v")


def with_bench(table_of_motor: str) -> dict[str, str]:
    """The glider with a wing, and a bench table of its motor."""
    return {
        **GLIDER,
        "parts/specs.yaml": GLIDER["parts/specs.yaml"].replace(
            "kv: 900 rpm/V", "kv: 900 rpm/V, bench: m.csv"
        ),
        "bench/m.csv": table_of_motor,
        "aircraft/kite/aircraft.yaml": GLIDER["aircraft/kite/aircraft.yaml"]
        + "wing: {area: 0.40 m², max_lift_coefficient: 1.15}\n",
        "aircraft/kite/logbook.yaml": FITTED + flights(12),
        "hangar.yaml": GLIDER["hangar.yaml"] + "field_elevation: 0 m\nfield_temperature: 15 °C\n",
    }


def test_a_climb_takes_no_more_thrust_than_there_is(tmp_path: Path) -> None:
    """1000 g at 11.1 V and 9000 rpm; 150 · 0.1524 m are 22.86 m/s.

    Half full 11.46 V at rest hold 10.745 V, at 24.76 A: thrust goes with the voltage to the power
    1.65 (Cao and Strawson 2018) and with the square of the speed, so 9.2948 N and 22.255 m/s.
    12.278 N of weight stall at 6.6013 m/s; at 9.2418 m/s 9.2948 · (1 - 9.2418/22.255) = 5.4350 N
    are left, of which drag takes 1.2278 N: 9.2418 · 4.2072/12.278 = 3.167 m/s. The power alone
    would be 7.65 m/s. Worst at 11.2222 m/s: 4.6079 N, drag 2.0463 N, 2.341 m/s; by hand.
    """
    volts = 11.1
    for _ in range(50):
        volts = 11.46 - 0.028867 * 26 * (volts / 11.1) ** 1.5
    assert pytest.approx(10.745, abs=1e-3) == volts
    answers = figures_of_aircraft(opened(tmp_path, with_bench(STILL)), "kite")
    figure = found(answers, "climb_rate")

    assert pytest.approx(22.86, rel=1e-4) == found(answers, "pitch_speed").value
    assert pytest.approx(3.167, rel=1e-3) == figure.value
    assert pytest.approx(2.341, rel=1e-3) == figure.low
    assert figure.high is not None
    assert 3.167 < figure.high < 9.2425
    assert (
        "held back by the thrust, taken to fall by a straight line to nothing at the pitch speed: "
        "common practice, no source"
    ) in figure.notes
    assert "at most P = F_max·" in figure.formula


def test_a_bench_without_speeds_holds_the_climb_to_the_thrust_standing_still(
    tmp_path: Path,
) -> None:
    """9.2418 · (9.2948 - 1.2278)/12.278 m/s; by hand as above, without the straight line."""
    table_of_motor = "".join(f"{row.rpartition(',')[0]}\n" for row in STILL.splitlines())
    answers = figures_of_aircraft(opened(tmp_path, with_bench(table_of_motor)), "kite")
    figure = found(answers, "climb_rate")

    assert pytest.approx(6.072, rel=1e-3) == figure.value
    assert "held back by the thrust" in figure.notes
    assert "P at most the thrust standing still times v; w at most v" in figure.formula


@given(
    power_w=st.floats(1, 5000),
    mass_kg=st.floats(0.05, 20),
    stall_m_s=st.floats(0.5, 40),
    glide=st.floats(1, 40),
    over=st.floats(1.2, 1.7),
    propeller=st.floats(0.4, 0.7),
    thrust_n=st.none() | st.floats(0.01, 500),
    pitch_m_s=st.none() | st.floats(0.1, 100),
)
def test_nothing_climbs_faster_than_it_flies(**values: float) -> None:
    """Nor by more thrust than it has standing still: sine of the climb at most F/W; geometry."""
    found_m_s = climb_m_s(lambda _shaft, _speed, usual: usual, motor=0.8, esc=0.95, **values)
    speed = values["over"] * values["stall_m_s"]

    assert found_m_s <= speed
    if values["thrust_n"] is not None:
        assert found_m_s <= speed * values["thrust_n"] / (values["mass_kg"] * 9.80665) * (1 + 1e-9)


def test_climb_by_the_constants_of_the_motor(tmp_path: Path) -> None:
    """24 A at 10.767 V, 50 mΩ and 1.5 A without load: 9.567 V · 22.5 A of 258.41 W are 83.3 %.

    Source: the equivalent circuit, η = (U - I·R)(I - I_0)/(U·I).
    """
    files = {
        **GLIDER,
        "parts/specs.yaml": GLIDER["parts/specs.yaml"].replace(
            "kv: 900 rpm/V", "kv: 900 rpm/V, resistance: 50 mΩ, no_load_current: 1.5 A"
        ),
        "aircraft/kite/aircraft.yaml": GLIDER["aircraft/kite/aircraft.yaml"]
        + "wing: {area: 0.40 m², max_lift_coefficient: 1.15}\n",
        "aircraft/kite/logbook.yaml": FITTED + flights(12),
        "hangar.yaml": GLIDER["hangar.yaml"] + "field_elevation: 0 m\nfield_temperature: 15 °C\n",
    }
    figure = found(figures_of_aircraft(opened(tmp_path, files), "kite"), "climb_rate")
    given = {one.name: one for one in figure.inputs}
    weight = 1.252 * 9.80665
    stall = (2 * weight / (1.225 * 0.40 * 1.15)) ** 0.5

    assert pytest.approx(9.567 * 22.5 / 258.41, rel=1e-3) == given["efficiency of m"].value
    assert "spec" == given["efficiency of m"].basis
    useful = 9.567 * 22.5 * 0.95 * 0.55
    assert pytest.approx(useful / weight - 1.4 * stall / 10, rel=1e-3) == figure.value
    least = 9.567 * 22.5 * 0.92 * 0.40 / weight - 1.7 * stall / 6
    assert pytest.approx(least, rel=1e-3) == figure.low


def test_climb_with_a_measured_propeller(tmp_path: Path) -> None:
    """82.517 W at 5 m/s: 0.3820 of it is useful (10x4.7, check values, section 4).

    9.967 A at 11.172 V, 0.78 and 0.95 of it; the wing is so large that 5 m/s are 1.4 times its
    stall speed.
    """
    mass = 1.252
    shaft_w, stall = 82.517 / (0.78 * 0.95), 5 / 1.4
    amps = (11.46 - (11.46**2 - 4 * 0.028867 * shaft_w) ** 0.5) / (2 * 0.028867)
    area = 2 * mass * 9.80665 / (1.225 * stall**2 * 1.15)
    files = {
        **GLIDER,
        "parts/specs.yaml": GLIDER["parts/specs.yaml"].replace(
            "size: 11x6}", "size: 10x4.7, table: uiuc.csv}"
        ),
        "bench/uiuc.csv": table("prop_10x4.7_forward_6512rpm.csv", "J,CT,CP,eta"),
        "aircraft/kite/aircraft.yaml": GLIDER["aircraft/kite/aircraft.yaml"]
        + f"wing: {{area: {area:.5f} m², max_lift_coefficient: 1.15}}\n",
        "aircraft/kite/logbook.yaml": FITTED
        + flights(12).replace("1000 mAh", f"{amps * 150 / 3.6:.0f} mAh"),
        "hangar.yaml": GLIDER["hangar.yaml"] + "field_elevation: 0 m\nfield_temperature: 15 °C\n",
    }
    answers = figures_of_aircraft(opened(tmp_path, files), "kite")
    figure = found(answers, "climb_rate")

    assert pytest.approx(mass) == found(answers, "all_up_mass").value
    expected = 82.517 * 0.3820 / (mass * 9.80665) - 5 / 10
    assert pytest.approx(expected, rel=3e-3) == figure.value
    assert "efficiency of the propeller in flight" not in figure.notes[0]
    assert "coefficients of r" in [one.name for one in figure.inputs]


def test_pitch_speed_off_the_bench(tmp_path: Path) -> None:
    """6600 rpm and 4.7 in: 110 · 0.11938 = 13.132 m/s."""
    files = plane(
        "- {on: 2026-02-01, fit: {nose: {motor: M-1, esc: E-1, propeller: R-1}}}\n" + FLOWN
    )
    files["parts/specs.yaml"] += "".join(
        line + "\n"
        for line in SPECS.replace("max_current: 18 A}", "max_current: 18 A, bench: m.csv}").split(
            "\n"
        )
        if any(word in line for word in ("kind: motor", "kind: esc", "spec: prop-cw"))
    )
    files["parts/items.yaml"] += (
        "- {tag: M-1, spec: motor, acquired: 2026-01-01}\n"
        "- {tag: E-1, spec: esc, acquired: 2026-01-01}\n"
        "- {tag: R-1, spec: prop-cw, acquired: 2026-01-01}\n"
    )
    files["bench/m.csv"] = BENCH
    answers = figures_of_aircraft(opened(tmp_path, files), "teal")

    assert pytest.approx(110 * 4.7 * 0.0254, rel=1e-4) == found(answers, "pitch_speed").value


def test_disk_loading_as_builders_say_it(tmp_path: Path) -> None:
    """58.061 Pa (check values, section 3) are 5.92 kg/m²."""
    figure = found(quad(tmp_path), "disk_loading")

    assert "5.92 kg/m²" == figure.verdict
    assert pytest.approx(58.061 / 9.80665, rel=1e-4) == figure.other["kg/m²"]


SURFACE = "  elevator: {servo: S-1, up: 20°, down: 15°, chord: 45.72 mm, length: 457.2 mm}\n"


def elevator(folder: Path, surface: str = SURFACE, torque: str = ", torque: 1.0 kg·cm") -> Answers:
    """The model with an elevator as measured by NACA, flown at 40 mph at most."""
    files = plane("- {on: 2026-02-01, fit: {tail: {servo: S-1}}}\n" + FLOWN)
    craft = files["aircraft/teal/aircraft.yaml"].replace(
        "max_lift_coefficient: 1.2", "max_lift_coefficient: 1.2, fastest: 40 mph"
    )
    files["aircraft/teal/aircraft.yaml"] = craft + "surfaces:\n" + surface
    files["parts/specs.yaml"] += f"- {{spec: servo, kind: servo, mass: 9 g{torque}}}\n"
    files["parts/items.yaml"] += "- {tag: S-1, spec: servo, acquired: 2026-01-01}\n"
    return figures_of_aircraft(opened(folder, files), "teal")


def test_torque_of_a_servo_against_its_rating(tmp_path: Path) -> None:
    """6.4 oz·in at 20° (NACA Report 278, second-hand) are 4.52 N·cm: the least.

    2 oz·in at 5° are four times as much at 20°, 5.65 N·cm, 58 % of 1 kg·cm: what is planned with.
    It goes with the square of the speed.
    """
    figure = found(elevator(tmp_path), "servo_torque", "elevator")

    assert pytest.approx(4 * 2 * 0.0070616, rel=5e-3) == figure.value == figure.high
    assert pytest.approx(6.4 * 0.0070616, rel=5e-3) == figure.low
    assert "up to 58 % of the 1.0 kg·cm of S-1" == figure.verdict
    assert "5.7 N·cm (0.58 kg·cm)" == value_words(figure, figure.value or 0.0)
    assert figure.table is not None
    half, full = figure.table.rows[0], figure.table.rows[2]
    assert pytest.approx(float(full[2] or 0.0) / 4) == half[2]
    assert pytest.approx(17.8816) == full[0]


def test_torque_with_a_throw_in_millimetres_and_unequal_arms(tmp_path: Path) -> None:
    """15.637 mm of 45.72 mm are 20°; arm 12 mm, horn 14 mm: 0.83636 of the hinge moment."""
    surface = SURFACE.replace("up: 20°", "up: 15.637 mm").replace(
        "length: 457", "servo_arm: 12 mm, horn: 14 mm, length: 457"
    )
    figure = found(elevator(tmp_path, surface), "servo_torque", "elevator")

    assert pytest.approx(0.83636 * 6.4 * 0.0070616, rel=5e-3) == figure.low
    assert pytest.approx(0.83636 * 8 * 0.0070616, rel=5e-3) == figure.value


def test_torque_of_a_servo_that_drives_two_surfaces(tmp_path: Path) -> None:
    """Each half has its own moment; who has one servo for both must add them."""
    surface = SURFACE + SURFACE.replace("elevator", "second-half")
    figure = found(elevator(tmp_path, surface), "servo_torque", "elevator")

    verdict = "up to 58 % of the 1.0 kg·cm of S-1; it drives second-half too: add both"
    assert verdict == figure.verdict


@pytest.mark.parametrize(
    ("surface", "why"),
    [
        (SURFACE.replace(", chord: 45.72 mm", ""),
         "the chord of elevator is not recorded: write 'chord' under 'surfaces'"),
        (SURFACE.replace("up: 20°, down: 15°, ", ""),
         "no throw of elevator is recorded: write 'up' and 'down' of it"),
        (SURFACE.replace("up: 20°", "up: 50 mm"),
         "a throw of 50 mm is more than the chord of the surface"),
        (SURFACE.replace("length: 457", "servo_arm: 4 mm, horn: 14 mm, length: 457"),
         "a servo arm of 4 mm cannot throw elevator 20° by a horn of 14 mm: "
         "'servo_arm', 'horn' or the throw is wrong"),
    ],
)  # fmt: skip
def test_what_the_torque_of_a_servo_lacks(tmp_path: Path, surface: str, why: str) -> None:
    """Chord, throw, or a throw that cannot be."""
    assert why == refused(elevator(tmp_path, surface), "servo_torque", "elevator")[0]


def test_a_servo_without_a_torque(tmp_path: Path) -> None:
    """What is needed is said all the same."""
    figure = found(elevator(tmp_path, torque=""), "servo_torque", "elevator")

    assert "no torque of servo is recorded: write 'torque' in its spec" == figure.verdict
