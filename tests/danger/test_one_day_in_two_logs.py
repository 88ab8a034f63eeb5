"""What was written twice of a day, and what nobody can put in order."""

from pathlib import Path

import pytest
from hangar_on_disk import PACK, Hangar, with_log

TWICE = {
    "alteration": "alteration: receiver moved aft, radio: {memory: 4}",
    "repair": "repair: glued the arm",
    "defect": "defect: arm cracked, item: F-01",
    "incident": "incident: fell over, severity: light",
}


@pytest.mark.parametrize("kind", TWICE)
@pytest.mark.parametrize(
    ("second", "doubted"), [("", True), (", note: again", True), (", sure: true", False)]
)
def test_what_is_done_once_and_written_twice(
    tmp_path: Path, kind: str, second: str, doubted: bool
) -> None:
    """The same day and the same words, a remark apart; another word is another thing."""
    entry = f"- {{on: 2026-06-19, {TWICE[kind]}}}\n"
    hangar = Hangar(tmp_path, with_log(entry + entry.replace("}\n", f"{second}}}\n")))
    said = f"the same {kind} of 2026-06-19 is written twice @ aircraft/sedge/logbook.yaml:25"

    assert doubted == (said in hangar.check)


def test_two_repairs_of_a_day_are_two(tmp_path: Path) -> None:
    """Nobody is asked, nor of one that was voided."""
    one = "- {on: 2026-06-19, id: a, repair: glued the arm}\n"
    other = one.replace("id: a", "id: b")
    left = Hangar(tmp_path / "other", with_log(one + other.replace("arm", "leg")))
    voided = "- {on: 2026-06-20, voids: b, because: written twice}\n"
    taken_back = Hangar(tmp_path / "voided", with_log(one + other + voided))

    assert "written twice @" not in left.check
    assert "written twice @" not in taken_back.check


LOW = "- {on: 2026-06-20%s, flight: 8:00, pack: P-01, volts: {lowest: 8.4 V}}\n"
LOOK = "- {on: 2026-06-20%s, inspection: pack-look, tags: [P-01]}\n"


@pytest.mark.parametrize(
    ("flown", "looked", "rows"),
    [
        ("", "", 1),
        ("", "T09:00", 1),
        ("T11:00", "T09:00", 1),
        ("T11:00", "T12:00", 0),
        ("T11:00", "", 1),
    ],
)
def test_a_look_on_the_day_of_a_low_flight(
    tmp_path: Path, flown: str, looked: str, rows: int
) -> None:
    """It may have been that before the flight, unless both say when: then the row says so."""
    hangar = Hangar(tmp_path, with_log(LOW % flown, **{"stores/p-01.yaml": PACK + LOOK % looked}))

    assert rows == len(hangar.rows("flown-low"))
    if rows:
        assert "as pack-look; on the day of the flight with the times of both" in hangar.due[1]


def test_a_look_below_the_flight_in_its_own_log_or_on_a_later_day_closes_it(tmp_path: Path) -> None:
    """There the order is plain."""
    below = Hangar(tmp_path / "below", with_log(LOW % "" + LOOK % ""))
    flown = (LOW % "").replace("06-20", "06-19")
    later = Hangar(tmp_path / "later", with_log(flown, **{"stores/p-01.yaml": PACK + LOOK % ""}))

    assert [] == below.rows("flown-low") + later.rows("flown-low")
