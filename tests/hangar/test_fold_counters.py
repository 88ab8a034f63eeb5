"""What parts and aircraft have lived through. Rule ids are those of the rules for records."""

import pytest
from written_logs import Log, aircraft, day, folded, item, problems

from buildbook.hangar.time_in_service import flown_at
from buildbook.records.entries import FlightRow
from buildbook.records.parts import Carried
from buildbook.report.tally import Flown

HOUR = 3600.0


def test_R10_totals_are_summed_in_whole_seconds() -> None:
    """14 CFR 91.417(a)(2)(i): 4:30 + 5:10 + 3:20 is 13 min 00 s in 3 flights."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}})
    for seconds in (270.0, 310.0, 200.0):
        log.flight("03-02", seconds)

    hangar = folded([log], ["M-1"])

    assert [] == problems(hangar)
    for counters in (hangar.aircraft["a"].counters, hangar.items["M-1"].counters):
        assert (780.0, 3, 1) == (counters.duration_s, counters.flights, counters.flying_days)


def test_R11_the_life_of_a_part_follows_it_to_the_next_aircraft() -> None:
    """14 CFR 43.10(c): 12.4 h on A, then 1.1 h on B, are 13.5 h; airframes keep their own."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    a.fit("03-01", {"front-left": {"motor": "M-7"}})
    a.flight("03-02", 12.4 * HOUR)
    b.flight("03-02", 2.0 * HOUR)
    a.remove("03-03", "M-7")
    b.fit("03-03", {"rear": {"motor": "M-7"}})
    b.flight("03-04", 1.1 * HOUR)
    a.flight("03-04", 0.5 * HOUR)

    hangar = folded([a, b], ["M-7"])

    motor = hangar.items["M-7"]
    assert [] == problems(hangar)
    assert 13.5 * HOUR == pytest.approx(motor.counters.duration_s)
    assert [("a", 12.4 * HOUR, 1), ("b", pytest.approx(1.1 * HOUR), 1)] == [
        (stay.aircraft, stay.duration_s, stay.flights) for stay in motor.stays
    ]
    assert 12.9 * HOUR == pytest.approx(hangar.aircraft["a"].counters.duration_s)
    assert 3.1 * HOUR == pytest.approx(hangar.aircraft["b"].counters.duration_s)


def test_R12_a_part_that_is_out_gains_nothing() -> None:
    """14 CFR 43.10(b): the motor off from 1 to 8 May gets +0, the spare that flew +0.5 h."""
    log = Log("aircraft/a")
    log.fit("04-01", {"front-left": {"motor": "M-1"}})
    log.remove("05-01", "M-1")
    log.fit("05-01", {"front-left": {"motor": "M-2"}})
    log.flight("05-03", 0.5 * HOUR)
    log.remove("05-08", "M-2")
    log.fit("05-08", {"front-left": {"motor": "M-1"}})

    hangar = folded([log], ["M-1", "M-2"])

    assert [] == problems(hangar)
    assert 0.0 == hangar.items["M-1"].counters.duration_s
    assert 0.5 * HOUR == hangar.items["M-2"].counters.duration_s


@pytest.mark.parametrize(("hours", "basis"), [(0.0, "unknown"), (30.0, "estimate")])
def test_R16_carried_life_counts_and_keeps_its_basis(hours: float, basis: str) -> None:
    """AC 43-9C: life before the records is added, and how sure it is stays with the total."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}})
    log.flight("03-02", 3.2 * HOUR)
    carried = Carried(duration_s=hours * HOUR, basis=basis)  # type: ignore[arg-type]

    counters = folded([log], [item("M-1", carried=carried)]).items["M-1"].counters

    assert (hours + 3.2) * HOUR == pytest.approx(counters.duration_s)
    assert basis == counters.basis


def test_R17_time_since_a_job_is_kept_beside_the_total() -> None:
    """14 CFR 91.417(a)(2)(iii): bearings at 50.0 h, then 5.0 h: total 55.0, since then 5.0."""
    log = Log("aircraft/a")
    log.fit("03-01", {"front-left": {"motor": "M-1"}})
    log.flight("03-02", 50.0 * HOUR)
    log.inspection("03-03", "motor-bearings", "M-1")
    log.flight("03-04", 5.0 * HOUR)

    hangar = folded([log], ["M-1"])

    motor = hangar.items["M-1"]
    (done,) = motor.inspections
    now = flown_at(hangar, "M-1", 99)
    assert 55.0 * HOUR == motor.counters.duration_s
    assert Flown(5.0 * HOUR, 1, 1) == now - flown_at(hangar, "M-1", done.seq)


def test_R19_a_pack_counts_charges_and_equivalent_full_cycles() -> None:
    """AC 107-2A ch. 7: 980, 1040 and 650 mAh back into 2000 mAh are 3 charges, 1.335 cycles."""
    store = Log("stores/P-1")
    for on, put_in_ah in (("03-01", 0.98), ("03-05", 1.04), ("03-09", 0.65)):
        store.charge(on, "P-1", put_in_ah)

    counters = folded([store], ["P-1"]).items["P-1"].counters

    assert 3 == counters.charges
    assert 2.67 / 2.0 == pytest.approx(counters.cycles)


def test_charge_counts_once_whether_it_was_flown_or_put_back() -> None:
    """For each stretch the greater of used and put in; the last flight is not yet charged."""
    log, store = Log("aircraft/a"), Log("stores/P-1")
    for on in ("03-01", "03-04", "03-08"):
        log.flight(on, packs="P-1", used_ah=1.5)
    store.charge("03-02", "P-1", 1.6)
    store.charge("03-05", "P-1", 1.2)

    counters = folded([log, store], ["P-1"]).items["P-1"].counters

    assert (1.6 + 1.5 + 1.5) / 2.0 == pytest.approx(counters.cycles)


def test_packs_flown_and_charged_together_share_the_figure() -> None:
    """3.0 Ah of two packs in parallel are 1.5 Ah each: 0.75 cycles of 2.0 Ah."""
    log, store = Log("aircraft/a"), Log("stores/packs")
    log.flight("03-01", packs="P-1 P-2", used_ah=3.0)
    store.charge("03-02", "P-1 P-2", 3.2)

    items = folded([log, store], ["P-1", "P-2"]).items

    assert [0.8, 0.8] == [items[tag].counters.cycles for tag in ("P-1", "P-2")]
    assert 2 == items["P-1"].charges[0].packs_together


def test_two_flights_and_two_charges_of_one_day_in_two_logs_are_one_stretch() -> None:
    """Across logs a day's flights come before its charges; neither is counted twice."""
    log, store = Log("aircraft/a"), Log("stores/P-1")
    log.flights("03-01", *[FlightRow(duration_s=300.0, packs=("P-1",), used_ah=1.5)] * 2)
    store.charge("03-01", "P-1", 1.6)
    store.charge("03-01", "P-1", 1.6)

    counters = folded([log, store], ["P-1"]).items["P-1"].counters

    assert 3.2 / 2.0 == pytest.approx(counters.cycles)
    assert 2 == counters.charges


def test_storage_and_full_charge_give_back_one_flight() -> None:
    """0.8 Ah flown, 0.4 Ah put in for storage and 0.45 Ah before the next flight: 0.85 Ah."""
    log, store = Log("aircraft/a"), Log("stores/P-1")
    log.flight("03-01", packs="P-1", used_ah=0.8)
    store.charge("03-01", "P-1", 0.4, to="storage")
    store.charge("03-06", "P-1", 0.45, to="full")
    log.flight("03-07", packs="P-1", used_ah=0.8)

    counters = folded([log, store], ["P-1"]).items["P-1"].counters

    assert (0.85 + 0.8) / 2.0 == pytest.approx(counters.cycles)


def test_a_measured_capacity_knows_the_charges_and_cycles_before_it() -> None:
    """Carried cycles are part of the count."""
    store = Log("stores/P-1")
    store.charge("03-01", "P-1", 2.0)
    store.charge("03-02", "P-1", 2.0)
    store.capacity("03-03", "P-1", 1.9)
    store.charge("03-04", "P-1", 2.0)

    pack = folded([store], [item("P-1", carried=Carried(cycles=10.0))]).items["P-1"]

    assert [(1.9, 2, 12.0)] == [
        (done.measured_ah, done.charges, done.cycles) for done in pack.capacities
    ]
    assert 13.0 == pack.counters.cycles


def test_a_day_counts_once_for_a_part_that_moves_within_it() -> None:
    """The motor flew on A and on B on one day: one flying day, two flights."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    a.fit("03-01", {"front-left": {"motor": "M-1"}})
    a.flight("03-02")
    a.remove("03-02", "M-1")
    b.flight("03-02")
    b.remove("03-02", "M-2")
    b.fit("03-02", {"front-left": {"motor": "M-1"}})
    b.flight("03-02")
    b.entries.insert(0, Log("aircraft/b").fit("03-01", {"front-left": {"motor": "M-2"}}, index=-1))

    hangar = folded([a, b], ["M-1", "M-2"])

    assert [] == problems(hangar)
    counters = hangar.items["M-1"].counters
    assert (2, 1) == (counters.flights, counters.flying_days)


def test_a_pack_counts_its_flights_on_all_aircraft() -> None:
    """Packs are flown, not fitted; time is asked for at any moment."""
    a, b = Log("aircraft/a"), Log("aircraft/b")
    a.flight("03-01", 300.0, "P-1")
    b.flight("03-02", 200.0, "P-1")
    a.flight("03-03", 100.0)

    hangar = folded([a, b], ["P-1"])

    pack = hangar.items["P-1"]
    assert (500.0, 2, 2) == (
        pack.counters.duration_s,
        pack.counters.flights,
        pack.counters.flying_days,
    )
    assert ("a", "b") == pack.flown_on
    assert [Flown(300.0, 1, 1), Flown(500.0, 2, 2)] == [
        flown_at(hangar, "P-1", flight.seq) for flight in pack.flights
    ]


def test_R38_each_line_of_the_log_has_the_running_total() -> None:
    """UK AMC1 UAS.SPEC.050(1)(g): flight 58 of 0.1 h on 13.8 h: total 13.9 h, 58 flights."""
    log = Log("aircraft/a")
    log.flight("03-01", 0.1 * HOUR)
    log.note("03-02")
    carried = Carried(duration_s=13.8 * HOUR, flights=57)

    lines = folded([log], fleet=[aircraft("a", carried=carried)]).aircraft["a"].log

    assert [(pytest.approx(13.9 * HOUR), 58)] * 2 == [
        (line.total_s, line.total_flights) for line in lines
    ]


def test_born_is_the_day_made_else_acquired() -> None:
    """Calendar life runs from there, fitted or not."""
    items = folded(
        [],
        [
            item("P-1", acquired=day("02-03"), made=day("2025-11-01")),
            item("P-2", acquired=day("02-03")),
            "P-3",
        ],
    ).items

    assert [day("2025-11-01"), day("02-03"), None] == [now.born for now in items.values()]


@pytest.mark.parametrize(
    ("carried", "untimed"),
    [
        (None, False),
        (Carried(), False),
        (Carried(flights=57), True),
        (Carried(cycles=10.0), True),
        (Carried(duration_s=HOUR, flights=57), False),
        (Carried(duration_s=HOUR, cycles=10.0), False),
    ],
)
def test_a_life_before_the_log_without_its_time_is_untimed(
    carried: Carried | None, untimed: bool
) -> None:
    """Then hours are an "at least"; a life of nothing lacks no time."""
    counters = folded([Log("stores/a")], [item("M-1", carried=carried)]).items["M-1"].counters

    assert untimed == counters.untimed
