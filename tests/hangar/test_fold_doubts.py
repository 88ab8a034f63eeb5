"""Readings that can hardly be right are warnings, and count all the same."""

import msgspec
import pytest
from written_logs import END, Log, day, item, ledger

from buildbook.hangar.fold import fold
from buildbook.records.parts import Cells


def warnings(logs: list[Log], items: list[str]) -> list[str]:
    """What is told of a hangar whose packs are three cells of 2 Ah."""
    written = ledger(logs, items)
    specs = {
        name: msgspec.structs.replace(spec, cells=Cells(3, 3)) if name == "battery" else spec
        for name, spec in written.specs.items()
    }
    hangar = fold(msgspec.structs.replace(written, specs=specs), END)
    assert {"warning"} >= {problem.severity for problem in hangar.problems}
    return [str(problem) for problem in hangar.problems]


@pytest.mark.parametrize(
    ("temperature_c", "told"),
    [
        (-3, ["battery 'P-1' charged at -3 °C @ stores/x.yaml:10"]),
        (0, []),
        (40, []),
        (41, ["battery 'P-1' charged at 41 °C @ stores/x.yaml:10"]),
    ],
)
def test_R52_a_pack_is_charged_between_0_and_40_degrees(
    temperature_c: int, told: list[str]
) -> None:
    """NFPA and USFA guidance on batteries: -3 warns, 40 does not, 41 does."""
    log = Log("stores/x")
    log.charge("03-01", "P-1", temperature_k=temperature_c + 273.15)

    assert told == warnings([log], ["P-1"])


def test_a_charge_without_a_temperature_says_nothing() -> None:
    """What was not recorded is no fault."""
    log = Log("stores/x")
    log.charge("03-01", "P-1", 1.5, resistance_ohm=(0.008, 0.008, 0.008), resting_v=(4.2,) * 3)

    assert [] == warnings([log], ["P-1"])


def test_readings_match_the_cells() -> None:
    """Two resistances and four voltages of a pack of three cells."""
    log = Log("stores/x")
    log.charge("03-01", "P-1", resistance_ohm=(0.008, 0.008), resting_v=(4.1, 4.1, 4.1, 4.1))

    assert [
        "battery 'P-1' has 3 cells, resistance has 2 readings @ stores/x.yaml:10",
        "battery 'P-1' has 3 cells, resting has 4 readings @ stores/x.yaml:10",
    ] == warnings([log], ["P-1"])


def test_no_pack_gives_or_takes_much_more_than_it_is_rated() -> None:
    """A digit too many in a flight, a charge or a measured capacity; a tenth more passes."""
    log = Log("aircraft/a")
    log.charge("03-01", "P-1", 15.0)
    log.flight("03-02", 300.0, "P-1", used_ah=14.0)
    log.capacity("03-03", "P-1", 21.0)
    log.charge("03-04", "P-2", 2.2)
    log.capacity("03-05", "P-2", 2.1)

    assert [
        "battery 'P-1' charged with 15000 mAh, though rated 2000 mAh @ aircraft/a/logbook.yaml:10",
        "battery 'P-1' gave 14000 mAh, though rated 2000 mAh @ aircraft/a/logbook.yaml:20",
        "battery 'P-1' measured at 21000 mAh, though rated 2000 mAh @ aircraft/a/logbook.yaml:30",
    ] == warnings([log], ["P-1", "P-2"])


def test_scales_add_up_to_the_mass() -> None:
    """Within 2 %: several small scales are not one big one."""
    log = Log("aircraft/a")
    log.weigh("03-01", 1.0, scales_kg={"front": 0.5, "rear": 0.485})
    log.weigh("03-02", 1.0, scales_kg={"front": 0.5, "rear": 0.05})

    assert [
        "the scales add up to 550 g, the mass weighed is 1000 g @ aircraft/a/logbook.yaml:20"
    ] == warnings([log], [])


def test_only_what_is_fitted_can_be_off_the_scales() -> None:
    """The camera never was on this aircraft; the motor was, and so may be left off."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}})
    log.weigh("03-02", 1.0, without=("M-1", "S-1"))

    assert [
        "weighed without 'S-1' on 2026-03-02, where it is not fitted @ aircraft/a/logbook.yaml:20"
    ] == warnings([log], ["M-1", "S-1"])


def test_the_log_of_an_aircraft_that_could_not_be_read_brings_no_second_mistake() -> None:
    """Its own mistake is told; what happened to packs and items in themselves still counts."""
    log = Log("aircraft/a")
    log.fit("01-01", {"front-left": {"motor": "M-1"}})
    log.flight("01-02", packs="P-1", used_ah=1.0)
    log.check("01-02", "look")
    log.inspection("01-02", "look")
    log.cleared("01-02", log.defect("01-02"))
    log.inspection("01-03", "pack-look", "P-1", result="fail")
    log.inspection("01-04", "pack-look", "P-1")
    log.charge("01-05", "P-1", 1.0)
    log.capacity("01-05", "P-1", 1.9)
    log.firmware("01-06", M_1="2.1")

    hangar = fold(msgspec.structs.replace(ledger([log], ["M-1", "P-1"]), aircraft={}), END)

    assert () == hangar.problems
    pack, motor = hangar.items["P-1"], hangar.items["M-1"]
    assert ("serviceable", 1, 1, 0) == (
        pack.state.state,
        len(pack.charges),
        len(pack.capacities),
        len(pack.flights),
    )
    assert ("2.1", None) == (motor.firmware, motor.fitted)


def test_the_charge_of_packs_together_is_shared_between_them() -> None:
    """2.6 Ah into two packs of 2 Ah is 1.3 Ah each, which raises no doubt."""
    store = Log("stores/x")
    store.charge("03-01", "P-1 P-2", 2.6)
    assert [] == warnings([store], ["P-1", "P-2"])

    store.charge("03-02", "P-1", 4.0)
    assert 1 == len(warnings([store], ["P-1", "P-2"]))


def test_a_fitted_item_may_be_flashed_in_a_store() -> None:
    """The log is of no aircraft; the event is told to the one that carries the item."""
    log, store = Log("aircraft/a"), Log("stores/x")
    log.fit("03-01", {"centre": {"controller": "C-1"}})
    store.firmware("03-02", C_1="2.1")

    hangar = fold(ledger([log, store], ["C-1"]), END)

    assert ((), "2.1") == (hangar.problems, hangar.items["C-1"].firmware)
    (event,) = (one for one in hangar.items["C-1"].events if one.event == "firmware")
    assert ("a", ("centre",)) == (event.aircraft, event.stations)
    assert [(0.0, 0)] == [(line.total_s, line.total_flights) for line in hangar.store_log]


def test_an_inspection_says_why_a_pack_is_back() -> None:
    """What was found, else that it was inspected."""
    store = Log("stores/x")
    for number, findings in ((1, None), (3, "no dent")):
        store.inspection(f"03-0{number}", "pack-look", "P-1", result="fail")
        store.inspection(f"03-0{number + 1}", "pack-look", "P-1", findings=findings)
        state = fold(ledger([store], ["P-1"]), END).items["P-1"].state
        assert ("serviceable", findings or "inspected") == (state.state, state.because)


def test_a_doubt_is_told_at_the_line_of_its_value() -> None:
    """The keys of an entry may stand on lines of their own."""
    log, store = Log("aircraft/a"), Log("stores/x")
    scales = {"front": 0.5, "rear": 0.05}
    log.weigh("03-01", 1.0, scales_kg=scales, lines={"scales": 12})
    measured = store.capacity("03-01", "P-1", 9.0)
    store.entries[-1] = msgspec.structs.replace(measured, lines={"measured": 13})
    store.charge("03-02", "P-1", 9.0, lines={"put_in": 24})

    told = warnings([log, store], ["P-1"])

    assert ["aircraft/a/logbook.yaml:12", "stores/x.yaml:13", "stores/x.yaml:24"] == sorted(
        line.rpartition(" @ ")[2] for line in told
    )


def test_a_capacity_before_the_pack_was_acquired_is_told_at_its_tag() -> None:
    """The line of the tag, where it has one of its own."""
    store = Log("stores/x")
    early = store.capacity("03-01", "P-1", 1.9)
    store.entries[-1] = msgspec.structs.replace(early, lines={"capacity": 11})

    hangar = fold(ledger([store], [item("P-1", acquired=day("04-01"))]), END)

    assert ["stores/x.yaml:11"] == [str(problem.place) for problem in hangar.problems]
