"""What upkeep has to say of the records themselves."""

from programmes import FILE, check, hangar, programme
from written_logs import Log, aircraft

from buildbook.upkeep.problems import problems_of
from buildbook.upkeep.work_list import work_list

PLANE = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")


def test_R30_a_deferral_without_a_limit_is_a_warning_with_its_place() -> None:
    """M.A.403(c); with the faults of programmes and the flights that should have waited."""
    log = Log("aircraft/a")
    log.transport("01-01")
    log.flight("01-02")
    log.defect("01-03", severity="defer")
    club = programme(check("check-flight", "transport"), based_on="nowhere")
    now = hangar([log], [club], fleet=[PLANE])

    found = problems_of(now)

    file = "aircraft/a/logbook.yaml"
    assert [
        "warning: a flown on 2026-01-02 before the check flight that transport of 2026-01-01"
        f" asks for @ {file}:20",
        f"warning: defect 2026-01-03-1 is deferred with no limit @ {file}:30",
        f"problem: programme 'club' is based on 'nowhere', which does not exist @ {FILE}:1",
    ] == [f"{problem.severity}: {problem}" for problem in found]
    assert found == problems_of(now, work_list(now))
