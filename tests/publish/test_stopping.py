"""Ctrl-C and requests to end: quiet, nothing left behind, no process left either."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from small_sites import loft

# The number of processes follows the number of cores, which a machine can't change for a test.
# A page of the small hangar takes as long as one of a large hangar would.
RENDER = (
    "import os, sys, time; cores = int(sys.argv.pop(1)); os.cpu_count = lambda: cores; "
    "from buildbook.pages.theme import Press; compose = Press.compose; "
    "Press.compose = lambda press, page: time.sleep(0.2) or compose(press, page); "
    "from buildbook.publish import share_out; share_out._WORTH_A_PROCESS = 1; "
    "from buildbook.commands.main import main; sys.exit(main())"
)
PATIENCE_S = 60.0


@pytest.fixture
def hangar(tmp_path: Path) -> Path:
    """A small one."""
    return loft(tmp_path / "hangar", "Heron")


@contextmanager
def rendering(hangar: Path, site: Path, cores: int) -> Iterator[subprocess.Popen[str]]:
    """A render in a process group of its own, that has begun to write pages."""
    words = [sys.executable, "-c", RENDER, str(cores), "render", str(hangar), "--into", str(site)]
    ready = site / ".buildbook-new"
    with subprocess.Popen(
        words,
        env={**os.environ, "XDG_CACHE_HOME": str(site.parent.parent / "cache")},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as process:
        give_up = time.monotonic() + PATIENCE_S
        while not (ready / "aircraft").is_dir():
            assert time.monotonic() < give_up
            assert process.poll() is None, process.communicate()
            time.sleep(0.002)
        yield process


def group_is_gone(group: int) -> bool:
    """Whether no process of the group is left, after a while."""
    give_up = time.monotonic() + PATIENCE_S
    while time.monotonic() < give_up:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.02)
    return False


@pytest.mark.usefixtures("signals_are_heard")
@pytest.mark.parametrize("cores", [1, 3])
@pytest.mark.parametrize(
    ("number", "to_all"),
    [(signal.SIGINT, True), (signal.SIGTERM, False), (signal.SIGTERM, True), (signal.SIGHUP, True)],
    ids=["Ctrl-C", "end one", "end all", "hang up"],
)
def test_a_render_that_is_stopped(
    hangar: Path, tmp_path: Path, cores: int, number: signal.Signals, to_all: bool
) -> None:
    """One word, the status of the signal, and the disk as it was before."""
    place = tmp_path / "place"
    place.mkdir()
    with rendering(hangar, place / "site", cores) as process:
        (os.killpg if to_all else os.kill)(process.pid, number)
        out, err = process.communicate(timeout=PATIENCE_S)

    assert (128 + number, "", "stopped\n") == (process.returncode, out, err)
    assert group_is_gone(process.pid)
    assert [] == list(place.iterdir())


def test_processes_of_a_killed_render_end(hangar: Path, tmp_path: Path) -> None:
    """They notice, and the next render clears what they left and writes the site."""
    place = tmp_path / "place"
    place.mkdir()
    with rendering(hangar, place / "site", 3) as process:
        process.kill()
        out, err = process.communicate(timeout=PATIENCE_S)

    assert (-signal.SIGKILL, "", "") == (process.returncode, out, err)
    assert group_is_gone(process.pid)
    done = subprocess.run(
        [sys.executable, "-m", "buildbook", "render", str(hangar), "--into", str(place / "site")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (0, "") == (done.returncode, done.stderr)
    assert not (place / "site" / ".buildbook-new").exists()


@pytest.mark.skipif(not Path("/proc/self/task").is_dir(), reason="finds the processes in /proc")
def test_a_process_that_is_killed_is_told(hangar: Path, tmp_path: Path) -> None:
    """As the system does when the memory runs out: no site with pages missing."""
    place = tmp_path / "place"
    place.mkdir()
    with rendering(hangar, place / "site", 3) as process:
        children = Path(f"/proc/{process.pid}/task/{process.pid}/children").read_text().split()
        os.kill(int(children[0]), signal.SIGKILL)
        _, err = process.communicate(timeout=PATIENCE_S)

    assert 2 == process.returncode
    assert err == (
        f"buildbook render: could not write the site to {place / 'site'}: "
        "a process that makes pages was ended from outside\n"
    )
    assert [] == list(place.iterdir())
