"""An electric glider: its motor runs for minutes of an hour in the air.

Expected values are worked out by hand beside each; they rest on nothing but arithmetic.
"""

import datetime
from pathlib import Path

import pytest
from small_hangars import found, opened, refused

from buildbook.basis import amounts
from buildbook.figures.answers.registry import figures_of_aircraft, figures_of_item
from buildbook.report.figure import LOADED_S, PAYLOAD_KG
from buildbook.upkeep.warnings.plausible import doubts
from buildbook.upkeep.warnings.plausible_parts import doubted_parts
from buildbook.words.figures import aside_words
from buildbook.words.measures.intervals import flown_words

GLIDER = {
    "hangar.yaml": "format: 1\nhangar: Shed\nreserve: 20 %\n",
    "parts/specs.yaml": """\
- {spec: m, kind: motor, mass: 120 g, kv: 900 rpm/V}
- {spec: e, kind: esc, mass: 40 g, continuous_current: 40 A}
- {spec: r, kind: propeller, mass: 20 g, size: 11x6}
- {spec: f, kind: frame, mass: 900 g}
- {spec: s, kind: servo, mass: 12 g}
- {spec: p, kind: battery, cells: 3S, capacity: 2000 mAh, mass: 160 g, chemistry: LiPo}
""",
    "parts/items.yaml": "".join(
        f"- {{tag: {kind.upper()}-1, spec: {kind}, acquired: 2026-01-02}}\n" for kind in "merfsp"
    ),
    "aircraft/kite/aircraft.yaml": "aircraft: Kite\nkind: aeroplane\nlayout: aeroplane\n",
}
FITTED = """\
- on: 2026-02-01
  fit: {nose: {motor: M-1, esc: E-1, propeller: R-1}, body: {frame: F-1}, tail: {servo: S-1}}
"""


def flights(count: int, run: str = ", motor_run: 150 s") -> str:
    """Flights of 40 minutes each; the motor runs 150 s at 24 A, which takes 1000 mAh."""
    first = datetime.date(2026, 3, 1)
    return "".join(
        f"- {{on: {first + datetime.timedelta(days=number)}, flight: 2400 s, pack: P-1,"
        f" used: 1000 mAh{run}}}\n"
        for number in range(count)
    )


def glider(folder: Path, log: str):
    """The glider with a log."""
    return opened(folder, {**GLIDER, "aircraft/kite/logbook.yaml": FITTED + log})


def test_a_motor_has_the_time_that_it_ran_and_a_frame_the_time_in_the_air(tmp_path: Path) -> None:
    """12 flights of 150 s are half an hour; of 2400 s, eight hours."""
    items = glider(tmp_path, flights(12)).items
    hours = {tag: item.counters.duration_s / 3600 for tag, item in items.items()}

    assert {"M-1": 0.5, "E-1": 0.5, "R-1": 0.5, "F-1": 8, "S-1": 8} == {
        tag: hours[tag] for tag in ("M-1", "E-1", "R-1", "F-1", "S-1")
    }
    assert {12} == {items[tag].counters.flights for tag in ("M-1", "F-1")}


def test_hours_of_a_driven_part_say_which_they_are(tmp_path: Path) -> None:
    """Those of a motor are its own, those of a servo the time in the air."""
    hangar = glider(tmp_path, flights(2))
    said = "of a glider the time that its motor ran, not the time in the air"

    for tag, told in (("M-1", True), ("E-1", True), ("S-1", False)):
        notes = found(figures_of_item(hangar, tag), "component_hours").notes
        assert told == (said in notes)


def test_flights_that_say_no_motor_time_make_its_hours_an_at_most(tmp_path: Path) -> None:
    """4 flights of 150 s are 10 min; 8 of 40 min that say nothing are up to 5 h 20 min more."""
    silent = flights(8, run="").replace("2026-03", "2026-05")
    hangar = glider(tmp_path, flights(4) + silent)
    figure = found(figures_of_item(hangar, "M-1"), "component_hours")

    assert (figure.low, figure.value, figure.high) == pytest.approx((1 / 6, 5.5, 5.5))
    assert figure.verdict == "at most; 5.3 h of flights without 'motor_run' count whole"
    assert figure.basis == "default"
    assert figure.notes[0] == "rests on what is assumed: flights without 'motor_run'"
    assert flown_words(hangar.items["M-1"].counters) == "at most 5.5 h"
    assert flown_words(hangar.items["S-1"].counters) == "8.0 h"
    assert flown_words(hangar.aircraft["kite"].counters) == "8.0 h"


def test_a_motor_of_unknown_history_ran_at_least_what_is_told(tmp_path: Path) -> None:
    """10 min in the log; what was before is not known, nor what the silent flights took."""
    silent = flights(8, run="").replace("2026-03", "2026-05")
    items = GLIDER["parts/items.yaml"].replace(
        "{tag: M-1, spec: m,", "{tag: M-1, spec: m, carried: {basis: unknown},"
    )
    files = {**GLIDER, "parts/items.yaml": items}
    hangar = opened(tmp_path, {**files, "aircraft/kite/logbook.yaml": FITTED + flights(4) + silent})
    figure = found(figures_of_item(hangar, "M-1"), "component_hours")

    assert figure.verdict == (
        "earlier history unknown; 5.3 h of flights without 'motor_run' count whole"
    )
    assert flown_words(hangar.items["M-1"].counters) == "at least 0.17 h"


def test_where_no_flight_says_its_motor_time_all_of_it_is(tmp_path: Path) -> None:
    """A motor that drives all the time, as on a powered aeroplane, has its hours without a word."""
    hangar = glider(tmp_path, flights(8, run=""))
    figure = found(figures_of_item(hangar, "M-1"), "component_hours")

    assert (figure.low, figure.value, figure.verdict) == (None, pytest.approx(16 / 3), None)


def test_a_motor_that_came_with_the_hours_of_its_airframe_is_doubted(tmp_path: Path) -> None:
    """25 h of a glider are none of its motor; 3 h may be, and of a frame they are its own."""
    craft = GLIDER["aircraft/kite/aircraft.yaml"] + "carried: {hours: 25, basis: estimate}\n"
    said = "has the 25.0 h that kite was flown before, though its motor does not run all the time"
    for number, (letter, hours, told) in enumerate((("e", 25, 1), ("e", 3, 0), ("f", 25, 0))):
        items = GLIDER["parts/items.yaml"].replace(
            f"spec: {letter}, acquired: 2026-01-02",
            f"spec: {letter}, acquired: 2026-01-02, carried: {{hours: {hours}, basis: estimate}}",
        )
        files = {**GLIDER, "parts/items.yaml": items, "aircraft/kite/aircraft.yaml": craft}
        files["aircraft/kite/logbook.yaml"] = FITTED + flights(1)
        found_doubts = doubted_parts(opened(tmp_path / str(number), files), frozenset())
        assert told == len([one for one in found_doubts if said in one.reason])


def test_where_no_run_is_noted_the_motor_has_the_whole_flight(tmp_path: Path) -> None:
    """Rather too much than too little: a look comes early."""
    log = flights(3) + "- {on: 2026-04-01, flight: 600 s, pack: P-1, used: 300 mAh}\n"
    items = glider(tmp_path, log).items

    assert 3 * 150 + 600 == items["M-1"].counters.duration_s


def test_a_run_longer_than_its_flight_counts_no_more_than_the_flight(tmp_path: Path) -> None:
    """A slip of the pen, which is told elsewhere."""
    log = "- {on: 2026-04-01, flight: 60 s, pack: P-1, used: 300 mAh, motor_run: 90 s}\n"

    assert 60 == glider(tmp_path, log).items["M-1"].counters.duration_s


def test_an_item_tells_the_same_hours_as_its_stay(tmp_path: Path) -> None:
    """Taken out after four flights, it has 600 s, and its stay says so."""
    out = "- {on: 2026-04-01, remove: [M-1], because: play}\n"
    motor = glider(tmp_path, flights(4) + out).items["M-1"]

    assert [600.0] == [stay.duration_s for stay in motor.stays]
    assert 600.0 == motor.counters.duration_s


def test_current_and_endurance_go_by_the_motor(tmp_path: Path) -> None:
    """1000 mAh in 150 s are 24 A; 80 % of 2000 mAh at 24 A last 240 s."""
    answers = figures_of_aircraft(glider(tmp_path, flights(12)), "kite")
    current = found(answers, "flown_current")
    endurance = found(answers, "motor_endurance", "P-1")

    assert pytest.approx(24.0) == current.value
    assert pytest.approx(240.0) == endurance.value
    assert "over the time that the motor ran, not the time in the air" in current.notes
    assert "over the time that the motor ran, not the time in the air" in endurance.notes
    assert {"longest motor run, s": 150.0} == endurance.other


def test_time_in_the_air_is_what_the_air_made_of_the_motors_time(tmp_path: Path) -> None:
    """240 s of motor; 12 flights of 150 s each, up for 10 to 32 times that: in the middle 22 times.

    Of twelve one is left out on either side: 12 times the low end of the motor's time at least, and
    30 times the high end at most.
    """
    log = "".join(
        f"- {{on: 2026-03-{day:02d}, flight: {150 * (8 + 2 * day)} s, pack: P-1, used: 1000 mAh, "
        "motor_run: 150 s}\n"
        for day in range(1, 13)
    )
    answers = figures_of_aircraft(glider(tmp_path, log), "kite")
    motor, time = found(answers, "motor_endurance", "P-1"), found(answers, "flight_time", "P-1")

    assert pytest.approx(240.0) == motor.value
    assert motor.low is not None
    assert motor.high is not None
    assert pytest.approx((240 * 22, motor.low * 12, motor.high * 30)) == (
        time.value, time.low, time.high,
    )  # fmt: skip
    assert (
        f"plan with {amounts.duration(motor.low * 12)}; each minute of motor gives 12 to 30 "
        "minutes in the air"
    ) == time.verdict
    assert (
        "by 12 flights of this aircraft",
        "the air promises nothing: the motor's timer comes first",
    ) == time.notes[-2:]
    assert {"longest flight, s": 4800.0} == time.other
    assert [] == [one for one in answers.figures if one.name == "flown_time"]
    assert motor.low == found(answers, "timer_setting", "P-1").value


def test_three_flights_tell_their_highest_draw(tmp_path: Path) -> None:
    """24 A, and 15 % more at the low end: 1.6 Ah last 208.7 s; 16 times that in the air."""
    answers = figures_of_aircraft(glider(tmp_path, flights(3)), "kite")
    motor, timer = (found(answers, name, "P-1") for name in ("motor_endurance", "timer_setting"))
    words = "by the highest draw of 3 flights so far, 400 mAh a minute"

    assert pytest.approx((240.0, 240 / 1.15)) == (motor.value, motor.low)
    assert motor.low == timer.value
    assert f"plan with 3 min 29 s; {words}" == motor.verdict
    assert pytest.approx(16 * 240 / 1.15) == found(answers, "flight_time", "P-1").low


def test_the_first_flight_of_an_aeroplane_tells_its_draw(tmp_path: Path) -> None:
    """1000 mAh in 2400 s are 1.5 A: 1.6 Ah last 3840 s; without any flight nobody knows."""
    one = figures_of_aircraft(glider(tmp_path / "one", flights(1, "")), "kite")
    none = figures_of_aircraft(glider(tmp_path / "none", ""), "kite")

    assert pytest.approx(3840) == found(one, "flight_time", "P-1").value
    assert pytest.approx(3840 / 1.15) == found(one, "timer_setting", "P-1").value
    assert found(one, "alarm_voltage", "P-1").value
    assert "it takes 4" in refused(none, "flight_time", "P-1")[0]


def test_flights_that_do_not_say_the_run_stay_out_where_most_say_it(tmp_path: Path) -> None:
    """One long flight without ``motor_run`` would look like a current of 1.5 A."""
    odd = "- {on: 2026-04-01, flight: 2400 s, pack: P-1, used: 1000 mAh}\n"
    answers = figures_of_aircraft(glider(tmp_path, flights(12) + odd), "kite")

    assert pytest.approx(24.0) == found(answers, "flown_current").value


def test_without_motor_runs_all_is_as_with_any_aircraft(tmp_path: Path) -> None:
    """1000 mAh in 2400 s are 1.5 A."""
    answers = figures_of_aircraft(glider(tmp_path, flights(12, run="")), "kite")

    assert pytest.approx(1.5) == found(answers, "flown_current").value
    assert [] == [one for one in answers.figures if one.name == "motor_endurance"]


def test_the_figures_of_a_motor_have_its_own_hours(tmp_path: Path) -> None:
    """As its counters."""
    answers = figures_of_item(glider(tmp_path, flights(12)), "M-1")

    assert 0.5 == found(answers, "component_hours").value


def test_drift_and_timer_of_a_glider_go_by_the_motor(tmp_path: Path) -> None:
    """Every flight draws alike in its motor time, however long the air carries it afterwards.

    150 s of motor a flight, 900 and 906 mAh by turns: no drift beyond half of that. In the air
    they last from 21 to 40 minutes; by air time the last would seem to use half as much.
    """
    log = FITTED + "".join(
        f"- {{on: 2026-03-{day:02d}, flight: {20 + day} min, pack: P-1, "
        f"used: {900 + day % 2 * 6} mAh, motor_run: 150 s}}\n"
        for day in range(1, 21)
    )
    hangar = opened(tmp_path, {**GLIDER, "aircraft/kite/logbook.yaml": log})
    answers = figures_of_aircraft(hangar, "kite")
    note = "over the time that the motor ran, not the time in the air"
    drift = found(answers, "drift")
    timer = found(answers, "timer_setting", "P-1")

    assert pytest.approx(0.0, abs=0.004) == drift.value
    assert note in drift.notes
    assert note in found(figures_of_item(hangar, "P-1"), "drift").notes
    assert ("fitted", "of the motor's running time") == (timer.basis, timer.notes[0])


def test_without_motor_times_no_climb_and_no_prediction(tmp_path: Path) -> None:
    """The mean current of a flight is no climb, and a wing's theory is but the log again."""
    hangar = glider(tmp_path, flights(12, run=""))
    answers = figures_of_aircraft(hangar, "kite")

    assert (
        "the log does not say how long the motor ran: write 'motor_run' in the flights"
        == refused(answers, "climb_rate")[0]
    )
    time = found(answers, "flown_time", "P-1")
    assert time.verdict is None
    assert not any(name.startswith("predicted") for name in time.other)


def test_no_plan_past_a_flight_that_stood_at_its_cut_off(tmp_path: Path) -> None:
    """3 cells of 3.3 V are 9.9 V; a run of 120 s ended there, and 80 % of it are 96 s, not 240 s.

    A run of 60 s that stayed above it says nothing.
    """
    volts = "used: 800 mAh, volts: {lowest: 9.9 V}, motor_run: 120 s}\n"
    above = "used: 400 mAh, volts: {lowest: 9.91 V}, motor_run: 60 s}\n"
    log = flights(12) + "".join(
        f"- {{on: 2026-04-0{day}, flight: 2400 s, pack: P-1, {said}"
        for day, said in ((1, volts), (2, above))
    )
    answers = figures_of_aircraft(glider(tmp_path, log), "kite")
    endurance = found(answers, "motor_endurance", "P-1")
    timer = found(answers, "timer_setting", "P-1")

    assert (
        "plan with 1 min 36 s; a flight stood at its cut-off, 9.90 V, after 2 min 00 s: at most "
        "that, less the reserve"
    ) == endurance.verdict
    assert (96.0, 96.0, 120.0, None) == pytest.approx(
        (endurance.value, endurance.low, endurance.high, endurance.level)
    )
    assert pytest.approx(96.0) == timer.value


def test_a_flight_above_the_cut_off_shortens_nothing(tmp_path: Path) -> None:
    """10 mV above it are above it: 80 % of 2000 mAh at 24 A, as without the reading."""
    log = flights(12).replace("motor_run: 150 s", "motor_run: 150 s, volts: {lowest: 9.91 V}")
    endurance = found(figures_of_aircraft(glider(tmp_path, log), "kite"), "motor_endurance", "P-1")

    assert pytest.approx(240.0) == endurance.value
    assert 0.95 == endurance.level
    assert "cut-off" not in (endurance.verdict or "")


def test_a_reading_before_the_last_change_gives_way_to_those_since(tmp_path: Path) -> None:
    """A flight at the cut-off with the old propeller; with the new one it stayed above."""
    low = "pack: P-1, volts: {lowest: 9.5 V}, motor_run: 90 s"
    old = f"- {{on: 2026-02-10, flight: 2400 s, {low}}}\n"
    new = (
        "- {on: 2026-02-20, remove: [R-1], because: too coarse}\n"
        "- {on: 2026-02-20, fit: {nose: {propeller: R-2}}}\n"
    )
    files = dict(GLIDER)
    files["parts/specs.yaml"] += "- {spec: r2, kind: propeller, mass: 20 g, size: 10x5}\n"
    files["parts/items.yaml"] += "- {tag: R-2, spec: r2, acquired: 2026-01-02}\n"
    alone = figures_of_aircraft(
        opened(tmp_path / "a", {**files, "aircraft/kite/logbook.yaml": FITTED + old + flights(12)}),
        "kite",
    )
    log = FITTED + old + new + flights(12).replace("150 s}", "150 s, volts: {lowest: 10.5 V}}")
    changed = figures_of_aircraft(
        opened(tmp_path / "b", {**files, "aircraft/kite/logbook.yaml": log}), "kite"
    )

    assert pytest.approx(72.0) == found(alone, "motor_endurance", "P-1").value
    assert pytest.approx(240.0) == found(changed, "motor_endurance", "P-1").value


def test_an_aeroplane_has_a_timer_with_what_it_carried(tmp_path: Path) -> None:
    """1.264 kg with 316 g more: 1.25 to the power 1.5 times the power, 1.398.

    Lift and drag at one angle go with v², so level flight takes power with the weight to the
    power 1.5.
    """
    loaded = "".join(
        f"- {{on: 2026-04-0{day}, flight: 1200 s, pack: P-1, used: 600 mAh, payload: 316 g}}\n"
        for day in (1, 2)
    )
    answers = figures_of_aircraft(glider(tmp_path, flights(12, "") + loaded), "kite")
    timer = found(answers, "timer_setting", "P-1")

    assert pytest.approx(0.316) == timer.other[PAYLOAD_KG]
    assert timer.other[LOADED_S] < (timer.value or 0.0) / 1.39
    assert any("as level flight takes it with the mass" in note for note in timer.notes)


def test_a_glider_says_why_it_has_no_timer_with_a_payload(tmp_path: Path) -> None:
    """What its motor draws at full throttle does not ask for the mass."""
    loaded = (
        "- {on: 2026-04-01, flight: 1200 s, pack: P-1, used: 600 mAh, motor_run: 90 s, "
        "payload: 316 g}\n"
    )
    said = "with a payload it is the same: the motor draws as much, and it climbs less"
    for log, told in ((flights(12) + loaded, True), (flights(12), False)):
        answers = figures_of_aircraft(glider(tmp_path / str(told), log), "kite")
        timer = found(answers, "timer_setting", "P-1")
        assert told == (said in timer.notes)
        assert LOADED_S not in timer.other


def test_a_timer_longer_than_all_that_was_flown_says_so(tmp_path: Path) -> None:
    """240 s by the charge, where its motor ran 150 s; after 250 s, which left its reserve, not."""
    short = figures_of_aircraft(glider(tmp_path / "short", flights(12)), "kite")
    long_run = "- {on: 2026-04-01, flight: 2400 s, pack: P-1, used: 1590 mAh, motor_run: 250 s}\n"
    far = figures_of_aircraft(glider(tmp_path / "far", flights(12) + long_run), "kite")
    timer = found(short, "timer_setting", "P-1")

    words = "longer than the longest motor run behind it that left the reserve, 2 min 30 s"
    assert words in (timer.verdict or "")
    assert 150.0 == timer.other["longest motor run, s"]
    assert "low end of the motor endurance" == timer.inputs[0].name
    assert "longer" not in (found(far, "timer_setting", "P-1").verdict or "")


def test_a_motor_run_longer_than_the_pack_lasts_is_doubted(tmp_path: Path) -> None:
    """24 A are 400 mAh a minute: six minutes take 2400 mAh of 2000; five do not."""
    log = "".join(
        f"- {{on: 2026-04-0{minutes}, flight: 2400 s, pack: P-1, motor_run: {minutes} min}}\n"
        for minutes in (5, 6)
    )
    found_doubts = doubts(glider(tmp_path, flights(12) + log), frozenset())

    assert ["the motor ran 6 min 00 s, which usually takes 2400 mAh of 2000 mAh"] == [
        one.reason for one in found_doubts if "usually" in one.reason
    ]


def test_the_longest_flight_is_one_that_left_the_reserve(tmp_path: Path) -> None:
    """2400 s on 1000 mAh, and 3600 s on 1700 of 2000 mAh, of which 20 % are kept."""
    low = "- {on: 2026-04-05, flight: 3600 s, pack: P-1, used: 1700 mAh}\n"
    answers = figures_of_aircraft(glider(tmp_path, flights(12, "") + low), "kite")

    assert 2400 == found(answers, "flown_time", "P-1").other["longest flight, s"]


@pytest.mark.parametrize("count", [2, 6, 12])
def test_endurance_and_timer_plan_with_one_time(tmp_path: Path, count: int) -> None:
    """However few flights it has: of few, the timer waits for no more than they show."""
    answers = figures_of_aircraft(glider(tmp_path, flights(count)), "kite")
    endurance = found(answers, "motor_endurance", "P-1")

    assert endurance.low == found(answers, "timer_setting", "P-1").value


@pytest.mark.parametrize(("told", "silent"), [(12, 12), (4, 20), (12, 3)])
def test_flights_that_do_not_say_how_long_the_motor_ran_are_left_apart(
    tmp_path: Path, told: int, silent: int
) -> None:
    """1000 mAh in 150 s are 24 A, however many flights of 40 min on 1000 mAh stand beside them."""
    quiet = "".join(
        f"- {{on: 2026-05-{day:02d}, flight: 2400 s, pack: P-1, used: 1000 mAh}}\n"
        for day in range(1, silent + 1)
    )
    hangar = glider(tmp_path, flights(told) + quiet)
    current = found(figures_of_aircraft(hangar, "kite"), "flown_current")

    assert pytest.approx(24.0) == current.value
    assert f"{silent} flights without 'motor_run' left apart" in current.notes
    assert [] == [one.reason for one in doubts(hangar, frozenset()) if "usually" in one.reason]


def test_few_motor_runs_are_no_rate_of_the_motor(tmp_path: Path) -> None:
    """One of 13 flights says it: the others are fitted as they were flown, 1000 mAh in 40 min."""
    log = flights(12, "") + (
        "- {on: 2026-05-01, flight: 2400 s, pack: P-1, used: 1000 mAh, motor_run: 150 s}\n"
    )
    answers = figures_of_aircraft(glider(tmp_path, log), "kite")

    assert pytest.approx(1.5) == found(answers, "flown_current").value


def test_the_longest_motor_run_is_one_number(tmp_path: Path) -> None:
    """170 s that took 1700 of 2000 mAh did not leave the reserve: 150 s, by endurance and timer."""
    low = "- {on: 2026-04-05, flight: 2400 s, pack: P-1, used: 1700 mAh, motor_run: 170 s}\n"
    answers = figures_of_aircraft(glider(tmp_path, flights(12) + low), "kite")

    assert {150.0} == {
        found(answers, name, "P-1").other["longest motor run, s"]
        for name in ("motor_endurance", "timer_setting")
    }
    said = ("longest motor run that left the reserve", "2 min 30 s")
    assert said == aside_words("longest motor run, s", 150.0)
