"""A defect that grounded and is closed by a bare line: what was done is asked for."""

from pathlib import Path

import pytest
from hangar_on_disk import Hangar, with_log

LOG = "aircraft/sedge/logbook.yaml"
CRACKED = "- {on: 2026-06-19, id: arm, defect: arm cracked%s}\n"
SAID = "'arm cracked' grounded, and is cleared without a word of how"


def cleared(more: str, severity: str = "") -> dict[str, str]:
    """The quiet hangar with a defect that was cleared in that way."""
    return with_log(CRACKED % severity + f"- {{on: 2026-06-20, cleared: arm{more}}}\n")


def test_it_is_a_warning_at_its_line(tmp_path: Path) -> None:
    """With the place of the defect."""
    found = Hangar(tmp_path, cleared(""))
    place = found.line(LOG, "cleared: arm")

    assert f"warning: {SAID} @ {place}, and {found.line(LOG, 'defect: arm')}\n" in found.check


@pytest.mark.parametrize(
    ("more", "severity"),
    [
        (", how: arm replaced", ""),
        (", note: arm replaced", ""),
        (", sure: true", ""),
        ("", ", severity: note"),
    ],
)
def test_not_of_one_that_says_it_or_did_not_ground(
    tmp_path: Path, more: str, severity: str
) -> None:
    """In whatever key; only what grounded wants it."""
    assert SAID not in Hangar(tmp_path, cleared(more, severity)).check


def test_enter_asks_for_it(tmp_path: Path) -> None:
    """Before the line is written; with what was done it asks nothing."""
    found = Hangar(tmp_path, with_log(CRACKED % ""))
    words = (
        "enter",
        "--hangar",
        str(found.folder),
        "--on",
        "2026-06-20",
        "cleared",
        "sedge",
        "arm",
    )

    assert SAID in found.run(*words)[1]
    assert "cleared: arm" not in (found.folder / LOG).read_text("utf-8")
    assert 0 == found.run(*words, "replaced")[0]


LOOK = "- {on: 2026-06-19, id: far, check: range, result: fail, readings: {distance: 20 m}%s}\n"


@pytest.mark.parametrize(
    ("look", "more", "doubted"),
    [
        (LOOK % "", "", True),
        (LOOK % "", ", how: new aerial", False),
        (LOOK % "", ", sure: true", False),
        (LOOK % ", severity: note", "", False),
    ],
)
def test_of_a_failed_look_as_well(tmp_path: Path, look: str, more: str, doubted: bool) -> None:
    """It grounded until then."""
    found = Hangar(tmp_path, with_log(look + f"- {{on: 2026-06-20, cleared: far{more}}}\n"))
    said = (
        "warning: range failed, and is cleared without a word of how"
        f" @ {found.line(LOG, 'cleared: far')}, and {found.line(LOG, 'id: far')}\n"
    )

    assert doubted == (said in found.check)
