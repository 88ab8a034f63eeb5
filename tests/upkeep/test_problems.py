"""What upkeep has to say of the records themselves."""

from programmes import FILE, check, hangar, programme
from written_files import read
from written_logs import Log, aircraft

from buildbook.upkeep.warnings.problems import warnings_of
from buildbook.upkeep.warnings.programme_faults import faults
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

    found = [*warnings_of(now, work_list(now)), *faults(now.ledger)]

    file = "aircraft/a/logbook.yaml"
    assert [
        "warning: a flown on 2026-01-02 before the check flight asked for by transport of"
        f" 2026-01-01 @ {file}:20",
        f"warning: defect 2026-01-03-1 is deferred without a limit @ {file}:30",
        f"problem: programme 'club' is based on 'nowhere', which does not exist @ {FILE}:1",
    ] == [f"{problem.severity}: {problem}" for problem in found]


def test_impossible_programmes_are_told_with_their_place() -> None:
    """No interval, an unknown trigger, a limit without a counter: by the reader. The rest here."""
    files = {
        "programmes/a.yaml": """\
programme: a
based_on: b
checks:
  - {check: spin, what: Look., stale_after: [blast]}
tasks:
  - {task: t1, what: Look.}
  - {task: t2, what: Look., for: motor, every: {cycles: 5}}
life_limits:
  - {limit: l1, for: motor, at: {}}
""",
        "programmes/b.yaml": "programme: b\nbased_on: a\n",
    }

    hangar, told = read(files)

    assert [
        "unknown trigger 'blast' @ programmes/a.yaml:4 (one of fit …, remove …, move …, overhaul …,"
        " repair, crash, hard landing, water, firmware …, setting …, gains, alteration …,"
        " calibration …, transport, rewired, noticed …, idle …, another cell count,"
        " another pack mass)",
        "task 't1' never comes round @ programmes/a.yaml:6"
        " (give it every:, follows:, also_after: or when:)",
        "limit 'l1' has no counter under 'at' @ programmes/a.yaml:9 (as in at: {cycles: 300})",
    ] == told
    assert [
        "programme 'a' is based on itself by way of 'b' @ programmes/a.yaml:2",
        "task 't2' counts cycles, which only a battery has, for motor @ programmes/a.yaml:7",
        "programme 'b' is based on itself by way of 'a' @ programmes/b.yaml:2",
    ] == [str(problem) for problem in faults(hangar.ledger)]
