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

    assert f"pack P-01 was nothing open, is quarantined (P-01 is set aside: {why})" in said
    assert "Sedge was nothing open, is grounded" in said


@pytest.mark.parametrize(
    "words", [("incident", "sedge", "fell", "--sure"), ("defect", "sedge", "leg bent")]
)
def test_one_that_was_grounded_before_is_said_to_be(tmp_path: Path, words: tuple[str, ...]) -> None:
    """Nothing changed in that, and it is what matters next."""
    said = entered(tmp_path, DEFECT, *words)

    assert "Sedge is grounded (defect: grounds, open for 0 days, found on 20 June 2026)" in said
