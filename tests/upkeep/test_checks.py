"""Set-up checks: what re-opens them, and for which station or item only."""

from typing import Any

import msgspec
import pytest
from programmes import (
    STATIONS,
    WHOLE,
    built,
    check,
    date,
    hangar,
    on,
    programme,
    states,
    the_row,
    told,
    worded,
    work,
)
from written_logs import Log, aircraft, item

from buildbook.basis.place import Place
from buildbook.records.aircraft import StationPlan
from buildbook.records.triggers import Trigger
from buildbook.report.upkeep.findings import MassComputed, ReadOtherwise
from buildbook.report.upkeep.work import Because
from buildbook.upkeep.work_list import set_up, work_list

SPIN = check(
    "spin-directions",
    "fit motor, fit esc, fit controller, firmware controller, firmware esc,"
    " alteration stations, crash",
    per="motor station",
)
LEVEL = check("accelerometer", "fit controller, firmware controller, crash")
LOG = "aircraft/a/logbook.yaml"
HOME = "aircraft/a/aircraft.yaml"
ALL_OK = dict.fromkeys(STATIONS, "ok")


def flown_in() -> Log:
    """A quad whose spin directions were checked the day after it was built."""
    log = built(Log("aircraft/a"))
    log.check("01-02", "spin-directions")
    return log


def spins(log: Log, *more_items: str, **more: object) -> dict[str, str]:
    return states(
        work([log], [programme(SPIN)], items=[*WHOLE, *more_items], **more), "spin-directions"
    )


def test_S3_one_motor_reopens_its_own_station_and_nothing_else() -> None:
    """Rules, section 3: motor 3 fitted -> spin direction there is stale, the others are fresh."""
    log = flown_in()
    log.fit("05-10", {"rear-left": {"motor": "M-9"}}, instead_of={"M-3": "retired"})

    listed = work([log], [programme(SPIN)], items=[*WHOLE, "M-9"])

    assert {**ALL_OK, "rear-left": "stale"} == states(listed, "spin-directions")
    standing = on(listed, "a")
    assert ["spin directions at rear-left: stale, re-opened: motor fitted on 10 May 2026"] == told(
        standing
    )
    assert "grounded" == standing.state
    assert (
        Because(
            why="trigger",
            trigger=Trigger("fit", "motor"),
            entry=f"{LOG}#2026-05-10-1",
            on=date("05-10"),
            place=Place(LOG, 30),
            station="rear-left",
        )
        == standing.reasons[0].because
    )
    assert Place(LOG, 30) == standing.reasons[0].place


def test_S3_same_day_the_order_of_the_list_decides() -> None:
    """Rules, section 3: motor fitted 05-10; a check listed after it is fresh, before it stale."""
    for check_first, expected in ((False, "ok"), (True, "stale")):
        log = flown_in()
        if check_first:
            log.check("05-10", "spin-directions")
        log.fit("05-10", {"rear-left": {"motor": "M-9"}}, instead_of={"M-3": "retired"})
        if not check_first:
            log.check("05-10", "spin-directions")

        assert {**ALL_OK, "rear-left": expected} == spins(log, "M-9")


def test_S3_a_tie_across_logs_is_stale() -> None:
    """Firmware written in a store on the day of the check: no order between them, so stale."""
    log = flown_in()
    log.check("05-10", "spin-directions")
    store = Log("stores/bench")
    store.firmware("05-10", E_1="1.3")

    listed = work([log, store], [programme(SPIN)], items=WHOLE)

    assert {**ALL_OK, "front-left": "stale"} == states(listed, "spin-directions")


def test_S3_staleness_never_touches_another_aircraft() -> None:
    """Rules, section 3: of aircraft A it never touches aircraft B."""
    one, other = flown_in(), Log("aircraft/b")
    built(other, "02-01")
    other.check("02-02", "spin-directions")
    one.fit("05-10", {"rear-left": {"motor": "M-9"}}, instead_of={"M-3": "retired"})
    items = [*WHOLE, "M-9"]

    listed = work([one, other], [programme(SPIN)], items=items)

    spins = [row for row in on(listed, "a").rows if row.name == "spin-directions"]
    assert ["stale"] == [row.state for row in spins if row.station == "rear-left"]
    assert {"ok"} == {row.state for row in on(listed, "b").rows}


def test_a_single_esc_reopens_its_station_and_a_shared_one_all_that_it_serves() -> None:
    """Rules, section 3: 4-in-1 board -> all motors; single ESC -> that motor."""
    single = flown_in()
    single.fit("05-10", {"front-right": {"esc": "E-9"}}, instead_of={"E-2": "retired"})
    assert {**ALL_OK, "front-right": "stale"} == spins(single, "E-9")

    shared = flown_in()
    shared.remove("05-10", "E-1", "E-2", "E-3", "E-4")
    shared.check("05-10", "spin-directions")
    shared.fit("05-10", {"centre": {"esc": "E-9"}}, serves={"E-9": STATIONS[:2]})
    assert {
        "front-left": "stale",
        "front-right": "stale",
        "rear-left": "ok",
        "rear-right": "ok",
    } == spins(shared, "E-9")


def test_a_crash_that_names_one_station_of_a_shared_esc_stays_there() -> None:
    """What the incident names, not what the board behind it drives."""
    log = built(Log("aircraft/a"))
    log.remove("01-01", "E-1", "E-2", "E-3", "E-4")
    log.fit("01-01", {"centre": {"esc": "E-9"}}, serves={"E-9": STATIONS})
    log.check("01-02", "spin-directions")
    log.incident("05-10", severity="hard", touched=("front-left",))

    assert {**ALL_OK, "front-left": "stale"} == spins(log, "E-9")


@pytest.mark.parametrize(
    ("touched", "expected"),
    [
        ((), dict.fromkeys(STATIONS, "stale")),
        (("front-left",), {**ALL_OK, "front-left": "stale"}),
        (("M-2",), {**ALL_OK, "front-right": "stale"}),
        (("undercarriage",), ALL_OK),
    ],
)
def test_a_crash_touches_what_it_names_or_everything(
    touched: tuple[str, ...], expected: dict[str, str]
) -> None:
    """Upkeep: a crash touches what the incident names, or everything when it names nothing."""
    log = flown_in()
    log.incident("05-10", severity="total", touched=touched)

    assert expected == spins(log)


def test_what_sits_at_no_motor_station_reopens_all_of_them() -> None:
    """A controller at the centre: every station, and the checks of the whole aircraft."""
    log = flown_in()
    log.check("01-02", "accelerometer")
    log.fit("05-10", {"centre": {"controller": "C-1"}})

    listed = work([log], [programme(SPIN, LEVEL)], items=[*WHOLE, "C-1"])

    assert dict.fromkeys(STATIONS, "stale") == states(listed, "spin-directions")
    assert {"a": "stale"} == states(listed, "accelerometer")


def test_firmware_on_an_esc_is_of_its_station_and_on_the_controller_of_all() -> None:
    """Rules, section 3: firmware on ESC -> spin direction of it only."""
    log = flown_in()
    log.firmware("05-10", E_3="1.3")
    assert {**ALL_OK, "rear-left": "stale"} == spins(log)

    log.fit("05-11", {"centre": {"controller": "C-1"}})
    log.check("05-12", "spin-directions")
    log.firmware("05-13", C_1="4.2")
    assert dict.fromkeys(STATIONS, "stale") == spins(log, "C-1")


def test_an_alteration_of_one_station_reopens_that_one_even_with_a_shared_esc() -> None:
    """Two motor leads swapped at front-left."""
    log = built(Log("aircraft/a"))
    log.remove("01-01", "E-1", "E-2", "E-3", "E-4")
    log.fit("01-01", {"centre": {"esc": "E-9"}}, serves={"E-9": STATIONS})
    log.check("01-02", "spin-directions")
    log.alteration("05-10", stations={"front-left": StationPlan(spin="cw")})

    assert {**ALL_OK, "front-left": "stale"} == spins(log, "E-9")


def test_a_check_by_propeller_has_a_row_for_each_and_follows_the_item() -> None:
    """Swapping two propellers re-opens those two only."""
    rule = check("propeller-fit", "fit propeller", per="propeller")
    log = built(Log("aircraft/a"))
    log.check("01-02", "propeller-fit")
    log.remove("02-01", "R-1", "R-2")
    log.fit("02-01", {"front-left": {"propeller": "R-2"}, "front-right": {"propeller": "R-1"}})

    listed = work([log], [programme(rule)], items=WHOLE)

    found = {(row.station, row.tag): row.state for row in listed.rows}
    assert {
        ("front-left", "R-2"): "stale",
        ("front-right", "R-1"): "stale",
        ("rear-left", "R-3"): "ok",
        ("rear-right", "R-4"): "ok",
    } == found
    assert [
        "propeller fit of R-2 at front-left: stale, re-opened: propeller fitted on 1 February 2026",
        (
            "propeller fit of R-1 at front-right: stale, re-opened: "
            "propeller fitted on 1 February 2026"
        ),
    ] == told(on(listed, "a"))


def test_a_motor_change_reopens_the_propeller_of_its_station() -> None:
    """An item is touched by what happens at its station."""
    rule = check("propeller-fit", "fit motor", per="propeller")
    log = built(Log("aircraft/a"))
    log.check("01-02", "propeller-fit")
    log.fit("05-10", {"rear-left": {"motor": "M-9"}}, instead_of={"M-3": "retired"})

    listed = work([log], [programme(rule)], items=[*WHOLE, "M-9"])

    assert {**ALL_OK, "rear-left": "stale"} == states(listed, "propeller-fit")


def test_a_check_of_one_station_does_not_speak_for_the_others() -> None:
    """``stations`` of a check limits it."""
    log = built(Log("aircraft/a"))
    log.check("01-02", "spin-directions", stations=("front-left",))

    assert {**dict.fromkeys(STATIONS, "never done"), "front-left": "ok"} == spins(log)


def test_a_check_by_item_at_one_station_is_of_the_item_that_sat_there() -> None:
    """A shared ESC was looked at when every station that it serves was."""
    rules = (
        check("propeller-fit", "fit propeller", per="propeller"),
        check("esc-look", "fit esc", per="esc"),
    )
    log = built(Log("aircraft/a"))
    log.remove("01-01", "E-1", "E-2", "E-3", "E-4")
    log.fit("01-01", {"centre": {"esc": "E-9"}}, serves={"E-9": STATIONS[:2]})
    log.check("01-02", "propeller-fit", stations=("front-left",))
    log.check("01-02", "esc-look", stations=("front-left",))

    listed = work([log], [programme(*rules)], items=[*WHOLE, "E-9"])
    found = states(listed, "propeller-fit")
    assert {**dict.fromkeys(STATIONS, "never done"), "front-left": "ok"} == found
    assert {"centre": "never done"} == states(listed, "esc-look")

    log.check("01-03", "esc-look", stations=STATIONS[:2])
    listed = work([log], [programme(*rules)], items=[*WHOLE, "E-9"])
    assert {"centre": "ok"} == states(listed, "esc-look")


def test_done_alone_and_reopened_since_it_was_never_done() -> None:
    """A second person was asked for and none had looked."""
    rule = check("throttle-cut", "fit receiver", second_person=True)
    log = built(Log("aircraft/a"))
    log.check("01-02", "throttle-cut", by="kim")
    log.fit("01-03", {"centre": {"receiver": "X-1"}})

    listed = work([log], [programme(rule)], items=[*WHOLE, "X-1"])

    assert "never done" == the_row(listed, "throttle-cut").state


def test_a_fail_stands_until_a_pass() -> None:
    """And a later trigger does not make less of it."""
    log = flown_in()
    log.check("05-10", "spin-directions", "fail", stations=("front-left",))
    log.firmware("05-11", E_1="1.3")

    listed = work([log], [programme(SPIN)], items=WHOLE)
    assert {**ALL_OK, "front-left": "failed"} == states(listed, "spin-directions")
    assert ["spin directions at front-left: failed on 10 May 2026"] == told(on(listed, "a"))

    log.check("05-12", "spin-directions", stations=("front-left",))
    assert ALL_OK == spins(log)


@pytest.mark.parametrize(
    "readings",
    [
        {"front-left": "cw", "front-right": "cw", "rear-left": "cw", "rear-right": "ccw"},
        {"front-left.spin": "cw"},
        {"spin.front-left": "clockwise"},
    ],
)
def test_a_pass_that_contradicts_the_planned_spin_has_failed(readings: dict[str, str]) -> None:
    """Upkeep: a pass whose readings contradict the layout is failed; only at that station."""
    log = built(Log("aircraft/a"))
    log.check("01-02", "spin-directions", readings=readings)
    plans = {
        "front-left": StationPlan(spin="ccw"),
        "front-right": StationPlan(spin="cw"),
        "rear-left": StationPlan(spin="cw"),
        "rear-right": StationPlan(spin="ccw"),
    }
    quad = aircraft("a", programme="club", stations=plans)

    listed = work([log], [programme(SPIN)], items=WHOLE, fleet=[quad])

    assert {**ALL_OK, "front-left": "failed"} == states(listed, "spin-directions")
    (reason,) = on(listed, "a").reasons
    assert "spin directions at front-left: failed, spin read as cw, planned ccw" == worded(reason)
    assert ReadOtherwise(of="spin", found="cw", expected="ccw") == reason.because.found
    assert "reading" == reason.because.why


def test_each_speaks_for_the_stations_that_were_checked() -> None:
    """One reading for all: those that it contradicts have failed."""
    log = built(Log("aircraft/a"))
    log.check("01-02", "spin-directions", readings={"each": "ccw"})
    plans = {"front-left": StationPlan(spin="ccw"), "rear-left": StationPlan(spin="cw")}
    quad = aircraft("a", programme="club", stations=plans)

    listed = work([log], [programme(SPIN)], items=WHOLE, fleet=[quad])

    assert {**ALL_OK, "rear-left": "failed"} == states(listed, "spin-directions")


def test_the_order_of_the_receiver_leads_is_held_against_the_aircraft() -> None:
    """Read as written in the file, with or without brackets."""
    rule = check("receiver-order", "fit receiver")
    quad = aircraft("a", programme="club", receiver=("throttle", "rudder", "elevator"))
    for said, expected in (
        ("throttle, rudder, elevator", "ok"),
        ("[throttle, elevator, rudder]", "failed"),
    ):
        log = built(Log("aircraft/a"))
        log.check("01-02", "receiver-order", readings={"order": said})

        listed = work([log], [programme(rule)], items=WHOLE, fleet=[quad])

        assert expected == the_row(listed, "receiver-order").state
    assert [
        "receiver order: failed, order read as throttle, elevator, rudder,"
        " planned throttle, rudder, elevator"
    ] == told(on(listed, "a"))


@pytest.mark.parametrize(
    ("readings", "expected"),
    [
        ({"1": "throttle", "2": "rudder"}, "ok"),
        ({"input-1": "throttle", "input-2": "elevator"}, "failed"),
        ({"input.3": "Rudder"}, "failed"),
        ({"4": "rudder"}, "ok"),
        ({"throttle": "2", "rudder": "-1"}, "ok"),
    ],
)
def test_the_channel_that_answered_is_held_against_its_input(
    readings: dict[str, str], expected: str
) -> None:
    """By number of the input; a number by name of a channel is a neutral value, not judged."""
    rule = check("receiver-order", "fit receiver")
    quad = aircraft("a", programme="club", receiver=("throttle", "rudder", "elevator"))
    log = built(Log("aircraft/a"))
    log.check("01-02", "receiver-order", readings=readings)

    listed = work([log], [programme(rule)], items=WHOLE, fleet=[quad])

    assert expected == the_row(listed, "receiver-order").state


def test_checks_that_share_readings_are_each_held_to_their_own() -> None:
    """Spin was read wrong; the neutral values and the start throttle are not about spin."""
    rules = (
        check("spin-directions", per="motor station"),
        check("start-spread", per="motor station"),
        check("receiver-neutral"),
        check("own-look", per="motor station", readings={"each": "cw or ccw"}),
    )
    quad = aircraft(
        "a",
        programme="club",
        stations={"front-left": StationPlan(spin="ccw")},
        receiver=("throttle", "rudder"),
    )
    log = built(Log("aircraft/a"))
    for rule in rules:
        readings = {"front-left": "cw", "order": "rudder, throttle"}
        log.check("01-02", rule.check, readings=readings)

    listed = work([log], [programme(*rules)], items=WHOLE, fleet=[quad])

    assert ["spin-directions", "own-look"] == [
        row.name for row in listed.rows if row.state == "failed"
    ]


def test_outputs_are_held_against_the_aircraft() -> None:
    """The number of the output that turned the motor of a station."""
    rule = check("output-order", "fit esc", per="motor station")
    quad = aircraft("a", programme="club", stations={"front-left": StationPlan(output=3)})
    log = built(Log("aircraft/a"))
    log.check("01-02", "output-order", readings={"front-left": "2", "rear-left": "7"})

    listed = work([log], [programme(rule)], items=WHOLE, fleet=[quad])

    assert {**ALL_OK, "front-left": "failed"} == states(listed, "output-order")


def test_other_readings_are_not_judged() -> None:
    """A start throttle is not a direction of spin and no output."""
    rule = check("start-spread", "fit motor", per="motor station")
    quad = aircraft("a", programme="club", stations={"front-left": StationPlan(output=3)})
    log = built(Log("aircraft/a"))
    log.check("01-02", "start-spread", readings={"front-left": "14 %", "rear-left": "15"})

    listed = work([log], [programme(rule)], items=WHOLE, fleet=[quad])

    assert ALL_OK == states(listed, "start-spread")
    row = next(row for row in listed.rows if row.station == "front-left")
    assert {"front-left": "14 %"} == row.readings


def test_R02_a_second_person_must_look_where_the_programme_says_so() -> None:
    """14 CFR 43.9(a), doer and approver: done by kim alone stays open, not yet checked."""
    rule = check("throttle-cut", "fit receiver", second_person=True)
    for names, expected in (
        ({"by": "kim"}, "open"),
        ({"by": "kim", "checked_by": "kim"}, "open"),
        ({"by": "kim", "checked_by": "jon"}, "ok"),
    ):
        log = built(Log("aircraft/a"))
        log.check("01-02", "throttle-cut", **names)
        listed = work([log], [programme(rule)], items=WHOLE)
        assert expected == the_row(listed, "throttle-cut").state

        if expected == "open":
            assert [
                "throttle cut: done on 2 January 2026, not yet checked by a second person"
            ] == told(on(listed, "a"))
            assert "grounded" == on(listed, "a").state


def test_a_seconded_pass_still_counts_when_a_later_one_was_alone() -> None:
    """Nothing re-opened it, so looking once more takes nothing away."""
    rule = check("throttle-cut", "fit receiver", second_person=True)
    log = built(Log("aircraft/a"))
    log.check("01-02", "throttle-cut", by="kim", checked_by="jon")
    log.check("02-02", "throttle-cut", by="kim")

    assert "ok" == the_row(work([log], [programme(rule)], items=WHOLE), "throttle-cut").state


def test_a_check_that_only_notes_grounds_nothing() -> None:
    """``grounds: false``."""
    rule = check("balance-point", "fit motor", grounds=False)
    log = built(Log("aircraft/a"))

    listed = work([log], [programme(rule)], items=WHOLE)

    assert ("due soon", ["balance point: never done"]) == (
        on(listed, "a").state,
        told(on(listed, "a")),
    )


@pytest.mark.parametrize(
    ("as_of", "expected"), [("04-01", "ok"), ("04-02", "stale"), ("06-30", "stale")]
)
def test_S3_storage_of_more_than_90_days_reopens(as_of: str, expected: str) -> None:
    """Rules, section 3: last flight 01-01, as of 04-02 (91 days) -> due; 04-01 (90) -> not."""
    log = built(Log("aircraft/a"), "2025-12-01")
    log.check("2025-12-02", "failsafe")
    log.flight("01-01")
    rule = check("failsafe", "idle 90 days")

    listed = work([log], [programme(rule)], items=WHOLE, as_of=as_of)

    assert expected == the_row(listed, "failsafe").state


def test_storage_can_be_told_in_months_and_days() -> None:
    """1 month and 14 days after 1 January is 15 February."""
    log = built(Log("aircraft/a"), "2025-12-01")
    log.check("2025-12-02", "failsafe")
    log.flight("01-01")
    rule = check("failsafe", "idle 1 month 14 days")

    for as_of, expected in (("02-15", "ok"), ("02-16", "stale")):
        listed = work([log], [programme(rule)], items=WHOLE, as_of=as_of)
        assert expected == the_row(listed, "failsafe").state


def test_storage_still_tells_after_flying_went_on_without_the_check() -> None:
    """The gap re-opened it; flying closes nothing, the check does."""
    log = built(Log("aircraft/a"), "2025-12-01")
    log.check("2025-12-02", "failsafe")
    log.flight("01-01")
    log.flight("06-01")
    rule = check("failsafe", "idle 90 days")
    stale = the_row(work([log], [programme(rule)], items=WHOLE, as_of="06-02"), "failsafe")
    assert ("stale", "idle 90 days", f"{LOG}#2026-01-01-1", date("04-02")) == (
        stale.state,
        str(stale.because.trigger),
        stale.because.entry,
        stale.because.on,
    )

    log.check("06-02", "failsafe")
    listed = work([log], [programme(rule)], items=WHOLE, as_of="06-03")
    assert "ok" == the_row(listed, "failsafe").state


def test_S3_weigh_when_the_unweighed_sum_passes_two_percent() -> None:
    """Rules, section 3: 640 g; 12 g -> no, 14 g -> weigh due; 12.8 g is the line."""
    rule = check("weighing", grounds=False)
    for grams, expected in ((12.0, "ok"), (12.8, "ok"), (14.0, "stale"), (-14.0, "stale")):
        log = built(Log("aircraft/a"))
        log.weigh("01-02", 0.640)
        log.alteration("02-01", mass_kg=grams / 1000)

        listed = work([log], [programme(rule)], items=WHOLE)

        assert expected == the_row(listed, "weighing").state
    assert [
        "weighing: stale, not weighed since 2 January 2026; what changed makes it 14 g lighter"
    ] == told(on(listed, "a"))
    assert "due soon" == on(listed, "a").state
    log.weigh("02-02", 0.626)
    listed = work([log], [programme(rule)], items=WHOLE)
    assert "nothing open" == on(listed, "a").state


def test_R05_a_check_flight_is_next_until_one_passes_and_grounds_nothing() -> None:
    """14 CFR 91.407(b): motor swap, a flight for fun leaves it open, a check flight closes it."""
    rule = check("check-flight", "fit motor")
    log = built(Log("aircraft/a"))
    log.flight("01-05", purpose="check", result="pass")
    log.fit("04-02", {"rear-left": {"motor": "M-9"}}, instead_of={"M-3": "retired"})
    log.flight("04-03", purpose="fun")

    listed = work([log], [programme(rule)], items=[*WHOLE, "M-9"])
    assert ("due soon", ["fly a check flight next: motor fitted on 2 April 2026"]) == (
        on(listed, "a").state,
        told(on(listed, "a")),
    )
    assert not the_row(listed, "check-flight").grounds
    assert "check flight" == the_row(listed, "check-flight").because.why

    log.flight("04-04", purpose="check", result="pass")
    listed = work([log], [programme(rule)], items=[*WHOLE, "M-9"])
    assert "nothing open" == on(listed, "a").state
    assert date("04-04") == the_row(listed, "check-flight").done_on


def test_a_check_flight_that_ends_in_a_crash_asks_for_another() -> None:
    """Whatever was thought of it in the air."""
    rule = check("check-flight", "crash")
    log = built(Log("aircraft/a"))
    log.flight("01-05", purpose="check", result="pass", landing="crash")

    listed = work([log], [programme(rule)], items=WHOLE)

    assert ["fly a check flight next: crash on 5 January 2026"] == told(on(listed, "a"))


def test_a_failed_check_flight_grounds_until_something_was_done() -> None:
    """Then the next one can be flown."""
    log = built(Log("aircraft/a"))
    log.flight("01-05", purpose="check", result="fail")
    club = programme(check("check-flight", "crash"))

    standing = on(work([log], [club], items=WHOLE), "a")
    assert ("grounded", ["check flight: failed on 5 January 2026"]) == (
        standing.state,
        told(standing),
    )

    log.repair("01-06")
    standing = on(work([log], [club], items=WHOLE), "a")
    assert ("due soon", ["fly a check flight next: repair on 6 January 2026"]) == (
        standing.state,
        told(standing),
    )


def test_what_is_taught_in_one_entry_reopens_nothing_of_itself() -> None:
    """A calibration of ESC end points re-opens the start of the motors, unless taught with it."""
    rule = check("start-spread", "calibration esc-endpoints")
    for names, expected in (
        (("esc-endpoints", "start-spread"), "ok"),
        (("esc-endpoints",), "stale"),
    ):
        log = built(Log("aircraft/a"))
        log.check("01-02", "start-spread")
        entry = log.check("01-03", "esc-endpoints", taught=True)
        log.entries[-1] = msgspec.structs.replace(entry, checks=names)

        listed = work([log], [programme(rule)], items=WHOLE)

        assert expected == the_row(listed, "start-spread").state


def test_a_weighing_counts_what_went_in_and_came_out() -> None:
    """An item with a mass of its own, or of its spec; one without a mass counts for nothing."""
    rule = check("weighing", grounds=False)
    for grams, expected in ((12, "ok"), (14, "stale")):
        log = built(Log("aircraft/a"))
        log.weigh("01-02", 0.640)
        log.fit("01-03", {"centre": {"controller": "C-1", "receiver": "X-1"}})
        parts = [*WHOLE, item("C-1", mass_kg=grams / 1000), "X-1"]

        listed = work([log], [programme(rule)], items=parts)

        row = the_row(listed, "weighing")
        assert expected == row.state
    assert isinstance(row.because.found, MassComputed)
    assert (14.0, Place(LOG, 30)) == (
        round(row.because.found.change_kg * 1000, 6),
        row.because.place,
    )


def test_the_set_up_of_an_aircraft_that_is_being_built() -> None:
    """It raises no rows in the work list, and its checks can be asked for all the same."""
    log = built(Log("aircraft/a"))
    log.check("01-02", "spin-directions", stations=("front-left",))
    quad = aircraft("a", programme="club", status="building")

    now = hangar([log], [programme(SPIN)], items=WHOLE, fleet=[quad])

    assert ("building", ()) == (
        on(work_list(now), "a").state,
        on(work_list(now), "a").rows,
    )
    assert ["ok", "never done", "never done", "never done"] == [
        row.state for row in set_up(now, "a")
    ]


@pytest.mark.parametrize(
    ("weighed", "state"),
    [
        ({}, "never done"),
        ({"cg_m": 0.05}, "ok"),
        ({"scales_kg": {"nose": 0.4, "mains": 0.8}}, "ok"),
    ],
)
def test_a_weighing_that_tells_the_balance_passes_its_check(
    weighed: dict[str, Any], state: str
) -> None:
    """By the point where it balanced, or by what each scale read; mass alone tells none."""
    log = Log("aircraft/a")
    log.weigh("03-01", 1.2, **weighed)
    plane = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")

    listed = work([log], [programme(check("balance-point"))], fleet=[plane])

    assert state == the_row(listed, "balance-point").state
