"""Twice the log is twice the work, not four times: counted in calls, not in seconds."""

import cProfile
import pstats

from programmes import WHOLE, built, check, hangar, limit, programme, task
from written_logs import Log

from buildbook.upkeep.work_list import work_list

CLUB = programme(
    check("spin-directions", "fit motor, crash", per="motor station"),
    check("failsafe", "crash, idle 90 days"),
    task("look", {"flights": 25, "months": 6}, also_after="hard landing"),
    task("bearings", {"flights": 25, "hours": 5}, "motor", also_after="hard landing"),
    task("pack-resistance", {"charges": 20, "cycles": 20}, "battery"),
    limit("pack-out", "battery", cycles=300, years=4),
)


def calls(times: int) -> int:
    """Function calls that the work list takes after so many rounds of flying and work."""
    log = built(Log("aircraft/a"))
    for number in range(times):
        day = f"2026-{1 + number % 12:02d}-{1 + number // 12 % 28:02d}"
        log.flight(day, packs="P-1", used_ah=1.2, landing="hard" if number % 5 == 0 else "normal")
        log.charge(day, "P-1", 1.2, resistance_ohm=(0.008, 0.008))
        log.check(day, "spin-directions")
        log.inspection(day, "bearings")
        log.inspection(day, "look")
    now = hangar([log], [CLUB], items=[*WHOLE, "P-1"])
    profile = cProfile.Profile()
    profile.enable()
    work_list(now)
    profile.disable()
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


def test_the_work_grows_with_the_log_and_no_faster() -> None:
    """Four times the log, at most four and a half times the calls."""
    assert calls(320) < 4.5 * calls(80)
