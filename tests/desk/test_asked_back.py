"""``enter`` asks back before a danger is written as if it were none."""

from pathlib import Path
from typing import Any

import pytest
from hangars import FILES, LOG, loft

ON_QUAD = """\
aircraft: Gnat
kind: multirotor
layout: quad-x
diagonal: 220 mm
programme: small-multirotor
status: {status}
stations:
  front-left: {{spin: ccw}}
  front-right: {{spin: cw}}
  rear-left: {{spin: cw}}
  rear-right: {{spin: ccw}}
"""


def quad(folder: Path, status: str = "building", log: str = "") -> Path:
    """A hangar with a quad beside the aeroplane, and its log."""
    return loft(
        folder,
        {
            "aircraft/gnat/aircraft.yaml": ON_QUAD.format(status=status),
            "aircraft/gnat/logbook.yaml": log,
        },
    )


def test_a_flight_of_what_is_grounded_is_asked_back(tmp_path: Path, run: Any) -> None:
    """What grounds it is named; written all the same, it is told first of all."""
    folder = loft(tmp_path / "loft")
    run("enter", "check", "heron", "failsafe", "fail", folder)

    asked = run("enter", "flight", "heron", "5:00", folder)
    written = run("enter", "flight", "heron", "5:00", "--sure", folder)
    again = run("enter", "flight", "heron", "5:00", folder)

    doubt = "doubt: Heron is grounded: failsafe: failed on 10 February 2026\n"
    assert ((1, True), 0, (1, True)) == (
        (asked.status, asked.err.startswith(doubt)),
        written.status,
        (again.status, again.err.startswith(doubt)),
    )
    assert "flown" not in asked.err
    assert "\nHeron is grounded (failsafe: failed on 10 February 2026)\n" in written.out


def test_who_never_wrote_a_check_is_asked_once(tmp_path: Path, run: Any) -> None:
    """Of checks that were never done; after that it is told, and nobody is asked."""
    folder = quad(tmp_path / "loft", "flying")

    asked = run("enter", "flight", "gnat", "5:00", folder)
    run("enter", "flight", "gnat", "5:00", "--sure", folder)
    later = run("enter", "flight", "gnat", "5:00", folder)

    assert "doubt: Gnat is grounded: motor screws at front-left: never done; receiver order:" in (
        asked.err
    )
    assert (1, 0, "") == (asked.status, later.status, later.err)
    assert "Gnat is grounded (motor screws at front-left: never done)" in later.out
    assert (
        "warning: gnat flown 2 times, and no check of it is written @" in run("check", folder).out
    )


def test_an_old_table_is_not_asked_about_checks(tmp_path: Path, run: Any) -> None:
    """Its flights were long ago."""
    folder, table = quad(tmp_path / "loft", "flying"), tmp_path / "old.csv"
    table.write_text("date,model,flight time\n2026-01-10,gnat,5:00\n2026-01-11,gnat,6:00\n")
    run("enter", "--from", table, "--hangar", folder)

    ran = run("enter", "--from", table, "--hangar", folder)

    assert (0, "") == (ran.status, ran.err)


@pytest.mark.parametrize(
    ("first", "words", "said"),
    [
        (("failsafe", "fail", "failsafe=motors kept turning"),
         ("failsafe", "pass", "failsafe=motors kept turning"),
         "failsafe: failed, link lost, the motor keeps running"),
        (("failsafe", "fail", "failsafe=motors kept turning"), ("failsafe", "pass"),
         "failsafe: failed, link lost, the motor keeps running"),
        (("throttle-cut", "fail", "cut=nothing happened"),
         ("throttle-cut", "pass", "cut=Nothing happened"),
         "throttle cut: open, passed with the reading that failed on 10 February 2026"),
        (("arming", "pass"), ("low-voltage-alarm", "pass", "shown=16.2", "meter=15.1"),
         "low voltage alarm: failed, pack voltage shown read as 16.2 V, by meter 15.1 V"),
        (("arming", "pass"),
         ("start-spread", "pass", "front-left=15", "front-right=5", "rear-left=5", "rear-right=5"),
         "start spread at front-left: open, start read as 15 %, the others about 5 %"),
    ],
)  # fmt: skip
def test_a_pass_that_does_not_count_says_why(
    tmp_path: Path, run: Any, first: tuple[str, ...], words: tuple[str, ...], said: str
) -> None:
    """Of what is being built too, of which nothing is due."""
    folder = quad(tmp_path / "loft")
    assert 0 == run("enter", "check", "gnat", *first, folder).status

    ran = run("enter", "check", "gnat", *words, folder)

    assert (1, True) == (ran.status, f"doubt: gnat: {said}" in " ".join(ran.err.split()))


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("corrects", "heron", "bad", "result=pass"), "is a pass by its correction"),
        (("voids", "heron", "bad"), "is voided"),
    ],
)
def test_a_failed_check_is_not_taken_back_unasked(
    tmp_path: Path, run: Any, words: tuple[str, ...], said: str
) -> None:
    """With what it read; a keeper who is sure is asked no more."""
    failed = (
        "- on: 2026-02-09\n  id: bad\n  check: failsafe\n  result: fail\n"
        "  readings: {motors: ran on}\n"
    )
    folder = loft(tmp_path / "loft", {LOG: FILES[LOG] + failed})

    ran = run("enter", *words, "--because", "a slip", folder)
    run("enter", *words, "--because", "a slip", "--sure", folder)

    assert f"doubt: failsafe failed on 2026-02-09 (motors ran on), and {said}" in ran.err
    assert "failsafe failed" not in run("check", folder).out


@pytest.mark.parametrize(
    "words",
    [("check", "heron", "failsafe", "pass"), ("defect", "heron", "hinge cracked")],
)
def test_the_same_check_or_defect_again_is_asked_back(
    tmp_path: Path, run: Any, words: tuple[str, ...]
) -> None:
    """Of one day, word for word; with another word it is another."""
    folder = loft(tmp_path / "loft")
    first = run("enter", *words, folder)

    again = run("enter", *words, folder)
    other = run("enter", *words, "--note", "by hand", "--on", "2026-02-09", folder)

    assert ("", 0) == (first.err, other.status)
    assert "doubt: the same is written of 2026-02-10 already\n" in again.err


def test_a_failed_check_is_in_sight_while_it_is_built(tmp_path: Path, run: Any) -> None:
    """Nothing is due of such a one, so check and due say it beside its name."""
    folder = quad(tmp_path / "loft")
    quiet = [run(command, folder).out for command in ("check", "due")]
    run("enter", "check", "gnat", "failsafe", "fail", folder)

    told = [run(command, folder).out for command in ("check", "due")]

    words = "Gnat: Failed, and not passed since: failsafe."
    assert ([False, False], [True, True]) == (
        [words in one for one in quiet],
        [words in one for one in told],
    )
