"""Whatever is folded keeps all that its entry says, with the moment and place of the entry."""

from collections.abc import Iterator

import msgspec
import pytest
from written_logs import Log, folded, problems

from buildbook.basis.place import Place
from buildbook.records.entries import FlightRow, Until, Volts
from buildbook.report.history import FlightDone, Recorded
from buildbook.report.state import Hangar

PARTS = ["M-1", "M-2", "P-1"]


def full() -> list[Log]:
    """Entries of all kinds that leave something in the hangar, with all they can say."""
    log, store = Log("aircraft/a"), Log("stores/P-1")
    log.fit("03-01", {"front-left": {"motor": "M-1"}, "rear-left": {"motor": "M-2"}})
    log.gains("03-02", "first", values={"roll": {"p": 1.0}}, because="to begin")
    log.gains("03-02", "second", base="first", values={"roll": {"p": 2.0}}, because="softer")
    log.verdict("03-02", first="tame", second="wild")
    log.setting("03-03", of="front-left", start="14 %", because="it stuttered")
    log.check(
        "03-04",
        "esc-endpoints",
        "fail",
        readings={"low": "1000"},
        stations=("front-left",),
        surface="bench",
        taught=True,
        by="ida",
        checked_by="jon",
    )
    log.inspection(
        "03-05",
        "motor-bearings",
        "M-1",
        result="fail",
        findings="rough",
        severity="note",
        by="ida",
        checked_by="jon",
    )
    log.alteration("03-06", "skid", mass_kg=0.02, at=(0.1, 0.0, 0.0))
    log.weigh(
        "03-07",
        1.2,
        pack="P-1",
        without=("M-2",),
        cg_m=(0.01, 0.0, 0.0),
        scales_kg={"front-left": 0.3, "rear-right": 0.9},
    )
    log.flights(
        "03-08",
        FlightRow(duration_s=100.0, packs=("P-1",), used_ah=1.0, line=801),
        FlightRow(duration_s=200.0, packs=("P-1",), landing="hard", line=802),
        volts=Volts(before_v=12.6, lowest_v=10.5, after_v=11.1),
        wind="light",
        temperature_k=284.0,
        payload_kg=0.1,
        where="meadow",
        preflight="done",
        purpose="check",
        result="pass",
        noticed=("shaking",),
        handling="steady",
        motor_run_s=90.0,
        timing="airborne",
        gains="first",
        note="quiet evening",
    )
    log.incident("03-09", severity="total", touched=("front-left",), cause="wind", sure=True)
    log.repair("03-10", "new arm", after="2026-03-09-1")
    log.defect(
        "03-11",
        item="M-1",
        station="front-left",
        severity="defer",
        deferred_until=Until(flights=5),
    )
    store.charge(
        "03-12",
        "P-1",
        1.1,
        resistance_ohm=(0.008, 0.009),
        resting_v=(4.18, 4.19),
        temperature_k=293.0,
        to="full",
    )
    store.write(
        type(store.capacity("03-13", "P-1", 1.8)),
        "03-14",
        pack="P-1",
        measured_ah=1.7,
        current_a=2.0,
        temperature_k=294.0,
        down_to_v=9.0,
    )
    return [log, store]


def everything_in(value: object) -> Iterator[Recorded]:
    """All that happened, wherever it is kept."""
    if isinstance(value, Recorded):
        yield value
    elif isinstance(value, msgspec.Struct):
        for name in value.__struct_fields__:
            if name != "ledger":
                yield from everything_in(getattr(value, name))
    elif isinstance(value, dict):
        for member in value.values():
            yield from everything_in(member)
    elif isinstance(value, tuple | list):
        for member in value:
            yield from everything_in(member)


def lines(hangar: Hangar) -> dict[int, object]:
    """The entries of all logs by their moment."""
    return {line.seq: line.entry for line in (*hangar.aircraft["a"].log, *hangar.store_log)}


def test_all_that_happened_has_the_moment_and_place_of_its_entry() -> None:
    """Day, uid and file; a row of flights has a line of its own."""
    hangar = folded(full(), PARTS)
    entries = lines(hangar)

    found = list(everything_in(hangar))

    assert [] == problems(hangar)
    assert 40 < len(found)
    for happened in found:
        entry = entries[happened.seq]
        assert (entry.on, entry.uid, entry.file) == (  # type: ignore[attr-defined]
            happened.on,
            happened.uid,
            happened.place.file,
        )
        line = {FlightDone: getattr(happened, "row", None)}.get(type(happened))
        bad_landing = happened.place.line == 802
        expected = 802 if bad_landing else entry.line if line is None else line.line  # type: ignore[attr-defined]
        assert expected == happened.place.line


def test_what_an_entry_says_is_carried_along() -> None:
    """Every field of the same name has the same value."""
    hangar = folded(full(), PARTS)
    entries = lines(hangar)

    seen = set()
    for happened in everything_in(hangar):
        entry = entries[happened.seq]
        own = {"seq", "on", "uid", "place", "stations", "tags", "values", "name", "firmware"}
        if type(happened).__name__ == "Completion":
            own -= {"stations", "tags"}
        for name in happened.__struct_fields__:
            if name in own or not hasattr(entry, name):
                continue
            assert getattr(entry, name) == getattr(happened, name), (happened, name)
            seen.add(f"{type(happened).__name__}.{name}")

    assert {
        "CapacityDone.current_a",
        "CapacityDone.down_to_v",
        "CapacityDone.measured_ah",
        "CapacityDone.pack",
        "ChargeDone.current_a",
        "CapacityDone.sure",
        "CapacityDone.temperature_k",
        "ChargeDone.put_in_ah",
        "ChargeDone.resistance_ohm",
        "ChargeDone.resting_v",
        "ChargeDone.sure",
        "ChargeDone.temperature_k",
        "ChargeDone.to",
        "Completion.aircraft",
        "Completion.by",
        "Completion.checked_by",
        "Completion.readings",
        "Completion.result",
        "Completion.stations",
        "Completion.surface",
        "Completion.taught",
        "DefectState.aircraft",
        "Event.aircraft",
        "FlightDone.aircraft",
        "FlightDone.gains",
        "FlightDone.handling",
        "FlightDone.motor_run_s",
        "FlightDone.note",
        "FlightDone.payload_kg",
        "FlightDone.preflight",
        "FlightDone.purpose",
        "FlightDone.result",
        "FlightDone.temperature_k",
        "FlightDone.timing",
        "FlightDone.volts",
        "FlightDone.noticed",
        "FlightDone.where",
        "FlightDone.wind",
        "GainSet.base",
        "GainSet.because",
        "GainsPeriod.because",
        "InForce.because",
        "InForce.of",
        "IncidentDone.aircraft",
        "IncidentDone.severity",
        "MassChange.at",
        "MassChange.mass_kg",
        "MassChange.words",
        "RepairDone.aircraft",
        "Completion.findings",
        "Completion.severity",
        "Completion.tags",
        "Weighing.cg_m",
        "Weighing.mass_kg",
        "Weighing.pack",
        "Weighing.scales_kg",
        "Weighing.without",
    } == seen


def test_what_is_kept_by_name_is_kept_under_the_right_one() -> None:
    """Names, words and values that stand in one mapping of the entry."""
    now = folded(full(), PARTS).aircraft["a"]

    assert [("first", "tame"), ("second", "wild")] == [
        (verdict.name, verdict.words) for verdict in now.gain_verdicts
    ]
    assert [("esc-endpoints", "motor-bearings")] == [
        (check.name, task.name) for check, task in zip(now.checks, now.inspections, strict=True)
    ]
    assert [("start", "14 %")] == [
        (setting.name, setting.value) for setting in now.settings.values()
    ]
    assert ["first", "second"] == [period.name for period in now.gain_periods]
    assert [("came down", "new arm")] == [
        (done.incident.words, mended.repair.words)
        for done, mended in zip(now.incidents[1:], now.repairs, strict=True)
        if done.incident is not None
    ]


def test_every_contradiction_names_its_aircraft_its_other_place_and_a_way_out() -> None:
    """One broken aircraft does not silence the others, and the reader is sent to both lines."""
    a, b, box = Log("aircraft/a"), Log("aircraft/b"), Log("stores/box")
    a.fit("03-01", {"front-left": {"motor": "M-1"}})
    a.fit("03-02", {"front-left": {"motor": "M-2"}})
    b.fit("03-03", {"front-left": {"motor": "M-2"}})
    b.remove("03-04", "M-1")
    box.state("03-05", P_1="quarantined", M_3="retired")
    b.fit("03-06", {"rear-left": {"motor": "M-3"}})
    a.flight("03-07", packs="P-1", gains="ghost")
    a.charge("03-08", "P-1")
    a.state("03-09", P_1="serviceable")
    box.charge("03-10", "P-1")
    a.fit("03-11", {"centre": {"battery": "P-1"}})

    hangar = folded([a, b, box], ["M-1", "M-2", "M-3", "P-1"])

    log_a, log_b, store = "aircraft/a/logbook.yaml", "aircraft/b/logbook.yaml", "stores/box.yaml"
    assert [
        (20, "a", [Place(log_a, 10)], True),
        (30, "a", [], True),
        (30, "a", [Place(store, 10)], False),
        (40, "a", [Place(store, 10)], False),
        (50, "a", [Place(store, 10)], True),
        (60, "a", [Place("parts/items.yaml", 4)], True),
        (10, "b", [Place(log_a, 20)], True),
        (20, "b", [Place(log_a, 20)], False),
        (30, "b", [Place(store, 10)], False),
        (20, None, [Place(store, 10)], False),
    ] == [
        (problem.place.line, problem.about, list(problem.also), problem.hint is not None)
        for problem in hangar.problems
    ]
    assert [log_a] * 6 + [log_b] * 3 + [store] == [
        problem.place.file for problem in hangar.problems
    ]


@pytest.mark.parametrize(
    ("task", "tags", "read"),
    [("cell-voltages", "P-1", 1), ("cell-voltages", "P-1 P-2", 0), ("screws", "P-1", 0)],
)
def test_a_look_at_one_pack_reads_its_cells(task: str, tags: str, read: int) -> None:
    """Of two packs at once nobody knows whose they are; of another task, whether they rested."""
    store = Log("stores/packs")
    store.inspection("03-01", task, tags, readings={"cell-1": "3.79 V", "cell-2": "3.80 V"})

    assert read == len(folded([store], ["P-1", "P-2"]).items["P-1"].rests)
