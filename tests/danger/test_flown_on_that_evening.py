"""A hard landing within a list of flights: those after it in the list were flown after it."""

from pathlib import Path

from hangar_on_disk import Hangar, with_log
from test_flown_while_tasks import ARMS, LOG, own

EVENING = "- on: 2026-06-19\n  flights: [[5:00, P-01], [5:00, P-01, {how}], [5:00], [5:10]]\n"
OPEN = "sensors-answer, failsafe, range and propeller-fit"


def evening(how: str) -> str:
    """Four flights in one entry, the second of which came down in that way."""
    return EVENING.format(how=how)


def test_the_flights_after_it_in_the_list_count(tmp_path: Path) -> None:
    """Two of the same evening and the one of the next day; not the ones up to the landing."""
    log = evening("hard") + "- on: 2026-06-20\n  flight: 5:00\n"
    hangar = Hangar(tmp_path / "next", with_log(log))
    alone = Hangar(tmp_path / "alone", with_log(evening("hard")))
    last = Hangar(tmp_path / "last", with_log(evening("normal").replace("5:10", "5:10, hard")))
    line = hangar.line(LOG, "[5:00, P-01, hard]")

    whole = f"flown 3 times while {OPEN} were open, 2026-06-19 to 2026-06-20 @ {line}\n"
    assert whole in hangar.check
    assert f"flown 2 times while {OPEN} were open, on 2026-06-19 @ {line}\n" in alone.check
    assert "while" not in last.check
    assert "flown before the check flight; while" in alone.page("aircraft/sedge/logbook.html")
    assert "flown before the check" not in last.page("aircraft/sedge/logbook.html")


def test_the_check_flight_that_it_asked_for_was_not_flown_before_them(tmp_path: Path) -> None:
    """Said with one place, for both are on the same line."""
    hangar = Hangar(tmp_path, with_log(evening("hard")))
    line = hangar.line(LOG, "[5:00, P-01, hard]")

    assert (
        "sedge flown on 2026-06-19 before the check flight asked for by hard landing of"
        f" 2026-06-19, and 1 more time @ {line}\n"
    ) in hangar.check


def test_a_task_that_grounds_after_it(tmp_path: Path) -> None:
    """The same for a look that a hard landing asks for."""
    programme = ARMS.replace("setting arm_lock", "hard landing").replace("flights: 3", "years: 4")
    log = "- on: 2026-06-19\n  inspection: arm-look\n" + evening("hard")
    hangar = Hangar(tmp_path, own(log, programme))
    line = hangar.line(LOG, "[5:00, P-01, hard]")

    assert (
        "sedge flown 2 times while sensors-answer, failsafe, range, propeller-fit and arm-look"
        f" were open, on 2026-06-19 @ {line}\n"
    ) in hangar.check
