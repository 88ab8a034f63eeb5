"""Does anything fall due in the planned flight, and was one flown before its check flight?"""

from programmes import HOUR, WHOLE, built, check, hangar, programme, task
from written_logs import Log, aircraft

from buildbook.basis.place import Place
from buildbook.upkeep.counted.expected import falls_due
from buildbook.upkeep.hangar_context import HangarContext
from buildbook.upkeep.warnings.check_flights import flown_unchecked
from buildbook.upkeep.work_list import work_list

PLANE = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")
LOG = "aircraft/a/logbook.yaml"


def test_R27_a_task_falls_due_during_the_planned_flight() -> None:
    """AMC M.A.301(a): 0.15 h left, planned 0.2 h -> falls due in this flight; 0.14 h does not."""
    log = Log("aircraft/a")
    log.flight("01-01", round(9.85 * HOUR))
    now = hangar([log], [programme(task("look", {"hours": 10}))], fleet=[PLANE])
    listed = work_list(now)

    for planned_h, expected in ((0.2, ["look"]), (0.15, ["look"]), (0.14, [])):
        found = falls_due(listed, now, "a", planned_h * HOUR)
        assert expected == [row.name for row in found]


def test_the_last_flight_before_a_count_of_flights_or_days() -> None:
    """What is due already is told elsewhere; a second flight of a day is no new flying day."""
    log = Log("aircraft/a")
    for _ in range(4):
        log.flight("01-01")
    club = programme(
        task("at-four", {"flights": 4}),
        task("at-five", {"flights": 5}),
        task("at-six", {"flights": 6}),
        task("second-day", {"flying_days": 2}),
    )

    def names(as_of: str) -> list[str]:
        now = hangar([log], [club], fleet=[PLANE], as_of=as_of)
        return sorted(row.name for row in falls_due(work_list(now), now, "a", 300.0))

    assert ["at-five"] == names("01-01")
    assert ["at-five", "second-day"] == names("01-02")


def test_packs_that_are_taken_are_asked_as_well() -> None:
    """Only those that are named."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1 P-2")
    club = programme(task("pack-look", {"flights": 2}, "battery"))
    now = hangar([log], [club], items=["P-1", "P-2"], fleet=[PLANE])

    found = falls_due(work_list(now), now, "a", 300.0, ("P-2",))

    assert ["P-2"] == [row.tag for row in found]


def test_R05_flown_before_the_check_flight_is_a_warning_on_that_flight() -> None:
    """Once for each time that it was open, with the count."""
    log = built(Log("aircraft/a"))
    log.flight("01-02", purpose="check", result="pass")
    log.fit("04-02", {"rear-left": {"motor": "M-9"}}, instead_of={"M-3": "retired"})
    log.flight("04-03", purpose="fun")
    log.flight("04-03")
    log.flight("04-04", purpose="check", result="pass")
    log.flight("04-05")
    log.flight("04-06", landing="crash")
    log.flight("04-07")
    club = programme(check("check-flight", "fit motor, crash"))

    folded = hangar([log], [club], items=[*WHOLE, "M-9"])
    found = flown_unchecked(folded, HangarContext(folded).programmes)

    assert [
        "a flown on 2026-04-03 before the check flight asked for by fit motor of 2026-04-02,"
        f" and 1 more time @ {LOG}:40",
        "a flown on 2026-04-07 before the check flight asked for by crash of 2026-04-06"
        f" @ {LOG}:90",
    ] == [str(problem) for problem in found]
    assert (Place(LOG, 30),) == found[0].also
