"""Looks that follow an event once: section 3 of the record rules, rows that open (due).

Screws again after 3 flights, a repair again after 5: common practice, no source.
"""

import pytest
from programmes import (
    built,
    check,
    hangar,
    on,
    programme,
    rows,
    states,
    task,
    the_row,
    triggers,
    worded,
    work,
)
from written_logs import Log

from buildbook.records.programmes import Follows, TaskRule
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.counted.expected import falls_due
from buildbook.upkeep.programme import looser_task
from buildbook.words.measures.intervals import follow_words


def again(after: str = "repair", flights: int = 3, **more: object) -> TaskRule:
    """Look again so many flights after."""
    return task("again", {}, follows=Follows(after=triggers(after), flights=flights), **more)


def flown(log: Log, times: int, on_day: str = "02-02") -> Log:
    for _ in range(times):
        log.flight(on_day)
    return log


def looked(log: Log, *rules: TaskRule) -> list[Row]:
    return rows(work([log], [programme(*(rules or (again(),)))], items=["M-1"]), "again")


def test_there_is_no_row_before_the_first_event() -> None:
    """Nothing asks for it: it is neither due nor done."""
    assert [] == looked(flown(Log("aircraft/a"), 20))


@pytest.mark.parametrize(
    ("flights", "state", "left", "rank"),
    [
        (0, "ok", 3, ranks.FINE),
        (1, "ok", 2, ranks.FINE),
        (2, "due soon", 1, ranks.DUE_SOON),
        (3, "due", 0, ranks.DUE),
        (4, "in tolerance", -1, ranks.IN_TOLERANCE),
        (5, "overdue", -2, ranks.OVERDUE),
    ],
)
def test_it_comes_so_many_flights_after_the_event(
    flights: int, state: str, left: int, rank: int
) -> None:
    """Flights before the event don't count; due at the number exactly; then the tolerance."""
    log = flown(Log("aircraft/a"), 7, "01-01")
    log.repair("02-01")

    (row,) = looked(flown(log, flights), again(tolerance={"flights": 1}))

    assert (state, {"flights": left}, rank) == (row.state, row.left, row.rank)
    assert not row.grounds
    assert flights / 3 == pytest.approx(row.used or 0.0)


def test_the_row_names_the_event_and_what_is_left() -> None:
    """Which entry asks for it, with its place; the day is no sentence of the row."""
    log = Log("aircraft/a")
    entry = log.repair("02-01")

    (row,) = looked(flown(log, 2))
    assert row.because is not None
    assert (
        "again: due soon, 1 flight left, re-opened: repair on 1 February 2026",
        "repair",
        entry.uid,
    ) == (
        worded(row),
        str(row.because.trigger),
        row.because.entry,
    )
    assert (entry.place(), "trigger", "flights") == (row.place, row.because.why, row.first_by)

    (row,) = looked(flown(log, 3))
    assert "again: overdue by 2 flights, re-opened: repair on 1 February 2026" == worded(row)


def test_a_look_too_soon_does_not_answer_it() -> None:
    """Two of three flights after is before anything could settle."""
    log = Log("aircraft/a")
    log.repair("02-01")
    flown(log, 2).inspection("02-02", "again")

    (row,) = looked(flown(log, 1))
    assert "due" == row.state

    log.inspection("02-03", "again")
    (row,) = looked(log)
    assert ("ok", "again: ok", None, {}) == (row.state, worded(row), row.because, row.left)
    assert "2026-02-03" == str(row.done_on)
    assert row.place == row.done_place


def test_it_is_asked_once_for_each_event() -> None:
    """Answered for the first repair, it still waits for the second one, and is then at rest."""
    log = Log("aircraft/a")
    log.repair("02-01")
    flown(log, 2)
    log.repair("02-02")
    flown(log, 1).inspection("02-03", "again")

    (row,) = looked(log)
    assert ("ok", {"flights": 2}) == (row.state, row.left)

    flown(log, 2, "02-04").inspection("02-05", "again")
    (row,) = looked(flown(log, 30, "02-06"))
    assert ("ok", {}) == (row.state, row.left)


def test_one_look_answers_all_events_that_are_far_enough_back() -> None:
    """The oldest that waits is told."""
    log = Log("aircraft/a")
    log.repair("02-01")
    flown(log, 1)
    log.repair("02-02")
    flown(log, 3).inspection("02-03", "again")

    (row,) = looked(log)
    assert ("ok", {}) == (row.state, row.left)


def test_a_failed_look_grounds_until_a_better_one() -> None:
    """As with any task."""
    log = Log("aircraft/a")
    log.repair("02-01")
    flown(log, 3).inspection("02-03", "again", result="fail")

    (row,) = looked(log)
    assert ("failed", "again: failed on 3 February 2026", True, ranks.FAILED_CHECK) == (
        row.state,
        worded(row),
        row.grounds,
        row.rank,
    )
    log.inspection("02-04", "again")
    assert ["ok"] == [row.state for row in looked(log)]


def test_it_waits_for_the_second_person_where_one_is_asked_for() -> None:
    """Done by one, not yet checked by the other."""
    log = Log("aircraft/a")
    log.repair("02-01")
    flown(log, 3).inspection("02-03", "again", by="ida")
    rule = again(second_person=True)

    (row,) = looked(log, rule)
    assert (
        "open",
        "again: done on 3 February 2026, not yet checked by a second person",
        ranks.DUE,
    ) == (
        row.state,
        worded(row),
        row.rank,
    )
    assert row.because is not None
    assert "second person" == row.because.why

    log.inspection("02-04", "again", by="ida", checked_by="jon")
    (row,) = looked(log, rule)
    assert ("ok", "ida", "jon") == (row.state, row.by, row.checked_by)


def test_of_an_item_only_the_one_that_was_fitted_is_asked_for() -> None:
    """One new motor of four; its own flights count."""
    log = built(Log("aircraft/a"))
    flown(log, 5, "01-02").inspection("01-03", "again")
    log.fit("02-01", {"front-left": {"motor": "M-5"}}, instead_of={"M-1": "scrapped"})
    rule = again("fit motor", each="motor")
    items = [f"{kind}-{number}" for kind in "MER" for number in range(1, 6)]

    listed = work([flown(log, 3)], [programme(rule)], items=items)

    assert {"front-left": "due", "front-right": "ok", "rear-left": "ok", "rear-right": "ok"} == (
        states(listed, "again")
    )
    assert ["again of M-5 at front-left: due, re-opened: motor fitted on 1 February 2026"] == [
        worded(reason) for reason in on(listed, "a").reasons if reason.row is not None
    ]


def test_another_task_may_answer_it() -> None:
    """For the aircraft and for an item: the larger look takes in the smaller."""
    log = built(Log("aircraft/a"))
    flown(log, 3).inspection("02-03", "all-over")
    items = [f"{kind}-{number}" for kind in "MER" for number in range(1, 5)]

    for each in ("aircraft", "motor"):
        rules = again("fit motor", each=each), task("all-over", {}, covers=("again",))
        listed = work([log], [programme(*rules)], items=items)
        assert {"ok"} == {row.state for row in rows(listed, "again")}
        listed = work([log], [programme(again("fit motor", each=each))], items=items)
        assert {"due"} == {row.state for row in rows(listed, "again")}


def test_a_larger_look_that_failed_does_not_fail_this_one() -> None:
    """It has a row of its own to say so; this one waits as before."""
    log = Log("aircraft/a")
    log.repair("02-01")
    flown(log, 3).inspection("02-03", "all-over", result="fail")

    listed = work([log], [programme(again(), task("all-over", {}, covers=("again",)))])
    (row,) = rows(listed, "again")

    assert "due" == row.state


def test_R27_it_may_fall_due_in_the_next_flight() -> None:
    """AMC M.A.301(a): nothing overdue, or falling due during the flight."""
    log = Log("aircraft/a")
    log.repair("02-01")
    flown(log, 2)
    now = hangar([log], [programme(again())])
    listed = work([log], [programme(again())])

    assert ["again"] == [row.name for row in falls_due(listed, now, "a", 60.0)]


def test_it_is_expected_at_the_keepers_own_rate() -> None:
    """Two flights a week, two to go; nobody can say with too little flown."""
    log = Log("aircraft/a")
    for day in ("01-02", "01-06", "01-09", "01-13", "01-16", "01-20"):
        log.flight(day)
    log.repair("01-21")

    (row,) = rows(work([log], [programme(again(flights=4))], as_of="01-21"), "again")
    assert row.expected is not None
    early, late = row.expected
    assert "2026-01-21" < str(early) < str(late) < "2026-03-31"

    log = Log("aircraft/a")
    log.repair("01-21")
    log.flight("01-22")
    (row,) = rows(work([log], [programme(again(flights=4))], as_of="01-22"), "again")
    assert row.expected is None


def test_R22_fewer_looks_are_marked_as_looser() -> None:
    """Later, after fewer events, or not at all; sooner is not."""
    usual = again("repair, crash", 5)

    assert looser_task(again("repair, crash", 6), usual)
    assert looser_task(again("repair", 5), usual)
    assert looser_task(task("again", {"flights": 5}), usual)
    assert not looser_task(again("repair, crash, water", 4), usual)
    assert not looser_task(usual, task("again", {}))


def test_the_words_of_a_follow_up() -> None:
    """As they stand on the page of the programme."""
    after = Follows(after=triggers("fit motor, crash"), flights=1)

    assert "1 flight after fit motor or crash" == follow_words(after)


def test_the_usual_is_told_beside_the_own() -> None:
    """The built-in row stays in sight."""
    log = Log("aircraft/a")
    log.repair("02-01")
    base = programme(again(flights=3), name="built-in base", built_in=True)
    own = programme(again(flights=9), based_on="base")

    row = the_row(work([log], [base, own]), "again")

    assert ("3 flights after repair", True) == (follow_words(row.usual.follows), row.looser)


def test_a_look_at_a_new_build_answers_for_what_was_fitted_before_its_first_flight() -> None:
    """However early; a look before the fit does not, nor one that failed."""
    fitted = again("fit motor")

    def state(log: Log) -> str:
        return looked(flown(log, 5, "02-04"), fitted)[0].state

    def new() -> Log:
        log = Log("aircraft/a")
        log.fit("02-01", {"front-left": {"motor": "M-1"}})
        return log

    before, after, failed = Log("aircraft/a"), new(), new()
    before.inspection("01-31", "again")
    before.fit("02-01", {"front-left": {"motor": "M-1"}})
    after.inspection("02-01", "again")
    failed.inspection("02-01", "again", result="fail")

    assert ["overdue", "overdue", "ok", "failed"] == [
        state(new()),
        state(before),
        state(after),
        state(failed),
    ]


def test_a_motor_fitted_later_settles_before_a_look_at_it_counts() -> None:
    """At once is too soon; three flights on it counts."""
    log = flown(Log("aircraft/a"), 1, "01-02")
    log.fit("02-01", {"front-left": {"motor": "M-1"}})
    log.inspection("02-01", "again")

    (row,) = looked(flown(log, 3), again("fit motor"))
    assert "again: due, re-opened: motor fitted on 1 February 2026" == worded(row)

    log.inspection("02-03", "again")
    (row,) = looked(log, again("fit motor"))
    assert "again: ok" == worded(row)


def test_a_new_motor_that_counts_its_own_flights_is_no_new_build() -> None:
    """Where a programme asks for a look at each motor, it settles for its own flights first."""
    log = flown(Log("aircraft/a"), 1, "01-02")
    log.fit("02-01", {"front-left": {"motor": "M-1"}})
    log.inspection("02-01", "again", tags="M-1")

    (row,) = looked(flown(log, 3), again("fit motor", each="motor"))
    assert ("due", "M-1") == (row.state, row.tag)


@pytest.mark.parametrize(
    ("before", "at", "state"),
    [
        (3, ("front-left",), "ok"),
        (3, (), "ok"),
        (2, (), "due"),
        (3, ("rear-left",), "not applicable"),
    ],
)
def test_the_check_that_is_the_same_deed_answers_it(
    before: int, at: tuple[str, ...], state: str
) -> None:
    """Of that station, or of all of them, once the flights were flown; not right after the fit.
    Where the check of that station is open itself, that one asks for it."""
    same = check("screws", "fit motor", per="motor station", covers=("again",))
    log = flown(Log("aircraft/a"), 1, "01-01")
    log.fit("02-01", {"front-left": {"motor": "M-1"}})
    flown(log, before)
    log.check("02-03", "screws", stations=at)
    flown(log, 3 - before, "02-04")

    (row,) = looked(log, same, again("fit motor"))

    assert state == row.state
