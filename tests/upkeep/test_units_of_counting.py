"""Every unit of counting is a whole one: it is counted, compared, and named in what is left."""

import pytest
from programmes import built, programme, rows, task, the_row, worded, work
from written_logs import Log, aircraft, item

from buildbook.basis.counting import UNITS
from buildbook.records.parts import Carried
from buildbook.report.upkeep.work import WorkList

WHOLE = [f"{kind}-{number}" for kind in "MER" for number in range(1, 5)]


def flown(each: str, interval: dict[str, float], *landings: str, **carried: float) -> WorkList:
    """A quad that was flown on pack P-1 once a month, with those landings."""
    log = built(Log("aircraft/a"))
    for month, landing in enumerate(landings, start=1):
        log.charge(f"{month:02d}-02", "P-1", 2.0)
        log.flight(f"{month:02d}-03", 3600.0, "P-1", used_ah=2.0, landing=landing)
    before = Carried(**carried) if carried else None  # type: ignore[arg-type]
    return work(
        [log],
        [programme(task("look", interval, each))],
        items=[*(item(tag, carried=before) for tag in WHOLE), "P-1"],
        fleet=[aircraft("a", programme="club", carried=before)],
        as_of="2027-06-30",
    )


@pytest.mark.parametrize("key", UNITS)
def test_no_unit_reads_as_nothing_open(key: str) -> None:
    """A look after one of any unit is overdue after two crashes, hard landings, flights, years."""
    counted = UNITS[key].counts == "pack"
    landings = ("crash", "crash", "hard", "hard", "normal")
    listed = flown("battery" if counted else "aircraft", {key: 1}, *landings)
    row = the_row(listed, "look")

    assert ("overdue", [UNITS[key].left_key]) == (row.state, list(row.left))


@pytest.mark.parametrize(
    ("landings", "state", "left"),
    [
        (("normal",), "ok", 3),
        (("hard", "normal", "hard"), "ok", 1),
        (("hard", "hard", "crash"), "ok", 1),
        (("hard", "hard", "normal", "hard"), "due", 0),
        (("hard", "hard", "hard", "hard"), "overdue", -1),
    ],
)
def test_hard_landings_of_an_aircraft_are_counted(
    landings: tuple[str, ...], state: str, left: int
) -> None:
    """A crash is not one of them; nobody foresees one, so the task is never due soon."""
    row = the_row(flown("aircraft", {"hard_landings": 3}, *landings), "look")

    assert (state, {"hard_landings": left}) == (row.state, row.left)


def test_a_crash_of_the_parts_on_board_is_counted() -> None:
    """Each motor that sat there is due; what is said names the unit."""
    listed = flown("motor", {"crashes": 1}, "crash", "crash")
    found = rows(listed, "look")

    assert ["M-1", "M-2", "M-3", "M-4"] == sorted(row.tag or "" for row in found)
    assert ["look of M-1 at front-left: overdue by 1 crash"] == [
        worded(row) for row in found if row.tag == "M-1"
    ]


def test_crashes_before_these_records_are_not_known() -> None:
    """Carried life tells hours and flights, not crashes: never done, and only then due."""
    before = flown("motor", {"crashes": 2}, "crash", flights=20)
    after = flown("motor", {"crashes": 2}, "crash", "crash", flights=20)

    assert {"never done"} == {row.state for row in rows(before, "look")}
    assert {"due"} == {row.state for row in rows(after, "look")}


def test_a_crash_is_expected_on_no_day_and_hides_no_other_day() -> None:
    """Flights have a rate, crashes have none."""
    log = built(Log("aircraft/a"))
    for number in range(1, 29):
        log.flight(f"03-{number:02d}", 600.0)
    both = programme(task("both", {"flights": 50, "crashes": 1}), task("crash", {"crashes": 1}))
    listed = work([log], [both], items=WHOLE, as_of="03-28")

    assert the_row(listed, "both").expected is not None
    assert the_row(listed, "crash").expected is None
    assert {"flights": 22, "crashes": 1} == the_row(listed, "both").left
