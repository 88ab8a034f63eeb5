"""How all stands is worked out once, kept, and comes back as it was, to the last digit.

By what it is found and who is trusted with it: as warnings are, ``test_kept_warnings.py``.
"""

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hangar_on_disk import QUIET, Hangar, with_log
from msgspec import structs

from buildbook.hangar.fold import fold
from buildbook.records.reading.read import read_hangar
from buildbook.report.state import Hangar as Folded
from buildbook.report.upkeep.findings import AtLeast
from buildbook.report.upkeep.work import Because, WorkList
from buildbook.reporting.upkeep.kept_standings import read_back, written
from buildbook.upkeep import work_list as work_lists
from buildbook.upkeep.work_list import work_list

HERE = Path(__file__).parent
HANGARS = {
    "demo": HERE.parents[1] / "content",
    **{name: HERE / "seasons" / name for name in ("ordinary", "careless")},
}
LOG = "aircraft/sedge/logbook.yaml"
FLOWN = with_log(
    "- {on: 2026-06-10, flight: '7:20', pack: P-02, used: 1480 mAh}\n"
    "- {on: 2026-06-12, incident: crash, damage: [M-01]}\n"
)
TODAY = datetime.date(2026, 6, 20)


def days_of(folder: Path) -> Iterator[Folded]:
    """The hangar on every so many days of its log, and two years after it."""
    ledger = read_hangar(folder, None).ledger
    assert ledger is not None
    days = sorted({entry.on for entry in ledger.entries})
    for day in (*days[:: 1 + len(days) // 8], days[-1] + datetime.timedelta(days=730)):
        yield fold(ledger, day)


@pytest.mark.parametrize("folder", HANGARS.values(), ids=HANGARS)
def test_all_comes_back_as_it_was(folder: Path) -> None:
    """Every field of every row, whole numbers as whole ones; reasons speak of the same rows."""
    for hangar in days_of(folder):
        work = work_list(hangar)
        data = written(work)
        assert data is not None
        kept = read_back(data, hangar.as_of)
        again = work_list(hangar, kept)

        assert work == again
        assert repr(work) == repr(again)
        assert _shared(work) == _shared(again)


def _shared(work: WorkList) -> list[list[bool]]:
    """Of each standing, which of its reasons speak of a row that is one of its own."""
    return [
        [any(reason.row is row for row in one.rows) for reason in one.reasons]
        for one in (*work.aircraft, *work.packs)
    ]


def test_what_would_come_back_otherwise_is_not_kept() -> None:
    """A whole number in the place of a fraction."""
    work = work_list(next(days_of(HANGARS["demo"])))
    (first, *others) = work.aircraft
    row, *rows = first.rows

    def found(value: float) -> WorkList:
        because = Because(why="limit", found=AtLeast(value=value, unit="flights"))
        told = structs.replace(first, rows=(structs.replace(row, because=because), *rows))
        return structs.replace(work, aircraft=(told, *others))

    assert written(found(3.0)) is not None
    assert written(found(3)) is None


@pytest.fixture
def judged(monkeypatch: pytest.MonkeyPatch, private_cache: Path) -> list[int]:
    """Grows by one with each aircraft whose standing is worked out."""
    assert private_cache
    counted: list[int] = []
    standing = work_lists._standing

    def counting(*given: Any) -> Any:
        counted.append(1)
        return standing(*given)

    monkeypatch.setattr(work_lists, "_standing", counting)
    return counted


SAID = (("due",), ("due", "--json"), ("check",), ("due", "--within", "400d"))


def said(hangar: Hangar, *more: str) -> list[tuple[int, str]]:
    """What commands print that tell how all stands."""
    return [hangar.run(*words, str(hangar.folder), *more) for words in SAID]


@pytest.mark.parametrize("files", [QUIET, FLOWN], ids=["quiet", "flown"])
def test_a_second_command_is_spared(
    tmp_path: Path, judged: list[int], files: dict[str, str]
) -> None:
    """It prints the same, and so does every later one; of a day of its own it is judged anew."""
    hangar = Hangar(tmp_path, files)
    first = said(hangar)

    assert [1] == judged
    assert first == said(hangar)
    assert [1] == judged
    assert first != said(hangar, "--as-of", "2027-06-20")
    assert [1, 1] == judged


def test_a_changed_hangar_is_judged_anew(
    tmp_path: Path, judged: list[int], private_cache: Path
) -> None:
    """It is told as by a program that never saw it, and what was before comes back with it."""
    hangar = Hangar(tmp_path, QUIET)
    log = hangar.folder / LOG
    before = said(hangar)
    log.write_text(FLOWN[LOG], "utf-8")
    after = said(hangar)
    assert [1, 1] == judged
    (private_cache / "buildbook").rename(private_cache / "gone")

    assert after == said(hangar)
    assert before != after
    log.write_text(QUIET[LOG], "utf-8")
    assert before == said(hangar)
    assert [1, 1, 1, 1] == judged


@pytest.mark.parametrize("at", [0, 25, 51, 56, -1])
def test_a_corrupt_file_is_passed_over(
    tmp_path: Path, judged: list[int], private_cache: Path, at: int
) -> None:
    """One bit that tipped over, wherever it is: told the same, without a word."""
    hangar = Hangar(tmp_path, FLOWN)
    first = said(hangar)
    (file,) = (private_cache / "buildbook").glob("*.standings")
    data = bytearray(file.read_bytes())
    data[at] ^= 1
    file.write_bytes(data)

    assert first == said(hangar)
    assert [1, 1] == judged


@pytest.mark.parametrize("data", [b"", b"\xc0", msgspec.msgpack.encode([[]] * 9)])
def test_other_bytes_are_passed_over(data: bytes) -> None:
    """Nothing is read back of them, or of none of it."""
    found = read_back(data, TODAY)

    assert found is None or not (found.aircraft or found.packs)


def test_a_number_of_nothing_is_passed_over() -> None:
    """Whole, and of the right shape, but it speaks of a row that is not there."""
    work = work_list(next(days_of(HANGARS["demo"])))
    data = written(work)
    assert data is not None
    parts = msgspec.msgpack.decode(data)
    parts[7][0][0] = [999_999]

    assert read_back(msgspec.msgpack.encode(parts), TODAY) is None
