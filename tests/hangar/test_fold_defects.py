"""Defects and how they stand."""

from written_logs import Log, day, folded, item, problems

from buildbook.basis.place import Place
from buildbook.records.entries import Until


def test_R31_a_defect_put_off_again_keeps_its_first_day() -> None:
    """AMC1 ML.A.403(d): found 2 March, put off again 10 April: 49 days open on 20 April."""
    log = Log("aircraft/a")
    found = log.defect("03-02", "play in a hinge", severity="defer")
    log.flight("04-01", 240.0)
    log.corrects("04-10", found, deferred_until=Until(on=day("05-01")))
    log.flight("04-11", 360.0)

    (state,) = folded([log], as_of="04-20").aircraft["a"].defects

    assert 49 == (day("04-20") - state.on).days
    assert Until(on=day("05-01")) == state.defect.deferred_until
    assert (True, 2, 600.0) == (state.open, state.flights_since, state.duration_since_s)


def test_a_defect_is_open_until_it_is_cleared() -> None:
    """The flights since stop there."""
    log = Log("aircraft/a")
    log.flight("03-01")
    found = log.defect("03-02", severity="note")
    log.flight("03-03", 100.0)
    done = log.cleared("03-04", found, how="tightened")
    log.flight("03-05")

    open_then = folded([log], as_of="03-03").aircraft["a"].defects
    (state,) = folded([log]).aircraft["a"].defects

    assert [True] == [then.open for then in open_then]
    assert (False, day("03-04"), done.uid, "tightened", 1, 100.0) == (
        state.open,
        state.cleared_on,
        state.cleared_uid,
        state.how,
        state.flights_since,
        state.duration_since_s,
    )


def test_R29_flying_with_a_grounding_defect_open_is_a_warning() -> None:
    """M.A.403(a): it is to be fixed before the next flight. Each defect is one line."""
    log = Log("aircraft/a")
    found = log.defect("03-02", "cracked arm")
    log.flight("03-03")
    log.flight("03-04")
    log.cleared("03-05", found, how="a new arm")
    log.flight("03-06")

    hangar = folded([log])

    assert [
        "warning: a flown on 2026-03-03 with a grounding defect open since 2026-03-02:"
        " 'cracked arm', 2 times in all @ aircraft/a/logbook.yaml:20"
    ] == problems(hangar)
    assert (Place("aircraft/a/logbook.yaml", 10),) == hangar.problems[0].also


def test_clearing_twice_or_too_early_is_a_warning() -> None:
    """The first clearing stands."""
    log = Log("aircraft/a")
    found = log.defect("03-02", severity="note")
    log.cleared("03-03", found)
    log.cleared("03-04", found)
    voided = log.defect("03-05", severity="note")
    log.voids("03-06", voided)
    log.cleared("03-07", voided)

    hangar = folded([log])

    assert [
        "warning: defect '2026-03-02-1' cleared on 2026-03-04, but closed since 2026-03-03"
        " @ aircraft/a/logbook.yaml:30",
        "warning: defect '2026-03-05-1' cleared on 2026-03-07, when no such defect stands"
        " @ aircraft/a/logbook.yaml:60",
    ] == problems(hangar)
    assert [day("03-03")] == [state.cleared_on for state in hangar.aircraft["a"].defects]


def test_a_defect_of_an_item_in_a_store_ages_with_the_item() -> None:
    """The motor flew on A before and after the defect was written; the pack on its own."""
    log, store = Log("aircraft/a"), Log("stores/box")
    log.fit("03-01", {"front-left": {"motor": "M-1"}})
    log.flight("03-02", 100.0, "P-1")
    store.defect("03-03", item="M-1", severity="note")
    store.defect("03-03", item="P-1", severity="note")
    log.flight("03-04", 200.0)
    log.flight("03-05", 300.0, "P-1")

    items = folded([log, store], ["M-1", "P-1"]).items

    assert [(2, 500.0), (1, 300.0)] == [
        (state.flights_since, state.duration_since_s)
        for tag in ("M-1", "P-1")
        for state in items[tag].defects
    ]


def test_a_defect_of_an_item_that_was_not_there_yet_is_a_problem() -> None:
    """It was acquired later; the problem is about the aircraft in whose log it stands."""
    log = Log("aircraft/a")
    log.defect("03-01", item="M-1", severity="note")

    hangar = folded([log], [item("M-1", acquired=day("03-02"))])

    assert [
        "problem: motor 'M-1' used on 2026-03-01, before it was acquired on 2026-03-02"
        " @ aircraft/a/logbook.yaml:10"
    ] == problems(hangar)
    assert ["a"] == [problem.about for problem in hangar.problems]
