"""An aircraft that is being built: nothing comes round for it, but what happened to it is told."""

from pathlib import Path

import pytest
from hangar_on_disk import AIRCRAFT, LOGBOOK, Hangar, with_log

LOG = "aircraft/sedge/logbook.yaml"
DEFECT = "- {on: 2026-06-20, id: arm, defect: arm cracked}\n"
FELL = "- {on: 2026-06-20, incident: fell off the bench, severity: hard}\n"
WET = "- {on: 2026-06-20, water: tea over it}\n"
FAILED = "- {on: 2026-06-20, inspection: full-inspection, result: fail, findings: arm cracked}\n"


def building(entries: str) -> dict[str, str]:
    """Sedge before its first flight, all set-up checks passed."""
    return {
        **with_log(""),
        "aircraft/sedge/aircraft.yaml": AIRCRAFT.replace(
            "in_service: 2026-05-01", "status: building"
        ),
        LOG: LOGBOOK.split("- on: 2026-06-18")[0] + entries,
    }


@pytest.mark.parametrize(
    ("entry", "name", "why"),
    [
        (DEFECT, "defect", "arm cracked"),
        (FELL, "full-inspection", "re-opened: crash on 20 June 2026"),
        (FELL, "failsafe", "re-opened: crash on 20 June 2026"),
        (WET, "drying", "it got wet on 20 June 2026"),
        (FAILED, "full-inspection", "failed on 20 June 2026: arm cracked"),
    ],
)
def test_it_is_told_as_of_one_that_flies(tmp_path: Path, entry: str, name: str, why: str) -> None:
    """In due, whose exit status asks for it, and on the front page; it is still being built."""
    found = Hangar(tmp_path, building(entry))

    assert (3, "building") == (found.due[0], found.state())
    assert f"Sedge: {name.replace('-', ' ')}" in found.due[1]
    assert why in found.due[1]
    assert "nothing is due" not in found.page("index.html").casefold()
    assert "open or due; run: buildbook due" in found.check


@pytest.mark.parametrize(
    ("entry", "step"),
    [
        (DEFECT, "its defect arm is open; mend it before anything gets power, and say how"),
        (WET, "before anything gets power put right what asks for drying, and look again"),
        (FAILED, "before anything gets power put right what asks for full-inspection, and look"),
    ],
)
def test_the_next_step_is_to_mend_it(tmp_path: Path, entry: str, step: str) -> None:
    """Not to run a motor, nor to say that it flies."""
    found = Hangar(tmp_path, building(entry))

    assert f"Next for Sedge: {step}" in " ".join(found.check.split())
    assert "status: flying" not in found.check
    assert step in found.page("aircraft/sedge/index.html")[:3000].replace(
        "Its defect", "its defect"
    ).replace("Before any", "before any")


def test_what_was_mended_and_looked_at_is_told_no_more(tmp_path: Path) -> None:
    """And its last step is to say that it flies."""
    after = "- {on: 2026-06-20, cleared: arm, how: a new arm}\n"
    found = Hangar(tmp_path, building(DEFECT + after))

    assert 0 == found.due[0]
    assert "Nothing is open or due in this record.\n" in found.check
    assert "status: flying" in found.check


def test_nothing_comes_round_while_it_is_built(tmp_path: Path) -> None:
    """Not what was never done, nor what time alone would ask for."""
    found = Hangar(tmp_path, building(""))

    assert (0, []) == (found.due[0], found.reasons())
