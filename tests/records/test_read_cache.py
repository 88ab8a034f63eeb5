"""The read cache: never stale, never trusted from elsewhere, deleted without harm."""

import os
from pathlib import Path

import pytest
from small_hangar import WriteHangar

from buildbook.basis import cache_folder
from buildbook.records.ledger import Reading
from buildbook.records.reading import cache as cache_module
from buildbook.records.reading import interpret as read_module
from buildbook.records.reading.files import Files
from buildbook.records.reading.read import read_hangar


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Grows by one with each reading of the files that was not spared by the cache."""
    counted: list[int] = []
    interpret = read_module.interpret

    def counting(*args: object, **more: object) -> object:
        counted.append(1)
        return interpret(*args, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(read_module, "interpret", counting)
    return counted


def kept(folder: Path) -> Path:
    """The one reading in a cache folder."""
    (file,) = folder.glob("*.reading")
    return file


def test_a_second_reading_is_equal_and_spared(
    write_hangar: WriteHangar, tmp_path: Path, reads: list[int]
) -> None:
    """Ledger, places and problems come back as they were, from data only."""
    folder, cache = write_hangar({"bench/a.csv": "thrust_g\nmany\n"}), tmp_path / "kept"

    first, second = read_hangar(folder, cache), read_hangar(folder, cache)

    assert first == second
    assert first.problems
    assert first == read_hangar(folder, None)
    assert 2 == len(reads)


def test_the_demo_comes_back_equal(demo: Path, tmp_path: Path) -> None:
    """Every kind of record survives the cache."""
    first = read_hangar(demo, tmp_path / "kept")

    assert first == read_hangar(demo, tmp_path / "kept")
    assert first.ledger is not None


def test_no_cache_leaves_no_file(
    write_hangar: WriteHangar, tmp_path: Path, reads: list[int]
) -> None:
    """None means none."""
    folder = write_hangar({})
    read_hangar(folder, None)
    read_hangar(folder, None)

    assert 2 == len(reads)
    assert not (tmp_path / "cache").exists()


def test_the_usual_folder_is_the_users_own(
    write_hangar: WriteHangar, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """XDG_CACHE_HOME where it is set, else .cache at home; closed to everybody else."""
    read_hangar(write_hangar({}))
    folder = tmp_path / "cache/buildbook"

    assert 0o700 == folder.stat().st_mode & 0o777
    assert 0o600 == kept(folder).stat().st_mode & 0o777

    monkeypatch.delenv("XDG_CACHE_HOME")
    monkeypatch.setenv("HOME", str(tmp_path))
    assert tmp_path / ".cache/buildbook" == cache_folder.usual_folder()
    monkeypatch.setenv("XDG_CACHE_HOME", "not/absolute")
    assert tmp_path / ".cache/buildbook" == cache_folder.usual_folder()


CHANGES = {
    "content of the same length and time": ("stores/a.yaml", "- {on: 2026-02-01, note: two}\n"),
    "a new file": ("stores/b.yaml", "- {on: 2026-02-01, note: two}\n"),
    "a new photo": ("aircraft/sedge/photos/b.jpg", "x"),
    "a table": ("bench/a.csv", "thrust_g\n200\n"),
    "a story": ("aircraft/sedge/write-up.md", "two"),
}


@pytest.mark.parametrize(("path", "content"), CHANGES.values(), ids=CHANGES)
def test_every_change_is_seen(
    path: str, content: str, write_hangar: WriteHangar, tmp_path: Path, reads: list[int]
) -> None:
    """Even one that leaves size and time of a file as they were; where it is a log, it alone."""
    before = {
        "stores/a.yaml": "- {on: 2026-02-01, note: one}\n",
        "bench/a.csv": "thrust_g\n100\n",
        "aircraft/sedge/write-up.md": "one",
        "aircraft/sedge/photos/a.jpg": "x",
    }
    folder, cache = write_hangar(before), tmp_path / "kept"
    first = read_hangar(folder, cache)
    times = (folder / "stores/a.yaml").stat()
    write_hangar({**before, path: content})
    os.utime(folder / "stores/a.yaml", ns=(times.st_atime_ns, times.st_mtime_ns))

    second = read_hangar(folder, cache)

    assert (1 if path == "stores/a.yaml" else 2) == len(reads)
    assert second != first
    assert second == read_hangar(folder, None)


def test_a_file_that_goes_is_seen(
    write_hangar: WriteHangar, tmp_path: Path, reads: list[int]
) -> None:
    """Deleting is a change too, and so is a file that can't be read any more."""
    folder = write_hangar({"stores/a.yaml": "- {on: 2026-02-01, note: one}\n"})
    read_hangar(folder, tmp_path / "kept")
    (folder / "stores/a.yaml").unlink()
    (folder / "stores/a.yaml").mkdir()
    reading = read_hangar(folder, tmp_path / "kept")

    assert 2 == len(reads)
    expected = "cannot read the file: it is a folder, not a file @ stores/a.yaml:1"
    assert [expected] == [str(problem) for problem in reading.problems]


def test_another_version_reads_anew(
    write_hangar: WriteHangar, tmp_path: Path, reads: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A program that may read differently does not take over what another one read."""
    folder = write_hangar({})
    read_hangar(folder, tmp_path / "kept")
    monkeypatch.setattr(cache_module, "__version__", "999")
    read_hangar(folder, tmp_path / "kept")

    assert 2 == len(reads)


def spoilt_cache(folder: Path, cache: Path) -> Reading:
    """A reading, after which its cache is there to be spoilt."""
    reading = read_hangar(folder, cache)
    assert kept(cache).stat().st_size > 100
    return reading


@pytest.mark.parametrize("at", [0, 25, 60, 90, 300, -1])
def test_a_corrupt_cache_is_read_anew(
    at: int, write_hangar: WriteHangar, tmp_path: Path, reads: list[int]
) -> None:
    """One bit that tipped over, wherever it is: same reading, no word."""
    folder, cache = write_hangar({}), tmp_path / "kept"
    first = spoilt_cache(folder, cache)
    data = bytearray(kept(cache).read_bytes())
    data[at] ^= 1
    kept(cache).write_bytes(data)

    assert first == read_hangar(folder, cache)
    assert 2 == len(reads)


def test_a_short_or_empty_cache_is_read_anew(
    write_hangar: WriteHangar, tmp_path: Path, reads: list[int]
) -> None:
    """As after a full disk."""
    folder, cache = write_hangar({}), tmp_path / "kept"
    first = spoilt_cache(folder, cache)
    for size in (0, 10, 50, 80, 200):
        os.truncate(kept(cache), size)
        assert first == read_hangar(folder, cache)
    assert 6 == len(reads)


def test_a_cache_that_others_may_write_is_not_trusted(
    write_hangar: WriteHangar, tmp_path: Path, reads: list[int]
) -> None:
    """Neither a folder nor a file that is open to others, nor one behind a link."""
    folder, cache = write_hangar({}), tmp_path / "kept"
    first = spoilt_cache(folder, cache)
    cache.chmod(0o777)
    assert first == read_hangar(folder, cache)
    assert 2 == len(reads)

    cache.chmod(0o700)
    kept(cache).chmod(0o666)
    assert first == read_hangar(folder, cache)
    assert 3 == len(reads)

    file = kept(cache)
    file.rename(tmp_path / "elsewhere")
    file.symlink_to(tmp_path / "elsewhere")
    assert first == read_hangar(folder, cache)
    assert 4 == len(reads)


def test_a_cache_of_another_user_is_not_trusted(
    write_hangar: WriteHangar, tmp_path: Path, reads: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Who owns it must be who reads it."""
    folder, cache = write_hangar({}), tmp_path / "kept"
    spoilt_cache(folder, cache)
    monkeypatch.setattr(cache_folder.os, "geteuid", lambda: 12345)
    read_hangar(folder, cache)

    assert 2 == len(reads)


def test_a_cache_that_cannot_be_written_is_no_matter(
    write_hangar: WriteHangar, tmp_path: Path
) -> None:
    """A file stands in the way of the folder."""
    (tmp_path / "kept").write_text("in the way")

    reading = read_hangar(write_hangar({}), tmp_path / "kept" / "deep")

    assert () == reading.problems
    assert "in the way" == (tmp_path / "kept").read_text()


def test_a_disk_that_is_full_leaves_nothing_behind(
    write_hangar: WriteHangar, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where putting the file in place fails, its unfinished copy goes."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(cache_folder.os, "replace", full)
    reading = read_hangar(write_hangar({}), tmp_path / "kept")

    assert reading.ledger is not None
    assert [] == list((tmp_path / "kept").iterdir())


def test_the_cache_does_not_grow_for_ever(tmp_path: Path) -> None:
    """Only the latest readings of so many hangars are kept."""
    cache = tmp_path / "kept"
    for number in range(30):
        cache_module.keep(cache, tmp_path / str(number), b"x" * 32, (None, ()), Files())

    assert 48 == len(list(cache.iterdir()))
    assert 24 == len(list(cache.glob("*.reading")))
