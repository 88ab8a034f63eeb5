"""What ``enter`` says after an incident, water or a defect: what is grounded and set aside now."""

from pathlib import Path

import pytest
from hangar_on_disk import Hangar, with_log

FLOWN = "- {on: 2026-06-20, flight: 5:00, pack: P-01}\n"
DEFECT = "- {on: 2026-06-20, defect: arm cracked}\n"


def entered(folder: Path, log: str, *words: str) -> str:
    """What is printed, white space made one."""
    found = Hangar(folder, with_log(log))
    at = ("enter", "--hangar", str(found.folder), "--on", "2026-06-20")
    status, said = found.run(*at, *words)
    assert 0 == status, said
    return " ".join(said.split())


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("incident", "sedge", "into the hedge"), "it was in a crash on 20 June 2026"),
        (("water", "sedge", "in the pond"), "it got wet on 20 June 2026"),
    ],
)
def test_the_pack_aboard_is_told_though_it_is_not_named(
    tmp_path: Path, words: tuple[str, ...], why: str
) -> None:
    """It was that of the flight of that day."""
    said = entered(tmp_path, FLOWN, *words)

    assert f"pack P-01 had nothing open, is quarantined (P-01 is set aside: {why})" in said
    assert "Sedge had nothing open, is grounded" in said


@pytest.mark.parametrize(
    "words", [("incident", "sedge", "fell", "--sure"), ("defect", "sedge", "leg bent")]
)
def test_one_that_was_grounded_before_is_said_to_be(tmp_path: Path, words: tuple[str, ...]) -> None:
    """Nothing changed in that, and it is what matters next."""
    said = entered(tmp_path, DEFECT, *words)

    assert "Sedge is grounded (defect: grounds, found on 20 June 2026)" in said


MOTOR = """\
- {on: 2026-06-19, fit: {front-left: {motor: M-05}}, instead_of: {M-01: serviceable}}
- on: 2026-06-19
  check: [motor-screws, spin-directions, propeller-fit, start-spread, propeller-balance]
  result: pass
- {on: 2026-06-20, flight: 5:00, pack: P-01}
"""


def test_each_flight_before_the_check_flight_is_asked_back(tmp_path: Path) -> None:
    """Not the first alone; the check flight itself is not."""
    found = Hangar(tmp_path, with_log(MOTOR))
    words = ("enter", "--hangar", str(found.folder), "--on", "2026-06-20", "flight", "sedge")
    status, said = found.run(*words, "5:10", "P-01")

    assert 1 == status
    assert "flown on 2026-06-20 before the check flight asked for by fit motor" in said
    assert "and 1 more time @" in Hangar(
        tmp_path / "two", with_log(MOTOR + FLOWN.replace("5:00", "5:10"))
    ).check  # fmt: skip
    assert 0 == found.run(*words, "5:10", "P-01", "--purpose", "check", "--result", "pass")[0]


def test_a_look_at_a_quarantined_pack_says_what_ends_that(tmp_path: Path) -> None:
    """It passed, and releases nothing where the keeper set it aside himself."""
    own = "- {on: 2026-06-19, state: {P-01: quarantined}, because: smelled odd}\n"
    said = entered(tmp_path, own, "inspection", "P-01", "pack-look")

    ends = "only state: serviceable with because: releases it"
    assert f"pack P-01 stays quarantined: {ends}" in said
