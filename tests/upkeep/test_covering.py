"""One look covers others: one entry closes them, and no two rows ask for one job."""

import pytest
from programmes import (
    built,
    check,
    hangar,
    on,
    programme,
    states,
    task,
    the_row,
    told,
    worded,
    work,
)
from written_logs import Log, aircraft

from buildbook.upkeep.warnings.programme_faults import faults

LARGE = task("all-over", {"months": 12}, covers=("screws", "bearings"))
SCREWS = task("screws", {"flights": 3})
MOTORS = [f"{kind}-{number}" for kind in "MER" for number in range(1, 5)]
PLANE = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")


def flown(log: Log, flights: int, on_day: str = "02-01") -> Log:
    """So many flights on a day."""
    for _ in range(flights):
        log.flight(on_day)
    return log


def test_one_entry_closes_all_that_it_covers() -> None:
    """Of the aircraft and of each item that sat on it then."""
    club = programme(LARGE, SCREWS, task("bearings", {"flights": 3}, "motor"))
    log = flown(built(Log("aircraft/a")), 3)

    assert ["due"] == sorted(set(states(work([log], [club], items=MOTORS), "bearings").values()))
    log.inspection("02-02", "all-over")
    listed = work([log], [club], items=MOTORS)

    assert "2026-02-02" == str(the_row(listed, "screws").done_on)
    assert {"ok"} == set(states(listed, "bearings").values())


def test_an_open_look_speaks_for_those_that_it_covers() -> None:
    """Where it is at least as bad; a worse one speaks for itself."""
    after = task("all-over", {"months": 12}, also_after="crash", covers=("screws",))
    log = flown(Log("aircraft/a"), 4)
    club = programme(after, SCREWS)

    assert ["screws: overdue by 1 flight"] == told(on(work([log], [club], fleet=[PLANE]), "a"))
    log.incident("02-02", severity="hard")
    listed = work([log], [club], fleet=[PLANE])

    assert ["all over: stale, re-opened: crash on 2 February 2026"] == told(on(listed, "a"))
    row = the_row(listed, "screws")
    assert ("not applicable", "screws: covered by all over") == (row.state, worded(row))


def test_what_grounds_or_failed_speaks_for_itself() -> None:
    """No larger look hides a grounding row, or one that failed."""
    after = task("all-over", {"months": 12}, also_after="crash", covers=("screws", "joints"))
    grounding = task("joints", {"flights": 3}, grounds=True)
    log = flown(Log("aircraft/a"), 4)
    log.inspection("02-02", "screws", result="fail")
    log.incident("02-02", severity="hard")

    listed = work([log], [programme(after, SCREWS, grounding)], fleet=[PLANE])

    assert [
        "screws: failed on 2 February 2026",
        "joints: overdue by 1 flight",
        "all over: stale, re-opened: crash on 2 February 2026",
    ] == told(on(listed, "a"))


@pytest.mark.parametrize(
    ("covers", "told_"),
    [
        ("screw", "'look' covers 'screw', which is not a task of the programme"),
        ("look", "'look' covers itself"),
        ("failsafe", "'look' covers the check 'failsafe', which only its own entry closes"),
    ],
)
def test_only_recurring_tasks_are_covered(covers: str, told_: str) -> None:
    """A check that grounds closes by its name; a name that is none is a slip."""
    club = programme(SCREWS, check("failsafe"), task("look", {"months": 1}, covers=(covers,)))

    found = faults(hangar([], [club]).ledger)

    assert [f"{told_} @ programmes/club.yaml:1"] == [str(problem) for problem in found]


def test_a_larger_look_that_failed_fails_itself_alone() -> None:
    """It is one row that failed; what it covers waits as before."""
    log = flown(Log("aircraft/a"), 1)
    log.inspection("02-02", "all-over", result="fail")

    listed = work([log], [programme(LARGE, SCREWS)], fleet=[PLANE])

    assert ["all over: failed on 2 February 2026"] == [
        worded(reason) for reason in on(listed, "a").reasons if reason.grounding
    ]
    assert "ok" == the_row(listed, "screws").state


def test_a_look_written_as_a_check_closes_itself_alone() -> None:
    """It is told what it should be; sure or not, it does not stand for what the look covers."""
    club = programme(LARGE, SCREWS, task("bearings", {"flights": 3}, "motor"))
    log = flown(built(Log("aircraft/a")), 3)
    log.check("02-02", "all-over", sure=True)
    listed = work([log], [club], items=MOTORS)

    assert ("ok", "due") == (the_row(listed, "all-over").state, the_row(listed, "screws").state)
    assert {"due"} == set(states(listed, "bearings").values())
