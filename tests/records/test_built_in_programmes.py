"""The programmes that come with the program, and a keeper's own that change them."""

import re

import pytest
from small_hangar import WriteHangar

from buildbook.records.programmes import CheckRule, Follows, Interval, Programme, TaskRule, Trigger
from buildbook.records.reading.programmes import built_in_programmes
from buildbook.records.reading.read import read_hangar

BUILT_IN = built_in_programmes()
MULTIROTOR = BUILT_IN["built-in small-multirotor"]
AEROPLANE = BUILT_IN["built-in small-aeroplane"]
GLIDER = BUILT_IN["built-in small-glider"]
BOTH = pytest.mark.parametrize("programme", [MULTIROTOR, AEROPLANE], ids=["rotors", "wings"])
ALL = pytest.mark.parametrize("programme", BUILT_IN.values(), ids=BUILT_IN)

# The names in the contract of the files, as its page on records lists them, and the row that it
# adds below the list.
CHECKS = [
    "stick-sense",
    "receiver-neutral",
    "receiver-order",
    "spin-directions",
    "propeller-fit",
    "propeller-balance",
    "esc-endpoints",
    "start-spread",
    "throttle-cut",
    "failsafe",
    "arming",
    "accelerometer",
    "compass",
    "sensors-answer",
    "correction-sense",
    "mode-switches",
    "low-voltage-alarm",
    "range",
    "weighing",
    "balance-point",
    "check-flight",
    "motor-screws",
]
OF_AEROPLANES = ["surface-sense", "surface-throws", "hinges"]


def test_the_set_up_checks_of_the_contract_are_there() -> None:
    """Those of a multirotor, and three more of an aeroplane; no other name."""
    assert sorted(CHECKS) == sorted(rule.check for rule in MULTIROTOR.checks)
    assert sorted([*CHECKS, *OF_AEROPLANES]) == sorted(rule.check for rule in AEROPLANE.checks)


ORDER = {
    "unplugged": "hinges motor-screws",
    "plugged": "receiver-order receiver-neutral stick-sense mode-switches low-voltage-alarm"
    " sensors-answer accelerometer surface-sense surface-throws esc-endpoints arming throttle-cut"
    " spin-directions start-spread correction-sense failsafe",
    "field": "range compass",
    "propellers on": "propeller-balance propeller-fit weighing balance-point",
    "flight": "check-flight",
}


@ALL
def test_checks_stand_in_the_order_of_doing(programme: Programme) -> None:
    """Five stages, each check in its own. Common practice, no source."""
    names = {rule.check for rule in programme.checks}

    assert [
        (name, stage) for stage, line in ORDER.items() for name in line.split() if name in names
    ] == [(rule.check, rule.stage) for rule in programme.checks]


GROUNDING = [
    "failsafe",
    "throttle-cut",
    "arming",
    "receiver-order",
    "stick-sense",
    "spin-directions",
    "propeller-fit",
    "correction-sense",
    "sensors-answer",
    "accelerometer",
    "range",
    "motor-screws",
]


def test_what_grounds_when_stale_or_never_done() -> None:
    """And an aeroplane's surfaces, hinges and balance point. Common practice, no source."""
    of_planes = ["surface-sense", "hinges", "balance-point"]

    assert sorted(GROUNDING) == sorted(rule.check for rule in MULTIROTOR.checks if rule.grounds)
    assert sorted([*GROUNDING, *of_planes]) == sorted(
        rule.check for rule in AEROPLANE.checks if rule.grounds
    )


@ALL
def test_every_row_says_what_to_do_and_where_it_comes_from(programme: Programme) -> None:
    """A short sentence or two, a basis, no promise."""
    for row in (*programme.checks, *programme.tasks, *programme.life_limits):
        words = row.what or ""

        assert words.endswith(".")
        assert len(words) <= 110
        assert row.basis
        promise = r"\b(airworthy|certified|compliant|legal|safe|allowed)\b"
        assert not re.search(promise, f"{words} {row.basis}", re.IGNORECASE)


ON = {
    "propeller-fit": "Unplug the pack",
    "weighing": "unplugged",
    "balance-point": "unplugged",
    "hinges": "Unplug the pack",
    "propeller-touch": "Unplug the pack",
    "preflight-look": "before each flight",
    "postflight-look": "after each flying day",
    "vibration-look": "",  # in a hover, or held firmly
    "check-flight": "",
}


@BOTH
def test_propellers_are_on_only_where_the_step_needs_them(programme: Programme) -> None:
    """A row with propellers on is one of these, and its words keep the pack away where they can."""
    for row in (*programme.checks, *programme.tasks):
        name = row.check if isinstance(row, CheckRule) else row.task
        moment = "" if isinstance(row, CheckRule) else row.when or ""

        assert (row.propellers == "on") == (name in ON)
        assert ON.get(name, "") in f"{row.what} {moment}"


def intervals(programme: Programme) -> dict[str, Interval]:
    """The intervals by task."""
    return {rule.task: rule.every for rule in programme.tasks}


def test_intervals_are_those_of_the_rules_for_records() -> None:
    """Section 4 of the rules, D04 to D20, but for four longer ones that do not nag.

    Bearings, solder, resistance and range, as the page on dangers has them. Common practice, no
    source.
    """
    expected = {
        "propeller-touch": Interval(flights=10),
        "motor-bearings": Interval(flights=50, months=12),
        "screws-and-mounts": Interval(flights=25),
        "solder-and-leads": Interval(flights=50, months=12),
        "vibration-look": Interval(flights=50),
        "failsafe-again": Interval(months=3),
        "range-again": Interval(months=6),
        "level-again": Interval(months=12),
        "compass-again": Interval(months=6),
        "pack-resistance": Interval(charges=20, months=6),
        "pack-storage-charge": Interval(days=2),
        "pack-capacity": Interval(charges=50, months=12),
        "full-inspection": Interval(duration_s=50 * 3600.0, months=12),
        "screws-after-motor": Interval(),
        "repair-again": Interval(),
        "preflight-look": Interval(),
        "link-loss-action": Interval(),
        "postflight-look": Interval(),
        "pack-look": Interval(),
        "pack-rest-voltage": Interval(),
    }
    assert expected == intervals(MULTIROTOR)

    aeroplane = {name: every for name, every in expected.items() if name != "level-again"}
    aeroplane["hinges-and-linkages"] = Interval(flights=25, months=6)
    assert aeroplane == intervals(AEROPLANE)


@BOTH
def test_what_follows_an_event_is_that_of_the_rules_for_records(programme: Programme) -> None:
    """Section 3 of the rules: screws after 3 flights, a repair after 5. Common practice."""
    follows = {rule.task: rule.follows for rule in programme.tasks if rule.follows}

    assert {
        "screws-after-motor": Follows(after=(Trigger("fit", "motor"),), flights=3),
        "repair-again": Follows(after=(Trigger("repair"),), flights=5),
    } == follows


@ALL
def test_what_has_no_interval_has_its_moment(programme: Programme) -> None:
    """The list before flying has no rows that fall due."""
    moments = {rule.task: rule.when for rule in programme.tasks if rule.when}

    assert {
        "preflight-look": "before each flight",
        "link-loss-action": "each session",
        "postflight-look": "after each flying day",
        "pack-look": "at each charge",
        "pack-rest-voltage": "at each charge",
    } == moments


# Section 3 of the rules for records: what an event re-opens. Common practice, no source.
REOPENED = {
    "fit motor": {"spin-directions", "propeller-balance", "motor-screws", "check-flight"},
    "fit frame": {
        "motor-screws",
        "accelerometer",
        "correction-sense",
        "compass",
        "balance-point",
        "check-flight",
    },
    "setting bind": {"receiver-order", "esc-endpoints", "failsafe", "range", "check-flight"},
    "fit esc": {"spin-directions", "esc-endpoints", "compass", "check-flight"},
    "fit receiver": {"failsafe", "receiver-order", "range", "esc-endpoints", "check-flight"},
    "fit transmitter": {"failsafe", "receiver-order", "range", "esc-endpoints"},
    "fit controller": {
        "accelerometer",
        "compass",
        "spin-directions",
        "failsafe",
        "low-voltage-alarm",
        "check-flight",
    },
    "firmware controller": {
        "accelerometer",
        "compass",
        "failsafe",
        "receiver-order",
        "spin-directions",
        "check-flight",
    },
    "firmware esc": {"spin-directions", "esc-endpoints", "check-flight"},
    "gains": {"check-flight"},
    "fit propeller": {"propeller-fit", "propeller-balance", "check-flight"},
    "fit sensor": {"compass"},
    "transport": {"compass"},
    "crash": {"failsafe", "range", "sensors-answer", "check-flight"},
    "hard landing": {"failsafe", "range", "sensors-answer", "check-flight"},
    "water": {"failsafe", "range"},
    "repair": {"range", "check-flight"},
    "alteration radio": {"range", "throttle-cut", "arming", "failsafe"},
    "alteration receiver": {"range", "receiver-order"},
    "alteration wiring": {"range", "compass"},
    "firmware transmitter": {"range"},
    "firmware receiver": {"range", "failsafe"},
    "firmware": {"throttle-cut", "arming"},
    "another cell count": {"low-voltage-alarm", "balance-point", "check-flight"},
    "another pack mass": {"balance-point", "check-flight"},
    "idle 90 days": {"failsafe"},
}


@BOTH
@pytest.mark.parametrize("trigger", REOPENED)
def test_events_reopen_what_the_rules_for_records_say(trigger: str, programme: Programme) -> None:
    """At least the checks of the table; the programme may add its own."""
    reopened = {rule.check for rule in programme.checks if trigger in map(str, rule.stale_after)}

    assert REOPENED[trigger] <= reopened


@BOTH
def test_an_instrument_that_is_taught_again_closes_its_task(programme: Programme) -> None:
    """A task that says a check again is done by a pass of that check."""
    covers = {rule.check: rule.covers for rule in programme.checks}

    assert ("failsafe-again",) == covers["failsafe"]
    assert ("screws-after-motor",) == covers["motor-screws"]
    assert ("range-again",) == covers["range"]
    assert ("compass-again",) == covers["compass"]


@BOTH
def test_the_full_inspection_covers_every_look_that_comes_round(programme: Programme) -> None:
    """D20: all the looks of an airframe; no pack is looked at by it, no name leads nowhere."""
    tasks = {rule.task: rule for rule in programme.tasks}
    rounds = {
        name
        for name, rule in tasks.items()
        if rule.each != "battery" and (rule.every != Interval() or rule.follows is not None)
    }

    assert rounds - {"full-inspection"} == set(tasks["full-inspection"].covers)
    assert {"screws-after-motor"} == set(tasks["screws-and-mounts"].covers)
    covers = [rule.covers for rule in (*programme.checks, *programme.tasks)]
    assert all(set(names) <= set(tasks) for names in covers)


OF_THE_DRIVE = {
    *("motor-screws", "propeller-balance", "low-voltage-alarm", "esc-endpoints", "arming"),
    *("throttle-cut", "spin-directions", "start-spread", "propeller-fit"),
    *("propeller-touch", "motor-bearings", "vibration-look", "screws-after-motor"),
}
"""What only an aircraft with a motor has to be looked at for; common practice, no source."""


def test_a_glider_has_what_an_aeroplane_has_but_its_motor() -> None:
    """The same rows in the same order, re-opened by the same events; none speaks of a drive."""
    drive = re.compile(r"\b(motors?|escs?|propellers?|blades?)\b", re.IGNORECASE)

    for mine, usual in ((GLIDER.checks, AEROPLANE.checks), (GLIDER.tasks, AEROPLANE.tasks)):
        shared = {_name(row): row for row in usual if _name(row) not in OF_THE_DRIVE}
        assert list(shared) == [_name(row) for row in mine]
        for row in mine:
            like = shared[_name(row)]
            assert not drive.search(row.what or ""), row.what
            assert row.propellers == ("off" if getattr(row, "each", "") == "battery" else "none")
            assert _events(like) == _events(row), _name(row)
            assert set(row.covers) == set(like.covers) - OF_THE_DRIVE
            if isinstance(row, TaskRule) and isinstance(like, TaskRule):
                assert (like.every, like.tolerance, like.when) == (
                    row.every,
                    row.tolerance,
                    row.when,
                )
    assert GLIDER.life_limits[0].capacity_share == AEROPLANE.life_limits[0].capacity_share


def _name(row: CheckRule | TaskRule) -> str:
    return row.check if isinstance(row, CheckRule) else row.task


def _events(row: CheckRule | TaskRule) -> list[str]:
    """What re-opens it, but for what has no place on a glider."""
    events = row.stale_after if isinstance(row, CheckRule) else row.also_after
    return [
        word for word in map(str, events) if word.split()[-1] not in ("motor", "esc", "propeller")
    ]


def test_any_firmware_re_opens_the_sense_of_the_surfaces() -> None:
    """And water does, as it does their throws and hinges. Common practice, no source."""
    by_name = {rule.check: tuple(map(str, rule.stale_after)) for rule in AEROPLANE.checks}

    assert "firmware" in by_name["surface-sense"]
    assert all("water" in by_name[name] for name in ("surface-sense", "surface-throws", "hinges"))


def test_packs_are_looked_at_after_what_may_hurt_them() -> None:
    """At each charge, and again after a crash, a hard landing or water."""
    for programme in BUILT_IN.values():
        (look,) = [rule for rule in programme.tasks if rule.task == "pack-look"]

        assert ("battery", "at each charge") == (look.each, look.when)
        assert ("crash", "hard landing", "water") == tuple(map(str, look.also_after))


def programme_of(write_hangar: WriteHangar, text: str) -> Programme:
    """A keeper's programme that has no fault."""
    reading = read_hangar(write_hangar({"programmes/mine.yaml": text}))
    assert () == reading.problems
    assert reading.ledger is not None
    return reading.ledger.programmes["mine"]


def test_a_row_with_since_takes_over_from_the_one_before(write_hangar: WriteHangar) -> None:
    """It keeps what it does not name; two of one day are told."""
    mine = programme_of(
        write_hangar,
        "programme: mine\n"
        "tasks:\n"
        "  - {task: bearings, what: Turn it., for: motor, every: {flights: 50}}\n"
        "  - {task: bearings, since: 2026-06-01, every: {flights: 25}}\n",
    )

    assert [(None, 50), ("2026-06-01", 25)] == [
        (rule.since and str(rule.since), rule.every.flights) for rule in mine.tasks
    ]
    assert {("Turn it.", "motor")} == {(rule.what, rule.each) for rule in mine.tasks}


def test_a_row_changed_by_name_keeps_what_it_does_not_name(write_hangar: WriteHangar) -> None:
    """Only the tolerance is new; what was written is remembered."""
    mine = programme_of(
        write_hangar,
        "programme: mine\n"
        "based_on: built-in small-multirotor\n"
        "tasks:\n"
        "  - {task: motor-bearings, tolerance: {flights: 2}}\n"
        "drop: {compass: none on board}\n",
    )
    (rule,) = mine.tasks
    (usual,) = [rule for rule in MULTIROTOR.tasks if rule.task == "motor-bearings"]

    assert ("task", "tolerance") == rule.written
    assert Interval(flights=2) == rule.tolerance
    assert (usual.what, usual.each, usual.every) == (rule.what, rule.each, rule.every)
    assert "programmes/mine.yaml:4" == str(rule.place("tolerance"))
    assert {"compass": "none on board"} == mine.drop


def test_the_example_of_the_contract_reads(write_hangar: WriteHangar) -> None:
    """The programme as it is written in the contract of the files."""
    mine = programme_of(
        write_hangar,
        "programme: mine\n"
        "checks:\n"
        "  - check: spin-directions\n"
        "    what: Run each motor up alone and compare its direction with the layout.\n"
        "    propellers: off\n"
        "    grounds: true\n"
        "    stale_after: [fit motor, fit esc, alteration stations, firmware controller, crash]\n"
        "    per: motor station\n"
        "    readings: {each: cw or ccw}\n"
        "    second_person: false\n"
        "life_limits:\n"
        "  - limit: pack-retire\n"
        "    for: battery\n"
        "    at: {cycles: 300, years: 4, capacity: 80 %, cell_resistance: 200 %}\n",
    )
    (check,) = mine.checks
    (limit,) = mine.life_limits

    assert (
        Trigger("fit", "motor"),
        Trigger("fit", "esc"),
        Trigger("alteration", "stations"),
        Trigger("firmware", "controller"),
        Trigger("crash"),
    ) == check.stale_after
    assert {"each": "cw or ccw"} == check.readings
    assert (300.0, 4, 0.8, 2.0) == (
        limit.cycles,
        limit.years,
        limit.capacity_share,
        limit.cell_resistance_share,
    )


def test_a_programme_may_stand_on_another_of_the_keeper(write_hangar: WriteHangar) -> None:
    """Whatever their order by name."""
    base = "programme: zero\nchecks:\n  - {check: look, what: Look., per: motor}\n"
    reading = read_hangar(
        write_hangar(
            {
                "programmes/a.yaml": "programme: mine\nbased_on: zero\n"
                "checks:\n  - {check: look, grounds: false}\n",
                "programmes/z.yaml": base,
            }
        )
    )
    assert () == reading.problems
    assert reading.ledger is not None
    (rule,) = reading.ledger.programmes["mine"].checks

    assert ("Look.", "motor", False) == (rule.what, rule.per, rule.grounds)
