"""The one total order of the log."""

import msgspec
import pytest
from written_logs import Log, day, folded, ledger, problems

from buildbook.hangar.amend import amended
from buildbook.hangar.order import in_order
from buildbook.records.entries import AnyEntry
from buildbook.report.state import Hangar


def kinds(logs: list[Log]) -> list[str]:
    """Log and kind of all entries in order: ``a remove``."""
    lines, _ = amended(ledger(logs).entries, day("12-31"))
    return [named(line.entry) for line in in_order(lines)]


def named(entry: AnyEntry) -> str:
    """Log and kind of one entry."""
    return f"{entry.log.rpartition('/')[2]} {entry.__struct_config__.tag}"


def test_days_come_first_then_the_order_of_the_log() -> None:
    """A log that isn't in the order of its days is sorted by them, and keeps its order within."""
    log = Log("aircraft/a")
    log.note("03-02")
    log.water("03-01")
    log.transport("03-02")

    assert ["a water", "a note", "a transport"] == kinds([log])


def test_logs_of_one_day_are_merged_by_rank() -> None:
    """Remove, state, fit, alteration, check, flight, charge, then the rest."""
    logs = []
    for name in "abcdefghi":
        logs.append(Log(f"aircraft/{name}"))
    a, b, c, d, e, f, g, h, i = logs
    a.note("03-01")
    b.charge("03-01", "P-1")
    c.flight("03-01")
    d.check("03-01", "arming")
    e.alteration("03-01")
    f.fit("03-01", {})
    g.fit("03-01", {}, instead_of={"M-1": "retired"})
    h.state("03-01", M_1="retired")
    i.remove("03-01")

    assert [
        "i remove",
        "h state",
        "g fit",
        "f fit",
        "e alteration",
        "d check",
        "c flight",
        "b charge",
        "a note",
    ] == kinds(logs)


def test_what_stands_before_a_removal_comes_before_it() -> None:
    """The log of B still has a removal to give, so all before it in B is told first."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    a.fit("03-01", {"front-left": {"motor": "M-1"}})
    a.flight("03-01")
    b.note("03-01")
    b.flight("03-01")
    b.remove("03-01", "M-1")
    b.note("03-01")

    assert ["b note", "b flight", "b remove", "a fit", "a flight", "b note"] == kinds([a, b])


def test_a_part_goes_from_one_aircraft_to_another_within_a_day() -> None:
    """Flown and taken out of B before it is fitted to A, although A comes first by name."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    b.fit("03-01", {"front-left": {"motor": "M-1"}})
    a.fit("03-02", {"rear-left": {"motor": "M-1"}})
    a.flight("03-02", 100.0)
    b.flight("03-02", 200.0)
    b.remove("03-02", "M-1")

    hangar = folded([a, b], ["M-1"])

    assert [] == problems(hangar)
    assert 300.0 == hangar.items["M-1"].counters.duration_s


def test_two_aircraft_swap_motors_within_a_day() -> None:
    """Both come out before either goes in."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    a.fit("03-01", {"front-left": {"motor": "M-1"}})
    b.fit("03-01", {"front-left": {"motor": "M-2"}})
    a.remove("03-02", "M-1")
    a.fit("03-02", {"front-left": {"motor": "M-2"}})
    b.remove("03-02", "M-2")
    b.fit("03-02", {"front-left": {"motor": "M-1"}})

    hangar = folded([a, b], ["M-1", "M-2"])

    assert [] == problems(hangar)
    assert ("b", "a") == (hangar.items["M-1"].aircraft, hangar.items["M-2"].aircraft)


def test_what_is_replaced_on_one_aircraft_may_be_fitted_to_another() -> None:
    """A fit that takes something out in the same breath comes before a plain fit."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    b.fit("03-01", {"front-left": {"motor": "M-1"}})
    a.fit("03-02", {"front-left": {"motor": "M-1"}})
    b.fit("03-02", {"front-left": {"motor": "M-2"}}, instead_of={"M-1": "serviceable"})

    hangar = folded([a, b], ["M-1", "M-2"])

    assert [] == problems(hangar)
    assert "a" == hangar.items["M-1"].aircraft


def test_a_voided_entry_orders_nothing() -> None:
    """The removal in B doesn't stand, so B's flight isn't pulled before A's."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    a.flight("03-01")
    b.flight("03-01")
    gone = b.remove("03-01", "M-1")
    b.voids("03-02", gone)

    assert ["a flight", "b flight", "b remove", "b voids"] == kinds([a, b])


@pytest.mark.parametrize("in_one_breath", [False, True])
def test_three_aircraft_pass_their_motors_round_within_a_day(in_one_breath: bool) -> None:
    """Each fits what another still has; by name alone A would fit M-2 before B gives it up."""
    a, b, c = Log("aircraft/a"), Log("aircraft/b"), Log("aircraft/c")
    motors = {a: "M-1", b: "M-2", c: "M-3"}
    for log, motor in motors.items():
        log.fit("03-01", {"front-left": {"motor": motor}})
    a.fit("03-02", {"rear-left": {"motor": "M-2"}})
    a.remove("03-02", "M-1")
    if in_one_breath:
        b.fit("03-02", {"front-left": {"motor": "M-3"}}, instead_of={"M-2": "serviceable"})
    else:
        b.fit("03-02", {"rear-left": {"motor": "M-3"}})
        b.remove("03-02", "M-2")
    c.remove("03-02", "M-3")
    c.fit("03-02", {"rear-left": {"motor": "M-1"}})

    hangar = folded([a, b, c], list(motors.values()))

    assert [] == problems(hangar)
    assert ["c", "a", "b"] == [now.aircraft for now in hangar.items.values()]


def at(log: Log, time: str, write: str, *args: object) -> None:
    """An entry with a clock time."""
    entry = getattr(log, write)(*args)
    log.entries[-1] = msgspec.structs.replace(entry, time=time)


def test_times_decide_before_the_order_of_the_list() -> None:
    """What has no time stays behind what stands before it in the list."""
    log = Log("aircraft/a")
    log.transport("03-01")
    at(log, "16:00", "flight", "03-01")
    log.note("03-01")
    at(log, "09:00", "water", "03-01")

    assert ["a transport", "a water", "a flight", "a note"] == kinds([log])


def test_times_decide_across_logs_before_the_ranks() -> None:
    """A charge at noon stands between the flights of the morning and of the afternoon."""
    log, store = Log("aircraft/a"), Log("stores/packs")
    at(log, "10:00", "flight", "03-01", 300.0, "P-1")
    at(log, "15:00", "flight", "03-01", 300.0, "P-1")
    at(store, "12:00", "charge", "03-01", "P-1")

    assert ["a flight", "packs charge", "a flight"] == kinds([log, store])


def test_an_entry_written_late_has_its_place_by_its_day() -> None:
    """Wherever it stands in the file: the pack was flown, then charged, then flown again."""
    log = Log("aircraft/a")
    log.flight("03-01", 300.0, "P-1")
    log.flight("03-03", 300.0, "P-1")
    log.charge("03-02", "P-1", 1.0)

    assert ["a flight", "a charge", "a flight"] == kinds([log])
    pack = folded([log], ["P-1"]).items["P-1"]
    assert [1] == [charge.seq for charge in pack.charges]


def pack_log(*uses: str) -> Hangar:
    """``03-01 flown``, ``03-01 full``, ``03-01 storage``: flights in a logbook, charges apart."""
    log, store = Log("aircraft/a"), Log("stores/packs")
    for use in uses:
        on, what = use.split()
        if what == "flown":
            log.flight(on, 300.0, "P-1")
        else:
            store.charge(on, "P-1", 1.0, to=what)
    return folded([log, store], ["P-1"])


@pytest.mark.parametrize(
    ("uses", "charge_first"),
    [
        (("03-01 full", "03-01 flown", "03-04 full"), True),
        (("03-01 full", "03-01 flown", "03-04 flown"), False),
        (("03-01 storage", "03-01 flown", "03-04 full"), False),
        (("03-01 full", "03-01 flown", "03-02 full", "03-02 flown", "03-03 full"), True),
    ],
)
def test_what_a_pack_did_next_says_whether_it_was_charged_first(
    uses: tuple[str, ...], charge_first: bool
) -> None:
    """One that was charged next had been flown last; a charge to storage comes after the flight."""
    hangar = pack_log(*uses)
    pack = hangar.items["P-1"]

    assert charge_first == (pack.charges[0].seq < pack.flights[0].seq)
    assert [] == problems(hangar)


@pytest.mark.parametrize(
    ("uses", "charge_first"),
    [
        (("03-01 full", "03-01 flown"), True),  # as it came
        (("03-01 flown", "03-04 full", "03-04 flown"), True),
        (("03-01 storage", "03-04 full", "03-04 flown"), True),
        (("03-01 full", "03-01 flown", "03-04 full", "03-04 flown"), True),
    ],
)
def test_how_a_pack_was_left_says_whether_it_was_charged_first(
    uses: tuple[str, ...], charge_first: bool
) -> None:
    """One that was flown down, or at storage, is charged before it flies again: nobody is asked."""
    hangar = pack_log(*uses)
    pack = hangar.items["P-1"]

    assert charge_first == (pack.charges[-1].seq < pack.flights[-1].seq)
    assert [] == problems(hangar)


@pytest.mark.parametrize(("put_in", "charge_first"), [(1.1, True), (2.1, False)])
def test_amounts_say_whether_a_pack_was_charged_first(put_in: float, charge_first: bool) -> None:
    """What went in is what was used before that day, or that and what was used on it."""
    log, store = Log("aircraft/a"), Log("stores/packs")
    log.flight("03-01", 300.0, "P-1", used_ah=1.0)
    log.flight("03-04", 300.0, "P-1", used_ah=1.0)
    store.charge("03-04", "P-1", put_in, to="full")

    hangar = folded([log, store], ["P-1"])

    pack = hangar.items["P-1"]
    assert charge_first == (pack.charges[-1].seq < pack.flights[-1].seq)
    assert [] == problems(hangar)


def test_a_later_flight_takes_no_cycles_back() -> None:
    """A day whose flight says what it used is judged by what came before it, and stays so."""
    log, store = Log("aircraft/a"), Log("stores/packs")
    store.charge("03-01", "P-1", 0.1)
    log.flight("03-01", 300.0, "P-1", used_ah=0.3)
    cycles_before = folded([log, store], ["P-1"]).items["P-1"].counters.cycles

    log.flight("03-03", 300.0, "P-1")
    pack = folded([log, store], ["P-1"]).items["P-1"]

    assert pack.counters.cycles == cycles_before
    assert pack.charges[0].seq < pack.flights[0].seq


def test_nothing_says_whether_a_pack_was_charged_or_flown_last() -> None:
    """Told, as it may rest full; it counts as charged last."""
    hangar = pack_log("03-01 full", "03-03 full", "03-03 flown")
    pack = hangar.items["P-1"]

    assert [
        "warning: battery 'P-1' charged or flown last on 2026-03-03: not recorded"
        " @ stores/packs.yaml:20"
    ] == problems(hangar)
    assert pack.charges[-1].seq > pack.flights[-1].seq


@pytest.mark.parametrize("flown", [["03-02 flown"], ["03-02 flown", "03-02 flown"]])
def test_a_pack_that_was_full_the_day_before_was_charged_last(flown: list[str]) -> None:
    """Nobody fills it again before it flies: nothing is asked, and it rests full."""
    hangar = pack_log("03-01 full", "03-02 full", *flown)
    pack = hangar.items["P-1"]

    assert [] == problems(hangar)
    assert pack.charges[-1].seq > pack.flights[-1].seq


@pytest.mark.parametrize(("flown_at", "charge_first"), [("09:00", False), ("19:00", True)])
def test_times_say_whether_a_pack_was_charged_or_flown_last(
    flown_at: str, charge_first: bool
) -> None:
    """In two logs as well: the day that nothing else tells is asked about no more."""
    log, store = Log("aircraft/a"), Log("stores/packs")
    store.charge("03-01", "P-1", 1.0, to="full")
    store.charge("03-03", "P-1", 1.0, to="full", time="12:00")
    log.flight("03-03", 300.0, "P-1", time=flown_at)

    hangar = folded([log, store], ["P-1"])

    pack = hangar.items["P-1"]
    assert [] == problems(hangar)
    assert charge_first == (pack.charges[-1].seq < pack.flights[-1].seq)
