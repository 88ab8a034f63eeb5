"""How an aircraft was after each entry, as the fold wrote it down."""

from typing import Any

from histories import SLUGS, History, histories
from hypothesis import given, settings
from written_logs import END, Log, folded

from buildbook.hangar.fold import fold
from buildbook.report.snapshots import Snapshot
from buildbook.report.state import AircraftNow, Hangar


def test_each_line_leaves_the_aircraft_in_a_state() -> None:
    """What is fitted, set, in force and open after it."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}, "centre": {"sensor": "S-1"}})
    log.setting("03-02", of="front-left", start="14 %")
    log.fit("03-03", {"front-left": {"motor": "M-2"}}, instead_of={"M-1": "serviceable"})
    log.gains("03-04", "first", values={"roll": {"p": 1.0}})
    defect = log.defect("03-05", severity="note")
    log.setting("03-06", of="front-left", start="15 %")
    log.cleared("03-07", defect)
    log.alteration("03-08", status="stored")
    log.remove("03-09", "S-1")

    now = folded([log], ["M-1", "M-2", "S-1"]).aircraft["a"]

    assert [
        ("M-1", "S-1", None, None, 0, "flying"),
        ("M-1", "S-1", "14 %", None, 0, "flying"),
        ("M-2", "S-1", "14 %", None, 0, "flying"),
        ("M-2", "S-1", "14 %", "first", 0, "flying"),
        ("M-2", "S-1", "14 %", "first", 1, "flying"),
        ("M-2", "S-1", "15 %", "first", 1, "flying"),
        ("M-2", "S-1", "15 %", "first", 0, "flying"),
        ("M-2", "S-1", "15 %", "first", 0, "stored"),
        ("M-2", "", "15 %", "first", 0, "stored"),
    ] == [
        (
            "".join(state.fitted.get(("front-left", "motor"), ())),
            "".join(state.fitted.get(("centre", "sensor"), ())),
            state.settings[("front-left", "start")].value if state.settings else None,
            state.gains,
            len(state.open_defects),
            state.status,
        )
        for state in (now.after(line.seq) for line in now.log)
    ]


def test_what_a_store_says_of_a_fitted_part_is_in_the_next_snapshot() -> None:
    """Its state and its firmware, from the entry of the store on."""
    log, store = Log("aircraft/a"), Log("stores/parts")
    log.fit("03-01", {"centre": {"controller": "C-1"}})
    store.firmware("03-02", C_1="4.3")
    store.state("03-03", C_1="quarantined")
    store.state("03-04", "heard again", C_1="serviceable")

    now = folded([log, store], ["C-1"]).aircraft["a"]

    assert [
        (-1, {}, {}),
        (0, {}, {}),
        (1, {"C-1": "4.3"}, {}),
        (2, {"C-1": "4.3"}, {"C-1": "quarantined"}),
        (3, {"C-1": "4.3"}, {}),
    ] == [(state.seq, state.firmware, state.out_of_service) for state in now.snapshots]


def test_a_part_that_leaves_quarantine_without_a_reason_is_still_in_it() -> None:
    """The snapshot says what the fold believes, not what the entry wanted."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}})
    log.state("03-02", M_1="quarantined")
    log.state("03-03", M_1="serviceable")

    hangar = folded([log], ["M-1"])

    assert "quarantined" == hangar.items["M-1"].state.state
    assert {"M-1": "quarantined"} == hangar.aircraft["a"].after(2).out_of_service


def test_flights_and_charges_write_no_snapshot_and_equal_parts_are_shared() -> None:
    """So that a long log costs no more than what changed in it."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}})
    for number in range(2, 20):
        log.flight(f"03-{number:02d}", 300.0, "P-1")
        log.charge(f"03-{number:02d}", "P-1", 1.0)
    log.setting("03-20", start="14 %")

    _, fitted, last = folded([log], ["M-1", "P-1"]).aircraft["a"].snapshots

    assert fitted.fitted is last.fitted
    assert fitted.settings is not last.settings


def test_an_open_grounding_defect_is_told_of_each_flight() -> None:
    """From its entry until it is cleared."""
    log = Log("aircraft/a")
    log.flight("03-01")
    defect = log.defect("03-02", "cracked arm", severity="grounds")
    log.defect("03-02", "scratch", severity="note")
    log.flight("03-03")
    log.cleared("03-04", defect)
    log.flight("03-05")

    now = folded([log]).aircraft["a"]

    assert [[], ["cracked arm"], []] == [
        [state.defect.words for state in now.after(flight.seq).grounding] for flight in now.flights
    ]


def state_of(hangar: Hangar, now: AircraftNow) -> Snapshot:
    """The aircraft as the hangar has it, in the form of a snapshot."""
    fitted = {
        (station, kind): tuple(here.tag for here in slot)
        for station, kinds in now.fitted.items()
        for kind, slot in kinds.items()
    }
    items = {tag: hangar.items[tag] for tags in fitted.values() for tag in tags}
    return Snapshot(
        seq=0,
        status=now.status,
        fitted=fitted,
        out_of_service={
            tag: item.state.state
            for tag, item in items.items()
            if item.state.state != "serviceable"
        },
        firmware={tag: item.firmware for tag, item in items.items() if item.firmware is not None},
        settings=now.settings,
        gains=now.gains,
        open_defects=tuple(state for state in now.defects if state.open),
        stations=now.stations,
        positions=now.positions,
        sundries=now.sundries,
    )


def plain(snapshot: Snapshot) -> dict[str, Any]:
    """All that must agree; of defects, which.

    Not the positions in the log: a charge of a later day may tell that one came before a flight.
    """
    values = {name: getattr(snapshot, name) for name in snapshot.__struct_fields__}
    del values["seq"], values["alterations"]
    return {
        **values,
        "open_defects": [state.uid for state in snapshot.open_defects],
        "settings": {of: (one.uid, one.value) for of, one in snapshot.settings.items()},
    }


@settings(max_examples=25, deadline=None)
@given(histories())
def test_the_last_snapshot_is_the_state(history: History) -> None:
    """The fold writes down what it ends in."""
    hangar = fold(history.ledger(), END)

    assert hangar.aircraft
    for now in hangar.aircraft.values():
        assert plain(state_of(hangar, now)) == plain(now.snapshots[-1])


@settings(max_examples=25, deadline=None)
@given(histories())
def test_the_last_snapshot_of_a_day_is_the_fold_of_that_day(history: History) -> None:
    """Two ways to the same state."""
    ledger = history.ledger()
    whole = fold(ledger, END)
    lines = [line for now in whole.aircraft.values() for line in now.log]
    ends = {line.entry.on: line.seq for line in sorted(lines, key=lambda line: line.seq)}
    for line in whole.store_log:
        ends[line.entry.on] = max(line.seq, ends.get(line.entry.on, 0))

    for on, seq in ends.items():
        then = fold(ledger, on)
        for slug in SLUGS:
            expected = plain(state_of(then, then.aircraft[slug]))
            assert expected == plain(whole.aircraft[slug].after(seq))
