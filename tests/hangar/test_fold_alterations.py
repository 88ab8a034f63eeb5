"""Dated changes of the aircraft, weighings, checks and tasks."""

from typing import Any

import pytest
from test_fold_fitting import events
from written_logs import Log, aircraft, day, folded, problems

from buildbook.basis.place import Place
from buildbook.records.aircraft import Bounds, Radio, Run, StationPlan, Sundry

HOME = "aircraft/a/aircraft.yaml"
LOG = "aircraft/a/logbook.yaml"


def test_named_stations_change_and_others_stay() -> None:
    """The spin is turned, the output stays; the place is that of the alteration."""
    record = aircraft(
        "a",
        stations={
            "front-left": StationPlan(spin="cw", output=3),
            "rear-left": StationPlan(spin="ccw", output=2),
        },
        lines={"stations.front-left": 7, "stations.rear-left": 8},
    )
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}})
    log.alteration(
        "03-02",
        stations={"front-left": StationPlan(spin="ccw")},
        lines={"stations.front-left": 23},
    )

    hangar = folded([log], ["M-1"], [record])

    now = hangar.aircraft["a"]
    assert {
        "front-left": StationPlan(spin="ccw", output=3),
        "rear-left": StationPlan(spin="ccw", output=2),
    } == now.stations
    assert (Place(LOG, 23), Place(HOME, 8)) == (
        now.places["stations.front-left"],
        now.places["stations.rear-left"],
    )
    assert ["alteration stations front-left M-1"] == events(hangar)[1:]
    assert "cw" == record.stations["front-left"].spin


def test_lists_are_replaced_whole_and_radio_and_bounds_by_their_keys() -> None:
    """What isn't named stays."""
    record = aircraft(
        "a",
        receiver=("throttle", "rudder"),
        radio=Radio(memory="4", mode=2),
        wiring=(Run(start="pack", end="each esc"),),
        sundries=(Sundry(what="straps", mass_kg=0.02),),
        positions={"pack": (0.01, 0.0, 0.0), "camera": (0.1, 0.0, 0.0)},
        bounds=Bounds(max_mass_kg=1.8, aft_cg_share=0.33),
    )
    log = Log("aircraft/a")
    log.alteration(
        "03-02",
        receiver=("rudder", "throttle"),
        radio=Radio(memory="5"),
        wiring=(),
        positions={"pack": (0.02, 0.0, 0.0)},
        bounds=Bounds(max_mass_kg=2.0),
    )

    hangar = folded([log], fleet=[record])

    now = hangar.aircraft["a"]
    assert ("rudder", "throttle") == now.receiver
    assert Radio(memory="5", mode=2) == now.radio
    assert () == now.wiring
    assert record.sundries == now.sundries
    assert {"pack": (0.02, 0.0, 0.0), "camera": (0.1, 0.0, 0.0)} == now.positions
    assert Bounds(max_mass_kg=2.0, aft_cg_share=0.33) == now.bounds
    assert {"receiver", "radio", "wiring", "positions.pack", "bounds"} == {
        key for key, place in now.places.items() if place.file == LOG
    }
    assert [
        "alteration receiver - - everything",
        "alteration radio - - everything",
        "alteration wiring - - everything",
        "alteration positions pack -",
        "alteration bounds - - everything",
        "move battery pack -",
    ] == events(hangar)


def test_leads_in_other_sockets_touch_the_receiver_order() -> None:
    """Which socket a channel has is part of its lead: checks of the order look again."""
    log = Log("aircraft/a")
    log.alteration("03-02", sockets=("rudder", "throttle"))
    record = aircraft("a", sockets=("throttle", "rudder"))

    hangar = folded([log], fleet=[record])

    assert ("rudder", "throttle") == hangar.aircraft["a"].sockets
    assert [
        "alteration sockets - - everything",
        "alteration receiver - - everything",
    ] == events(hangar)


def test_new_positions_move_what_sits_there() -> None:
    """One event for each kind of item, with its stations and tags; an empty place moves nothing."""
    log = Log("aircraft/a")
    log.fit(
        "03-01", {"centre": {"controller": "C-1", "sensor": "S-1 S-2"}, "mast": {"sensor": "S-3"}}
    )
    moved = {"centre": (0.0, 0.0, 0.0), "mast": (0.1, 0.0, 0.0), "shelf": (0.2, 0.0, 0.0)}
    log.alteration("03-02", positions=moved)

    hangar = folded([log], ["C-1", "S-1", "S-2", "S-3"])

    assert [
        "move controller centre C-1",
        "move sensor centre,mast S-1,S-2,S-3",
    ] == [event for event in events(hangar) if event.startswith("move")]


def test_R35_a_weighing_knows_what_was_fitted_and_added_before_it() -> None:
    """FAA-H-8083-1: what a later change supersedes can be told from it."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}, "centre": {"sensor": "S-1 S-2"}})
    log.alteration("03-02", "skid", mass_kg=0.028, at=(0.14, 0.0, 0.0))
    log.weigh("03-03", 0.640, pack="P-1", without=("S-2",))
    log.alteration("03-04", "thinner leads", mass_kg=-0.003)
    log.remove("03-04", "S-1")

    hangar = folded([log], ["M-1", "S-1", "S-2", "P-1"])

    now = hangar.aircraft["a"]
    assert 2 == events(hangar).count("alteration mass - - everything")
    (weighing,) = now.weighings
    assert {"M-1": "front-left", "S-1": "centre", "S-2": "centre"} == weighing.fitted
    assert (0.640, "P-1", ("S-2",)) == (
        weighing.mass_kg,
        weighing.pack,
        weighing.without,
    )
    assert [("skid", 0.028, (0.14, 0.0, 0.0)), ("thinner leads", -0.003, None)] == [
        (change.words, change.mass_kg, change.at) for change in now.mass_changes
    ]


@pytest.mark.parametrize(
    ("status", "severity"), [("retired", "problem"), ("sold", "problem"), ("building", "warning")]
)
def test_flying_an_aircraft_that_was_put_away_is_told_once(status: str, severity: str) -> None:
    """From its alteration on, with a count and both places."""
    log = Log("aircraft/a")
    log.flight("03-01")
    log.alteration("03-02", status=status)
    log.flight("03-03")
    log.flight("03-04")

    hangar = folded([log])

    assert [
        f"{severity}: a flown on 2026-03-03, though {status} since 2026-03-02,"
        f" 2 times in all @ {LOG}:30"
    ] == problems(hangar)
    assert (Place(LOG, 20),) == hangar.problems[0].also
    assert status == hangar.aircraft["a"].status


def test_a_building_aircraft_that_flies_is_a_warning() -> None:
    """As ``aircraft.yaml`` has it."""
    log = Log("aircraft/a")
    log.flight("03-03")

    hangar = folded([log], fleet=[aircraft("a", status="building")])

    assert [f"warning: a flown on 2026-03-03, though building @ {LOG}:10"] == problems(hangar)


def test_R39_an_aircraft_that_is_written_as_retired_keeps_its_flights() -> None:
    """No alteration says when: ``aircraft.yaml`` tells how the story ended."""
    log = Log("aircraft/a")
    log.flight("2019-03-03")

    hangar = folded([log], fleet=[aircraft("a", status="retired")])

    assert [] == problems(hangar)
    assert ("retired", 1) == (
        hangar.aircraft["a"].status,
        hangar.aircraft["a"].counters.flights,
    )


def test_only_a_calibration_is_an_event() -> None:
    """Both are checks done; it touches the stations it names."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"esc": "E-1"}})
    log.check("03-02", "arming", "fail", readings={"low": "yes"}, by="ida", checked_by="jon")
    log.check("03-03", "esc-endpoints", stations=("front-left",), taught=True)

    hangar = folded([log], ["E-1"])

    assert [
        ("arming", "fail", (), {"low": "yes"}, "ida", "jon"),
        ("esc-endpoints", "pass", ("front-left",), {}, None, None),
    ] == [
        (done.name, done.result, done.stations, done.readings, done.by, done.checked_by)
        for done in hangar.aircraft["a"].checks
    ]
    assert ["calibration esc-endpoints front-left E-1"] == events(hangar)[1:]


def test_a_task_without_tags_is_for_all_on_the_aircraft_and_the_packs_it_flew() -> None:
    """With tags only for those."""
    log, store = Log("aircraft/a"), Log("stores/box")
    log.fit("03-01", {"front-left": {"motor": "M-1"}, "rear-left": {"motor": "M-2"}})
    log.flight("03-02", packs="P-1")
    log.inspection("03-03", "motor-bearings")
    log.inspection("03-04", "motor-bearings", "M-2")
    store.inspection("03-05", "pack-look", "P-2")

    hangar = folded([log, store], ["M-1", "M-2", "P-1", "P-2"])

    days = {tag: [done.on.day for done in now.inspections] for tag, now in hangar.items.items()}
    assert {"M-1": [3], "M-2": [3, 4], "P-1": [3], "P-2": [5]} == days
    assert [(), ("M-2",)] == [done.tags for done in hangar.aircraft["a"].inspections]


def test_a_task_in_a_store_must_name_its_items() -> None:
    """A store is not an aircraft: nothing says what it applies to."""
    store = Log("stores/box")
    store.inspection("03-05", "pack-look")

    hangar = folded([store], ["P-1"])

    assert [
        "warning: inspection in a store names no item, so it counts for none @ stores/box.yaml:10"
    ] == problems(hangar)
    assert () == hangar.items["P-1"].inspections
    assert [day("03-05")] == [line.entry.on for line in hangar.store_log]


def test_an_unaltered_aircraft_is_as_its_file_has_it() -> None:
    """Programme, lead order, radio, positions and the places of what is written."""
    record = aircraft(
        "a",
        programme="small-multirotor",
        receiver=("throttle", "rudder"),
        radio=Radio(mode=2),
        positions={"pack": (0.01, 0.0, 0.0)},
        lines={"receiver": 5, "positions.pack": 9},
    )

    now = folded([Log("aircraft/a")], fleet=[record]).aircraft["a"]

    assert ("small-multirotor", ("throttle", "rudder"), Radio(mode=2)) == (
        now.programme,
        now.receiver,
        now.radio,
    )
    assert {
        "positions.pack": Place(HOME, 9),
        "receiver": Place(HOME, 5),
        "radio": Place(HOME, 1),
        "status": Place(HOME, 1),
    } == now.places


@pytest.mark.parametrize(
    ("name", "before"),
    [
        ("sundries", (Sundry(what="straps", mass_kg=0.02),)),
        ("receiver", ("throttle", "rudder")),
        ("sockets", ("throttle", "rudder")),
        ("wiring", (Run(start="pack", end="esc"),)),
    ],
)
def test_what_is_replaced_as_a_whole_stays_unless_it_is_named(name: str, before: Any) -> None:
    """An empty list empties it."""
    kept, emptied = Log("aircraft/a"), Log("aircraft/b")
    kept.alteration("03-02", status="stored")
    emptied.alteration("03-02", **{name: ()})

    fleet = [aircraft("a", **{name: before}), aircraft("b", **{name: before})]
    hangar = folded([kept, emptied], fleet=fleet)

    assert [before, ()] == [getattr(now, name) for now in hangar.aircraft.values()]


def test_only_known_or_spinning_stations_of_an_aeroplane_are_motor_stations() -> None:
    """A station declared for a servo output is none."""
    record = aircraft(
        "a",
        kind="aeroplane",
        layout="aeroplane",
        stations={
            "nose": StationPlan(output=1),
            "elevator": StationPlan(output=2),
            "pylon": StationPlan(spin="cw"),
        },
    )

    assert ("nose", "pylon") == folded([Log("aircraft/a")], fleet=[record]).aircraft[
        "a"
    ].motor_stations


def test_an_alteration_of_one_thing_leaves_the_rest() -> None:
    """Wiring, receiver order and sundries each stay unless they are named."""
    record = aircraft(
        "a",
        receiver=("throttle", "rudder"),
        wiring=(Run(start="pack", end="distribution"),),
        sundries=(Sundry(what="straps", mass_kg=0.03),),
    )
    log = Log("aircraft/a")
    log.alteration("03-01", "arms", mass_kg=0.01)

    now = folded([log], fleet=[record]).aircraft["a"]

    assert (record.receiver, record.wiring, record.sundries) == (
        now.receiver,
        now.wiring,
        now.sundries,
    )


def test_every_declared_station_of_a_custom_layout_carries_a_motor() -> None:
    """On an aeroplane only the known ones, and those with a spin."""
    plans = {"left-boom": StationPlan(), "tail": StationPlan(spin="cw"), "nose": StationPlan()}
    custom = aircraft("a", layout="custom", stations=plans)
    plane = aircraft("b", kind="aeroplane", layout="aeroplane", stations=plans)

    hangar = folded([Log("aircraft/a"), Log("aircraft/b")], fleet=[custom, plane])

    assert ("left-boom", "tail", "nose") == hangar.aircraft["a"].motor_stations
    assert {"nose", "tail"} == set(hangar.aircraft["b"].motor_stations)


def test_a_status_written_once_more_begins_on_its_first_day() -> None:
    """Retired since the day on which that was written first, whatever is said of it later."""
    log = Log("aircraft/a")
    log.alteration("03-01", status="retired")
    log.alteration("05-01", status="retired")
    log.flight("06-01")

    assert [
        f"problem: a flown on 2026-06-01, though retired since 2026-03-01 @ {LOG}:30"
    ] == problems(folded([log]))
