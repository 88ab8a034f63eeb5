"""A3: a part without which the aircraft cannot be controlled came out and was not replaced."""

from pathlib import Path

import pytest
from hangar_on_disk import QUIET, Hangar, with_log


@pytest.mark.parametrize(
    ("tag", "lacks"),
    [("X-01", "receiver"), ("C-01", "controller"), ("F-01", "frame")],
)
def test_a_part_that_was_taken_out_grounds(tmp_path: Path, tag: str, lacks: str) -> None:
    """Removed and not replaced: said on every page, at the line of the removal."""
    hangar = Hangar(tmp_path, with_log(f"- remove: [{tag}]\n  on: 2026-06-19\n"))

    place = hangar.line("aircraft/sedge/logbook.yaml", f"remove: [{tag}]")
    assert ("grounded", f"no {lacks} fitted") == (hangar.state(), hangar.reasons()[0])
    assert f"Sedge: missing parts - failed no {lacks} fitted" in (hangar.due[1])
    assert [place] == [row["place"] for row in hangar.rows("missing-parts")]
    pages = ("aircraft/sedge/index.html", "due.html")
    assert [] == [page for page in pages if "Missing parts" not in hangar.page(page)]
    assert f"Sedge : no {lacks} fitted" in hangar.page("going-flying.html")
    assert f"No {lacks} fitted" in hangar.page("index.html")
    assert f"No {lacks} fitted. Unplug the pack. Fit what is missing" in hangar.page(
        "cards/sedge-field.html"
    )


def test_a_motor_that_was_taken_out_grounds_by_its_station(tmp_path: Path) -> None:
    """The station is named."""
    hangar = Hangar(tmp_path, with_log("- on: 2026-06-19\n  remove: [M-03]\n"))

    assert ("grounded", "rear-left: no motor fitted") == (hangar.state(), hangar.reasons()[0])


def test_what_was_never_recorded_is_not_missing(tmp_path: Path) -> None:
    """A keeper who tags no frame, receiver and ESC: one line, which grounds nothing."""
    log = QUIET["aircraft/sedge/logbook.yaml"].replace("frame: F-01, ", "")
    log = log.replace(", receiver: X-01", "")
    for number in range(1, 5):
        log = log.replace(f"esc: E-0{number}, ", "")
    hangar = Hangar(tmp_path, {**QUIET, "aircraft/sedge/logbook.yaml": log})

    assert ["no ESC was ever recorded"] == hangar.reasons()
    assert "grounded" != hangar.state()
