"""B1 to B8: what is in order does not nag."""

import json
from pathlib import Path

from hangar_on_disk import QUIET, Hangar, with_log, with_text

ITEMS = "parts/items.yaml"
SPECS = "parts/specs.yaml"
OWN = """\
programme: small-multirotor
based_on: built-in small-multirotor
tasks:
"""


def flights(*days: int, minutes: int = 2) -> str:
    """A flight on each of these days of May 2026, all checks held."""
    return "".join(
        f"- on: 2026-05-{day:02d}\n  flight: {minutes}:00\n  pack: P-01\n" for day in days
    )


def with_task(task: str, entries: str = "") -> dict[str, str]:
    """The quiet hangar with a task of its keeper's own."""
    return with_log(entries, **{"programmes/small-multirotor.yaml": f"{OWN}  - {task}\n"})


def test_a_new_spare_asks_for_nothing(tmp_path: Path) -> None:
    """B1: motors, ESCs and propellers in the drawer since March."""
    hangar = Hangar(tmp_path, QUIET)

    spares = {"M-05", "E-05", "R-03", "L-03"}
    assert [] == [row for row in hangar.json["rows"] if row["tag"] in spares]
    assert "In the drawer" not in hangar.due[1]


def test_a_pack_never_flown_asks_for_nothing_until_it_has_lain_for_half_a_year(
    tmp_path: Path,
) -> None:
    """B1: bought on 1 March: quiet on 20 June, cells to be read in September, and not grounded."""
    hangar = Hangar(tmp_path, QUIET)

    assert ("nothing open", []) == hangar.pack("P-02")
    later = json.loads(hangar.run("due", str(hangar.folder), "--json", "--as-of", "2026-09-20")[1])
    (pack,) = (one for one in later["packs"] if one["tag"] == "P-02")
    assert ("due soon", 1) == (pack["state"], len(pack["reasons"]))
    assert "cells" in pack["reasons"][0]["what"]


def test_a_spare_that_is_fitted_says_what_is_to_be_looked_at(tmp_path: Path) -> None:
    """B1: the screws of the new motor, before it flies."""
    swap = (
        "- on: 2026-06-20\n  remove: [M-01]\n- on: 2026-06-20\n  fit: {front-left: {motor: M-05}}\n"
    )
    hangar = Hangar(tmp_path, with_log(swap))

    (row,) = (row for row in hangar.rows("motor-screws") if row["station"] == "front-left")
    assert ("stale", "grounded") == (row["state"], hangar.state())


def test_a_light_task_past_its_tolerance_grounds_nothing(tmp_path: Path) -> None:
    """B2: screws asked for every 2 flights, looked at none of 9; with grounds: true it does."""
    light = (
        "{task: tape-look, what: Look at the tape., every: {flights: 2}, tolerance: {flights: 1}"
    )
    mild = Hangar(tmp_path / "mild", with_task(light + "}", flights(*range(3, 12))))
    grave = Hangar(
        tmp_path / "grave", with_task(light + ", grounds: true}", flights(*range(3, 12)))
    )

    assert ["overdue"] == [row["state"] for row in mild.rows("tape-look")]
    assert ("due soon", "grounded") == (mild.state(), grave.state())


def test_one_large_look_closes_those_it_covers(tmp_path: Path) -> None:
    """B3: after a hard landing, the full inspection alone closes what it lists."""
    hard = "- on: 2026-06-19\n  incident: hard landing on the strip\n  severity: light\n"
    full = "- on: 2026-06-20\n  inspection: full-inspection\n"
    before = Hangar(tmp_path / "before", with_log(hard))
    after = Hangar(tmp_path / "after", with_log(hard + full))

    def asked(hangar: Hangar) -> set[str]:
        found = hangar.json["rows"]
        return {row["name"] for row in found if row["kind"] == "task" and row["state"] == "stale"}

    assert {"solder-and-leads", "screws-and-mounts"} <= asked(before)
    assert set() == asked(after)


def test_a_fact_that_many_figures_wait_for_is_told_once(tmp_path: Path) -> None:
    """B4: the same reason, its place, and the names of those that wait."""
    said = Hangar(tmp_path, with_text(SPECS, "receiver, mass: 12 g", "receiver")).run(
        "figures", "sedge", str(tmp_path / "hangar")
    )[1]

    assert (
        "  2 figures wait: mass of X-01 is not recorded: write 'mass' in its spec\n"
        "      receiver or in the item @ parts/specs.yaml:7\n"
        "      balance, allocation\n"
    ) in said
    assert 1 == said.count("  3 figures wait: no wiring is recorded")


def planned(done: str) -> dict[str, str]:
    """A task of every 10 flights, counted from the plan, 20 flights, done as said."""
    task = "{task: tape-look, what: Look at the tape., every: {flights: 10}, counted_from: planned}"
    log = flights(*range(3, 13)) + done + flights(*range(14, 17))
    return with_task(task, log)


def left(hangar: Hangar) -> float:
    """Flights left of the task."""
    (row,) = (row for row in hangar.json["rows"] if row["name"] == "tape-look")
    return float(row["left"]["flights"])


def test_done_twice_for_one_point_of_the_plan_closes_it_once(tmp_path: Path) -> None:
    """B6: 10 flights and the one of the quiet hangar: done at 10 and again at 11, next 20."""
    look = "- on: 2026-05-{day}\n  inspection: tape-look\n"
    twice = look.format(day=12) + "- on: 2026-05-13\n  flight: 2:00\n  pack: P-01\n"
    hangar = Hangar(tmp_path, planned(twice + look.format(day=13)))

    flown = 1 + 10 + 1 + 3
    assert 20 - flown == left(hangar)


def test_done_a_little_early_closes_the_point_it_is_nearest_to(tmp_path: Path) -> None:
    """B6: done at 8 of 10: next 20."""
    log = flights(*range(3, 11)) + "- on: 2026-05-10\n  inspection: tape-look\n"
    task = "{task: tape-look, what: Look at the tape., every: {flights: 10}, counted_from: planned}"
    hangar = Hangar(tmp_path, with_task(task, log + flights(11)))

    assert 20 - (1 + 9) == left(hangar)


def test_a_past_day_is_judged_by_the_interval_then_in_force(tmp_path: Path) -> None:
    """B7: every 20 flights, every 4 since June: with 9 flown overdue today, in order in May."""
    rows = (
        "{task: tape-look, what: Look at the tape., every: {flights: 20}}\n"
        "  - {task: tape-look, what: Look at the tape., every: {flights: 4}, since: 2026-06-01}"
    )
    hangar = Hangar(tmp_path, with_task(rows, flights(*range(3, 12))))

    then = json.loads(hangar.run("due", str(hangar.folder), "--json", "--as-of", "2026-05-31")[1])
    assert ["ok"] == [row["state"] for row in then["rows"] if row["name"] == "tape-look"]
    assert ["overdue"] == [row["state"] for row in hangar.rows("tape-look")]


def test_a_storage_charge_written_as_an_inspection_closes_its_row(tmp_path: Path) -> None:
    """B8: as a reader would expect."""
    full = "- {on: 2026-06-10, charge: P-02, to: full}\n"
    done = "- {on: 2026-06-19, inspection: pack-storage-charge, tags: [P-02]}\n"
    before = Hangar(tmp_path / "before", {**QUIET, "stores/p-02.yaml": full})
    after = Hangar(tmp_path / "after", {**QUIET, "stores/p-02.yaml": full + done})

    assert ["P-02"] == [row["tag"] for row in before.rows("pack-storage-charge")]
    assert [] == after.rows("pack-storage-charge")


def test_charges_to_storage_are_not_counted(tmp_path: Path) -> None:
    """Topped up twenty times while it lay: its resistance is asked for after 20 that were flown."""
    read = (
        "- {on: 2026-05-30, charge: P-01, to: full, resistance: [8 mΩ, 8 mΩ, 8 mΩ],"
        " temperature: 20 °C}\n"
    )
    look = "- {on: 2026-06-19, inspection: pack-look, tags: [P-01]}\n"
    charge = "- {on: 2026-06-10, charge: P-01, to: %s}\n"
    for to, rows in (("storage", 0), ("full", 1)):
        text = read + 20 * (charge % to) + "- {on: 2026-06-19, charge: P-01, to: storage}\n" + look
        found = Hangar(tmp_path / to, with_log("", **{"stores/p-01.yaml": text}))

        assert rows == len(found.rows("pack-resistance"))


def test_a_check_misspelt_as_an_inspection_leads_to_it(tmp_path: Path) -> None:
    """B8: an inspection may name a check too, so the hint does."""
    hangar = Hangar(tmp_path, with_log("- {on: 2026-06-20, inspection: Failsafe}\n"))

    assert (
        "problem: unknown task 'Failsafe' @ aircraft/sedge/logbook.yaml:24\n"
        "    did you mean 'failsafe'?\n"
    ) in hangar.check
