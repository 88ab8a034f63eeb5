"""The set-up sheet says when a check was last passed, its recurring test included."""

from pathlib import Path

from hangar_on_disk import Hangar, with_log

AGAIN = "- on: 2026-06-10\n  inspection: failsafe-again\n"


def test_a_later_failsafe_test_stands_on_the_set_up_sheet(tmp_path: Path) -> None:
    """Who asks when the failsafe was last proved is answered by the newest pass."""
    before = Hangar(tmp_path / "1", with_log("")).page("aircraft/sedge/set-up.html")
    after = Hangar(tmp_path / "2", with_log(AGAIN)).page("aircraft/sedge/set-up.html")

    assert "passed again" not in before
    assert "passed again 10 June 2026" in after
    assert "Failsafe ok 10 June 2026" not in before
    assert "Failsafe ok 10 June 2026" in after
