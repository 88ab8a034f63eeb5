"""Defects: what grounds, what may wait and for how long, what is only noted."""

import pytest
from programmes import WHOLE, built, on, programme, the_row, told, worded, work
from written_logs import Log, aircraft

from buildbook.basis.place import Place
from buildbook.records.entries import Until
from buildbook.report.upkeep.findings import DefectFound

CLUB = programme()
PLANE = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")


def test_R29_an_open_grounding_defect_grounds_first_of_all() -> None:
    """M.A.403(a): fixed before the next flight."""
    log = Log("aircraft/a")
    defect = log.defect("01-03", "mast loose", station="centre")

    listed = work([log], [CLUB], fleet=[PLANE])

    standing = on(listed, "a")
    assert (
        "grounded",
        ["defect at centre: grounds, open for 362 days, found on 3 January 2026"],
    ) == (standing.state, told(standing))
    reason = standing.reasons[0]
    assert (0, True, defect.uid, Place("aircraft/a/logbook.yaml", 10)) == (
        reason.rank,
        reason.grounding,
        reason.because.entry,
        reason.place,
    )
    assert "mast" not in worded(reason)
    assert DefectFound(severity="grounds", days_open=362) == reason.because.found

    log.cleared("01-04", defect)
    assert ("nothing open", ()) == (
        on(work([log], [CLUB], fleet=[PLANE]), "a").state,
        on(work([log], [CLUB], fleet=[PLANE]), "a").rows,
    )


def test_R30_a_deferral_without_a_limit_is_told() -> None:
    """M.A.403(c): recorded, and told to the pilot beforehand."""
    log = Log("aircraft/a")
    log.defect("01-03", severity="defer")

    listed = work([log], [CLUB], fleet=[PLANE])

    assert (
        "due soon",
        ["defect: deferred without a limit, open for 362 days, found on 3 January 2026"],
    ) == (
        on(listed, "a").state,
        told(on(listed, "a")),
    )
    found = on(listed, "a").reasons[0].because.found
    assert isinstance(found, DefectFound)
    assert not found.limited


@pytest.mark.parametrize(
    ("flights", "state", "standing"),
    [(4, "deferred", "due soon"), (5, "due", "due soon"), (6, "overdue", "grounded")],
)
def test_R30_a_deferral_that_has_run_out_grounds(flights: int, state: str, standing: str) -> None:
    """The limit is the keeper's own and has no tolerance; on it exactly it is due."""
    log = Log("aircraft/a")
    log.flight("01-01")
    log.defect("01-02", severity="defer", deferred_until=Until(flights=5))
    for _ in range(flights):
        log.flight("01-03")

    listed = work([log], [CLUB], fleet=[PLANE])

    (row,) = listed.rows
    assert (state, standing, {"flights": 5 - flights}) == (
        row.state,
        on(listed, "a").state,
        row.left,
    )


def test_a_deferral_by_day_and_hours_runs_out_by_whichever_is_first() -> None:
    """On the day itself it is due, the day after it is overdue."""
    log = Log("aircraft/a")
    until = Until(on=log.note("03-31").on, duration_s=3600.0)
    log.defect("01-02", severity="defer", deferred_until=until)
    log.flight("01-03", 1800.0)

    def state(as_of: str) -> tuple[str, dict[str, float]]:
        (row,) = work([log], [CLUB], fleet=[PLANE], as_of=as_of).rows
        return row.state, dict(row.left)

    assert ("deferred", {"hours": 0.5, "days": 1}) == state("03-30")
    assert ("due", {"hours": 0.5, "days": 0}) == state("03-31")
    assert ("overdue", {"hours": 0.5, "days": -1}) == state("04-01")


def test_R31_deferred_again_it_keeps_its_first_day() -> None:
    """AMC1 ML.A.403(d): found 03-02, deferred again 04-10, as of 04-20 -> 49 days open."""
    log = Log("aircraft/a")
    defect = log.defect("03-02", severity="defer", deferred_until=Until(flights=5))
    log.corrects("04-10", defect, deferred_until=Until(flights=10))

    (row,) = work([log], [CLUB], fleet=[PLANE], as_of="04-20").rows

    assert DefectFound(severity="defer", days_open=49) == row.because.found
    assert {"flights": 10} == row.left


def test_a_noted_defect_grounds_nothing_but_is_open() -> None:
    """``severity: note``."""
    log = Log("aircraft/a")
    log.defect("03-02", severity="note")

    listed = work([log], [CLUB], fleet=[PLANE])

    assert ("due soon", ["defect: noted, open for 304 days, found on 2 March 2026"]) == (
        on(listed, "a").state,
        told(on(listed, "a")),
    )


def test_a_defect_of_an_item_goes_where_the_item_goes() -> None:
    """Out of A and into B: it grounds B."""
    one, other = built(Log("aircraft/a")), Log("aircraft/b")
    one.defect("01-02", item="M-1")
    assert [
        "defect of M-1 at front-left: grounds, open for 363 days, found on 2 January 2026"
    ] == told(on(work([one], [CLUB], items=WHOLE), "a"))

    one.fit("01-03", {"front-left": {"motor": "M-9"}}, instead_of={"M-1": "serviceable"})
    listed = work([one], [CLUB], items=[*WHOLE, "M-9"])
    assert "nothing open" == on(listed, "a").state
    assert [("open", None, "M-1")] == [(row.state, row.aircraft, row.tag) for row in listed.rows]

    other.fit("01-04", {"front-left": {"motor": "M-1"}})
    listed = work([one, other], [CLUB], items=[*WHOLE, "M-9"])
    assert [
        "defect of M-1 at front-left: grounds, open for 363 days, found on 2 January 2026"
    ] == told(on(listed, "b"))[:1]


def test_a_defect_of_a_frame_is_at_the_station_where_it_was_found() -> None:
    """The frame is fitted at the centre, its cracked clamp is out on an arm."""
    log = built(Log("aircraft/a"))
    log.fit("01-01", {"centre": {"frame": "F-1"}})
    log.defect("01-02", item="F-1", station="rear-left")

    assert [
        "defect of F-1 at rear-left: grounds, open for 363 days, found on 2 January 2026"
    ] == told(on(work([log], [CLUB], items=[*WHOLE, "F-1"]), "a"))


def test_a_defect_of_a_pack_marks_the_pack() -> None:
    """Written in the log of the aircraft it was flown on."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.defect("01-02", item="P-1")

    listed = work([log], [CLUB], items=["P-1"], fleet=[PLANE])

    assert (
        "nothing open",
        "quarantined",
        ["defect of P-1: grounds, open for 363 days, found on 2 January 2026"],
    ) == (
        on(listed, "a").state,
        listed.packs[0].state,
        told(listed.packs[0]),
    )
    assert "defect of P-1: grounds, open for 363 days, found on 2 January 2026" == worded(
        the_row(listed, "2026-01-02-1")
    )
