"""Killed, hurried, or without room: the logs hold the old text or the new one, and nothing else."""

import errno
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from hangars import LOG, killed_at, loft, steps_of, texts
from killing import in_a_child

from buildbook.commands.main import main
from buildbook.desk.keeping import (
    NOTE,
    CannotWrite,
    Change,
    Overtaken,
    alone,
    replace,
    take_back,
)

KILLS = int(os.environ.get("KILLED_ENTRIES", "20"))

pytestmark = [
    pytest.mark.skipif(not hasattr(os, "fork"), reason="kills a process that it forks"),
    pytest.mark.usefixtures("fixed_day"),
]


def flight(folder: Path, *more: str) -> int:
    """Enter a flight of Heron."""
    words = ["flight", "heron", "6:30", "--pack", "P-3", "--on", "2026-02-09", *more]
    return main(["enter", *words, "--hangar", str(folder)])


def records(folder: Path) -> dict[str, bytes]:
    """All files but the note of what was entered last."""
    found = texts(folder)
    found.pop(NOTE, None)
    return found


def test_wherever_it_is_killed_the_log_is_the_old_or_the_new_text(tmp_path: Path) -> None:
    """At random points; the next command clears away what was left, and can enter."""
    folder = loft(tmp_path / "loft")
    old = texts(folder)
    assert flight(folder) == 0  # also loads all modules
    new = records(folder)
    log = folder / LOG

    def begin() -> None:
        (folder / NOTE).unlink(missing_ok=True)
        log.write_bytes(old[LOG])

    begin()
    total = steps_of(lambda: flight(folder), folder)
    draw = random.Random(20261129)
    steps = [draw.randint(1, total) for _ in range(KILLS)]
    outcomes = set()
    for step in [*steps, total]:  # the last one is after the exchange
        begin()
        assert killed_at(step, lambda: flight(folder), folder) == -signal.SIGKILL, step
        assert log.read_bytes() in (old[LOG], new[LOG]), step
        outcomes.add(log.read_bytes() == new[LOG])
        written = log.read_bytes()
        with alone(folder):
            pass
        assert {**old, LOG: written} == records(folder), step
    assert outcomes == {False, True}
    print(f"killed at {len(steps)} points of {total} steps")


def test_a_kill_at_any_moment_of_the_clock(tmp_path: Path) -> None:
    """The signal comes from outside, whatever the program is at."""
    folder = loft(tmp_path / "loft")
    old = texts(folder)[LOG]
    assert flight(folder) == 0
    new = texts(folder)[LOG]
    draw = random.Random(7)
    started = time.perf_counter()
    assert in_a_child(lambda: flight(folder, "--dry-run")) == 0
    takes_s = time.perf_counter() - started
    for _ in range(KILLS):
        (folder / NOTE).unlink(missing_ok=True)
        (folder / LOG).write_bytes(old)
        child = os.fork()
        if child == 0:
            os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
            os._exit(flight(folder))
        time.sleep(draw.uniform(0, 1.2 * takes_s))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        assert (folder / LOG).read_bytes() in (old, new)


def test_several_files_are_all_old_or_all_new_for_the_next_writer(tmp_path: Path) -> None:
    """A kill between two of them is finished by whoever writes next; at each single step."""
    folder = tmp_path / "loft"
    folder.mkdir()
    old = {"a.yaml": b"a\n", "b.yaml": b"b\n"}
    new = {"a.yaml": b"a\nmore\n", "b.yaml": b"more\nb\n", "stores/c.yaml": b"c\n"}
    changes = [
        Change("a.yaml", b"a\n", new["a.yaml"], ((2, 5),)),
        Change("b.yaml", b"b\n", new["b.yaml"], ((0, 5),)),
        Change("stores/c.yaml", None, b"c\n", ((0, 2),)),
    ]

    def write() -> int:
        with alone(folder):
            replace(folder, changes, ["three"])
        return 0

    def back() -> int:
        with alone(folder):
            take_back(folder)
        return 0

    def begin(files: dict[str, bytes]) -> None:
        for name in ("a.yaml", "b.yaml", "stores/c.yaml", NOTE):
            (folder / name).unlink(missing_ok=True)
        if (folder / "stores").exists():  # a folder that is made anew takes steps of its own
            (folder / "stores").rmdir()
        for name, data in files.items():
            (folder / name).write_bytes(data)

    def killed_everywhere(act: Callable[[], int], start: Callable[[], None]) -> list[bool]:
        start()
        outcomes = []
        for step in range(1, steps_of(act, folder) + 1):
            start()
            assert killed_at(step, act, folder) == -signal.SIGKILL
            with alone(folder):
                pass
            assert records(folder) in (old, new), step
            outcomes.append(records(folder) == new)
        return outcomes

    def entered() -> None:
        begin(old)
        write()

    written = killed_everywhere(write, lambda: begin(old))
    taken = killed_everywhere(back, entered)
    assert written == sorted(written)
    assert taken == sorted(taken, reverse=True)
    assert {False, True} == set(written) == set(taken)


def test_two_writers_at_once_lose_nothing(tmp_path: Path) -> None:
    """Eight processes, five flights each: forty flights, each with an id of its own."""
    folder = loft(tmp_path / "loft")
    script = (
        "import sys\nfrom buildbook.commands.main import main\n"
        "for at in range(5):\n"
        "    words = ['flight', 'heron', f'6:{sys.argv[2]}{at}', '--on', '2026-02-09']\n"
        "    assert main(['enter', *words, '--sure', '--hangar', sys.argv[1]]) == 0\n"
    )
    writers = [
        subprocess.Popen(
            [sys.executable, "-c", script, str(folder), str(number)], stdout=subprocess.DEVNULL
        )
        for number in range(4)
    ]

    assert [0] * 4 == [writer.wait() for writer in writers]
    log = (folder / LOG).read_text("utf-8")
    assert [f"6:{number}{at}" for number in range(4) for at in range(5)] == sorted(
        line.split()[1] for line in log.splitlines() if line.startswith("  flight: 6:")
    )
    assert [f"id: 2026-02-09-{number}" for number in range(1, 21)] == [
        line.strip() for line in log.splitlines() if line.startswith("  id: 2026-02-09")
    ]


@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_a_full_disk_is_one_sentence_and_loses_nothing(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    call: str,
) -> None:
    """Whether there is no room for the text, or for its name."""
    folder = loft(tmp_path / "loft")
    old = texts(folder)

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(f"buildbook.desk.keeping.os.{call}", full)

    assert flight(folder) == 2
    assert old == texts(folder)
    assert (
        "buildbook enter: nothing was written: no space left on device\n" == capsys.readouterr().err
    )


def test_a_file_that_the_system_cuts_off_is_left_as_it_was(tmp_path: Path) -> None:
    """A true limit of the system: files of at most 100 bytes."""
    resource = pytest.importorskip("resource")
    folder = loft(tmp_path / "loft")
    assert flight(folder, "--dry-run") == 0  # what it reads is kept, so that only the log is new
    old = texts(folder)

    def limited() -> int:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))
        return flight(folder)

    assert in_a_child(limited) == 2
    assert old == texts(folder)


def test_a_text_that_was_changed_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    """An editor saved it: the change has to be worked out anew."""
    (tmp_path / "a.yaml").write_bytes(b"saved\n")

    with alone(tmp_path), pytest.raises(Overtaken):
        replace(tmp_path, [Change("a.yaml", b"before\n", b"before\nmore\n")])

    assert {"a.yaml": b"saved\n"} == texts(tmp_path)


def test_the_rights_of_a_file_stay(tmp_path: Path) -> None:
    """A log that only its keeper may read stays so."""
    folder = loft(tmp_path / "loft")
    (folder / LOG).chmod(0o600)

    assert flight(folder) == 0
    assert 0o600 == (folder / LOG).stat().st_mode & 0o777


def test_a_link_within_the_hangar_stays_a_link(tmp_path: Path) -> None:
    """What it leads to gets the entry."""
    folder = loft(tmp_path / "loft")
    (folder / LOG).rename(folder / "aircraft/heron/log-2026.txt")
    (folder / LOG).symlink_to("log-2026.txt")

    assert flight(folder) == 0
    assert (folder / LOG).is_symlink()
    assert b"6:30" in (folder / "aircraft/heron/log-2026.txt").read_bytes()


def test_what_was_entered_last_is_taken_back_byte_for_byte(tmp_path: Path) -> None:
    """Once; then there is nothing to take back."""
    folder = loft(tmp_path / "loft")
    old = texts(folder)
    assert flight(folder) == 0

    assert main(["enter", "--undo", str(folder)]) == 0
    assert old == texts(folder)
    assert main(["enter", "--undo", str(folder)]) == 2


def test_what_is_no_longer_last_is_not_taken_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The keeper wrote into the log since."""
    folder = loft(tmp_path / "loft")
    assert flight(folder) == 0
    with (folder / LOG).open("a") as file:
        file.write("- {on: 2026-02-11, note: Mine.}\n")
    old = texts(folder)
    capsys.readouterr()

    assert main(["enter", "--undo", str(folder)]) == 2
    assert (
        f"buildbook enter: {LOG} was changed since; void the entry with one of its own\n"
        == capsys.readouterr().err
    )
    assert old == texts(folder)


def test_a_folder_that_cannot_be_locked_is_one_sentence(tmp_path: Path) -> None:
    """There is no such folder."""
    with pytest.raises(CannotWrite) as refused, alone(tmp_path / "none"):
        pass

    assert f"could not lock {tmp_path / 'none'}: no such file or directory" == str(refused.value)


@pytest.fixture
def disk(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What the disk is asked from now on: to ``keep`` a file or folder, to ``rename`` one."""
    asked: list[str] = []
    really_keep, really_rename = os.fsync, os.replace

    def keep(handle: int) -> None:
        asked.append(f"keep {Path(os.readlink(f'/proc/self/fd/{handle}')).name}")
        really_keep(handle)

    def rename(old: str | Path, new: str | Path) -> None:
        asked.append(f"rename to {Path(new).name}")
        really_rename(old, new)

    monkeypatch.setattr(os, "fsync", keep)
    monkeypatch.setattr(os, "replace", rename)
    return asked


@pytest.mark.skipif(not Path("/proc/self/fd").is_dir(), reason="names of open files by /proc")
def test_a_power_cut_loses_nothing_that_was_there(tmp_path: Path, disk: list[str]) -> None:
    """A text and its name are on the disk before it takes a place, a folder before its files."""
    with alone(tmp_path):
        replace(tmp_path, [Change("stores/2026/new.yaml", None, b"- {on: 2026-01-02, note: x}\n")])

    assert [
        f"keep {tmp_path.name}",
        "keep stores",
        "keep .new.yaml.entering",
        "keep 2026",
        f"keep .{NOTE}.entering",
        f"rename to {NOTE}",
        f"keep {tmp_path.name}",
        "rename to new.yaml",
        "keep 2026",
    ] == disk


@pytest.mark.skipif(not Path("/proc/self/fd").is_dir(), reason="names of open files by /proc")
def test_a_power_cut_leaves_the_old_seal_or_the_new(tmp_path: Path, disk: list[str]) -> None:
    """Its text is on the disk before it takes the place of the old one."""
    hangar = loft(tmp_path / "hangar")
    disk.clear()
    assert main(["check", str(hangar), "--seal"]) == 0

    (text, *then) = disk[-3:]
    assert text.startswith("keep .seal.json-")
    assert ["rename to seal.json", "keep hangar"] == then
