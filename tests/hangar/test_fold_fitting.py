"""What sits where; and what cannot be."""

import pytest
from written_logs import Log, aircraft, day, folded, item, problems

from buildbook.basis.place import Place
from buildbook.report.history import Stay
from buildbook.report.state import Hangar


def sits(hangar: Hangar, slug: str = "a") -> dict[str, str]:
    """Tag to station and kind."""
    return {
        fitted.tag: f"{fitted.station} {fitted.kind}" for fitted in hangar.aircraft[slug].items()
    }


def events(hangar: Hangar, slug: str = "a") -> list[str]:
    """What happened: event, subject, stations and tags."""
    return [
        " ".join(
            [
                event.event,
                event.subject or "-",
                ",".join(event.stations) or "-",
                ",".join(event.tags) or "-",
                *(["everything"] if event.everything else []),
            ]
        )
        for event in hangar.aircraft[slug].events
    ]


def test_fitted_items_are_found_by_station_and_kind() -> None:
    """Several sensors may share a station; the motor knows since when and where it is written."""
    log = Log("aircraft/a")
    log.fit(
        "03-01",
        {"front-left": {"motor": "M-1", "esc": "E-1"}, "centre": {"sensor": "S-1 S-2"}},
        lines={"fit.front-left.motor": 12},
    )

    hangar = folded([log], ["M-1", "E-1", "S-1", "S-2"])

    now = hangar.aircraft["a"]
    motor = hangar.item_at(now, "front-left", "motor")
    assert motor is not None
    assert motor.fitted is not None
    assert ("M-1", day("03-01"), Place("aircraft/a/logbook.yaml", 12)) == (
        motor.tag,
        motor.fitted.since,
        motor.fitted.place,
    )
    assert {
        "M-1": "front-left motor",
        "E-1": "front-left esc",
        "S-1": "centre sensor",
        "S-2": "centre sensor",
    } == sits(hangar)
    assert now.at("rear-left", "motor") is None


def test_a_fit_and_a_removal_touch_their_station_and_tags() -> None:
    """What goes out in the same breath is an event of its own, before what goes in."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}})
    log.fit("03-02", {"front-left": {"motor": "M-2"}}, instead_of={"M-1": "scrapped"})
    log.remove("03-03", "M-2", because="noisy", state="quarantined")

    hangar = folded([log], ["M-1", "M-2"])

    assert [] == problems(hangar)
    assert [
        "fit motor front-left M-1",
        "remove motor front-left M-1",
        "fit motor front-left M-2",
        "remove motor front-left M-2",
    ] == events(hangar)
    assert [("scrapped", "scrapped"), ("quarantined", "noisy")] == [
        (now.state.state, now.stays[0].because) for now in hangar.items.values()
    ]
    assert {} == hangar.aircraft["a"].fitted
    assert 2 == len(hangar.items["M-1"].events)


def test_a_shared_esc_serves_stations_until_it_comes_out() -> None:
    """It is found at each station it serves, and touches them all."""
    log = Log("aircraft/a")
    stations = ("front-left", "front-right")
    log.fit("03-01", {"centre": {"esc": "E-9"}}, serves={"E-9": stations})
    log.remove("03-05", "E-9")

    during = folded([log], ["E-9"], as_of="03-02")
    after = folded([log], ["E-9"])

    served = during.aircraft["a"].at("front-right", "esc")
    assert served is not None
    assert "E-9" == served.tag
    assert [
        "fit esc centre,front-left,front-right E-9",
        "remove esc centre,front-left,front-right E-9",
    ] == events(after)
    assert after.aircraft["a"].at("front-right", "esc") is None
    assert {} == after.aircraft["a"].serves


def test_serving_without_being_fitted_is_a_problem() -> None:
    """The shared ESC is in the drawer."""
    log = Log("aircraft/a")
    log.fit("03-01", {}, serves={"E-9": ("front-left",)})

    assert [
        "problem: 'E-9' serves stations of a on 2026-03-01, but is not fitted there"
        " @ aircraft/a/logbook.yaml:10"
    ] == problems(folded([log], ["E-9"]))


def test_R13_one_part_sits_in_one_place() -> None:
    """Fitted to A on 1 May without a removal, and to B on 3 May: the part, both, both days."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    a.fit("05-01", {"front-left": {"motor": "M-7"}})
    b.fit("05-03", {"rear-left": {"motor": "M-7"}})

    hangar = folded([a, b], ["M-7"])

    assert [
        "problem: motor 'M-7' fitted at b rear-left on 2026-05-03"
        " while it sits at a front-left since 2026-05-01 @ aircraft/b/logbook.yaml:10"
    ] == problems(hangar)
    (problem,) = hangar.problems
    assert (Place("aircraft/a/logbook.yaml", 10),) == problem.also
    assert ("b", "remove M-7 from a first") == (problem.about, problem.hint)
    assert ({}, {"M-7": "rear-left motor"}) == (sits(hangar, "a"), sits(hangar, "b"))


def test_an_occupied_slot_is_a_problem_that_names_what_sits_there() -> None:
    """Both places; the later entry is believed."""
    log = Log("aircraft/a")
    log.fit("05-01", {"front-left": {"motor": "M-1"}})
    log.fit("05-03", {"front-left": {"motor": "M-2"}})

    hangar = folded([log], ["M-1", "M-2"])

    assert [
        "problem: motor 'M-2' fitted at a front-left on 2026-05-03,"
        " where 'M-1' sits since 2026-05-01 @ aircraft/a/logbook.yaml:20"
    ] == problems(hangar)
    (problem,) = hangar.problems
    assert (Place("aircraft/a/logbook.yaml", 10),) == problem.also
    assert "remove M-1 first, or add instead_of: {M-1: serviceable}" == problem.hint
    assert {"M-2": "front-left motor"} == sits(hangar)


def test_another_sensor_at_a_station_is_no_problem() -> None:
    """Sensors may share a station, written together or not."""
    log = Log("aircraft/a")
    log.fit("05-01", {"centre": {"sensor": "S-1"}})
    log.fit("05-03", {"centre": {"sensor": "S-2"}})

    hangar = folded([log], ["S-1", "S-2"])

    assert [] == problems(hangar)
    assert {"S-1": "centre sensor", "S-2": "centre sensor"} == sits(hangar)


def test_R47_a_removal_before_the_fit_is_a_problem() -> None:
    """It was never fitted: the second place is where the part is described."""
    log = Log("aircraft/a")
    log.remove("05-01", "M-1")
    log.fit("05-02", {"front-left": {"motor": "M-1"}})

    hangar = folded([log], ["M-1"])

    assert [
        "problem: motor 'M-1' removed from a on 2026-05-01, where it is not fitted"
        " @ aircraft/a/logbook.yaml:10"
    ] == problems(hangar)
    assert (Place("parts/items.yaml", 1),) == hangar.problems[0].also


def test_a_second_removal_names_the_first() -> None:
    """And one from the wrong aircraft names where it sits."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    a.fit("05-01", {"front-left": {"motor": "M-1"}, "rear-left": {"motor": "M-2"}})
    a.remove("05-02", "M-1")
    a.remove("05-03", "M-1")
    b.remove("05-04", "M-2")

    hangar = folded([a, b], ["M-1", "M-2"])

    assert [
        "problem: motor 'M-1' removed from a on 2026-05-03, where it is not fitted;"
        " it came out of a on 2026-05-02 @ aircraft/a/logbook.yaml:30",
        "problem: motor 'M-2' removed from b on 2026-05-04, where it is not fitted;"
        " it sits at a rear-left since 2026-05-01 @ aircraft/b/logbook.yaml:10",
    ] == problems(hangar)
    assert [(Place("aircraft/a/logbook.yaml", line),) for line in (20, 10)] == [
        problem.also for problem in hangar.problems
    ]


@pytest.mark.parametrize("state", ["quarantined", "retired", "scrapped"])
def test_R15_a_part_out_of_service_is_not_refitted(state: str) -> None:
    """14 CFR 43.10(c): the method must deter it."""
    log, store = Log("aircraft/a"), Log("stores/box")
    store.state("05-01", M_1=state)
    log.fit("05-02", {"front-left": {"motor": "M-1"}})

    hangar = folded([log, store], ["M-1"])

    assert [
        f"problem: motor 'M-1' fitted at a front-left on 2026-05-02 though {state}"
        " since 2026-05-01 @ aircraft/a/logbook.yaml:10"
    ] == problems(hangar)
    assert (Place("stores/box.yaml", 10),) == hangar.problems[0].also


def test_packs_are_never_fitted() -> None:
    """They are flown."""
    log = Log("aircraft/a")
    log.fit("05-01", {"centre": {"battery": "P-1"}})

    hangar = folded([log], ["P-1"])

    assert [
        "problem: battery 'P-1' fitted at a centre on 2026-05-01: packs are flown, not fitted"
        " @ aircraft/a/logbook.yaml:10"
    ] == problems(hangar)
    assert "name it in a flight: pack: P-1" == hangar.problems[0].hint
    assert ({}, []) == (sits(hangar), events(hangar))


def test_use_before_the_day_acquired_is_one_problem_with_a_count() -> None:
    """Repeats of one reason on one aircraft are one line."""
    log = Log("aircraft/a")
    for on in ("05-01", "05-02", "05-03"):
        log.flight(on, packs="P-1")
    log.flight("05-09", packs="P-1")

    hangar = folded([log], [item("P-1", line=7, acquired=day("05-04"))])

    assert [
        "problem: battery 'P-1' used on 2026-05-01, before it was acquired on 2026-05-04,"
        " 3 times in all @ aircraft/a/logbook.yaml:10"
    ] == problems(hangar)
    assert (Place("parts/items.yaml", 7),) == hangar.problems[0].also


def test_motor_stations_are_those_of_the_layout() -> None:
    """Where it is free: declared first, then those with a motor."""
    plane, custom = Log("aircraft/plane"), Log("aircraft/custom")
    plane.fit("05-01", {"nose": {"motor": "M-1"}, "wing-left": {"servo": "V-1"}})
    custom.fit("05-01", {"boom": {"motor": "M-2"}})

    hangar = folded(
        [Log("aircraft/a"), plane, custom],
        ["M-1", "M-2", "V-1"],
        [
            aircraft("plane", kind="aeroplane", layout="aeroplane"),
            aircraft("custom", layout="custom"),
        ],
    )
    hangar_a = folded([Log("aircraft/a")], fleet=[aircraft("a", layout="tri-y")])

    assert ("nose",) == hangar.aircraft["plane"].motor_stations
    assert ("boom",) == hangar.aircraft["custom"].motor_stations
    assert ("front-left", "front-right", "rear") == hangar_a.aircraft["a"].motor_stations


def test_an_entry_that_needs_an_aircraft_is_a_problem_in_a_store() -> None:
    """A store has no slots."""
    store = Log("stores/box")
    store.fit("05-01", {"front-left": {"motor": "M-1"}})

    assert [
        "problem: 'fit' in stores/box, where there is no aircraft @ stores/box.yaml:10"
    ] == problems(folded([store], ["M-1"]))


def test_a_stay_says_where_since_when_and_why_it_ended() -> None:
    """One that goes on has no end."""
    log = Log("aircraft/a")
    log.flight("03-01", 50.0)
    log.fit("03-02", {"front-left": {"motor": "M-1"}})
    log.flight("03-03", 100.0)
    log.remove("03-04", "M-1", because="noisy")
    log.fit("03-05", {"rear-left": {"motor": "M-1"}})

    stays = folded([log], ["M-1"]).items["M-1"].stays

    place = "aircraft/a/logbook.yaml"
    assert (
        Stay(
            aircraft="a",
            station="front-left",
            kind="motor",
            since=day("03-02"),
            since_seq=1,
            since_place=Place(place, 20),
            until=day("03-04"),
            until_seq=3,
            duration_s=100.0,
            flights=1,
            because="noisy",
        ),
        Stay(
            aircraft="a",
            station="rear-left",
            kind="motor",
            since=day("03-05"),
            since_seq=4,
            since_place=Place(place, 50),
        ),
    ) == stays


def test_a_tag_that_nobody_described_is_left_alone() -> None:
    """The reader tells of it; the fold does nothing with it."""
    log, store = Log("aircraft/a"), Log("stores/box")
    log.fit("03-01", {"front-left": {"motor": "M-9"}}, instead_of={"M-8": "scrapped"})
    log.remove("03-02", "M-9")
    log.flight("03-03", packs="P-9", landing="crash")
    log.inspection("03-04", "motor-bearings", "M-9")
    log.firmware("03-05", C_9="1.0")
    store.state("03-06", P_9="retired")
    store.charge("03-07", "P-9")
    store.capacity("03-08", "P-9", 1.0)
    store.defect("03-09", item="P-9", severity="note")

    hangar = folded([log, store], ["M-1"])

    assert [] == problems(hangar)
    assert ["crash"] == [event.event for event in hangar.aircraft["a"].events]
    assert {} == hangar.aircraft["a"].fitted


def test_a_mass_is_the_measured_one_else_that_of_the_spec() -> None:
    """And a pack is what is flown rather than fitted."""
    items = folded([], [item("M-1", mass_kg=0.054), "M-2", "P-1"]).items

    assert [0.054, None, None] == [now.mass_kg for now in items.values()]
    assert [False, False, True] == [now.is_pack for now in items.values()]


def test_one_motor_and_one_propeller_a_station() -> None:
    """Two in one fit are two too many; ESCs may share the centre with their leads going out."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1 M-2"}, "centre": {"esc": "E-1 E-2"}})

    assert [
        "problem: 2 motors fitted at one station, a front-left, on 2026-03-01"
        " @ aircraft/a/logbook.yaml:10"
    ] == problems(folded([log], ["M-1", "M-2", "E-1", "E-2"]))
