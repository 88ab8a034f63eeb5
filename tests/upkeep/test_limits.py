"""Life limits: no tolerance, the carrier is grounded, a pack marks itself only."""

import hypothesis.strategies as st
import msgspec
import pytest
from hypothesis import given, settings
from programmes import (
    HOUR,
    STATIONS,
    WHOLE,
    built,
    date,
    hangar,
    limit,
    on,
    programme,
    task,
    the_row,
    told,
    work,
)
from written_logs import Log, aircraft, item

from buildbook.basis.place import Place
from buildbook.records.entries import FlightRow
from buildbook.records.parts import Carried
from buildbook.upkeep.warnings.past_limits import fitted_past_limits, flown_past_limits
from buildbook.upkeep.work_list import work_list

PLANE = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")
OUT = limit("gear-out", "controller", hours=20)


def with_controller(hours: float) -> Log:
    log = Log("aircraft/a")
    log.fit("01-01", {"centre": {"controller": "C-1"}})
    log.flight("01-02", round(hours * HOUR))
    return log


@pytest.mark.parametrize(
    ("hours", "state", "left"),
    [
        (17.9, "ok", 2.1),
        (18.0, "due soon", 2.0),
        (18.7, "due soon", 1.3),
        (20.0, "reached", 0.0),
        (21.0, "reached", -1.0),
    ],
)
def test_R14_accumulated_and_remaining_of_a_life(hours: float, state: str, left: float) -> None:
    """GM M.A.305(d): limit 20 h, used 18.7 -> 1.3 h left, due soon; 20.0 exactly -> reached."""
    listed = work([with_controller(hours)], [programme(OUT)], items=["C-1"], fleet=[PLANE])

    row = the_row(listed, "gear-out")
    assert (state, left) == (row.state, round(row.left["hours"], 9))
    assert round(hours / 20, 9) == round(row.used or 0, 9)
    grounded = state == "reached"
    assert grounded is row.grounds
    assert grounded is ("grounded" == on(listed, "a").state)


def test_a_limit_says_the_share_that_is_used() -> None:
    """Rounded down, so that 100 % is said only where it is reached."""
    listed = work([with_controller(19.99)], [programme(OUT)], items=["C-1"], fleet=[PLANE])
    assert ["gear out of C-1 at centre: due soon, 0.01 h left, by hours"] == told(on(listed, "a"))

    listed = work([with_controller(20)], [programme(OUT)], items=["C-1"], fleet=[PLANE])
    assert ["gear out of C-1 at centre: reached, by hours"] == told(on(listed, "a"))


def test_R16_of_an_unknown_history_the_rest_cannot_be_stated() -> None:
    """AC 43-9C: 3.2 h logged, earlier history unknown -> at least 3.2 h; cannot say."""
    motor = item("C-1", carried=Carried(basis="unknown"))

    listed = work([with_controller(3.2)], [programme(OUT)], items=[motor], fleet=[PLANE])

    row = the_row(listed, "gear-out")
    assert ("open", {}, True) == (row.state, row.left, row.unknown)
    assert "cannot say" == on(listed, "a").state
    assert [
        "gear out of C-1 at centre: cannot say, at least 3.2 h, earlier history unknown"
    ] == told(on(listed, "a"))

    listed = work([with_controller(20)], [programme(OUT)], items=[motor], fleet=[PLANE])
    assert "reached" == the_row(listed, "gear-out").state
    assert "grounded" == on(listed, "a").state


def test_carried_life_counts() -> None:
    """14.5 h before, 4 h since: 1.5 h left."""
    motor = item("C-1", carried=Carried(duration_s=14.5 * HOUR, basis="estimate"))

    listed = work([with_controller(4)], [programme(OUT)], items=[motor], fleet=[PLANE])

    assert {"hours": 1.5} == the_row(listed, "gear-out").left


@pytest.mark.parametrize(
    ("as_of", "state"),
    [
        ("2026-02-16", "ok"),
        ("2026-02-17", "due soon"),
        ("2026-04-30", "due soon"),
        ("2026-05-01", "reached"),
    ],
)
def test_R18_calendar_life_runs_in_the_drawer(as_of: str, state: str) -> None:
    """GM M.A.305(b): made 2024-05-01, 24 months, never fitted -> due 2026-05-01."""
    pack = item("P-1", made=date("2024-05-01"), acquired=date("2025-01-01"))
    club = programme(limit("pack-old", "battery", months=24))

    listed = work([], [club], items=[pack], fleet=[], programme="club", as_of=as_of)

    row = the_row(listed, "pack-old")
    assert ("2026-05-01", state, "days") == (str(row.due_on), row.state, row.first_by)
    on_the_day = None if state == "reached" else (date("2026-05-01"), date("2026-05-01"))
    assert on_the_day == row.expected


def test_age_counts_from_the_day_acquired_where_it_is_not_known_when_it_was_made() -> None:
    """And in whole years."""
    pack = item("P-1", acquired=date("2024-02-29"))
    club = programme(limit("pack-old", "battery", years=1))

    listed = work([], [club], items=[pack], fleet=[], programme="club", as_of="2025-02-27")

    assert ("2025-02-28", "due soon", {"days": 1}) == (
        str(the_row(listed, "pack-old").due_on),
        the_row(listed, "pack-old").state,
        the_row(listed, "pack-old").left,
    )


@pytest.mark.parametrize(
    ("measured_mah", "state"),
    [(1300, "ok"), (1067, "ok"), (1066, "due soon"), (1040, "due soon"), (1039, "reached")],
)
def test_D18_capacity_below_80_percent_of_rated(measured_mah: int, state: str) -> None:
    """70 to 80 % convention: rated 1300, 1040 is 80.0 % and holds, 1039 ends it; in whole mAh.

    Measured twice: one reading reaches nothing.
    """
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.capacity("01-02", "P-1", measured_mah / 1300 * 2.0)
    log.capacity("01-03", "P-1", measured_mah / 1300 * 2.0)
    club = programme(limit("pack-retire", "battery", capacity_share=0.8))

    listed = work([log], [club], items=["P-1"], fleet=[PLANE])

    row = the_row(listed, "pack-retire")
    assert (state, "share") == (row.state, row.first_by)
    assert round(measured_mah / 1300 - 0.8, 9) == round(row.left["share"], 9)
    assert (
        "grounded" if state == "reached" else "nothing open" if state == "ok" else "due soon"
    ) == listed.packs[0].state
    assert "nothing open" == on(listed, "a").state


@pytest.mark.parametrize(
    ("now_mohm", "state"), [(8.9, "ok"), (9.0, "due soon"), (11.9, "due soon"), (12.0, "reached")]
)
def test_D16_cell_resistance_against_its_own_first(now_mohm: float, state: str) -> None:
    """Common practice, no source: first 6.0 mΩ; 8.9 ok, 9.0 warn, 12.0 review. Read twice."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.charge("01-02", "P-1", resistance_ohm=(0.0060, 0.0070))
    log.charge("02-02", "P-1", resistance_ohm=(now_mohm / 1000, 0.0070))
    log.charge("03-02", "P-1", resistance_ohm=(now_mohm / 1000, 0.0070))
    club = programme(limit("pack-retire", "battery", cell_resistance_share=2.0))

    listed = work([log], [club], items=["P-1"], fleet=[PLANE])

    row = the_row(listed, "pack-retire")
    assert (state, "share") == (row.state, row.first_by)
    if state != "ok":
        assert ("cell_resistance", Place("aircraft/a/logbook.yaml", 40)) == (
            row.because.unit,
            row.because.place,
        )


def test_a_resistance_that_may_not_grow_at_all_is_reached_at_once() -> None:
    """``cell_resistance: 100 %``: a lower reading holds, the same one ends it."""
    club = programme(limit("pack-retire", "battery", cell_resistance_share=1.0))
    for now_ohm, expected in ((0.0059, ("ok", 1.0)), (0.0060, ("reached", 1.0))):
        log = Log("aircraft/a")
        log.flight("01-01", packs="P-1")
        log.charge("01-02", "P-1", resistance_ohm=(0.0060,))
        log.charge("03-02", "P-1", resistance_ohm=(now_ohm,))

        row = the_row(work([log], [club], items=["P-1"], fleet=[PLANE]), "pack-retire")

        assert expected == (row.state, row.used)


def test_readings_of_several_packs_together_are_nobodys_resistance() -> None:
    """The charger showed one figure for both."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.charge("01-02", "P-1", resistance_ohm=(0.006,))
    log.charge("03-02", "P-1 P-2", resistance_ohm=(0.013,))
    club = programme(limit("pack-retire", "battery", cell_resistance_share=2.0))

    listed = work([log], [club], items=["P-1", "P-2"], fleet=[PLANE])

    (row,) = [row for row in listed.rows if row.tag == "P-1"]
    assert ("ok", {}) == (row.state, row.left)


def test_a_pack_at_its_limit_marks_itself_and_any_other_item_its_carrier() -> None:
    """Upkeep: a pack at its limit grounds no aircraft."""
    log = built(Log("aircraft/a"))
    for _ in range(5):
        log.flight("01-02", packs="P-1")
    both = programme(limit("pack-out", "battery", flights=5))

    listed = work([log], [both], items=[*WHOLE, "P-1"])
    assert ("grounded", ["pack out of P-1: reached, by flights"]) == (
        listed.packs[0].state,
        told(listed.packs[0]),
    )
    assert ("nothing open", []) == (on(listed, "a").state, told(on(listed, "a")))

    both = programme(limit("propeller-out", "propeller", flights=5))
    listed = work([log], [both], items=[*WHOLE, "P-1"])
    assert (
        "grounded",
        [
            f"propeller out of R-{n} at {station}: reached, by flights"
            for n, station in enumerate(STATIONS, 1)
        ],
    ) == (
        on(listed, "a").state,
        sorted(told(on(listed, "a"))),
    )


def test_whichever_limit_is_nearest_decides() -> None:
    """90 % of the flights, 10 % of the age."""
    log = Log("aircraft/a")
    log.fit("01-01", {"centre": {"controller": "C-1"}})
    for _ in range(9):
        log.flight("01-02")
    motor = item("C-1", acquired=date("01-01"))
    club = programme(limit("gear-out", "controller", flights=10, years=2))

    row = the_row(work([log], [club], items=[motor], fleet=[PLANE], as_of="03-01"), "gear-out")

    assert ("due soon", "flights", {"flights": 1, "days": 671}) == (
        row.state,
        row.first_by,
        row.left,
    )


@pytest.mark.parametrize("status", ["building", "stored", "retired", "sold"])
def test_an_aircraft_that_is_not_flying_raises_life_limits_and_nothing_else(status: str) -> None:
    """Upkeep: it shows its status instead of a state. What is broken of one in building is told."""
    log = with_controller(20)
    log.defect("01-03")
    plane = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane", status=status)
    club = programme(OUT, task("look", {"flights": 1}))

    listed = work([log], [club], items=["C-1"], fleet=[plane])

    broken = ["defect: grounds, open for 362 days, found on 3 January 2026"]
    limit = ["gear out of C-1 at centre: reached, by hours"]

    assert (status, [*(broken if status == "building" else []), *limit]) == (
        on(listed, "a").state,
        told(on(listed, "a")),
    )
    assert ["gear-out"] == [row.name for row in listed.rows if row.kind != "defect"]


def test_the_limit_of_an_airframe() -> None:
    """``for: aircraft``; its own carried life counts."""
    log = Log("aircraft/a")
    log.flight("01-02", 2 * HOUR)
    plane = aircraft(
        "a",
        programme="club",
        kind="aeroplane",
        layout="aeroplane",
        carried=Carried(duration_s=7 * HOUR),
    )

    listed = work([log], [programme(limit("frame-out", "aircraft", hours=10))], fleet=[plane])

    row = the_row(listed, "frame-out")
    assert ("a", None, "due soon", {"hours": 1.0}) == (row.aircraft, row.tag, row.state, row.left)


def test_R15_a_flight_past_a_limit_is_a_warning() -> None:
    """14 CFR 43.10(c), deterring: a flight with an item at its limit, first one and count."""
    log = Log("aircraft/a")
    log.fit("01-01", {"centre": {"controller": "C-1"}})
    for _ in range(5):
        log.flight("01-02", packs="P-1 P-2")
    log.capacity("01-03", "P-2", 1.5)
    log.capacity("01-03", "P-2", 1.5)
    log.flight("01-04", packs="P-2")
    old = item("P-1", made=date("2025-01-02"))
    club = programme(
        limit("gear-out", "controller", flights=3),
        limit("pack-out", "battery", years=1, capacity_share=0.8),
    )
    now = hangar([log], [club], items=["C-1", old, "P-2"], fleet=[PLANE])

    found = flown_past_limits(now, work_list(now))

    file = "aircraft/a/logbook.yaml"
    assert [
        f"a flown on 2026-01-02 with gear-out of C-1 reached, and 2 more times @ {file}:50",
        f"a flown on 2026-01-02 with pack-out of P-1 reached, and 4 more times @ {file}:20",
        f"a flown on 2026-01-04 with pack-out of P-2 reached @ {file}:90",
    ] == sorted(str(problem) for problem in found)


@given(
    st.lists(
        st.tuples(st.sampled_from(["flight", "charge"]), st.integers(0, 2200)),
        min_size=1,
        max_size=12,
    )
)
@settings(max_examples=40, deadline=None)
def test_cycles_are_counted_as_the_hangar_counts_them(events: list[tuple[str, int]]) -> None:
    """What is left of a limit in cycles and what the pack has lived through make the limit."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    for number, (kind, mah) in enumerate(events):
        on_day = f"2026-02-{1 + number // 3:02d}"
        if kind == "flight":
            log.flight(on_day, packs="P-1", used_ah=mah / 1000)
        else:
            log.charge(on_day, "P-1", mah / 1000)
    now = hangar(
        [log], [programme(limit("pack-out", "battery", cycles=300))], items=["P-1"], fleet=[PLANE]
    )

    row = the_row(work_list(now), "pack-out")

    lived = now.items["P-1"].counters.cycles
    assert abs(lived - (300 - row.left["cycles"])) < 0.00051  # counted in thousandths


def test_R15_hours_and_cycles_are_flown_past_as_well() -> None:
    """One hour of two, then one that reaches it, then two beyond it."""
    log = Log("aircraft/a")
    log.fit("01-01", {"centre": {"controller": "C-1"}})
    for _ in range(4):
        log.flight("01-02", HOUR, packs="P-1", used_ah=1.0)
    club = programme(
        limit("gear-out", "controller", hours=2), limit("pack-out", "battery", cycles=1.5)
    )
    now = hangar([log], [club], items=["C-1", "P-1"], fleet=[PLANE])

    found = flown_past_limits(now, work_list(now))

    file = "aircraft/a/logbook.yaml"
    assert [
        f"a flown on 2026-01-02 with gear-out of C-1 reached, and 1 more time @ {file}:40",
        f"a flown on 2026-01-02 with pack-out of P-1 reached @ {file}:50",
    ] == sorted(str(problem) for problem in found)


def test_R15_a_part_that_is_fitted_again_past_its_limit_is_warned_about() -> None:
    """43.10(c): the records deter from refitting it; one that reached it where it sits is not."""
    log = Log("aircraft/a")
    log.fit("01-01", {"nose": {"motor": "M-1"}})
    for _ in range(3):
        log.flight("01-02")
    club = programme(limit("out", "motor", flights=3))
    plane = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")

    def told() -> list[str]:
        now = hangar([log], [club], items=["M-1"], fleet=[plane])
        return [str(problem) for problem in fitted_past_limits(now, work_list(now))]

    assert [] == told()
    log.remove("01-03", "M-1")
    log.fit("01-04", {"nose": {"motor": "M-1"}})
    assert ["M-1 fitted on 2026-01-04 with out reached @ aircraft/a/logbook.yaml:60"] == told()


def test_rows_of_a_part_that_could_not_be_read_stop_no_warning() -> None:
    """A defect of a part whose spec is damaged has a row, and there is no item of its tag."""
    log = Log("aircraft/a")
    log.fit("01-01", {"centre": {"controller": "C-1"}})
    log.flight("01-02")
    log.flight("01-02")
    now = hangar(
        [log], [programme(limit("out", "controller", flights=1))], items=["C-1"], fleet=[PLANE]
    )
    listed = work_list(now)
    (row,) = listed.rows
    lost = msgspec.structs.replace(row, tag="M-9", aircraft=None)
    listed = msgspec.structs.replace(listed, rows=(lost, row))

    assert 1 == len(flown_past_limits(now, listed))
    assert () == fitted_past_limits(now, listed)


def test_flights_of_one_entry_are_counted_one_after_the_other() -> None:
    """A limit of two flights, three in one entry: the third one was flown past it."""
    log = Log("aircraft/a")
    log.fit("01-01", {"centre": {"controller": "C-1"}})
    log.flights("01-02", *(FlightRow(duration_s=360.0) for _ in range(3)))
    club = programme(limit("gear-out", "controller", flights=2))
    now = hangar([log], [club], items=["C-1"], fleet=[PLANE])

    found = flown_past_limits(now, work_list(now))

    assert ["a flown on 2026-01-02 with gear-out of C-1 reached @ aircraft/a/logbook.yaml:20"] == [
        str(problem) for problem in found
    ]
