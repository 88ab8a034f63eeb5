"""A20: what the motor does when the link is lost."""

from pathlib import Path

import pytest
from hangar_on_disk import SET_UP, Hangar, with_log, with_text

RADIO = "failsafe: {throttle: cut}"
RUNS_ON = "link lost, the motor keeps running"


@pytest.mark.parametrize(
    "written",
    ["{throttle: hold}", "{all: hold}", "{throttle: 40 %, rest: centre}", "{throttle: last value}"],
)
def test_throttle_held_grounds_though_failsafe_was_passed(tmp_path: Path, written: str) -> None:
    """As recorded in aircraft.yaml: grounded, with the line of the radio."""
    path = "aircraft/sedge/aircraft.yaml"
    hangar = Hangar(tmp_path, with_text(path, RADIO, f"failsafe: {written}"))

    (reason,) = hangar.reasons()
    assert ("grounded", True) == (
        hangar.state(),
        reason.startswith(f"failsafe: failed, {RUNS_ON}: set to throttle "),
    )
    assert f"warning: sedge: {RUNS_ON} @ {hangar.line(path, 'radio:')}\n" in hangar.check
    assert [] == hangar.silent_pages("failsafe", "sedge", SET_UP)


def test_throttle_held_as_read_grounds_though_cut_is_planned(tmp_path: Path) -> None:
    """What was read at the check wins over the plan."""
    read = "- on: 2026-06-19\n  check: failsafe\n  result: pass\n  readings: {throttle: holds}\n"
    hangar = Hangar(tmp_path, with_log(read))

    said = f"{RUNS_ON}: set to throttle cut, seen throttle holds on 19 June 2026"
    assert ("grounded", [f"failsafe: failed, {said}"]) == (hangar.state(), hangar.reasons())
    assert said in hangar.due[1]


@pytest.mark.parametrize(
    ("found", "ran_on"),
    [("motors kept running for 10 s then stopped", True), ("Motor did not stop.", True),
     ("All good. The motor ran on until I pulled the plug", True),
     ("motors turning slowly, stopped at once", False),
     ("motor kept running for 1 s then stopped", False)],
)  # fmt: skip
def test_what_a_retest_found_is_read_as_the_readings_of_its_check(
    tmp_path: Path, found: str, ran_on: bool
) -> None:
    """Passed by default, and grounds as the check does."""
    retest = f'- on: 2026-06-19\n  inspection: failsafe-again\n  findings: "{found}"\n'
    check = (
        "- on: 2026-06-19\n  check: failsafe\n  result: pass\n"
        f'  readings: {{failsafe: "{found}"}}\n'
    )
    for name, entry in (("retest", retest), ("check", check)):
        hangar = Hangar(tmp_path / name, with_log(entry))
        assert ("grounded" if ran_on else "nothing open") == hangar.state()
        assert ran_on == (f"warning: sedge: {RUNS_ON}" in hangar.check)


def test_what_was_looked_at_beside_the_failsafe_is_no_motor_that_ran_on(tmp_path: Path) -> None:
    """Several looks share the words of their entry."""
    retest = (
        "- on: 2026-06-19\n  inspection: [failsafe-again, screws-and-mounts]\n"
        "  findings: Stops at once; motor screws held, mounts as last time.\n"
    )
    assert "nothing open" == Hangar(tmp_path, with_log(retest)).state()


@pytest.mark.parametrize(
    "written", ["{throttle: cut, rest: hold}", "{throttle: 30 % for 8 s then cut}"]
)
def test_a_throttle_that_stops_is_quiet(tmp_path: Path, written: str) -> None:
    """At once, or after a while; what the other channels do is not ours to judge."""
    path = "aircraft/sedge/aircraft.yaml"
    hangar = Hangar(tmp_path, with_text(path, RADIO, f"failsafe: {written}"))

    assert ("nothing open", []) == (hangar.state(), hangar.reasons())


def test_a_retest_names_what_was_set_and_what_was_seen(tmp_path: Path) -> None:
    """Re-opened by another receiver: beside what to do stands what must happen then."""
    read = "- on: 2026-06-18\n  check: failsafe\n  result: pass\n  readings: {throttle: stops}\n"
    bound = "- on: 2026-06-19\n  setting: {bind: again}\n"
    hangar = Hangar(tmp_path, with_log(read + bound))

    assert (
        "They must stop, or do what was set."
        " the record says: throttle cut; passed last on 18 June 2026, before that: throttle stops"
    ) in hangar.due[1]


def test_not_recorded_is_a_row_that_does_not_ground(tmp_path: Path) -> None:
    """Nobody wrote what happens: said once."""
    path = "aircraft/sedge/aircraft.yaml"
    hangar = Hangar(tmp_path, with_text(path, f", {RADIO}", ""))

    said = "what the throttle does when the link is lost is not recorded"
    assert ("due soon", [said]) == (hangar.state(), hangar.reasons())
    assert ["open"] == [row["state"] for row in hangar.rows("failsafe-recorded")]
