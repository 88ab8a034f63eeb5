"""What is doubted is judged once, kept, and never stale: whatever it rests on is part of its key.

Who is trusted with the folder: ``tests/records/test_read_cache.py``.
"""

import datetime
import os
import subprocess
import sys
from pathlib import Path

import msgspec
import pytest
from hangar_on_disk import QUIET, Hangar, with_log, with_text

from buildbook.basis.cache_folder import state_of_program
from buildbook.basis.problems import Problem
from buildbook.records.reading.read import read_hangar
from buildbook.reporting import opening
from buildbook.reporting.opening import open_reading, open_reports
from buildbook.upkeep.warnings import problems as judging

LOG, ITEMS, SPECS = "aircraft/sedge/logbook.yaml", "parts/items.yaml", "parts/specs.yaml"
STORE, KEEPER = "stores/p-01.yaml", "hangar.yaml"
TODAY = datetime.date(2026, 6, 20)
DOUBTED = with_log("- {on: 2026-06-20, flight: '72:00', pack: P-02, used: 1480 mAh}\n")


@pytest.fixture
def judged(monkeypatch: pytest.MonkeyPatch, private_cache: Path) -> list[int]:
    """Grows by one with each time that warnings are judged."""
    assert private_cache
    counted: list[int] = []
    warnings_of = judging.warnings_of

    def counting(*given: object) -> object:
        counted.append(1)
        return warnings_of(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(judging, "warnings_of", counting)
    return counted


def told(hangar: Hangar, as_of: datetime.date | None = None) -> tuple[Problem, ...]:
    """What a command is told, with whatever an earlier one kept."""
    return open_reports(hangar.folder, as_of, TODAY).problems


def told_afresh(hangar: Hangar, as_of: datetime.date | None = None) -> tuple[Problem, ...]:
    """The same where nothing is kept."""
    return open_reading(hangar.folder, read_hangar(hangar.folder, None), as_of, TODAY).problems


def kept(cache: Path) -> Path:
    """The one file of warnings in the cache folder."""
    (file,) = (cache / "buildbook").glob("*.warnings")
    return file


@pytest.mark.parametrize("files", [QUIET, DOUBTED], ids=["quiet", "doubted"])
def test_a_second_command_is_spared(
    tmp_path: Path, judged: list[int], files: dict[str, str]
) -> None:
    """It is told the same, by every command that tells it."""
    hangar = Hangar(tmp_path, files)
    first = told(hangar)

    assert first == told(hangar)
    assert hangar.run("check", str(hangar.folder)) == hangar.run("check", str(hangar.folder))
    assert [1] == judged
    assert first == told_afresh(hangar)
    assert (files is DOUBTED) == bool(first)


def test_every_field_of_a_warning_comes_back(
    tmp_path: Path, judged: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Hint in both forms, further places, what it counts, and what it asks about."""
    assert not judged
    place = opening.Place("stores/a.yaml", 7)
    text = ("warning", "mend it", (place,), "sedge", ("tag", "P-9"), "od", 5, True, True, "--sure")
    full = Problem("odd", place, *text)
    assert all(getattr(full, name) for name in full.__struct_fields__)
    monkeypatch.setattr(judging, "warnings_of", lambda *_: (full,))
    hangar = Hangar(tmp_path, QUIET)
    told(hangar)
    monkeypatch.setattr(judging, "warnings_of", lambda *_: ())

    assert (full,) == told(hangar)


CHANGES = {
    "the log itself": (LOG, "'72:00'", "'7:20'"),
    "a spec": (SPECS, "cells: 3S, capacity: 2200 mAh", "cells: 3S, capacity: 1000 mAh"),
    "an item": (ITEMS, "P-02, spec: pack,", "P-02, spec: pack, price: 9 EUR,"),
    "the keeper": (KEEPER, "programme: small-multirotor", "programme: built-in small-aeroplane"),
    "an aircraft": ("aircraft/sedge/aircraft.yaml", "layout: quad-x", "layout: quad-plus"),
    "the log of a pack": (STORE, "to: storage", "put_in: 1.5 mAh"),
}


@pytest.mark.parametrize(("path", "old", "new"), CHANGES.values(), ids=CHANGES)
def test_every_change_is_judged_anew(
    tmp_path: Path, judged: list[int], path: str, old: str, new: str
) -> None:
    """In whichever file, of the same time too: a doubt of one log may rest on another file."""
    hangar = Hangar(tmp_path, {**DOUBTED, KEEPER: DOUBTED[KEEPER] + "currency: GBP\n"})
    told(hangar)
    file = hangar.folder / path
    times, text = file.stat(), file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new), "utf-8")
    os.utime(file, ns=(times.st_atime_ns, times.st_mtime_ns))

    second = told(hangar)

    assert [1, 1] == judged
    assert second == told_afresh(hangar)


def test_a_doubt_that_rests_on_another_file_comes_and_goes(
    tmp_path: Path, judged: list[int]
) -> None:
    """What a flight used is doubted by the capacity that the spec of its pack has."""
    log = "- {on: 2026-06-20, flight: '7:20', pack: P-02, used: 1480 mAh}\n"
    small = with_text(SPECS, "cells: 3S, capacity: 2200 mAh", "cells: 3S, capacity: 3 mAh", log)
    hangar = Hangar(tmp_path, small)
    first = told(hangar)
    (hangar.folder / SPECS).write_text(QUIET[SPECS], "utf-8")
    second = told(hangar)
    (hangar.folder / SPECS).write_text(small[SPECS], "utf-8")

    assert first == told(hangar)
    assert first != second
    assert 3 == len(judged)


def test_another_day_is_judged_by_itself(tmp_path: Path, judged: list[int]) -> None:
    """A flight of a later day is not doubted yet."""
    hangar = Hangar(tmp_path, DOUBTED)
    before = TODAY - datetime.timedelta(days=1)

    first, second = told(hangar), told(hangar, before)

    assert first != second
    assert second == told_afresh(hangar, before)
    assert 3 == len(judged)


def test_two_hangars_keep_their_own(tmp_path: Path, judged: list[int]) -> None:
    """Each by its folder."""
    one, other = Hangar(tmp_path / "one", DOUBTED), Hangar(tmp_path / "other", QUIET)
    told(one), told(other)

    assert told(one) != told(other)
    assert 2 == len(judged)


def test_another_program_judges_anew(
    tmp_path: Path, judged: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """One file of the rooms that judge was changed, as in a checkout."""
    rule = tmp_path / "program/rule.py"
    rule.parent.mkdir()
    rule.write_text("LIMIT = 1\n")
    monkeypatch.setattr(opening, "_JUDGING", (*opening._JUDGING, rule.parent))
    hangar = Hangar(tmp_path, DOUBTED)
    told(hangar), told(hangar)
    assert [1] == judged
    rule.write_text("LIMIT = 20\n")
    state_of_program.cache_clear()
    told(hangar)

    assert [1, 1] == judged


def test_all_rooms_that_judge_are_part_of_the_key() -> None:
    """Those whose modules are loaded to judge; records and basis are part of what was read."""
    code = "import sys, buildbook.upkeep.warnings.problems; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = (name.split(".") for name in done.stdout.split())
    rooms = {name[1] for name in loaded if name[0] == "buildbook" and len(name) > 1}

    assert {"hangar", "upkeep", "figures"} < rooms
    assert rooms <= {"records", "basis", *(folder.name for folder in opening._JUDGING)}
    assert all(folder.is_dir() for folder in opening._JUDGING)


@pytest.mark.parametrize("at", [0, 25, 51, 56, -1])
def test_a_corrupt_file_is_passed_over(
    tmp_path: Path, judged: list[int], private_cache: Path, at: int
) -> None:
    """One bit that tipped over, wherever it is: told the same, without a word."""
    hangar = Hangar(tmp_path, DOUBTED)
    first, file = told(hangar), kept(private_cache)
    data = bytearray(file.read_bytes())
    data[at] ^= 1
    file.write_bytes(data)

    assert first == told(hangar)
    assert [1, 1] == judged


def test_a_file_of_another_kind_is_passed_over(
    tmp_path: Path, judged: list[int], private_cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whole, and found by the right digest, but no warnings."""
    hangar = Hangar(tmp_path, DOUBTED)
    with monkeypatch.context() as patch:
        patch.setattr(opening.msgspec.msgpack, "encode", lambda _: msgspec.json.encode("no"))
        first = told(hangar)
    assert kept(private_cache).read_bytes().endswith(b'"no"')

    assert first == told(hangar)
    assert [1, 1] == judged


def test_where_nothing_can_be_kept_it_is_judged_each_time(
    tmp_path: Path, judged: list[int], private_cache: Path
) -> None:
    """A file stands in the way of the folder."""
    private_cache.write_text("in the way")
    hangar = Hangar(tmp_path, DOUBTED)

    assert told(hangar) == told(hangar)
    assert [1, 1] == judged


def test_the_file_is_the_users_own(tmp_path: Path, judged: list[int], private_cache: Path) -> None:
    """Closed to everybody else; one that others may write is not trusted."""
    hangar = Hangar(tmp_path, DOUBTED)
    told(hangar)
    assert 0o600 == kept(private_cache).stat().st_mode & 0o777
    kept(private_cache).chmod(0o666)
    told(hangar)

    assert [1, 1] == judged
