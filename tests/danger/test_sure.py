"""Section C: ``sure: true`` on an entry or a spec silences what would be doubted of it."""

from pathlib import Path

import pytest
from hangar_on_disk import SPECS, Hangar, with_log

SPEC = "parts/specs.yaml"
CARRIED = "  flights: [[12 h, P-01], [12 h, P-01]]\n"
LONG_DAY = f"- on: 2026-06-20\n{CARRIED}- on: 2026-06-20\n  flight: 30:00\n  pack: P-01\n"
VOLTS = "- on: 2026-06-20\n  flight: 5:00\n  volts: {before: 11.6 V, lowest: 12.1 V}\n"
WRONG_PART = "- on: 2026-06-20\n  inspection: motor-bearings\n  tags: [R-01]\n"
HEAVY = "- on: 2026-06-20\n  weigh: 9000 g\n  pack: P-01\n"
RAN = "- on: 2026-06-20\n  flight: 5:00\n  motor_run: 6:00\n"

DOUBTS = {
    "sedge flew 24.5 h on 2026-06-20, which has 24 h": LONG_DAY,
    "the lowest voltage is above the one before": VOLTS,
    "motor-bearings is for a motor, but R-01 is a propeller": WRONG_PART,
    "weighed 9000 g, the last time 1096 g": HEAVY,
    "the motor ran 6 min 00 s in a flight of 5 min 00 s": RAN,
}


@pytest.mark.parametrize("said", DOUBTS)
def test_a_sure_entry_is_not_doubted(tmp_path: Path, said: str) -> None:
    """Nor one that a correction is sure of, beside ``set`` or in it."""
    entry = DOUBTS[said]
    first = entry.replace("- on: 2026-06-20\n", "- on: 2026-06-20\n  id: odd\n", 1)
    corrects = "- on: 2026-06-20\n  corrects: odd\n  because: it is so\n"

    def check(name: str, log: str) -> str:
        return Hangar(tmp_path / name, with_log(log)).check

    assert said in check("plain", entry)
    assert said in check("corrected", f"{first}{corrects}  set: {{note: odd}}\n")
    for name, log in {
        "sure": first.replace("  id: odd\n", "  sure: true\n"),
        "set": f"{first}{corrects}  set: {{sure: true}}\n",
        "beside": f"{first}{corrects}  set: {{note: meant}}\n  sure: true\n",
    }.items():
        assert (name, False) == (name, said in check(name, log))


def test_what_was_sure_may_be_doubted_again(tmp_path: Path) -> None:
    """``sure: false`` in a correction takes it back, beside ``set`` or in it; so on a spec."""
    entry = LONG_DAY.replace("- on: 2026-06-20\n", "- on: 2026-06-20\n  id: odd\n  sure: true\n", 1)
    corrects = "- on: 2026-06-20\n  corrects: odd\n  because: not that sure\n"
    said = "sedge flew 24.5 h on 2026-06-20, which has 24 h"

    def check(name: str, log: str) -> str:
        return Hangar(tmp_path / name, with_log(log)).check

    assert said not in check("sure", entry)
    assert said in check("set", f"{entry}{corrects}  set: {{sure: false}}\n")
    assert said in check("beside", f"{entry}{corrects}  set: {{note: odd}}\n  sure: false\n")
    spec = with_spec(tmp_path / "spec", ESC, f"{ESC}, burst_current: 20 A, sure: false")
    assert "burst current 20 A of esc is less than" in spec.check


def test_exchanged_volts_are_told_at_their_line_until_they_are_corrected(tmp_path: Path) -> None:
    """A7: a pack reads less in flight than before it."""
    mended = (
        "- on: 2026-06-20\n  corrects: odd\n  because: exchanged\n"
        "  set: {volts: {before: 12.1 V, lowest: 11.6 V}}\n"
    )
    entry = VOLTS.replace("06-20\n", "06-20\n  id: odd\n")
    hangar = Hangar(tmp_path / "odd", with_log(entry))

    place = hangar.line("aircraft/sedge/logbook.yaml", "volts:")
    assert (
        f"warning: the lowest voltage is above the one before @ {place}\n"
        "    exchanged? correct one of them\n"
    ) in hangar.check
    assert "above the one before" not in Hangar(tmp_path / "right", with_log(entry + mended)).check


ESC = "{spec: esc, kind: esc, mass: 28 g, continuous_current: 30 A"
MOTOR = "{spec: motor, kind: motor, mass: 54 g, kv: 870 rpm/V, max_current: 22 A"
BENCH = "throttle_%,voltage_V,current_A,thrust_g\n0.5,11.1,9,600\n1,11.1,18,1000\n"


def with_spec(folder: Path, old: str, new: str, bench: str = "") -> Hangar:
    """The quiet hangar with one spec written otherwise."""
    assert SPECS.count(old) == 1
    return Hangar(
        folder,
        with_log("", **{SPEC: SPECS.replace(old, new), "bench/motor.csv": bench})
        if bench
        else with_log("", **{SPEC: SPECS.replace(old, new)}),
    )


@pytest.mark.parametrize(
    ("old", "new", "bench", "said"),
    [
        (ESC, f"{ESC}, burst_current: 20 A", "", "burst current 20 A of esc is less than"),
        (ESC, ESC.replace("28 g", "28 kg"), "", "is heavier than"),
        (MOTOR, f"{MOTOR}, bench: motor.csv", BENCH, "bench/motor.csv cannot be right"),
    ],
    ids=["burst", "mass", "bench"],
)
def test_a_sure_spec_is_not_doubted(
    tmp_path: Path, old: str, new: str, bench: str, said: str
) -> None:
    """Its figures, its mass, its thrust table; another spec still is."""
    plain = with_spec(tmp_path / "plain", old, new, bench)
    sure = with_spec(tmp_path / "sure", old, f"{new}, sure: true", bench)

    assert said in plain.check
    assert said not in sure.check


def test_a_hover_on_a_sure_motor_is_not_doubted(tmp_path: Path) -> None:
    """A table that lifts ten times the aircraft, and its keeper says that it does."""
    rows = "3,11.1,8,250\n4,11.1,9,300\n50,11.1,60,3000\n100,11.1,120,9000\n"
    bench = f"throttle_%,voltage_V,current_A,thrust_g\n{rows}"
    strong = f"{MOTOR.replace('22 A', '130 A')}, bench: motor.csv"
    plain = with_spec(tmp_path / "plain", MOTOR, strong, bench)
    sure = with_spec(tmp_path / "sure", MOTOR, f"{strong}, sure: true", bench)

    assert "sedge would hover at" in plain.check
    assert "sedge would hover at" not in sure.check


def test_sure_is_true_or_false(tmp_path: Path) -> None:
    """A slip of it is a problem, and silences nothing."""
    hangar = with_spec(tmp_path, ESC, f"{ESC}, burst_current: 20 A, sure: maybe")

    assert "problem: 'maybe' is neither true nor false" in hangar.check
