"""What each event re-opens under the built-in programmes, row by row of the rules' table.

All of it is common practice, no source, except where a docstring names one. Staleness is asked
for of an aircraft on which every check and task was done the day before.
"""

from collections.abc import Callable

import pytest
from programmes import WHOLE, built, hangar
from written_files import hangar_of
from written_logs import Log, aircraft

from buildbook.records.aircraft import Radio, Run, StationPlan
from buildbook.records.programmes import Programme
from buildbook.records.reading.programmes import built_in_programmes
from buildbook.report.upkeep.work import Row
from buildbook.upkeep.work_list import work_list

PROGRAMMES = built_in_programmes()
ITEMS = [
    *WHOLE,
    "M-9",
    "E-9",
    "R-9",
    "C-1",
    "C-9",
    "X-1",
    "X-9",
    "S-1",
    "S-9",
    "P-1",
    "P-2",
    "V-1",
    "V-2",
    "V-9",
]
Act = Callable[[Log], object]


def done_once(programme: Programme, log: Log) -> None:
    """Every check passed, every task done, weighed and flown in, all on 2 January."""
    for rule in programme.checks:
        if rule.check not in ("weighing", "check-flight"):
            log.check("01-02", rule.check)
    for task in programme.tasks:
        log.inspection("01-02", task.task)
    log.weigh("01-02", 1.2)
    log.flight("01-02", packs="P-1", purpose="check", result="pass")


def reopened(act: Act, name: str = "small-multirotor", **plane: object) -> dict[str, set[str]]:
    """Stale rows after an act: names, each with its stations (or tags), none for the aircraft."""
    programme = PROGRAMMES[f"built-in {name}"]
    log = built(Log("aircraft/a"))
    log.fit("01-01", {"centre": {"controller": "C-1", "receiver": "X-1", "sensor": "S-1"}})
    log.fit("01-01", {"wing-left": {"servo": "V-1"}, "tail": {"servo": "V-2"}})
    done_once(programme, log)
    act(log)
    record = aircraft("a", programme=name, **plane)
    now = hangar([log], list(PROGRAMMES.values()), items=ITEMS, fleet=[record], as_of="01-05")
    found: dict[str, set[str]] = {}
    for row in work_list(now).rows:
        if row.state == "stale":
            found.setdefault(row.name, set()).update(_spot(row))
    return found


def _spot(row: Row) -> set[str]:
    return {spot for spot in (row.station or row.tag,) if spot is not None}


def test_doing_everything_leaves_nothing_stale() -> None:
    """The ground on which the other tests stand."""
    assert {} == reopened(lambda log: log.note("01-03"))
    assert {} == reopened(lambda log: log.note("01-03"), "small-aeroplane")


def swap(station: str, kind: str, new: str, old: str) -> Act:
    return lambda log: log.fit("01-03", {station: {kind: new}}, instead_of={old: "retired"})


def test_S3_motor() -> None:
    """Only the touched position; a check flight is next (91.407(b))."""
    found = reopened(swap("rear-left", "motor", "M-9", "M-3"))

    here = {"rear-left"}
    assert {
        "spin-directions": here,
        "propeller-fit": here,
        "propeller-balance": here,
        "start-spread": here,
        "motor-screws": here,
        "screws-and-mounts": set(),
        "check-flight": set(),
    } == found


def test_S3_motor_leads_swapped() -> None:
    """Spin direction and propeller hand of that motor, and a check flight."""
    found = reopened(
        lambda log: log.alteration("01-03", stations={"rear-left": StationPlan(spin="cw")})
    )

    here = {"rear-left"}
    assert {
        "spin-directions": here,
        "propeller-fit": here,
        "correction-sense": set(),
        "check-flight": set(),
    } == found


def test_S3_esc_single_and_shared() -> None:
    """4-in-1 board -> all motors; single ESC -> that motor."""
    single = reopened(swap("front-left", "esc", "E-9", "E-1"))
    assert {
        "spin-directions": {"front-left"},
        "esc-endpoints": {"front-left"},
        "start-spread": {"front-left"},
        "compass": set(),
        "solder-and-leads": set(),
        "check-flight": set(),
    } == single

    def board(log: Log) -> None:
        log.remove("01-03", "E-1", "E-2", "E-3", "E-4")
        log.fit("01-03", {"centre": {"esc": "E-9"}})

    everywhere = {"front-left", "front-right", "rear-left", "rear-right"}
    shared = reopened(board)
    assert dict.fromkeys(("spin-directions", "esc-endpoints", "start-spread"), everywhere) == {
        name: spots for name, spots in shared.items() if spots
    }


def test_S3_receiver() -> None:
    """Failsafe ok, then the receiver is swapped -> stale; channel order, range, end points too."""
    found = reopened(swap("centre", "receiver", "X-9", "X-1"))

    assert {
        "stick-sense",
        "receiver-neutral",
        "receiver-order",
        "esc-endpoints",
        "throttle-cut",
        "failsafe",
        "arming",
        "mode-switches",
        "range",
        "check-flight",
    } == set(found)


def test_S3_flight_controller() -> None:
    """Level, compass, orientation, motor order and spin, failsafe, voltage."""
    found = reopened(swap("centre", "controller", "C-9", "C-1"))

    assert {
        "accelerometer",
        "compass",
        "sensors-answer",
        "correction-sense",
        "spin-directions",
        "failsafe",
        "low-voltage-alarm",
        "check-flight",
    } <= set(found)
    assert {"front-left", "front-right", "rear-left", "rear-right"} == found["spin-directions"]


def test_S3_firmware_of_the_controller_and_of_an_esc() -> None:
    """Firmware on an ESC -> spin direction, its calibration, and what any firmware re-opens."""
    controller = reopened(lambda log: log.firmware("01-03", C_1="4.4"))
    assert {
        "accelerometer",
        "compass",
        "failsafe",
        "receiver-order",
        "spin-directions",
        "check-flight",
    } <= set(controller)

    here = {"front-left"}
    assert {
        "spin-directions": here,
        "esc-endpoints": here,
        "start-spread": here,
        "arming": set(),
        "throttle-cut": set(),
        "check-flight": set(),
    } == reopened(lambda log: log.firmware("01-03", E_1="1.4"))


def test_S3_gain_set() -> None:
    """A change of gains asks for a check flight, and so does going back to an older set."""

    def back(log: Log) -> None:
        log.gains("01-03", "soft", values={"roll": {"p": 30.0}})
        log.gains("01-03", "crisp", values={"roll": {"p": 40.0}})
        log.flight("01-03", purpose="check", result="pass")
        log.gains("01-04", "soft")

    assert {"check-flight": set()} == reopened(back)


def test_S3_propeller() -> None:
    """Tightness, handedness at the position, and a hover; one that came in anew has no balance."""
    swapped = swap("front-left", "propeller", "R-9", "R-1")
    assert {"propeller-fit": {"front-left"}, "check-flight": set()} == reopened(swapped)

    def round_about(log: Log) -> None:
        log.remove("01-03", "R-1")
        log.fit("01-04", {"front-left": {"propeller": "R-1"}})

    assert {
        "propeller-fit": {"front-left"},
        "propeller-balance": {"front-left"},
        "check-flight": set(),
    } == reopened(round_about)


def test_S3_compass_and_power_leads() -> None:
    """A new sensor, a moved one, and another way of the power leads re-open the compass."""
    for act in (
        swap("centre", "sensor", "S-9", "S-1"),
        lambda log: log.alteration("01-03", positions={"centre": (0.02, 0.0, 0.0)}),
        lambda log: log.alteration("01-03", wiring=(Run(start="pack", end="each esc"),)),
    ):
        assert "compass" in reopened(act)


def test_S3_transport() -> None:
    """The compass, which grounds nothing."""
    assert {"compass": set()} == reopened(lambda log: log.transport("01-03"))


@pytest.mark.parametrize("crash", [True, False])
def test_S3_hard_landing_and_crash(crash: bool) -> None:
    """Everything that an incident touched, and everything where it names nothing.

    After a crash the full inspection takes in the smaller looks.
    """
    found = reopened(
        lambda log: log.flight("01-03", packs="P-1", landing="crash" if crash else "hard")
    )

    hard = {
        "propeller-fit",
        "propeller-balance",
        "propeller-touch",
        "motor-bearings",
        "screws-and-mounts",
        "solder-and-leads",
        "sensors-answer",
        "failsafe",
        "range",
        "pack-look",
        "check-flight",
    }
    more = {"spin-directions", "full-inspection", "pack-resistance"}
    covered = {"propeller-touch", "motor-bearings", "screws-and-mounts", "solder-and-leads"}
    assert (hard - covered | more if crash else hard) == set(found)
    assert {"front-left", "front-right", "rear-left", "rear-right"} == found["propeller-fit"]


def test_S3_water() -> None:
    """Connectors, solder, motor bearings, and whether it still hears the transmitter."""
    everywhere = {"front-left", "front-right", "rear-left", "rear-right"}
    assert {
        "motor-bearings": everywhere,
        "solder-and-leads": set(),
        "failsafe": set(),
        "range": set(),
    } == reopened(lambda log: log.water("01-03"))


def test_S3_mass_change() -> None:
    """1200 g: 24 g is the line; the weighing is stale, and it grounds nothing."""
    assert "weighing" not in reopened(lambda log: log.alteration("01-03", mass_kg=0.024))
    assert "weighing" in reopened(lambda log: log.alteration("01-03", mass_kg=0.0245))


def test_S3_servo_and_surface() -> None:
    """Surface direction and throw, hinges, failsafe positions (aeroplanes)."""
    found = reopened(swap("tail", "servo", "V-9", "V-2"), "small-aeroplane", kind="aeroplane")

    assert {
        "stick-sense",
        "surface-sense",
        "surface-throws",
        "hinges",
        "failsafe",
        "balance-point",
        "check-flight",
    } == set(found)


def test_S3_structural_repair() -> None:
    """Balance, screws and mounts, range, and a check flight."""
    assert {"balance-point", "screws-and-mounts", "range", "check-flight"} == set(
        reopened(lambda log: log.repair("01-03"))
    )


def test_S3_radio() -> None:
    """Another switch: failsafe, arming, throttle cut, range and the senses of the sticks."""
    found = reopened(lambda log: log.alteration("01-03", radio=Radio(memory="5")))

    assert {
        "stick-sense",
        "throttle-cut",
        "failsafe",
        "arming",
        "mode-switches",
        "range",
    } == set(found)


def test_S3_another_pack_of_the_same_type() -> None:
    """Nothing is stale."""
    assert {} == reopened(lambda log: log.flight("01-03", packs="P-2"))


@pytest.mark.parametrize(
    ("station", "expected"),
    [
        ("pack", {"compass", "balance-point"}),
        (
            "centre",
            {"sensors-answer", "accelerometer", "compass", "correction-sense"}
            | {"balance-point", "check-flight"},
        ),
        ("camera", {"balance-point"}),
    ],
)
def test_a_new_place_re_opens_what_sits_there(station: str, expected: set[str]) -> None:
    """Section 3: re-mounting a controller or sensor, moving the battery lead for the compass."""
    names = reopened(lambda log: log.alteration("01-03", positions={station: (0.0, 0.0, 0.0)}))

    assert expected == set(names)


PACKS = {
    "parts/specs.yaml": "- {spec: three, kind: battery, cells: 3S, capacity: 2200 mAh}\n"
    "- {spec: four, kind: battery, cells: 4S, capacity: 1500 mAh}\n",
    "parts/items.yaml": "- {tag: P-1, spec: three, acquired: 2026-01-01}\n"
    "- {tag: P-2, spec: four, acquired: 2026-01-01}\n",
    "aircraft/sedge/aircraft.yaml": "aircraft: Sedge\nkind: multirotor\nlayout: quad-x\n"
    "programme: small-multirotor\n",
}


def alarm(log: str) -> str:
    """How low-voltage-alarm stands after these entries, checked on the second of January."""
    checked = "- {on: 2026-01-02, check: low-voltage-alarm, result: pass}\n"
    first = "- {on: 2026-01-02, flight: 6:00, pack: P-1}\n"
    files = {**PACKS, "aircraft/sedge/logbook.yaml": checked + first + log}
    (standing,) = work_list(hangar_of(files, "2026-01-09")).aircraft
    (row,) = [row for row in standing.rows if row.name == "low-voltage-alarm"]
    return row.state if row.because is None else f"{row.state} by {row.because.trigger}"


def test_a_pack_of_another_cell_count() -> None:
    """The alarm is looked at again: once for a count not flown before, and not when it returns."""
    other = "- {on: 2026-01-03, flight: 6:00, pack: P-2}\n"
    same = "- {on: 2026-01-04, flight: 6:00, pack: P-1}\n"
    again = "- {on: 2026-01-04, check: low-voltage-alarm, result: pass}\n"

    assert "ok" == alarm(same)
    assert "stale by another cell count" == alarm(other + same)
    assert "ok" == alarm(other + again + same + other.replace("01-03", "01-05"))


def test_any_firmware_of_an_aeroplane() -> None:
    """A receiver's re-opens the throttle cut, arming and the sense of the surfaces."""
    found = reopened(
        lambda log: log.firmware("01-03", X_1="2.0"), "small-aeroplane", kind="aeroplane"
    )

    assert {"throttle-cut", "arming", "surface-sense", "failsafe", "range"} == set(found)


def test_a_failed_check_grounds_where_a_stale_one_does_not() -> None:
    """What was looked at and found wrong is not a matter of time."""
    programme = PROGRAMMES["built-in small-multirotor"]
    log = built(Log("aircraft/a"))
    done_once(programme, log)
    log.check("01-03", "receiver-neutral", result="fail")
    record = aircraft("a", programme="small-multirotor")
    now = hangar([log], list(PROGRAMMES.values()), items=ITEMS, fleet=[record], as_of="01-05")
    (row,) = [row for row in work_list(now).rows if row.name == "receiver-neutral"]

    assert ("failed", True) == (row.state, row.grounds)
