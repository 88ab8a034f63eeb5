"""Readings of a check that passed and contradict themselves."""

from pathlib import Path

import pytest
from hangar_on_disk import Hangar, with_log, with_text

CHECK = (
    "- on: 2026-06-19\n  check: low-voltage-alarm\n  result: pass\n"
    "  readings: {{alarm: 3.6 V a cell, shown: {} V, meter: {} V}}\n"
)


@pytest.mark.parametrize(
    ("shown", "meter", "rows"), [(11.9, 11.1, 1), (11.92, 11.90, 0), (11.10, 11.32, 0)]
)
def test_a_voltage_shown_is_held_against_the_meter(
    tmp_path: Path, shown: float, meter: float, rows: int
) -> None:
    """0.8 V too much, and the alarm is as late: failed whatever pass was written; 2 % is quiet."""
    hangar = Hangar(tmp_path, with_log(CHECK.format(shown, meter)))

    assert ["failed"] * rows == [row["state"] for row in hangar.rows("low-voltage-alarm")]
    if rows:
        said = "low voltage alarm: failed, pack voltage shown read as 11.9 V, by meter 11.1 V"
        assert ([said], 3) == (hangar.reasons(), hangar.due[0])


@pytest.mark.parametrize(
    ("far", "reasons"),
    [("3 m", ["range: failed, distance read as 3 m, asked are 30 m"]),
     ("19 paces", ["range: failed, distance read as 19 paces, asked are 30 m"]),
     ("40 ft", ["range: failed, distance read as 40 ft, asked are 30 m"]),
     ("15 m", []), ("20 paces", []), ("to the gate", [])],
)  # fmt: skip
def test_a_range_far_under_what_its_check_asks_is_no_pass(
    tmp_path: Path, far: str, reasons: list[str]
) -> None:
    """The maker may ask for less than the 30 m of the check, but hardly for less than half."""
    passed = f"- on: 2026-06-19\n  check: range\n  result: pass\n  readings: {{distance: {far}}}\n"
    hangar = Hangar(tmp_path, with_log(passed))

    assert (reasons, "grounded" if reasons else "nothing open") == (
        hangar.reasons(),
        hangar.state(),
    )
    assert bool(reasons) == (f"warning: sedge: distance read as {far}, asked" in hangar.check)


def test_a_range_in_paces_is_held_against_the_one_before(tmp_path: Path) -> None:
    """Twenty-five after sixty: far enough for the check, and less than half of what it was."""
    ranges = "".join(
        f"- on: 2026-06-1{day}\n  check: range\n  result: pass\n  readings: {{distance: {far}}}\n"
        for day, far in ((7, "60 paces"), (8, "25 paces"))
    )

    assert ["range read 18.75 m, 45 m the time before"] == (
        Hangar(tmp_path, with_log(ranges)).reasons()
    )


SPINS = (
    "- on: 2026-06-19\n  check: spin-directions\n  result: pass\n"
    "  readings: {front-left: cw, front-right: cw, rear-left: cw, rear-right: ccw}\n"
)


@pytest.mark.parametrize("status", ["flying", "building"])
def test_check_tells_a_spin_that_was_read_against_the_plan(tmp_path: Path, status: str) -> None:
    """At the entry that passed it, while it is built as well; two that agree say nothing."""
    turned = with_text("aircraft/sedge/aircraft.yaml", "kind:", f"status: {status}\nkind:", SPINS)
    hangar = Hangar(tmp_path / "turned", turned)
    said = "warning: sedge: front-left: spin read as cw, planned ccw"
    told = [line for line in hangar.check.splitlines() if "planned" in line]
    place = hangar.line("aircraft/sedge/logbook.yaml", "front-left: cw, front-right")

    assert [f"{said} @ {place.rpartition(':')[0]}:{int(place.rpartition(':')[2]) - 3}"] == told


def test_due_leads_to_the_warnings_of_the_records(tmp_path: Path) -> None:
    """A charge at -3 °C opens no row; whoever runs due alone is told where more is said."""
    cold = "- {on: 2026-06-20, charge: P-01, to: part, temperature: -3 °C}\n"
    files = with_text("parts/specs.yaml", "capacity: 2200 mAh", "capacity: 2200 mAh")
    hangar = Hangar(tmp_path, {**files, "stores/cold.yaml": cold})

    assert hangar.due[1].endswith(" There are warnings in the records: buildbook check")
    assert "warning: " in hangar.check


def test_due_leads_to_every_warning_of_check(tmp_path: Path) -> None:
    """Flown while something was open, or waiting without a limit: worked out, and said."""
    open_ended = "- {on: 2026-06-20, id: crack, defect: canopy cracked, severity: defer}\n"
    warned = Hangar(tmp_path / "warned", with_log(open_ended))
    quiet = Hangar(tmp_path / "quiet", with_log(""))

    assert warned.check.startswith("warning: defect crack is deferred without a limit")
    assert warned.due[1].endswith(" There are warnings in the records: buildbook check")
    assert "warning: " not in quiet.check
    assert "There are warnings" not in quiet.due[1]


def test_a_bare_voltage_and_feet_are_read(tmp_path: Path) -> None:
    """As people write them: an alarm of 2.8 is 2.8 V, and 55 ft after 150 ft are less than half."""
    ranges = "".join(
        f"- on: 2026-06-1{day}\n  check: range\n  result: pass\n"
        f"  readings: {{distance: {far} ft}}\n"
        for day, far in ((7, 150), (8, 55))
    )
    alarm = (
        "- on: 2026-06-19\n  check: low-voltage-alarm\n  result: pass\n  readings: {alarm: 2.8}\n"
    )
    hangar = Hangar(tmp_path, with_log(ranges + alarm))

    assert [
        "low voltage alarm sounds at 2.80 V a cell, lowest of P-01 is 3.00 V",
        "range read 16.76 m, 45.72 m the time before",
    ] == hangar.reasons()


def test_a_reading_that_no_rule_can_read_is_told(tmp_path: Path) -> None:
    """Else it stands there as if it were judged; prose is left alone."""
    checks = (
        "- on: 2026-06-19\n  check: range\n  result: pass\n  readings: {distance: 60 paces}\n"
        "- on: 2026-06-20\n  check: range\n  result: pass\n  readings: {distance: 45yd}\n"
    )
    hangar = Hangar(tmp_path, with_log(checks))

    (told,) = [line for line in hangar.check.splitlines() if line.startswith("warning: ")]
    assert (
        "warning: sedge: 'distance: 45yd' can't be read, and is not judged"
        f" @ {hangar.line('aircraft/sedge/logbook.yaml', '- on: 2026-06-20')}"
    ) == told


def test_a_pass_that_read_three_of_four_motors_is_of_those(tmp_path: Path) -> None:
    """The one that was not read stays open; a pass without a reading is of all."""
    rewired = "- on: 2026-06-19\n  repair: new leads\n  rewired: [front-left, rear-right]\n"
    some = SPINS.replace("front-left: cw", "front-left: ccw").replace(", rear-right: ccw", "")
    whole = some.partition("  readings")[0]
    left, none = (Hangar(tmp_path / name, with_log(rewired + log)) for name, log in (
        ("some", some), ("whole", whole)
    ))  # fmt: skip

    assert (["rear-right"], []) == (
        [row["station"] for row in left.rows("spin-directions")],
        none.rows("spin-directions"),
    )


SHORT = "- {on: 2026-06-19, check: range, result: %s, readings: {distance: 12 m}}\n"
AGAIN = "- {on: 2026-06-20, check: range, result: pass%s}\n"


@pytest.mark.parametrize(
    ("before", "again", "open_"),
    [
        ("pass", ", readings: {distance: to the gate}", True),
        ("fail", ", readings: {distance: to the gate}", True),
        ("pass", "", True),
        ("fail", "", True),
        ("pass", ", readings: {distance: 31 m}", False),
        ("pass", ", readings: {distance: to the gate}, sure: true", False),
    ],
)
def test_a_range_that_was_too_short_is_read_again(
    tmp_path: Path, before: str, again: str, open_: bool
) -> None:
    """A place is no distance, and a pass without one takes back none that spoke against it."""
    hangar = Hangar(tmp_path, with_log(SHORT % before + AGAIN % again))
    said = "range: open, passed without the reading that failed on 19 June 2026: distance 12 m"

    assert ([said] if open_ else []) == hangar.reasons()


def test_a_range_to_a_place_alone_is_the_keepers_word(tmp_path: Path) -> None:
    """As a pass without any distance is; after a repair the one that was too short is of before."""
    place = AGAIN % ", readings: {distance: to the gate}"
    mended = SHORT % "pass" + "- {on: 2026-06-20, repair: aerial laid anew}\n" + place

    assert [] == Hangar(tmp_path / "alone", with_log(place)).rows("range")
    assert [] == Hangar(tmp_path / "mended", with_log(mended)).rows("range")


def test_a_spin_that_spoke_against_a_pass_is_read_again(tmp_path: Path) -> None:
    """The next pass says nothing of it; once the leads were swapped it was mended."""
    wrong = "- {on: 2026-06-19, check: spin-directions, result: pass, readings: {front-left: cw}}\n"
    pass_ = "- {on: 2026-06-20, check: spin-directions, result: pass}\n"
    swapped = "- {on: 2026-06-20, note: two leads changed, rewired: [front-left]}\n"
    said = "open, passed without the reading that failed on 19 June 2026: front-left cw"

    found = Hangar(tmp_path / "again", with_log(wrong + pass_))
    assert [f"spin directions at front-left: {said}"] == found.reasons()
    assert [] == Hangar(tmp_path / "mended", with_log(wrong + swapped + pass_)).rows(
        "spin-directions"
    )
