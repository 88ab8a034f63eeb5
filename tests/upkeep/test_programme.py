"""Programmes: what they are based on, changed, added, dropped; what is wrong with them."""

import msgspec
import pytest
from programmes import (
    FILE,
    WHOLE,
    built,
    check,
    date,
    every,
    limit,
    programme,
    task,
    the_row,
    worded,
    work,
)
from written_logs import Log, aircraft, ledger

from buildbook.basis.counting import amount
from buildbook.basis.place import Place
from buildbook.records.programmes import Follows, Programme, Trigger
from buildbook.report.upkeep.programme import Resolved
from buildbook.upkeep.programme import resolve
from buildbook.upkeep.warnings.programme_faults import faults
from buildbook.words.measures.intervals import interval_words, limit_words

BASE = programme(
    check("failsafe", "fit receiver, crash"),
    check("compass", "transport", grounds=False),
    task("look", {"flights": 10}),
    task("bearings", {"flights": 50, "hours": 10, "months": 6}, "motor"),
    limit("pack-retire", "battery", cycles=300, capacity_share=0.8),
    name="built-in quad",
    built_in=True,
)


def over(*rules: object, base: Programme = BASE, **more: object) -> Resolved:
    own = programme(*rules, based_on=base.name, **more)  # type: ignore[arg-type]
    found = resolve({base.name: base, "club": own}, "club")
    assert found is not None
    return found


def row(resolved: Resolved, name: str) -> object:
    rows = (*resolved.checks, *resolved.tasks, *resolved.life_limits)
    return next(one for one in rows if name in msgspec.structs.astuple(one.rule))


def test_what_is_not_named_stays_as_it_was_and_new_rows_come_after() -> None:
    """The order of the base, then what the keeper adds."""
    resolved = over(task("screws", {"flights": 25}))

    assert ["failsafe", "compass"] == [one.rule.check for one in resolved.checks]
    assert ["look", "bearings", "screws"] == [one.rule.task for one in resolved.tasks]
    assert ("club", "built-in quad") == resolved.chain
    assert not any(one.usual or one.looser for one in (*resolved.checks, *resolved.tasks))


def test_R22_a_looser_interval_is_marked_and_not_blocked() -> None:
    """ML.A.302(c)(3): default 10 flights, override 25."""
    changed = row(over(task("look", {"flights": 25})), "look")

    assert (True, 10, 25) == (
        changed.looser,
        changed.usual.every.flights,
        changed.rule.every.flights,
    )
    log = Log("aircraft/a")
    own = programme(task("look", {"flights": 25}), based_on=BASE.name)
    listed = work([log], [BASE, own], fleet=[aircraft("a", programme="club")])
    found = the_row(listed, "look")
    assert (True, {"flights": 25}) == (found.looser, found.left)
    assert "10 flights" == interval_words(found.usual.every)


@pytest.mark.parametrize(
    ("change", "looser"),
    [
        (task("look", {"flights": 5}), False),
        (task("look", {"flights": 10, "months": 1}), False),
        (task("look", {"months": 1}), True),
        (task("look", {"flights": 10}, tolerance={"flights": 1}), True),
        (task("look", {"flights": 10}, counted_from="done"), True),
        (task("look", {"flights": 10}, also_after="crash"), False),
        (task("bearings", {"flights": 50, "hours": 11, "months": 6}, "motor"), True),
        (check("failsafe", "fit receiver"), True),
        (check("failsafe", "fit receiver, crash, water"), False),
        (check("failsafe", "fit receiver, crash", second_person=True), False),
        (check("failsafe", "fit receiver, crash", propellers="on"), True),
        (check("failsafe", "fit receiver, crash", grounds=False), True),
        (check("failsafe", "fit receiver, crash", per="motor"), False),
        (limit("pack-retire", "battery", cycles=400, capacity_share=0.8), True),
        (limit("pack-retire", "battery", cycles=300, capacity_share=0.7), True),
        (limit("pack-retire", "battery", cycles=200, capacity_share=0.85), False),
    ],
)
def test_R22_what_counts_as_looser(change: object, looser: bool) -> None:
    """A longer or missing unit, more tolerance, another counting, fewer triggers, a later end."""
    name = change.__struct_fields__ and (
        getattr(change, "check", None) or getattr(change, "task", None) or change.limit
    )
    changed = row(over(change), name)

    assert looser is changed.looser
    assert changed.usual is not None


@pytest.mark.parametrize(
    ("usual", "own", "looser"),
    [
        ({"per": "motor station"}, {"per": None}, True),
        ({"per": "motor station"}, {"per": "motor"}, False),
        ({"second_person": True}, {"second_person": False}, True),
        ({"propellers": "on"}, {"propellers": "off"}, False),
        ({"grounds": False}, {"grounds": True}, False),
    ],
)
def test_R22_a_check_that_asks_less_is_looser(
    usual: dict[str, object], own: dict[str, object], looser: bool
) -> None:
    """What it goes by, a second person, propellers, grounding."""
    base = programme(check("start", "crash", **usual), name="built-in quad", built_in=True)
    change = check("start", "crash", **own, written=("check", *own))

    changed = row(over(change, base=base), "start")

    assert looser is changed.looser


def test_R22_a_limit_without_one_of_its_ends_is_looser() -> None:
    """Where the written keys leave it out."""
    ends = ("limit", "cycles", "capacity_share")
    change = limit("pack-retire", "battery", cycles=300, written=ends)

    assert row(over(change), "pack-retire").looser


def test_R22_a_second_person_left_out_of_a_task_is_looser() -> None:
    """And one that is added is not."""
    base = programme(
        task("look", {"flights": 10}, second_person=True, counted_from="done"),
        name="built-in quad",
        built_in=True,
    )
    alone = task("look", {"flights": 10}, second_person=False, written=("task", "second_person"))
    grid = task("look", {"flights": 10}, counted_from="planned", written=("task", "counted_from"))

    assert row(over(alone, base=base), "look").looser
    assert not row(over(grid, base=base), "look").looser


def test_a_row_that_says_the_same_again_is_not_marked() -> None:
    """Other words for it are no change."""
    again = row(over(task("look", {"flights": 10})), "look")

    assert (None, False) == (again.usual, again.looser)


def test_the_written_keys_decide_what_a_row_changes() -> None:
    """``grounds: true`` over a base row that only notes; everything else is kept."""
    change = check("compass", written=("check", "grounds"))
    changed = row(over(change), "compass")

    assert (True, ("transport",)) == (
        changed.rule.grounds,
        tuple(str(trigger) for trigger in changed.rule.stale_after),
    )


def test_R21_a_programme_without_a_row_has_no_row() -> None:
    """ML.A.302(c)(1): a fixed wing without compass has no compass task, not one never done."""
    plane = aircraft("a", programme="plane", kind="aeroplane", layout="aeroplane")
    club = programme(check("failsafe", "fit receiver"), name="plane")

    listed = work([Log("aircraft/a")], [BASE, club], fleet=[plane])

    assert ["failsafe"] == [one.name for one in listed.rows]


def test_a_dropped_row_stays_visible_with_its_reason() -> None:
    """As not applicable, at the place of the reason, in nobody's way."""
    own = programme(
        based_on=BASE.name,
        drop={"compass": "none on board", "pack-retire": "we look at them"},
        lines={"drop.compass": 5, "drop.pack-retire": 6},
    )
    log = built(Log("aircraft/a"))
    log.check("01-02", "failsafe")
    listed = work([log], [BASE, own], items=WHOLE, as_of="01-03")

    found = the_row(listed, "compass")
    assert ("check", "not applicable", "dropped", Place(FILE, 5)) == (
        found.kind,
        found.state,
        found.because.why,
        found.place,
    )
    assert "compass: left out of the programme by the owner" == worded(found)
    assert "limit" == the_row(listed, "pack-retire").kind
    assert "nothing open" == listed.aircraft[0].state
    resolved = resolve({BASE.name: BASE, "club": own}, "club")
    assert resolved is not None
    assert ["none on board", "we look at them"] == [one.why for one in resolved.dropped]


def test_a_dropped_row_can_be_taken_up_again() -> None:
    """By a programme that is based on the one that dropped it."""
    first = programme(name="first", based_on=BASE.name, drop={"compass": "none on board"})
    second = programme(check("compass", "transport"), name="second", based_on="first")

    resolved = resolve({one.name: one for one in (BASE, first, second)}, "second")

    assert resolved is not None
    assert ((), ("second", "first", "built-in quad")) == (resolved.dropped, resolved.chain)
    assert "compass" in [one.rule.check for one in resolved.checks]


def test_a_built_in_programme_is_found_by_its_short_name() -> None:
    """And a keeper's programme of that very name may be based on it."""
    own = programme(task("more", {"days": 1}), name="quad", based_on="built-in quad")

    assert ("built-in quad",) == resolve({BASE.name: BASE}, "quad").chain
    assert ("quad", "built-in quad") == resolve({BASE.name: BASE, "quad": own}, "quad").chain
    assert resolve({}, "quad") is None


def test_circular_and_lost_bases_are_problems_with_their_place() -> None:
    """And rows that are dropped though they are not there."""
    one = programme(name="one", based_on="two", lines={"based_on": 2})
    two = programme(name="two", based_on="one", lines={"based_on": 3})
    lost = programme(name="lost", based_on="nowhere", lines={"based_on": 4})
    drops = programme(
        name="drops", based_on=BASE.name, drop={"compas": "none"}, lines={"drop.compas": 5}
    )
    read = msgspec.structs.replace(
        ledger([]), programmes={one.name: one for one in (BASE, one, two, lost, drops)}
    )

    found = faults(read)

    assert [
        f"programme 'one' is based on itself by way of 'two' @ {FILE}:2",
        f"programme 'two' is based on itself by way of 'one' @ {FILE}:3",
        f"programme 'lost' is based on 'nowhere', which does not exist @ {FILE}:4",
        f"programme 'drops' drops 'compas', which its base does not have @ {FILE}:5",
    ] == [str(problem) for problem in found]
    assert "did you mean 'compass'?" == found[-1].hint


def test_what_only_a_pack_has_is_counted_of_packs_only() -> None:
    """And a check by battery has no row, as no pack is ever fitted."""
    odd = programme(
        check("pack-seat", "crash", per="battery"),
        task("look", {"charges": 20}),
        limit("motor-out", "motor", cycles=300, capacity_share=0.8),
        limit("pack-out", "battery", cycles=300, capacity_share=0.8),
    )
    read = msgspec.structs.replace(ledger([]), programmes={"club": odd})

    assert [
        f"check 'pack-seat' goes by battery, which is never fitted @ {FILE}:1",
        f"limit 'motor-out' counts capacity, which only a battery has, for motor @ {FILE}:1",
        f"limit 'motor-out' counts cycles, which only a battery has, for motor @ {FILE}:1",
        f"task 'look' counts charges, which only a battery has, for aircraft @ {FILE}:1",
    ] == [str(problem) for problem in faults(read)]


def test_intervals_in_words() -> None:
    """As they are said."""
    assert "50 flights, 10 h or 6 months" == interval_words(every(flights=50, hours=10, months=6))
    assert "1 flight" == interval_words(every(flights=1))
    assert "2.5 h" == interval_words(every(hours=2.5))
    assert interval_words(every()) is None
    assert "1000 h" == interval_words(every(hours=1000))
    assert "300 cycles, 4 years, capacity 80 % or cell resistance 200 %" == limit_words(
        limit(
            "pack-retire",
            "battery",
            cycles=300,
            years=4,
            capacity_share=0.8,
            cell_resistance_share=2.0,
        )
    )
    assert "1000 h" == limit_words(limit("motor-out", "motor", hours=1000))


def fault_lines(*programmes: Programme) -> list[str]:
    """What is wrong with them, with hints."""
    read = msgspec.structs.replace(
        ledger([]), programmes={one.name: one for one in (BASE, *programmes)}
    )
    return [f"{fault.severity}: {fault} ({fault.hint})" for fault in faults(read)]


def test_a_base_with_a_slip_in_its_name_gets_a_suggestion() -> None:
    """Never the programme itself."""
    own = programme(name="quads", based_on="built-in qaud", lines={"based_on": 2})

    assert [
        "problem: programme 'quads' is based on 'built-in qaud', which does not exist"
        f" @ {FILE}:2 (did you mean 'built-in quad'?)"
    ] == fault_lines(own)


def test_a_tolerance_that_nothing_counts_is_told() -> None:
    """Days, months and years tolerate each other; a look after an event counts flights."""
    own = programme(
        task("a", {"flights": 10}, tolerance={"hours": 1}),
        task("b", {"months": 6}, tolerance={"days": 14}),
        task("c", {"years": 1}, tolerance={"months": 1, "flying_days": 2}),
        task("d", {}, tolerance={"flights": 1}, also_after="crash"),
        task(
            "e", {}, tolerance={"flights": 1}, follows=Follows(after=(Trigger("crash"),), flights=3)
        ),
    )

    assert [
        f"problem: task 'a' tolerates hours, which it does not count @ {FILE}:1"
        " (count hours under every, or leave it out)",
        f"problem: task 'c' tolerates flying days, which it does not count @ {FILE}:1"
        " (count flying days under every, or leave it out)",
        f"problem: task 'd' tolerates flights, which it does not count @ {FILE}:1"
        " (count flights under every, or leave it out)",
    ] == fault_lines(own)


def test_a_programme_without_rows_is_warned_about() -> None:
    """It would hide the built-in one of its name; one that changes another has its rows."""
    assert [
        f"warning: programme 'club' has no rows, so nothing is ever due under it @ {FILE}:1"
        " (write checks: or tasks:)",
        f"warning: programme 'quad' has no rows, so nothing is ever due under it @ {FILE}:1"
        " (write based_on: built-in quad)",
    ] == fault_lines(programme(), programme(name="quad"))
    assert [] == fault_lines(programme(based_on=BASE.name))
    for rule in (check("a"), task("a", {"flights": 1}), limit("a", "motor", flights=1)):
        assert [] == fault_lines(programme(rule))


def test_hours_and_shares_are_said_short() -> None:
    """Two places of an hour, one of a percent."""
    assert ("0.33 h", "1.25 h", "33.3 %", "12 %", "1 month", "2 flying days") == (
        amount("hours", 1 / 3),
        amount("hours", 1.25),
        amount("share", 1 / 3),
        amount("share", 0.12),
        amount("months", 1),
        amount("flying_days", 2),
    )


@pytest.mark.parametrize(
    ("as_of", "flights"),
    [("05-31", 50), ("06-01", 25), ("12-31", 20)],
)
def test_a_past_day_is_judged_by_what_held_then(as_of: str, flights: int) -> None:
    """Each row of a programme may begin on a day; the one before it held until then."""
    rules = [
        task("bearings", {"flights": 20}, since=date("07-01")),
        task("bearings", {"flights": 50}),
        task("bearings", {"flights": 25}, since=date("06-01")),
        task("later", {"flights": 5}, since=date("07-01")),
    ]

    found = resolve({"club": programme(*rules)}, "club", as_of=date(as_of))

    assert found is not None
    assert {"bearings": flights} == {
        row.rule.task: row.rule.every.flights for row in found.tasks if row.rule.task == "bearings"
    }
    assert (as_of == "12-31") == ("later" in [row.rule.task for row in found.tasks])
