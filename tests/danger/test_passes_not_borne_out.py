"""A pass beside a reading that is out of line, or without the one that failed before.

The keeper wrote a pass, so it grounds nothing; but it is not in order either. Bands are those of
the figures of these readings, common practice, no source.
"""

from pathlib import Path

import pytest
from hangar_on_disk import QUIET, SET_UP, Hangar, with_log, with_text

ALL = "front-left: {} %, front-right: 4.8 %, rear-left: 4.6 %, rear-right: 4.7 %"
FAILED = (
    "- {on: 2026-06-18, check: start-spread, result: fail, stations: [front-left],"
    " readings: {front-left: 8.7 %}}\n"
)
PASSED = "- {on: 2026-06-20, check: start-spread, result: pass}\n"
SPREAD = "- {{on: 2026-06-20, check: start-spread, result: pass, readings: {{{}}}}}\n"
NEUTRAL = "- {{on: 2026-06-20, check: receiver-neutral, result: pass, readings: {{{}}}}}\n"
AGAIN = (
    "start spread at front-left: open, passed without the reading that failed on 18 June 2026:"
    " front-left 8.7 %"
)
APART = "start spread at front-left: open, start read as 8.7 %, the others about 4.8 %"


def reasons(folder: Path, log: str) -> list[str]:
    """What is open of Sedge, which is grounded by none of it."""
    hangar = Hangar(folder, with_log(log))
    found = hangar.reasons()
    assert ("due soon" if found else "nothing open") == hangar.state()
    return found


@pytest.mark.parametrize(
    ("log", "said"),
    [
        (FAILED + PASSED, [AGAIN]),
        (FAILED + PASSED + PASSED.replace("-20", "-19"), [AGAIN]),
        (FAILED + SPREAD.format(ALL.format("4.8")), []),
        (FAILED + PASSED.replace("pass}", "pass, sure: true}"), []),
        (PASSED, []),
        (SPREAD.format(ALL.format("8.7")), [APART]),
        (SPREAD.format(ALL.format("6.7")), []),
        (SPREAD.format(ALL.format("8.7")).replace("}}", "}, sure: true}"), []),
    ],
)  # fmt: skip
def test_motors_that_started_apart(tmp_path: Path, log: str, said: list[str]) -> None:
    """Open until it is read again, something is done, or its keeper is sure."""
    assert said == reasons(tmp_path, log)


def test_a_repair_between_is_word_enough(tmp_path: Path) -> None:
    """The reading was of what was mended."""
    repaired = FAILED + "- {on: 2026-06-19, repair: a new bearing}\n" + PASSED

    assert AGAIN not in Hangar(tmp_path, with_log(repaired)).reasons()


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        (
            "aileron: 9 %, elevator: 0.5 %, rudder: -0.4 %",
            ["receiver neutral: open, aileron read as 9 %, expected 0 ± 2 %"],
        ),
        ("aileron: -2 %, elevator: 0.5 %, rudder: 2 %", []),
        (
            "aileron: 1540 µs, elevator: 1500 µs, rudder: 1502 µs",
            ["receiver neutral: open, aileron read as 1540 µs, expected 1500 ± 12 µs"],
        ),
        ("aileron: 1520 µs, elevator: 1521 µs, rudder: 1518 µs", []),  # a radio with that neutral
        ("aileron: 9 %", ["receiver neutral: open, aileron read as 9 %, expected 0 ± 2 %"]),
        ("throttle: 9 %, aileron: 0.5 %", []),
    ],
)
def test_a_channel_off_neutral(tmp_path: Path, readings: str, said: list[str]) -> None:
    """By its unit; throttle and switches do not rest in the middle."""
    assert said == reasons(tmp_path, NEUTRAL.format(readings))


def test_it_stands_on_the_work_list_and_the_set_up_sheet(tmp_path: Path) -> None:
    """And in what ``due`` prints, whose exit status asks for it."""
    hangar = Hangar(tmp_path, with_log(NEUTRAL.format("aileron: 9 %")))
    words = "aileron read as 9 %, expected 0 ± 2 %"

    assert 3 == hangar.due[0]
    assert words in hangar.due[1]
    for page in ("due.html", "aircraft/sedge/index.html", SET_UP.format(slug="sedge")):
        assert words in hangar.page(page), page


def test_of_starts_that_failed_the_motor_out_of_line_stays_open(tmp_path: Path) -> None:
    """All four were read and one was late: that one row, and not three of motors in line first.
    Where no motor is out of line, nobody knows which one it was, and all stay open."""
    failed = "- {{on: 2026-06-18, check: start-spread, result: fail, readings: {{{}}}}}\n"
    late = "front-left: 5.8 %, front-right: 6.0 %, rear-left: 9.9 %, rear-right: 6.0 %"
    one = Hangar(tmp_path / "one", with_log(failed.format(late) + PASSED))
    together = failed.format(late.replace("9.9", "5.9"))
    unknown = Hangar(tmp_path / "unknown", with_log(together + PASSED))

    assert [
        "start spread at rear-left: open, passed without the reading that failed on 18 June 2026:"
        " rear-left 9.9 %"
    ] == one.reasons()
    assert 4 == len(unknown.rows("start-spread"))
    assert {
        "passed without the readings that failed on 18 June 2026: front-left 5.8 %,"
        " front-right 6.0 %, rear-left 5.9 %, rear-right 6.0 %"
    } == {reason.partition(": open, ")[2] for reason in unknown.reasons()}
    assert 1 == unknown.due[1].count("start spread at")


FITTED = """\
- {on: 2026-06-19, fit: {front-left: {motor: M-05}}, instead_of: {M-01: serviceable}}
- on: 2026-06-19
  check: [motor-screws, spin-directions, propeller-fit, start-spread, propeller-balance]
  result: pass
- {on: 2026-06-19, inspection: screws-and-mounts}
"""
GHOST = "- {on: 2026-06-20, check: check-flight, result: pass}\n"


@pytest.mark.parametrize(
    ("log", "closed"),
    [
        (GHOST, False),
        (GHOST.replace("pass}", "pass, sure: true}"), True),
        ("- {on: 2026-06-20, flight: 5:00, pack: P-01}\n" + GHOST, True),
        ("- {on: 2026-06-20, flight: 5:00, pack: P-01, purpose: check, result: pass}\n", True),
        ("- {on: 2026-06-20, inspection: check-flight}\n", False),
    ],
)
def test_a_check_flight_on_a_day_without_a_flight_is_none(
    tmp_path: Path, log: str, closed: bool
) -> None:
    """What was ticked off with the set-up checks: it is doubted, and fly it next still stands."""
    hangar = Hangar(tmp_path, with_log(FITTED + log))
    doubt = "check-flight of sedge passed on 2026-06-20, a day without a flight of it"

    assert ([] if closed else ["fly a check flight next: motor fitted on 19 June 2026"]) == [
        reason for reason in hangar.reasons() if "check flight" in reason
    ]
    if "check: check-flight" in log:
        assert closed != (doubt in hangar.check)


def test_a_check_flight_of_before_these_records_is_believed(tmp_path: Path) -> None:
    """It had flown elsewhere; nothing of that is written here."""
    path, log = "aircraft/sedge/aircraft.yaml", "aircraft/sedge/logbook.yaml"
    earlier = QUIET[log].partition("- on: 2026-06-18")[0] + GHOST
    files = {**QUIET, log: earlier, path: QUIET[path] + "carried: {flights: 31, hours: 4}\n"}
    known = Hangar(tmp_path / "known", files)
    unknown = Hangar(tmp_path / "unknown", {**QUIET, log: earlier})

    assert (False, True) == tuple("a day without a flight" in one.check for one in (known, unknown))
    assert [] == known.rows("check-flight")


@pytest.mark.parametrize(("volts", "late"), [("3.3 V", True), ("3.5 V", True), ("3.65 V", False)])
def test_an_alarm_that_sounds_in_the_reserve(tmp_path: Path, volts: str, late: bool) -> None:
    """Above the lowest of a cell, but below where the figures see the reserve begin."""
    log = (
        "- {on: 2026-06-20, check: low-voltage-alarm, result: pass, readings:"
        f" {{alarm: {volts}}}}}\n"
    )
    hangar = Hangar(tmp_path, with_log(log))
    _, figures = hangar.run("figures", "sedge", "--hangar", str(hangar.folder))
    said = f"3.67 V a cell; it is set to {volts[:-2]:0<4} V, in the reserve"

    assert late == (said in " ".join(figures.split()))
    row = f"low voltage alarm sounds at {volts[:-2]:0<4} V a cell, the reserve of P-01 begins at"
    assert ([f"{row} 3.67 V"] if late else []) == hangar.reasons()
    assert ("due soon" if late else "nothing open") == hangar.state()
    assert "sounds" not in hangar.check
    if late:
        assert [] == hangar.silent_commands("low voltage alarm", row)
        assert [] == hangar.silent_pages(row)


def test_an_alarm_in_the_reserve_that_is_meant(tmp_path: Path) -> None:
    """Its keeper says so; below the lowest of a cell nobody means it."""
    alarm = (
        "- {{on: 2026-06-20, check: low-voltage-alarm, result: pass, readings: {{alarm: {}}},"
        " sure: true}}\n"
    )
    late, low = (
        Hangar(tmp_path / volts[:3], with_log(alarm.format(volts))) for volts in ("3.5 V", "2.9 V")
    )

    assert [] == late.reasons()
    assert ["low voltage alarm sounds at 2.90 V a cell, lowest of P-01 is 3.00 V"] == low.reasons()


def test_a_pack_of_unknown_chemistry_has_no_reserve_that_begins_anywhere(tmp_path: Path) -> None:
    """What is taken for a LiPo by default accuses nobody."""
    log = QUIET["aircraft/sedge/logbook.yaml"] + (
        "- {on: 2026-06-20, check: low-voltage-alarm, result: pass, readings: {alarm: 3.4 V}}\n"
    )
    files = with_text("parts/specs.yaml", ", chemistry: LiPo", "")
    hangar = Hangar(tmp_path, {**files, "aircraft/sedge/logbook.yaml": log})

    assert [] == hangar.rows("low-voltage-alarm")


def test_a_pack_of_other_cells_than_all_before(tmp_path: Path) -> None:
    """The motors turn a third faster on it; or it is the pack of another aircraft."""
    specs = QUIET["parts/specs.yaml"] + "- {spec: q, kind: battery, cells: 4S, capacity: 2 Ah}\n"
    items = QUIET["parts/items.yaml"] + "- {tag: Q-1, spec: q, acquired: 2026-05-02}\n"
    files = {"parts/specs.yaml": specs, "parts/items.yaml": items}
    flight = "- {on: 2026-06-20, flight: 5:00, pack: Q-1}\n"
    hangar = Hangar(tmp_path / "asked", with_log(flight, **files))
    sure = Hangar(tmp_path / "sure", with_log(flight.replace("}", ", sure: true}"), **files))

    assert "Q-1 has 4 cells, sedge flew on 3 before" in hangar.check
    assert "cells" not in sure.check
