"""Entries that bring a name of their own are told by it: each comes in once, alike ones too."""

import json
from pathlib import Path
from typing import Any

import pytest
from hangars import LOG, loft, texts

from buildbook.records.reading.read import read_hangar

SAME = {
    "aircraft": "heron",
    "on": "2026-02-09",
    "flight": "7:20",
    "pack": "P-1",
    "used": "1480 mAh",
}
A, B = {"id": "f-aa1", **SAME}, {"id": "f-bb2", **SAME}
CHARGE = {"id": "f-cc3", "charge": "P-2", "on": "2026-02-09", "put_in": "1480 mAh"}


@pytest.fixture
def hangar(tmp_path: Path) -> Path:
    """One aircraft and three packs."""
    return loft(tmp_path / "loft")


def file_of(folder: Path, *entries: dict[str, str], name: str = "field.json") -> Path:
    """A file of entries."""
    path = folder / name
    path.write_text(json.dumps({"entries": entries}))
    return path


def test_a_second_time_adds_nothing(hangar: Path, tmp_path: Path, run: Any) -> None:
    """Nor does a later file that holds the old ones too; the folder may stand before --from."""
    file = file_of(tmp_path, A, CHARGE)

    assert "Wrote 2 entries." == run("enter", hangar, "--from", file).out.splitlines()[-1]
    written = texts(hangar)
    assert "Wrote 0 entries, 2 there already.\n" == run("enter", "--from", file, hangar).out
    assert written == texts(hangar)
    assert "  id: f-aa1\n  flight: 7:20\n" in (hangar / LOG).read_text("utf-8")


def test_alike_flights_of_a_day_are_two(hangar: Path, tmp_path: Path, run: Any) -> None:
    """Brought in by two files, as the first was cleared; whether it is meant is asked once."""
    run("enter", "--from", file_of(tmp_path, A), hangar)
    second = file_of(tmp_path, B, name="second.json")

    doubted = run("enter", "--from", second, hangar)
    assert 1 == doubted.status
    assert "doubt: the same flight of 2026-02-09 is written twice" in doubted.err
    assert "Nothing was written: 1 entry.\nAdd --sure if it is right.\n" in doubted.out
    sure = run("enter", "--from", second, "--sure", hangar)

    assert (0, "Wrote 1 entry.") == (sure.status, sure.out.splitlines()[-1])
    reading = read_hangar(hangar, None)
    assert reading.ledger is not None
    assert ["f-aa1", "f-bb2"] == [
        entry.id for entry in reading.ledger.entries if entry.id.startswith(("f-a", "f-b"))
    ]
    assert "Wrote 0 entries, 1 there already.\n" == run("enter", "--from", second, hangar).out


def test_a_name_twice_in_one_file_is_one_entry(hangar: Path, tmp_path: Path, run: Any) -> None:
    """As where two copies of a text were put into one file."""
    ran = run("enter", "--from", file_of(tmp_path, A, A), hangar)

    assert "Wrote 1 entry, 1 there already." == ran.out.splitlines()[-1]


def test_a_named_entry_of_a_later_day_is_asked_about(
    hangar: Path, tmp_path: Path, run: Any
) -> None:
    """Its day counts, whatever it is called; today's is not asked about."""
    today = {**A, "on": "2026-02-10"}
    assert (0, "") == run("enter", "--from", file_of(tmp_path, today), hangar)[::2]
    later = {**B, "id": "2025-01-01-later", "on": "2026-02-12"}

    told = run("enter", "--from", file_of(tmp_path, later), hangar).err

    assert "doubt: the entry is dated after today (2026-02-10)" in told


def test_entries_may_come_as_a_text_file(hangar: Path, tmp_path: Path, run: Any) -> None:
    """Telephones let .txt through where they stop .json; a byte order mark does not matter."""
    file = tmp_path / "field.txt"
    file.write_bytes(b"\xef\xbb\xbf\n" + file_of(tmp_path, A).read_bytes())

    assert "Wrote 1 entry." == run("enter", "--from", file, hangar).out.splitlines()[-1]


def test_a_part_on_no_aircraft_is_named_in_its_entry(
    hangar: Path, tmp_path: Path, run: Any
) -> None:
    """A defect of a pack and a look at it say which, as they would where they are typed."""
    defect = {"item": "P-1", "on": "2026-02-09", "defect": "puffed"}
    look = {"item": "P-2", "on": "2026-02-09", "inspection": "pack-look", "result": "fail",
            "findings": "dented"}  # fmt: skip

    run("enter", "--from", file_of(tmp_path, defect, look), "--sure", hangar)

    assert (
        (hangar / "stores/p-1.yaml").read_text("utf-8").endswith("  item: P-1\n  defect: puffed\n")
    )
    assert "  tags: [P-2]\n" in (hangar / "stores/p-2.yaml").read_text("utf-8")


@pytest.mark.parametrize("way", ["before", "behind"])
def test_a_hangar_given_twice_is_wrong_use(hangar: Path, run: Any, way: str) -> None:
    """Nobody can say which was meant."""
    words = ("flight", "heron", "7:20", hangar)
    twice = ("--hangar", hangar)
    told = (2, "", "buildbook enter: the hangar is given twice; leave out HANGAR or --hangar\n")

    assert told == run("enter", *((*twice, *words) if way == "before" else (*words, *twice)))
    assert (2, "", "buildbook enter: --hangar is given twice\n") == run(
        "enter", *twice, "flight", "heron", "7:20", *twice
    )


def test_the_last_entries_are_offered_where_an_id_is_missing(hangar: Path, run: Any) -> None:
    """Of that aircraft, or of that pack, the newest first."""
    assert (
        "buildbook enter: corrects: missing corrects (as in 2026-03-01-2), --because (as in misread"
        " the charger); the last are 2026-02-08-1 (flight), 2026-02-01-2 (check), 2026-02-01-1"
        " (fit)\n"
    ) == run("enter", "corrects", "heron", hangar).err
    assert run("enter", "voids", "P-1", hangar).err.endswith(
        "; the last are 2026-02-07-1 (charge)\n"
    )
