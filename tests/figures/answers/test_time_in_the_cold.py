"""A pack in the cold: at the low end of its time, and by name where it was flown.

What cold takes of the capacity is half a per cent a degree at most: common practice, no source.
The resistance goes with exp(E_a/R/T), E_a up to 35 kJ/mol (from memory; check values of the second
round): from 25 to 5 °C exp(4209.6 * 0.00024117) = 2.760.
"""

import math
from itertools import pairwise
from pathlib import Path

import pytest
from small_hangars import KEEPER, SMALL, flown_daily, found, logged, opened, quad
from test_log_and_packs import flights
from test_motor_time import FITTED, GLIDER
from test_motor_time import flights as motor_flights

from buildbook.basis import amounts
from buildbook.figures.answers.flight.cold import AS_READ
from buildbook.figures.answers.registry import figures_of_aircraft

READ = (
    "- {on: 2026-05-01, capacity: P-1, measured: 2200 mAh, temperature: 25 °C}\n"
    "- {on: 2026-05-01, charge: P-1, resistance: [5 mΩ, 5 mΩ, 5 mΩ], temperature: 25 °C}\n"
)
NAMES = {
    "capacity lost in the cold of 5 °C, at most": 0.1,
    "more resistance in the cold of 5 °C, at most": 1.760,
}


def at_field(log: str, celsius: str | None) -> dict[str, str]:
    """The small quad with that log, and the field at a temperature, or at none."""
    written = "" if celsius is None else f"field_temperature: {celsius} °C\n"
    keeper = KEEPER.replace("field_temperature: 15 °C\n", written)
    return {**logged(log), "hangar.yaml": keeper}


def seconds(ohm: float, watts: float, capacity_ah: float, cut_v: float = 0.0) -> float:
    """Time of 3S LiPo down to 20 % at a power, from the usual curve, apart from the answer.

    cut_v: the pack's voltage under load that ends it before.
    """
    curve = [(0.2, 3.73), (0.3, 3.77), (0.4, 3.79), (0.5, 3.82), (0.6, 3.86), (0.7, 3.91)]
    curve += [(0.8, 3.98), (0.9, 4.07), (1.0, 4.18)]
    total = 0.0
    for (low, low_v), (high, high_v) in pairwise(curve):
        for step in range(50):
            volts = 3 * (low_v + (high_v - low_v) * (step + 0.5) / 50)
            amps = (volts - (volts**2 - 4 * ohm * watts) ** 0.5) / (2 * ohm)
            if watts / amps < cut_v:
                continue
            total += capacity_ah * (high - low) / 50 / amps * 3600
    return total


def test_a_time_by_the_log_has_the_low_end_of_a_cold_pack(tmp_path: Path) -> None:
    """Read at 25 °C, flown at 5: a tenth less, and what 2.76 times 15 mΩ take at 9 A of 11.1 V."""
    log = flights(12) + READ
    cold = found(quad(tmp_path / "cold", at_field(log, "5")), "flight_time", "P-1")
    warm = found(quad(tmp_path / "warm", at_field(log, "25")), "flight_time", "P-1")
    watts = 9.0 * 11.1
    share = seconds(0.015 * 2.760, watts, 0.9) / seconds(0.015, watts, 1.0)
    assert warm.low is not None
    assert cold.low is not None

    assert pytest.approx(warm.low * share, rel=2e-3) == cold.low
    assert 0.85 < share < 0.9
    assert (warm.value, warm.high) == (cold.value, cold.high)
    assert (None, 0.95) == (cold.level, warm.level)
    assert NAMES == {
        one.name: pytest.approx(one.value, rel=1e-3) for one in cold.inputs if "at most" in one.name
    }
    assert "its low end: a pack as cold as the field, 5 °C, all the way" in cold.notes
    assert f"rests on what is assumed: {', '.join(NAMES)}" == cold.notes[0]
    assert not any("cold" in note for note in warm.notes)


def test_the_timer_is_set_for_the_cold_pack(tmp_path: Path) -> None:
    """The low end of the flight time."""
    answers = quad(tmp_path, at_field(flights(12) + READ, "5"))

    time = found(answers, "flight_time", "P-1")
    assert time.low == found(answers, "timer_setting", "P-1").value
    assert found(answers, "flown_time", "P-1").low != time.low


def test_a_timer_for_the_cold_rests_on_what_is_assumed_of_it(tmp_path: Path) -> None:
    """Its minutes are by the log, what the cold takes of them is not: the weakest is its basis."""
    log = flights(12) + READ
    cold = found(quad(tmp_path / "cold", at_field(log, "5")), "timer_setting", "P-1")
    warm = found(quad(tmp_path / "warm", at_field(log, "25")), "timer_setting", "P-1")

    assert ("default", "fitted") == (cold.basis, warm.basis)
    assert cold.notes[0] == f"rests on what is assumed: {', '.join(NAMES)}"
    assert not [note for note in warm.notes if note.startswith("rests on")]


def test_the_timer_says_for_which_air_it_is_and_what_freezing_leaves(tmp_path: Path) -> None:
    """Read at 25 °C: at 0 °C 12.5 % less capacity, and exp(4209.5 · 0.00030698) = 3.641 times R."""
    log = flights(12) + READ
    timer = found(quad(tmp_path / "5", at_field(log, "5")), "timer_setting", "P-1")
    warm = found(quad(tmp_path / "25", at_field(log, "25")), "timer_setting", "P-1")
    unsaid = found(quad(tmp_path / "none", at_field(log, None)), "timer_setting", "P-1")
    share = seconds(0.015 * 3.641, 99.9, 0.875) / seconds(0.015, 99.9, 1.0)
    frozen = (warm.value or 0.0) * share
    longer = "longer than the longest flight behind it that left the reserve, 6 min 00 s; "

    for figure, air in (
        (timer, f"for a pack at 5 °C; {longer}"),
        (warm, f"for a pack at 25 °C; {longer}"),
        (unsaid, longer),
    ):
        assert pytest.approx(frozen, rel=2e-3) == figure.other["at 0 °C, s"]
        assert f"{air}at 0 °C {amounts.duration(figure.other['at 0 °C, s'])}" == figure.verdict
        assert (
            "at 0 °C: 12.5 % of the capacity lost at most, half a per cent a degree: common "
            "practice, no source; 3.6 times the resistance at most: from memory"
        ) == figure.notes[-1]
    assert AS_READ in unsaid.notes
    assert AS_READ not in (*timer.notes, *warm.notes)


def test_a_field_at_freezing_has_one_timer(tmp_path: Path) -> None:
    """No other air is colder: -4 °C, and nothing beside it."""
    timer = found(quad(tmp_path, at_field(flights(12) + READ, "-4")), "timer_setting", "P-1")

    longer = "longer than the longest flight behind it that left the reserve, 6 min 00 s"
    assert f"for a pack at -4 °C; {longer}" == timer.verdict
    assert {"longest flight, s": 360.0} == timer.other


def test_a_pack_that_cannot_give_the_power_at_freezing(tmp_path: Path) -> None:
    """60 mΩ a cell read at 25 °C are 218 at 0 °C, 655 in all: at most 12.54² / 4 / 0.655 = 60 W."""
    weak = READ.replace("5 mΩ", "60 mΩ")
    timer = found(quad(tmp_path, at_field(flights(12) + weak, "25")), "timer_setting", "P-1")

    assert (
        "for a pack at 25 °C; at 0 °C not at all: by its resistance it reaches its cut-off of "
        "9.90 V at once"
    ) == timer.verdict
    assert {"at 0 °C, s": 0.0} == timer.other


@pytest.mark.parametrize(
    ("sag_v", "at", "known_k"),
    [(0.5, "", 293.15), (1.0, ", temperature: 5 °C, sure: true", 278.15)],
)
def test_the_sag_in_the_log_counts_at_freezing_too(
    tmp_path: Path, sag_v: float, at: str, known_k: float
) -> None:
    """The motor takes 24 A, and the pack sagged 0.5 V: 20.83 mΩ where the charger reads 15.

    Or 1.0 V in the cold. At 0 °C that is exp(4209.5 · (1/273.15 - 1/T)) times as much, against the
    air flown in: its cut-off of 9.90 V comes before the reserve.
    """
    specs = GLIDER["parts/specs.yaml"].replace("160 g,", "160 g, cell_resistance: 5 mΩ,")
    volts = f"lowest: {11.4 - sag_v:.1f} V, after: 11.4 V"
    log = FITTED + motor_flights(12, f", motor_run: 150 s, volts: {{{volts}}}{at}")
    files = {**GLIDER, "parts/specs.yaml": specs, "aircraft/kite/logbook.yaml": log}
    answers = figures_of_aircraft(opened(tmp_path, files), "kite")
    timer, watts, flown = found(answers, "timer_setting", "P-1"), 24 * 11.1, sag_v / 24
    frozen = flown * math.exp(4209.5 * (1 / 273.15 - 1 / known_k))
    share = seconds(frozen, watts, 0.9, 9.9) / seconds(flown, watts, 1.0)

    assert share < 0.9 * 0.95
    assert pytest.approx((timer.value or 0.0) * share, rel=0.01) == timer.other["at 0 °C, s"]
    assert timer.notes[-1].endswith(
        "; by the sag in the log it reaches its cut-off of 9.90 V before the reserve"
    )


def test_the_low_end_names_the_resistance_that_it_is_by(tmp_path: Path) -> None:
    """1 V at 24 A in the air of the field are 41.67 mΩ; without a sag it is the sheet's 15 mΩ."""
    specs = GLIDER["parts/specs.yaml"].replace("160 g,", "160 g, cell_resistance: 5 mΩ,")
    files = {**GLIDER, "parts/specs.yaml": specs, "hangar.yaml": KEEPER.replace("15 °C", "5 °C")}
    sag = ", volts: {lowest: 10.4 V, after: 11.4 V}"
    said = {}
    for key, volts in (("log", sag), ("sheet", "")):
        log = FITTED + motor_flights(12, f", motor_run: 150 s{volts}")
        hangar = opened(tmp_path / key, {**files, "aircraft/kite/logbook.yaml": log})
        figure = found(figures_of_aircraft(hangar, "kite"), "motor_endurance", "P-1")
        said[key] = {one.name: one.value for one in figure.inputs if one.unit == "Ω"}

    assert {"resistance of P-1 by the sag in the log": pytest.approx(1 / 24)} == said["log"]
    assert {"resistance of P-1": pytest.approx(0.015)} == said["sheet"]


@pytest.mark.parametrize(
    ("told", "own_v", "cut_v", "words"),
    [
        ("", "", 9.9, "its cut-off of 9.90 V"),
        ("check: low-voltage-alarm, readings: {alarm: 3.40 V a cell}", "", 10.2, "the set alarm"),
        ("check: low-voltage-alarm, readings: {alarm: 3.20 V a cell}", "", 9.9, "its cut-off"),
        ("check: low-voltage-alarm, readings: {alarm: 3.40 V a cell}", "3.5", 10.5, "its cut-off"),
        ("setting: {low_voltage_cutoff: 10.2 V}", "", 10.2, "the set cut-off"),
        ("setting: {cut-off: 3.45 V, alarm: 3.4 V}", "", 10.35, "the set cut-off"),
    ],
)
def test_the_cut_off_that_is_reached_first_ends_a_flight(
    tmp_path: Path, told: str, own_v: str, cut_v: float, words: str
) -> None:
    """Its motor takes 24 A, 266.4 W, of 15 mΩ read at 20 °C, 42.9 at 0 °C (2.8616 times).

    Usually 9.90 V end it; 3 cells of what was set on the aeroplane, or of its pack, where higher.
    """
    own = f", cutoff_cell_voltage: {own_v} V" if own_v else ""
    specs = GLIDER["parts/specs.yaml"].replace("160 g,", f"160 g, cell_resistance: 5 mΩ{own},")
    set_so = f"- {{on: 2026-02-02, {told}, by: me}}\n" if told else ""
    set_so = set_so.replace("by: me", "result: pass" if "check" in told else "of: E-1")
    log = FITTED + set_so + motor_flights(12)
    files = {**GLIDER, "parts/specs.yaml": specs, "aircraft/kite/logbook.yaml": log}
    timer = found(figures_of_aircraft(opened(tmp_path, files), "kite"), "timer_setting", "P-1")
    share = seconds(0.015 * 2.8616, 266.4, 0.9, cut_v) / seconds(0.015, 266.4, 1.0)

    assert pytest.approx((timer.value or 0.0) * share, rel=0.015) == timer.other["at 0 °C, s"]
    assert (f"it reaches {words}" in timer.notes[-1]) == (cut_v > 9.9)


def test_the_alarm_of_a_multirotor_ends_nothing(tmp_path: Path) -> None:
    """It is set to the reserve: 3.7 V a cell would end every flight before it."""
    told = "- {on: 2026-02-02, check: low-voltage-alarm, result: pass, readings: {alarm: 3.7 V}}\n"
    log = flights(12) + READ
    with_alarm = found(quad(tmp_path / "set", at_field(told + log, "5")), "timer_setting", "P-1")
    without = found(quad(tmp_path / "none", at_field(log, "5")), "timer_setting", "P-1")

    assert without.value == with_alarm.value


def test_a_time_by_theory_has_it_too(tmp_path: Path) -> None:
    """Not yet flown; without a temperature the time is said to hold for 20 °C."""
    lows = {}
    for celsius in ("25", "5", None):
        figure = found(quad(tmp_path / str(celsius), at_field(READ, celsius)), "flight_time", "P-1")
        lows[celsius] = figure.low or 0.0
        said = "holds for a pack at about 20 °C: a cold one gives less" in figure.notes
        assert (celsius is None) == said
    # colder air is denser, and a hover takes less in it: with the square root of T
    assert 0.83 < lows["5"] / lows["25"] * (278.15 / 298.15) ** 0.5 < 0.9


def test_cold_flights_are_named(tmp_path: Path) -> None:
    """12 flights, two at 4 °C, and one at 3 °C that stood at its cut-off of 9.90 V after 240 s."""
    cold = "".join(
        f"- {{on: 2026-05-0{day}, flight: 300 s, pack: P-1, used: 750 mAh, temperature: 4 °C}}\n"
        for day in (2, 3)
    )
    ended = (
        "- {on: 2026-05-04, flight: 240 s, pack: P-1, used: 600 mAh, temperature: 3 °C, "
        "volts: {lowest: 9.9 V, after: 10.9 V}}\n"
    )
    answers = quad(tmp_path, logged(flights(12) + cold + ended, SMALL))
    time = found(answers, "flight_time", "P-1")

    assert "3 of the flights flown under 10 °C" in found(answers, "flown_current").notes
    assert "3 of the flights flown under 10 °C" in time.notes
    assert (
        "a flight at 3 °C stood at its cut-off, 9.90 V, after 4 min 00 s: at most that, "
        "less the reserve"
    ) in (time.verdict or "")
    assert "as the log shows, on one flight, flown under 10 °C" in (
        found(answers, "pack_sag", "P-1, in the air").verdict or ""
    )


def test_a_flown_time_is_not_longer_than_the_cut_off_allows(tmp_path: Path) -> None:
    """704 s by the charge used; a flight at its cut-off after 360 s allows 288 s."""
    log = flights(12) + flown_daily("used: 900 mAh, volts: {lowest: 9.9 V}").replace("03-0", "05-0")
    figure = found(quad(tmp_path, logged(log)), "flown_time", "P-1")

    assert pytest.approx(288) == figure.value
    assert pytest.approx(360) == figure.high
    assert (
        "a flight stood at its cut-off, 9.90 V, after 6 min 00 s: at most that, less the reserve"
    ) in (figure.verdict or "")
