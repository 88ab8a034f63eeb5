"""A recorded danger that a later word takes back is doubted, as a failed look is."""

from pathlib import Path

import pytest
from hangar_on_disk import Hangar, with_log

LOG = "aircraft/sedge/logbook.yaml"
INCIDENT = "- {on: 2026-06-19, id: x, incident: into the hedge, severity: hard, packs: [P-01]}\n"
CRASH = "- {on: 2026-06-19, id: x, flight: 2:10, pack: P-01, landing: crash}\n"
WATER = "- {on: 2026-06-19, id: x, water: in the pond, packs: [P-01]}\n"
NOTICED = "- {on: 2026-06-19, id: x, flight: 2:10, pack: P-01, noticed: [link lost]}\n"
DEFECT = "- {on: 2026-06-19, id: x, defect: arm cracked}\n"
VOID = "- {on: 2026-06-20, voids: x, because: slip%s}\n"
CORRECT = "- {on: 2026-06-20, corrects: x, because: slip, set: {%s}}\n"


@pytest.mark.parametrize(
    ("was", "word", "said"),
    [
        (INCIDENT, VOID % "", "crash of 2026-06-19 is voided"),
        (
            INCIDENT,
            CORRECT % "severity: light",
            "crash of 2026-06-19 is none by its correction",
        ),
        (CRASH, CORRECT % "landing: normal", "crash of 2026-06-19 is none by its correction"),
        (WATER, VOID % "", "water of 2026-06-19 is voided"),
        (NOTICED, VOID % "", "link lost of the flight of 2026-06-19 is voided"),
        (DEFECT, VOID % "", "defect 'arm cracked' of 2026-06-19, which grounded, is voided"),
        (
            DEFECT,
            CORRECT % "severity: note",
            "defect 'arm cracked' of 2026-06-19, which grounded, is milder by its correction",
        ),
    ],
)
def test_it_is_a_warning_at_the_word(tmp_path: Path, was: str, word: str, said: str) -> None:
    """With the place of what was written first."""
    hangar = Hangar(tmp_path, with_log(was + word))
    places = f"{hangar.line(LOG, ': x, because')}, and {hangar.line(LOG, 'id: x')}"

    assert f"warning: {said} @ {places}\n" in hangar.check


@pytest.mark.parametrize(
    ("was", "word"),
    [
        (INCIDENT, VOID % ", sure: true"),
        (INCIDENT, CORRECT % "severity: total"),
        (CRASH, CORRECT % "flight: 2:20"),
        (INCIDENT.replace("hard, packs: [P-01]", "light"), VOID % ""),
        (DEFECT.replace("}", ", severity: note}"), VOID % ""),
    ],
)  # fmt: skip
def test_not_of_one_that_is_sure_or_stays_as_bad(tmp_path: Path, was: str, word: str) -> None:
    """Nor of what grounded nothing."""
    assert "is voided" not in (said := Hangar(tmp_path, with_log(was + word)).check)
    assert "by its correction" not in said
