"""Readings that ask for a look."""

import subprocess
import sys

import pytest
from programmes import check, limit, on, programme, rows, the_row, told, worded, work
from written_logs import Log, aircraft

from buildbook.records.row_names import SIGNAL_TASKS
from buildbook.report.upkeep import ranks
from buildbook.report.upkeep.pack_findings import OddCell
from buildbook.report.upkeep.work import WorkList
from buildbook.upkeep.packs.pack_rows import DO
from buildbook.upkeep.rows.signals import LOOK_AT
from buildbook.words.measures.days import EXACT
from buildbook.words.reasons import because_words

PLANE = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")


@pytest.mark.parametrize(
    ("cells", "expected"),
    [
        ((3.84, 3.82, 3.85, 3.84), []),
        ((3.84, 3.81, 3.85, 3.84), ["cells 40 mV apart at rest, more than 30 mV twice running"]),
        ((4.20,), []),
    ],
)
def test_D15_cells_at_rest_more_than_30_mv_apart(
    cells: tuple[float, ...], expected: list[object]
) -> None:
    """Common practice, no source: a spread of 0.03 V is ok, 0.04 V twice is not; in whole mV."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.charge("01-02", "P-1", resting_v=(3.84, 3.80, 3.80, 3.80))
    log.charge("01-02", "P-1", resting_v=cells)

    listed = work([log], [programme()], items=["P-1"], fleet=[PLANE])

    found = rows(listed, "cell-voltages")
    assert expected == [because_words(row.because, EXACT) for row in found]


def test_a_signal_names_what_to_look_at_until_somebody_did() -> None:
    """Or until the cells lie together again."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.charge("01-02", "P-1", resting_v=(3.84, 3.80))
    marked = work([log], [programme()], items=["P-1"], fleet=[PLANE]).packs[0]
    assert ("nothing open", ["cells 40 mV apart at rest, more than 30 mV"]) == (
        marked.state,
        [worded(note) for note in marked.notes],
    )

    log.charge("01-02", "P-1", resting_v=(3.84, 3.80))
    listed = work([log], [programme()], items=["P-1"], fleet=[PLANE])
    assert (
        "due soon",
        ["cell voltages of P-1: due, cells 40 mV apart at rest, more than 30 mV twice running"],
    ) == (listed.packs[0].state, told(listed.packs[0]))
    assert "nothing open" == on(listed, "a").state

    log.inspection("01-03", "cell-voltages", "P-1")
    assert "nothing open" == work([log], [programme()], items=["P-1"], fleet=[PLANE]).packs[0].state

    log.charge("01-04", "P-1", resting_v=(3.84, 3.80))
    assert "due soon" == work([log], [programme()], items=["P-1"], fleet=[PLANE]).packs[0].state

    log.charge("01-05", "P-1", resting_v=(3.84, 3.83))
    assert "nothing open" == work([log], [programme()], items=["P-1"], fleet=[PLANE]).packs[0].state


def drifting(times: int, used_ah: float = 0.5, then_ah: float = 0.8) -> Log:
    """Fifteen flights that use a little more or less than a charge, then more of another."""
    log = Log("aircraft/a")
    for number in range(15):
        log.flight("01-02", packs="P-1", used_ah=used_ah + 0.01 * (number % 3))
    for number in range(times):
        log.flight("02-02", packs="P-1", used_ah=then_ah + 0.01 * (number % 3))
    return log


def seen(log: Log, *rules: object) -> WorkList:
    return work([log], [programme(*rules)], items=["P-1"], fleet=[PLANE])  # type: ignore[arg-type]


def test_a_drift_opens_a_task_that_says_what_to_look_at() -> None:
    """Of the pack and of the aircraft: each against its own first flights.

    0.81 over 0.51 Ah is +59 %, and an average that takes in a fifth of each flight has come
    1 - 0.8^8 = 83 % of the way: +49 %. Time on an ampere-hour: 83 % of -37 %.
    """
    listed = seen(drifting(8))

    pack, plane = the_row(listed, "pack-drift"), the_row(listed, "aircraft-drift")
    assert ("P-1", None, "due", ranks.DUE) == (pack.tag, pack.aircraft, pack.state, pack.rank)
    assert (None, "a", "due", False) == (plane.tag, plane.aircraft, plane.state, plane.grounds)
    assert ("pack drift of P-1: due, charge a minute 49 % above its first flights") == worded(pack)
    assert ("aircraft drift: due, time on an ampere-hour 31 % below its first flights") == worded(
        plane
    )
    assert ("signal", "aircraft/a/logbook.yaml:230") == (
        pack.because and pack.because.why,
        str(pack.place),
    )
    assert pack.rule is not None
    assert "Look at the pack, its plug and its leads." == pack.rule.what
    assert {"aircraft-drift", "pack-drift"} == {row.name for row in listed.rows}


def test_what_stays_as_it_was_opens_nothing() -> None:
    """Nor do too few flights: fifteen make the baseline."""
    assert () == seen(drifting(8, then_ah=0.5)).rows
    assert () == seen(drifting(0)).rows


def test_a_drift_that_was_looked_at_keeps_quiet_for_fifteen_flights() -> None:
    """It would else be there again on the next flight."""
    log = drifting(8)
    log.inspection("03-01", "pack-drift", "P-1")
    log.inspection("03-01", "aircraft-drift")
    for _ in range(14):
        log.flight("03-02", packs="P-1", used_ah=0.8)
    assert () == seen(log).rows

    log.flight("03-03", packs="P-1", used_ah=0.8)
    assert ["aircraft-drift", "pack-drift"] == sorted(row.name for row in seen(log).rows)


def test_an_odd_cell_opens_a_task_until_it_was_looked_at() -> None:
    """One cell far off the others; the next reading speaks anew."""
    log = Log("aircraft/a")
    log.charge("01-02", "P-1", resistance_ohm=(0.008, 0.0082, 0.0125, 0.0081))

    row = the_row(seen(log), "odd-cell")
    assert "odd cell of P-1: due, cell 3 reads 54 % above the others" == worded(row)
    assert row.because is not None
    assert isinstance(row.because.found, OddCell)
    assert (3, 54) == (row.because.found.cell, round(row.because.found.share * 100))

    log.inspection("01-03", "odd-cell", "P-1")
    assert () == seen(log).rows
    log.charge("01-04", "P-1", resistance_ohm=(0.008, 0.0082, 0.0125, 0.0081))
    assert ["odd-cell"] == [row.name for row in seen(log).rows]
    log.charge("01-05", "P-1", resistance_ohm=(0.008, 0.0082, 0.0085, 0.0081))
    assert () == seen(log).rows


def test_a_worn_pack_asks_for_a_decision_where_no_limit_does() -> None:
    """80 % of rated is the share that stands unless the keeper says another."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.capacity("01-02", "P-1", 1.599)

    row = the_row(seen(log), "pack-end-of-life")
    assert "pack end of life of P-1: due, capacity 79.9 % of rated, limit 80 %" == (worded(row))
    assert ["read-again", "retire"] == [
        row.name for row in seen(log, limit("retire", "battery", capacity_share=0.8)).rows
    ]
    assert {"retire", "pack-end-of-life"} == {
        row.name for row in seen(log, limit("retire", "battery", cycles=300)).rows
    }

    log.capacity("01-03", "P-1", 1.6)
    assert () == seen(log).rows


def test_R35_a_missing_weighing_is_asked_for_without_any_programme() -> None:
    """The 2 % line: 640 g and 12 g more is no, 14 g is; until it stands on the scales."""
    log = Log("aircraft/a")
    log.weigh("01-02", 0.640)
    log.alteration("01-03", mass_kg=0.012)
    assert () == seen(log).rows

    log.alteration("01-04", mass_kg=0.002)
    row = the_row(seen(log), "weighing")
    assert (
        "weighing: due, not weighed since 2 January 2026; what changed makes it 14 g heavier",
        "aircraft/a/logbook.yaml:30",
    ) == (
        worded(row),
        str(row.place),
    )
    assert ["check"] == [row.kind for row in seen(log, check("weighing")).rows]

    log.weigh("01-05", 0.654)
    assert () == seen(log).rows


def test_every_signal_can_be_closed_by_an_inspection_of_its_name() -> None:
    """The reader of the records knows them by the same names."""
    of_packs = set(DO) - {"pack-look", "set-aside"}
    of_moved = {"update-registration", "broadcast-check", "part-look"}
    of_aircraft = set(LOOK_AT) | {"drying"}
    assert set(SIGNAL_TASKS) | {"weighing"} == of_aircraft | of_packs | of_moved


def test_signals_are_seen_without_numpy() -> None:
    """They are part of every start of the work list."""
    code = (
        "import sys; import buildbook.upkeep.work_list;"
        " print([name for name in ('numpy', 'scipy', 'matplotlib') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "[]\n" == done.stdout


def test_aircraft_that_do_not_fly_and_packs_that_are_retired_show_no_signals() -> None:
    """They raise no rows but life limits."""
    log = drifting(8)
    log.state("03-01", P_1="retired")
    stored = aircraft("a", kind="aeroplane", layout="aeroplane", status="stored")

    assert () == work([log], [programme()], items=["P-1"], fleet=[stored]).rows
