"""Recurring tasks: whichever unit comes first, tolerance, and the three ways of counting."""

import datetime

import pytest
from programmes import (
    HOUR,
    WHOLE,
    built,
    check,
    date,
    limit,
    on,
    programme,
    rows,
    states,
    task,
    the_row,
    told,
    worded,
    work,
)
from written_logs import Log, aircraft, item

from buildbook.records.parts import Carried
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.counted.counting import Step, due_count, due_day
from buildbook.upkeep.programme import looser_task

LOG = "aircraft/a/logbook.yaml"


def flown(hours: float, *dones: float, **rule: object) -> Row:
    """A task every 100 h, done at those hours, with so many hours flown at the end."""
    log = Log("aircraft/a")
    at = 0.0
    for number, done in enumerate((*dones, hours)):
        log.flight(f"2026-01-{number + 1:02d}", round((done - at) * HOUR))
        at = done
        if number < len(dones):
            log.inspection(f"2026-01-{number + 1:02d}", "big-look")
    rule.setdefault("interval", {"hours": 100})
    club = programme(task("big-look", **rule))  # type: ignore[arg-type]
    return the_row(work([log], [club], fleet=[unbuilt()]), "big-look")


def unbuilt() -> object:
    """An aircraft without motor stations, so that only the task is told of."""
    return aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")


@pytest.mark.parametrize(
    ("hours", "expected"),
    [
        (89.9, "ok"),
        (90.0, "due soon"),
        (100.0, "due"),
        (107.0, "in tolerance"),
        (110.0, "in tolerance"),
        (110.1, "overdue"),
    ],
)
def test_R23_tolerance_in_hours(hours: float, expected: str) -> None:
    """ML.A.302(d)(1): due 100 h, tolerance 10 h; at the limit exactly it is due."""
    row = flown(hours, tolerance={"hours": 10})

    assert (expected, "hours") == (row.state, row.first_by)
    assert round(100 - hours, 9) == round(row.left["hours"], 9)


def test_R23_without_a_tolerance_there_is_none() -> None:
    """Default none: one second beyond the limit is overdue."""
    assert "due" == flown(100.0).state
    assert "overdue" == flown(100 + 1 / HOUR).state


@pytest.mark.parametrize(
    ("counted_from", "done", "next_h"),
    [
        ("earlier", 104.0, 200.0),
        ("earlier", 95.0, 195.0),
        ("earlier", 250.0, 350.0),
        ("done", 106.0, 206.0),
        ("done", 95.0, 195.0),
        ("planned", 106.0, 200.0),
        ("planned", 95.0, 200.0),
        ("planned", 250.0, 300.0),
    ],
)
def test_R24_three_ways_of_counting(counted_from: str, done: float, next_h: float) -> None:
    """Sources disagree over time, so it is a field: due 100 h, done then, next due."""
    row = flown(done, done, counted_from=counted_from)

    assert next_h - done == row.left["hours"]
    assert counted_from == row.counted_from


@pytest.mark.parametrize(
    ("dones", "due"),
    [((10,), 20), ((10, 11), 20), ((9,), 20), ((5,), 10), ((6,), 20), ((13, 18), 30), ((16,), 30)],
)
def test_on_the_grid_a_doing_closes_the_point_that_is_nearest(
    dones: tuple[int, ...], due: int
) -> None:
    """Done at 10 and again at 11 of a 10-flight task: next at 20. Halfway closes the one before."""
    assert due == due_count("planned", dones, 10)


@pytest.mark.parametrize(
    ("done", "due"),
    [("2026-02-27", "2026-03-27"), ("2026-02-28", "2026-03-31"), ("2026-03-02", "2026-03-31")],
)
def test_a_month_as_short_as_february_is_not_taken_for_early_work(done: str, due: str) -> None:
    """Monthly from 31 January: done on 28 February it was due, so the day of the month stays."""
    start, did = map(datetime.date.fromisoformat, ("2026-01-31", done))

    found = due_day("earlier", start, [did], Step(months=1))

    assert datetime.date.fromisoformat(due) == found


@pytest.mark.parametrize(
    ("step", "least_days", "after"),
    [
        (Step(months=1), 28, "2026-02-28"),
        (Step(days=10), 10, "2026-02-10"),
        (Step(months=1, days=3), 31, "2026-03-03"),
        (Step(months=2), 56, "2026-03-31"),
    ],
)
def test_a_step_of_the_calendar_is_one_and_never_shorter_than_its_least(
    step: Step, least_days: int, after: str
) -> None:
    """From 31 January: months keep the day of the month where they have it, then the days."""
    start, end = map(datetime.date.fromisoformat, ("2026-01-31", after))

    assert end == step.after(start)
    assert least_days == step.least_days <= (end - start).days


def test_planned_done_twice_skips_no_slot() -> None:
    """Doing it again right away is a second look, not the next job."""
    assert 104.0 == flown(96.0, 95.0, 96.0, counted_from="planned").left["hours"]


def test_R20_whichever_comes_first() -> None:
    """14 CFR 91.417(a)(2)(iv): at 31.2 h, done 01-15 at 22.0 h, every 10 h / 6 months."""
    log = Log("aircraft/a")
    log.flight("01-15", 22 * HOUR)
    log.inspection("01-15", "look")
    log.flight("05-01", round(9.2 * HOUR))
    club = programme(task("look", {"hours": 10, "months": 6}))

    row = the_row(work([log], [club], fleet=[unbuilt()], as_of="06-01"), "look")

    assert ("due soon", "hours", date("07-15")) == (row.state, row.first_by, row.due_on)
    assert {"hours": 0.8, "days": 44} == {unit: round(left, 9) for unit, left in row.left.items()}
    assert ("2026-01-15", f"{LOG}#2026-01-15-2") == (str(row.done_on), row.done_uid)
    assert "look: due soon, 0.80 h left" == worded(row)


def test_units_are_apart() -> None:
    """A tolerance in flights does nothing for the calendar."""
    log = Log("aircraft/a")
    log.inspection("01-01", "look")
    for number in range(12):
        log.flight(f"01-{number + 1:02d}")
    rule = task("look", {"flights": 10, "months": 1}, tolerance={"flights": 5})

    def state(as_of: str) -> tuple[str, str | None]:
        row = the_row(work([log], [programme(rule)], fleet=[unbuilt()], as_of=as_of), "look")
        return row.state, row.first_by

    assert ("in tolerance", "flights") == state("01-20")
    assert ("in tolerance", "flights") == state("02-01")
    assert ("overdue", "days") == state("02-02")


@pytest.mark.parametrize(
    ("flights", "expected"), [(8, "ok"), (9, "due soon"), (10, "due"), (11, "overdue")]
)
def test_D04_propeller_check_every_10_flights(flights: int, expected: str) -> None:
    """Common practice, no source: 9 flights since last -> due soon, 10 -> due."""
    log = built(Log("aircraft/a"))
    log.flight("01-02")
    log.inspection("01-02", "propeller-touch")
    for _ in range(flights):
        log.flight("01-03")
    rule = task("propeller-touch", {"flights": 10}, "propeller")

    listed = work([log], [programme(rule)], items=WHOLE)

    assert {expected} == set(states(listed, "propeller-touch").values())
    assert ["R-1", "R-2", "R-3", "R-4"] == sorted(row.tag or "" for row in listed.rows)


@pytest.mark.parametrize(
    ("interval", "soon_flights", "first_soon"),
    [(100, 10, 10), (50, 10, 5), (25, 10, 2), (5, 10, 1), (500, 10, 10), (500, 30, 30)],
)
def test_soon_is_the_smaller_of_the_hangars_flights_and_a_tenth(
    interval: int, soon_flights: int, first_soon: int
) -> None:
    """And at least one flight."""
    for left, expected in ((first_soon, "due soon"), (first_soon + 1, "ok")):
        log = Log("aircraft/a")
        for _ in range(interval - left):
            log.flight("01-01")
        club = programme(task("look", {"flights": interval}))
        listed = work([log], [club], fleet=[unbuilt()], soon_flights=soon_flights)
        assert expected == the_row(listed, "look").state


def test_soon_by_the_calendar_is_what_the_hangar_says() -> None:
    """``soon: 30 days``."""
    log = Log("aircraft/a")
    log.inspection("01-15", "look")
    club = programme(task("look", {"months": 6}))
    for as_of, expected in (
        ("06-14", "ok"),
        ("06-15", "due soon"),
        ("07-15", "due"),
        ("07-16", "overdue"),
    ):
        listed = work([log], [club], fleet=[unbuilt()], as_of=as_of)
        assert expected == the_row(listed, "look").state


def test_never_done_is_counted_from_the_start_of_the_thing() -> None:
    """From zero and from the day acquired; the row says so. Carried life counts."""
    log = Log("aircraft/a")
    log.fit("03-01", {"nose": {"motor": "M-1"}})
    for _ in range(3):
        log.flight("03-02")
    motor = item("M-1", acquired=date("02-03"), carried=Carried(flights=20))
    rule = task("bearings", {"flights": 25, "months": 12}, "motor")

    row = the_row(work([log], [programme(rule)], items=[motor], fleet=[unbuilt()]), "bearings")

    assert ({"flights": 2, "days": 34}, "start") == (row.left, row.counted_from)
    assert ("due soon", "flights", "2027-02-03") == (row.state, row.first_by, str(row.due_on))
    assert row.done_on is None


def test_never_done_is_a_state_only_where_the_start_is_unknown() -> None:
    """R16: unknown history, so what is left cannot be counted; an inspection starts the count."""
    log = Log("aircraft/a")
    log.fit("03-01", {"nose": {"motor": "M-1", "esc": "E-1", "propeller": "R-1"}})
    log.flight("03-02")
    motor = item("M-1", acquired=date("02-03"), carried=Carried(basis="unknown"))
    club = programme(task("bearings", {"flights": 25}, "motor"))
    items = [motor, "E-1", "R-1"]

    listed = work([log], [club], items=items, fleet=[unbuilt()])
    assert "never done" == the_row(listed, "bearings").state
    assert ["bearings of M-1 at nose: never done"] == told(on(listed, "a"))

    log.inspection("03-03", "bearings", "M-1")
    assert "ok" == the_row(work([log], [club], items=items, fleet=[unbuilt()]), "bearings").state


def test_R11_a_moved_part_keeps_its_count() -> None:
    """14 CFR 43.10(c): 12 flights on A and 5 on B are 17 of the motor."""
    one, other = Log("aircraft/a"), Log("aircraft/b")
    one.fit("01-01", {"nose": {"motor": "M-1"}})
    for _ in range(12):
        one.flight("01-02")
    one.remove("01-03", "M-1")
    other.fit("01-03", {"nose": {"motor": "M-1"}})
    for _ in range(5):
        other.flight("01-04")
    fleet = [
        aircraft(slug, programme="club", kind="aeroplane", layout="aeroplane") for slug in "ab"
    ]
    club = programme(task("bearings", {"flights": 25}, "motor"))

    row = the_row(work([one, other], [club], items=["M-1"], fleet=fleet), "bearings")

    assert ("b", "nose", {"flights": 8}) == (row.aircraft, row.station, row.left)


def test_R12_in_the_drawer_the_calendar_runs_and_flights_do_not() -> None:
    """14 CFR 43.10(b): no time while it is off; the hangar's own programme applies there."""
    log = Log("aircraft/a")
    log.fit("01-01", {"nose": {"motor": "M-1"}})
    for _ in range(4):
        log.flight("01-02")
    log.remove("01-03", "M-1")
    for _ in range(7):
        log.flight("01-04")
    motor = item("M-1", acquired=date("01-01"))
    club = programme(task("bearings", {"flights": 25, "months": 6}, "motor"))

    listed = work([log], [club], items=[motor], fleet=[unbuilt()], as_of="06-21", programme="club")

    row = the_row(listed, "bearings")
    assert (None, "M-1", None, "due soon", "days") == (
        row.aircraft,
        row.tag,
        row.station,
        row.state,
        row.first_by,
    )
    assert {"flights": 21, "days": 10} == row.left


def test_an_inspection_without_tags_is_of_all_that_was_fitted_then() -> None:
    """What came later was not looked at."""
    log = built(Log("aircraft/a"))
    log.flight("01-02")
    log.inspection("01-03", "bearings")
    log.flight("01-04")
    log.fit("01-05", {"rear-left": {"motor": "M-9"}}, instead_of={"M-3": "retired"})
    club = programme(task("bearings", {"flights": 25}, "motor"))

    listed = work([log], [club], items=[*WHOLE, "M-9"])

    assert {"M-1": 24, "M-2": 24, "M-4": 24, "M-9": 25} == {
        row.tag: row.left["flights"] for row in rows(listed, "bearings")
    }
    assert {"M-1": date("01-03"), "M-2": date("01-03"), "M-4": date("01-03"), "M-9": None} == {
        row.tag: row.done_on for row in rows(listed, "bearings")
    }


def test_also_after_reopens_what_was_touched_until_it_is_done_again() -> None:
    """A hard landing, and a crash is one too."""
    club = programme(task("bearings", {"flights": 25}, "motor", also_after="hard landing"))
    for event, told_as in (("light", "hard landing"), ("hard", "crash")):
        log = built(Log("aircraft/a"))
        log.inspection("01-02", "bearings")
        log.incident("01-03", severity=event, touched=("front-left",))

        listed = work([log], [club], items=WHOLE)
        assert {"front-left": "stale"} == {
            station: state for station, state in states(listed, "bearings").items() if state != "ok"
        }
        said = f"bearings of M-1 at front-left: stale, re-opened: {told_as} on 3 January 2026"
        assert [said] == told(on(listed, "a"))
        assert ("due soon", False) == (on(listed, "a").state, on(listed, "a").reasons[0].grounding)

        log.inspection("01-04", "bearings", "M-1")
        assert {"ok"} == set(states(work([log], [club], items=WHOLE), "bearings").values())


def test_what_happened_on_an_earlier_aircraft_goes_with_the_part() -> None:
    """A hard landing on A, then fitted to B: still to be looked at."""
    one, other = built(Log("aircraft/a")), Log("aircraft/b")
    one.inspection("01-02", "bearings")
    one.flight("01-03", landing="hard")
    one.remove("01-04", "M-1")
    other.fit("01-04", {"front-left": {"motor": "M-1"}})
    club = programme(task("bearings", {"flights": 25}, "motor", also_after="hard landing"))

    listed = work([one, other], [club], items=WHOLE)

    assert ["stale"] == [row.state for row in on(listed, "b").rows if row.kind == "task"]


def test_a_failed_inspection_leaves_the_task_open() -> None:
    """Findings: it is not done until it passes."""
    log = built(Log("aircraft/a"))
    log.inspection("01-02", "bearings", "M-1", result="fail", findings="rough")
    club = programme(task("bearings", {"flights": 25}, "motor"))

    listed = work([log], [club], items=WHOLE)

    assert ("grounded", ["bearings of M-1 at front-left: failed on 2 January 2026: rough"]) == (
        on(listed, "a").state,
        told(on(listed, "a")),
    )


def test_R02_a_task_with_a_second_person() -> None:
    """Done by kim alone it stays open."""
    log = Log("aircraft/a")
    log.flight("01-01")
    log.inspection("01-02", "look", by="kim")
    club = programme(task("look", {"flights": 1}, second_person=True))

    listed = work([log], [club], fleet=[unbuilt()])
    assert ["look: done on 2 January 2026, not yet checked by a second person"] == told(
        on(listed, "a")
    )
    assert ("open", "due soon") == (the_row(listed, "look").state, on(listed, "a").state)
    log.flight("01-02")
    late = programme(task("look", {"flights": 1}, second_person=True, grounds=True))
    assert "grounded" == on(work([log], [late], fleet=[unbuilt()]), "a").state

    log.inspection("01-02", "look", by="kim", checked_by="jon")
    listed = work([log], [club], fleet=[unbuilt()])
    assert "due soon" == the_row(listed, "look").state


@pytest.mark.parametrize(
    ("interval", "expected"),
    [
        ({"months": 1}, "2026-02-28"),
        ({"months": 2}, "2026-03-31"),
        ({"years": 1}, "2027-01-31"),
        ({"days": 30}, "2026-03-02"),
        ({"years": 1, "months": 2}, "2026-03-31"),
    ],
)
def test_months_are_clipped_and_keep_their_day(interval: dict[str, int], expected: str) -> None:
    """31 January + 1 month = 28 February, + 2 months = 31 March."""
    log = Log("aircraft/a")
    log.inspection("01-31", "look")
    club = programme(task("look", interval))

    row = the_row(work([log], [club], fleet=[unbuilt()], as_of="02-01"), "look")

    assert expected == str(row.due_on)


def test_R25_months_are_exact_and_clipped() -> None:
    """From memory: 2026-08-31 + 6 months is 2027-02-28."""
    log = Log("aircraft/a")
    log.inspection("08-31", "look")
    club = programme(task("look", {"months": 6}))

    row = the_row(work([log], [club], fleet=[unbuilt()], as_of="09-01"), "look")

    assert "2027-02-28" == str(row.due_on)


def test_an_interval_beyond_the_calendar_never_falls_due() -> None:
    """Absurd, and no reason to stop."""
    log = Log("aircraft/a")
    log.fit("01-01", {"centre": {"controller": "C-1"}})
    log.flight("01-02")
    log.check("01-03", "failsafe")
    club = programme(
        task("look", {"years": 9000, "days": 100_000_000}, tolerance={"years": 9000}),
        check("failsafe", "idle 200 years"),
        limit("gear-out", "controller", years=9000),
    )
    board = item("C-1", acquired=date("01-01"))

    listed = work([log], [club], items=[board], fleet=[unbuilt()])

    assert {"ok"} == {row.state for row in listed.rows}
    assert {None} == {row.expected for row in listed.rows}


def test_of_an_unknown_history_the_calendar_can_still_be_told() -> None:
    """And a count, once what is known of it has come to due by itself."""
    log = Log("aircraft/a")
    log.fit("03-01", {"centre": {"controller": "C-1"}})
    board = item("C-1", acquired=date("02-03"), carried=Carried(basis="unknown"))
    club = programme(task("look", {"flights": 2, "months": 6}, "controller"))

    def row(as_of: str) -> tuple[str, str | None, dict[str, float]]:
        listed = work([log], [club], items=[board], fleet=[unbuilt()], as_of=as_of)
        found = the_row(listed, "look")
        return found.state, found.first_by, dict(found.left)

    assert ("never done", "days", {"days": 2}) == row("08-01")
    assert ("overdue", "days", {"days": -1}) == row("08-04")
    log.flight("03-02")
    log.flight("03-02")
    assert ("due", "flights", {"flights": 0, "days": 2}) == row("08-01")


def test_of_unknown_age_days_count_from_the_first_time_it_was_done() -> None:
    """A motor with a life before these records, of no known day; done on 31 January, late next."""
    log = Log("stores/shelf")
    log.inspection("01-31", "look", "M-1")
    log.inspection("03-05", "look", "M-1")
    club = programme(task("look", {"months": 1}, "motor"))
    used = item("M-1", carried=Carried(basis="unknown"))

    listed = work([log], [club], items=[used], as_of="03-06", programme="club")

    assert "2026-03-31" == str(the_row(listed, "look").due_on)


def test_work_on_the_very_day_keeps_the_day_of_the_anchor() -> None:
    """Due and done on 28 February, counted from 31 January: next on 31 March."""
    log = Log("aircraft/a")
    log.inspection("01-31", "look")
    log.inspection("02-28", "look")
    club = programme(task("look", {"months": 1}))
    plane = aircraft(
        "a",
        programme="club",
        kind="aeroplane",
        layout="aeroplane",
        in_service=date("2025-12-31"),
    )

    row = the_row(work([log], [club], fleet=[plane], as_of="03-01"), "look")

    assert "2026-03-31" == str(row.due_on)


def test_a_task_of_a_moment_never_falls_due() -> None:
    """``when: before each flight`` has no row, unless something re-opens it or an interval runs."""
    log = Log("aircraft/a")
    log.transport("01-02")
    moment = "before each flight"
    club = programme(
        task("preflight", {}, when=moment),
        task("unpacked", {}, when=moment, also_after="transport"),
        task("weekly", {"days": 7}, when=moment),
    )

    listed = work([log], [club], fleet=[unbuilt()])

    assert {"unpacked": "stale", "weekly": "overdue"} == {
        row.name: row.state for row in listed.rows
    }


def test_days_too_step_from_the_anchor() -> None:
    """Every 10 days from 1 January, done late on the 12th: next on the 21st, by the earlier."""
    log = Log("aircraft/a")
    log.inspection("01-01", "look")
    log.inspection("01-12", "look")
    club = programme(task("look", {"days": 10}))

    row = the_row(work([log], [club], fleet=[unbuilt()], as_of="01-12"), "look")

    assert ("2026-01-21", {"days": 9}) == (str(row.due_on), row.left)


@pytest.mark.parametrize(
    ("counted_from", "done", "expected"),
    [
        ("earlier", "01-25", "2026-02-25"),
        ("earlier", "02-05", "2026-02-28"),
        ("earlier", "03-10", "2026-04-10"),
        ("earlier", "02-28", "2026-03-28"),
        ("done", "02-05", "2026-03-05"),
        ("done", "01-25", "2026-02-25"),
        ("planned", "01-25", "2026-02-28"),
        ("planned", "02-05", "2026-02-28"),
        ("planned", "02-28", "2026-03-31"),
        ("planned", "03-10", "2026-03-31"),
        ("planned", "12-31", "2027-01-31"),
    ],
)
def test_R24_by_the_calendar(counted_from: str, done: str, expected: str) -> None:
    """Monthly from 31 December, so due 31 January; done then, next due."""
    log = Log("aircraft/a")
    log.flight(done)
    log.inspection(done, "look")
    club = programme(task("look", {"months": 1}, counted_from=counted_from))
    plane = aircraft(
        "a",
        programme="club",
        kind="aeroplane",
        layout="aeroplane",
        in_service=date("2025-12-31"),
    )

    row = the_row(work([log], [club], fleet=[plane], as_of="12-31"), "look")

    assert expected == str(row.due_on)


def test_the_day_of_the_anchor_is_kept_after_late_work() -> None:
    """Due 28 February, done 5 March, counted from the earlier: next on 31 March."""
    log = Log("aircraft/a")
    log.inspection("01-31", "look")
    log.inspection("03-05", "look")
    club = programme(task("look", {"months": 1}))

    row = the_row(work([log], [club], fleet=[unbuilt()], as_of="03-06"), "look")

    assert "2026-03-31" == str(row.due_on)


def test_charges_cycles_and_flying_days_of_a_pack() -> None:
    """R19 counts: 3 charges, and 2.05 equivalent cycles of 1300 mAh (AC 107-2A ch. 7)."""
    log = Log("aircraft/a")
    for on_day, put_in in (("01-01", 0.98), ("01-02", 1.04), ("01-03", 0.65)):
        log.flight(on_day, packs="P-1", used_ah=put_in)
        log.charge(on_day, "P-1", put_in * 2.0 / 1.3)
    club = programme(task("pack-look", {"charges": 20, "cycles": 50, "flying_days": 9}, "battery"))

    row = the_row(work([log], [club], items=["P-1"], fleet=[unbuilt()]), "pack-look")

    assert (None, "P-1") == (row.aircraft, row.tag)
    assert 17 == row.left["charges"]
    assert round(50 - 2.67 / 1.3, 3) == round(row.left["cycles"], 3)
    assert 6 == row.left["flying_days"]


def test_a_pack_has_one_row_a_task_and_it_is_the_strictest() -> None:
    """Of every aircraft that it flew on, wherever the aircraft is now."""
    one, other = Log("aircraft/a"), Log("aircraft/b")
    for _ in range(5):
        one.flight("01-01", packs="P-1")
    other.flight("01-02", packs="P-1")
    fleet = [
        aircraft(slug, programme=name, kind="aeroplane", layout="aeroplane")
        for slug, name in (("a", "club"), ("b", "strict"))
    ]
    club = programme(task("pack-look", {"flights": 50}, "battery"))
    strict = programme(task("pack-look", {"flights": 6}, "battery"), name="strict")

    listed = work([one, other], [club, strict], items=["P-1"], fleet=fleet)

    row = the_row(listed, "pack-look")
    assert ("due", {"flights": 0}) == (row.state, row.left)
    assert ["pack look of P-1: due"] == told(listed.packs[0])


def test_a_pack_that_never_flew_has_the_programme_of_the_hangar() -> None:
    """``programme`` in hangar.yaml."""
    club = programme(task("pack-look", {"months": 3}, "battery"))
    pack = item("P-1", acquired=date("01-31"))
    store = Log("stores/P-1")
    store.charge("02-01", "P-1")

    listed = work([], [club], items=[pack], fleet=[], programme="club", as_of="03-01")
    assert [] == rows(listed, "pack-look")

    listed = work([store], [club], items=[pack], fleet=[], programme="club", as_of="03-01")
    assert "2026-04-30" == str(the_row(listed, "pack-look").due_on)

    listed = work([], [club], items=[pack], fleet=[], as_of="03-01")
    assert ("cannot say", ["no maintenance programme recorded"]) == (
        listed.packs[0].state,
        told(listed.packs[0]),
    )


def test_D17_a_full_pack_that_lies_there_is_due_for_storage_charge() -> None:
    """Common practice, no source: full 06-01, not flown: 06-02 ok, 06-03 due; never grounds."""
    log = Log("aircraft/a")
    log.flight("05-30", packs="P-1")
    log.charge("06-01", "P-1", to="full")
    club = programme(task("pack-storage-charge", {"days": 2}, "battery"))

    def state(as_of: str) -> tuple[str, str]:
        listed = work([log], [club], items=["P-1"], fleet=[unbuilt()], as_of=as_of)
        return the_row(listed, "pack-storage-charge").state, listed.packs[0].state

    def because(as_of: str) -> object:
        listed = work([log], [club], items=["P-1"], fleet=[unbuilt()], as_of=as_of)
        return the_row(listed, "pack-storage-charge").because

    assert ("ok", "nothing open") == state("06-02")
    assert because("06-02") is None
    assert ("due", "due soon") == state("06-03")
    assert because("06-03") is not None
    assert ("overdue", "due soon") == state("06-09")
    log.flight("06-10", packs="P-1")
    assert ("ok", "nothing open") == state("06-10")


def test_the_pack_tasks_that_a_charge_or_a_measurement_does() -> None:
    """D15, D16, D18: resting voltage, resistance, capacity, each by an entry of its own kind."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.charge("01-02", "P-1", resting_v=(4.18, 4.17))
    log.charge("01-03", "P-1", resistance_ohm=(0.008, 0.009))
    log.capacity("01-04", "P-1", 1.9)
    names = ("pack-rest-voltage", "pack-resistance", "pack-capacity")
    club = programme(*(task(name, {"months": 3}, "battery") for name in names))

    listed = work([log], [club], items=["P-1"], fleet=[unbuilt()])

    assert ["2026-01-02", "2026-01-03", "2026-01-04"] == [
        str(the_row(listed, name).done_on) for name in names
    ]


def test_a_check_does_the_tasks_of_the_items_that_sat_there() -> None:
    """``covers``: by station where the check names one, and no other check does."""
    rules = (
        task("sensor-again", {"months": 6}, "sensor"),
        check("compass", covers=("sensor-again",)),
    )
    log = Log("aircraft/a")
    log.fit("01-01", {"nose": {"sensor": "S-1"}, "tail": {"sensor": "S-2"}})
    log.check("01-02", "compass", stations=("nose",))
    log.check("01-03", "range")
    sensors = [item(tag, acquired=date("01-01")) for tag in ("S-1", "S-2", "S-3")]

    def done() -> dict[str | None, str]:
        listed = work([log], [programme(*rules)], items=sensors, fleet=[unbuilt()])
        return {row.tag: str(row.done_on) for row in rows(listed, "sensor-again")}

    assert {"S-1": "2026-01-02", "S-2": "None"} == done()
    log.fit("01-04", {"tail": {"sensor": "S-3"}}, instead_of={"S-2": "serviceable"})
    assert {"S-1": "2026-01-02", "S-3": "None"} == done()
    log.check("01-05", "compass")
    assert {"S-1": "2026-01-05", "S-3": "2026-01-05"} == done()


def test_a_task_of_the_aircraft_is_done_by_a_check_of_another_name() -> None:
    """The later of both counts."""
    rules = task("failsafe-again", {"months": 3}), check("failsafe", covers=("failsafe-again",))
    log = Log("aircraft/a")
    log.inspection("01-02", "failsafe-again")
    log.check("02-02", "failsafe")
    log.check("02-03", "range")

    row = the_row(work([log], [programme(*rules)], fleet=[unbuilt()]), "failsafe-again")

    assert ("2026-02-02", "2026-05-02") == (str(row.done_on), str(row.due_on))


def test_a_check_of_the_same_name_does_the_task_too() -> None:
    """The failsafe test every three months (D10) and the failsafe check are one deed."""
    log = Log("aircraft/a")
    log.check("01-02", "failsafe")
    club = programme(task("failsafe", {"months": 3}))

    row = the_row(work([log], [club], fleet=[unbuilt()]), "failsafe")

    assert "2026-04-02" == str(row.due_on)


@pytest.mark.parametrize(
    ("done", "interval", "rule", "expected"),
    [
        ("2026-08-31", {"months": 6}, "exact", "2027-02-28"),
        ("2026-08-10", {"months": 6}, "exact", "2027-02-10"),
        ("2026-08-10", {"months": 6}, "end_of_month", "2027-02-28"),
        ("2026-08-31", {"months": 6}, "end_of_month", "2027-02-28"),
        ("2026-02-10", {"years": 2}, "end_of_month", "2028-02-29"),
        ("2026-08-10", {"days": 6}, "end_of_month", "2026-08-16"),
    ],
)
def test_R25_a_calendar_month_may_run_to_the_end_of_the_month(
    done: str, interval: dict[str, int], rule: str, expected: str
) -> None:
    """R25: US usage, from memory; exact unless said. Days are days in any case."""
    log = Log("aircraft/a")
    log.inspection(done, "look")

    row = the_row(
        work([log], [programme(task("look", interval, month_rule=rule, counted_from="done"))]),
        "look",
    )

    assert expected == str(row.due_on)


def test_R25_running_to_the_end_of_the_month_is_looser() -> None:
    """So it is marked beside the usual rule; the other way round it is not."""
    exact, to_end = (task("look", {"months": 6}, month_rule=r) for r in ("exact", "end_of_month"))

    assert looser_task(to_end, exact)
    assert not looser_task(exact, to_end)


def test_a_failed_look_is_not_the_last_that_was_done() -> None:
    """It leads to the entry that failed; done on is the pass before it."""
    log = Log("aircraft/a")
    log.inspection("01-02", "big-look")
    failed = log.inspection("02-01", "big-look", result="fail")
    club = programme(task("big-look", {"days": 100}))

    row = the_row(work([log], [club], fleet=[unbuilt()]), "big-look")

    assert ("failed", date("01-02")) == (row.state, row.done_on)
    assert failed.place() == row.place


def test_what_is_in_order_gives_no_reason_and_leads_to_its_doing() -> None:
    """What is stale leads to the entry that made it so."""
    log = Log("aircraft/a")
    done = log.inspection("01-02", "big-look")
    club = programme(task("big-look", {"days": 100}, also_after="repair"))
    fine = the_row(work([log], [club], fleet=[unbuilt()], as_of="01-03"), "big-look")
    repair = log.repair("01-04")
    stale = the_row(work([log], [club], fleet=[unbuilt()], as_of="01-05"), "big-look")

    assert ("ok", None, done.place()) == (fine.state, fine.because, fine.place)
    assert ("stale", repair.place()) == (stale.state, stale.place)
