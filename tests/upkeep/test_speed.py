"""Twice the log is twice the work, not four times: counted in calls, not in seconds."""

import cProfile
import pstats
from collections.abc import Callable
from typing import Any

from programmes import WHOLE, built, check, hangar, limit, programme, task
from written_logs import Log

from buildbook.upkeep.warnings.problems import warnings_of
from buildbook.upkeep.work_list import work_list

CLUB = programme(
    check("spin-directions", "fit motor, crash", per="motor station"),
    check("failsafe", "crash, idle 90 days"),
    task("look", {"flights": 25, "months": 6}, also_after="hard landing"),
    task("bearings", {"flights": 25, "hours": 5}, "motor", also_after="hard landing"),
    task("pack-resistance", {"charges": 20, "cycles": 20}, "battery"),
    limit("pack-out", "battery", cycles=300, years=4),
)


def calls(times: int) -> tuple[int, int]:
    """Function calls that work list and warnings take after so many rounds of flying and work."""
    log = built(Log("aircraft/a"))
    for number in range(times):
        day = f"2026-{1 + number % 12:02d}-{1 + number // 12 % 28:02d}"
        log.flight(day, packs="P-1", used_ah=1.2, landing="hard" if number % 5 == 0 else "normal")
        log.charge(day, "P-1", 1.2, resistance_ohm=(0.008, 0.008))
        log.check(day, "spin-directions")
        log.inspection(day, "bearings")
        log.inspection(day, "look")
    now = hangar([log], [CLUB], items=[*WHOLE, "P-1"])
    listed, of_work = counted(work_list, now)
    _, of_warnings = counted(warnings_of, now, listed)
    return of_work, of_warnings


def counted(work: Callable[..., Any], *given: Any) -> tuple[Any, int]:
    """What some work gives, and the function calls that it takes."""
    profile = cProfile.Profile()
    found = profile.runcall(work, *given)
    return found, int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


def test_the_work_grows_with_the_log_and_no_faster() -> None:
    """Four times the log, at most four and a half times the calls."""
    (work, warnings), (more_work, more_warnings) = calls(80), calls(320)
    assert more_work < 4.5 * work
    assert more_warnings < 4.5 * warnings
