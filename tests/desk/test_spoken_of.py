"""Entries about others say of which: what is corrected, voided, taken back, and of which part."""

from pathlib import Path
from typing import Any

import pytest
from hangars import loft

FLOWN = (
    "2026-02-08 flights [[6:00, P-1, 1400 mAh], [7:00, P-2, 1500 mAh]]"
    " (aircraft/heron/logbook.yaml)"
)


@pytest.fixture
def hangar(tmp_path: Path) -> Path:
    """One aircraft, a motor, three packs."""
    return loft(tmp_path / "loft")


def after(out: str, line: str) -> str:
    """What is printed after a line, with folded lines joined."""
    return " ".join(out.partition(f"{line}\n")[2].split())


def test_a_void_says_what_it_voids(hangar: Path, run: Any) -> None:
    """One wrong digit in the name would be seen."""
    ran = run(
        "enter", "voids", "heron", "2026-02-08-1", "--because", "twice", "--dry-run", hangar
    )  # fmt: skip

    assert f"voided: {FLOWN} Nothing was written." == after(ran.out, "    because: twice")


def test_a_correction_takes_keys_with_values(hangar: Path, run: Any) -> None:
    """Their usual units too, as words or as options; the entry stands beside."""
    run("enter", "flight", "heron", "6:10", "P-3", "910", "--sure", hangar)

    ran = run(
        "enter", "corrects", "heron", "2026-02-10-1", "used=190", "landing=hard",
        "--handling", "calm", "--because", "misread", "--sure", hangar,
    )  # fmt: skip

    assert (0, "") == (ran.status, ran.err)
    assert "    set: {used: 190 mAh, landing: hard, handling: calm}" in ran.out.splitlines()
    assert after(ran.out, "    because: misread").startswith(
        "assumed: 190 → 190 mAh corrected: 2026-02-10 flight 6:10, pack P-3, used 910 mAh"
    )


def test_what_is_taken_back_is_shown(hangar: Path, run: Any) -> None:
    """After an entry that was refused, another than the keeper thinks of may be the last."""
    run("enter", "note", "heron", "calm", hangar)
    assert 1 == run("enter", "fit", "heron", "nose.motor=M-7", hangar).status

    ran = run("enter", "--undo", hangar)

    assert (
        "took back aircraft/heron/logbook.yaml: 2026-02-10-1\n"
        "  - on: 2026-02-10\n    id: 2026-02-10-1\n    note: calm\n"
    ) == ran.out


def test_a_note_says_of_which_part_it_is(hangar: Path, run: Any) -> None:
    """A store file may hold several: else nobody knows later what ran hot."""
    ran = run("enter", "note", "P-2", "runs hot", hangar)

    assert ["    note: runs hot", "    item: P-2"] == ran.out.splitlines()[3:5]
    assert "P-2, note of 10 February 2026: runs hot" in run("due", hangar).out


def test_a_day_out_of_order_is_no_doubt_of_later_entries(hangar: Path, run: Any) -> None:
    """The keeper is told by check; what comes next is not to blame."""
    log = hangar / "aircraft/heron/logbook.yaml"
    lines = "- {on: 2026-02-09, note: late}\n- {on: 2026-02-01, note: one}\n"
    log.write_text(f"{log.read_text()}{lines}- {{on: 2026-02-03, note: two}}\n")

    ran = run("enter", "note", "heron", "three", "--on", "2026-02-03", hangar)

    assert (0, "") == (ran.status, ran.err)
    assert "and so are 2 more below it" in run("check", hangar).out


def test_a_pack_of_other_cells_is_asked_back(hangar: Path, run: Any) -> None:
    """It may be the flight of another aircraft; the first flight of all has no other to be like."""
    specs, items = hangar / "parts/specs.yaml", hangar / "parts/items.yaml"
    specs.write_text(
        f"{specs.read_text()}- {{spec: q, kind: battery, cells: 4S, capacity: 3000 mAh}}\n"
    )
    items.write_text(f"{items.read_text()}- {{tag: Q-1, spec: q, acquired: 2026-01-02}}\n")

    log = (hangar / "aircraft/heron/logbook.yaml").read_bytes()
    asked = run("enter", "flight", "heron", "6:00", "Q-1", hangar)
    assert (1, log) == (asked.status, (hangar / "aircraft/heron/logbook.yaml").read_bytes())
    assert "doubt: Q-1 has 4 cells, heron flew on 3 before\n" in asked.err

    ran = run("enter", "flight", "heron", "6:00", "Q-1", "--sure", hangar)
    again = run("enter", "flight", "heron", "6:05", "Q-1", "--sure", hangar)

    assert 0 == ran.status
    assert "heron flew on 3 before" in ran.out + ran.err
    assert 0 == again.status
    assert "cells" not in again.out + again.err


def test_an_inspection_entered_as_a_check_is_asked_back(hangar: Path, run: Any) -> None:
    """It would close what the inspection covers, and not its own failure."""
    ran = run("enter", "check", "heron", "motor-bearings", "pass", hangar)
    sure = run("enter", "check", "heron", "motor-bearings", "pass", "--sure", hangar)
    check = run("enter", "check", "heron", "failsafe", "pass", hangar)

    assert 1 == ran.status
    assert (
        "doubt: 'motor-bearings' is an inspection, not a check\n"
        "    write enter inspection and motor-bearings\n"
    ) in ran.err
    assert (0, 0) == (sure.status, check.status)
    assert "not a check" not in run("check", hangar).out
