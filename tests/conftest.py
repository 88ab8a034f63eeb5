"""What all tests share: a cache folder of their own, and where things are."""

import functools
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import CodeType
from typing import Any, NamedTuple

import jinja2
import pytest

from buildbook.commands.main import main
from buildbook.pictures.clean import clean
from buildbook.publish import photos
from buildbook.publish.preview import watched

try:
    import fcntl
except ImportError:  # a system that has none; there each process may render
    fcntl = None


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave tests marked ``slow`` out, whatever ``-m`` says, unless it names them."""
    if "slow" in config.getoption("-m"):
        return
    slow = [item for item in items if item.get_closest_marker("slow")]
    if slow:
        config.hook.pytest_deselected(items=slow)
        items[:] = [item for item in items if item not in set(slow)]


@pytest.fixture(scope="session", autouse=True)
def templates_are_compiled_once() -> Iterator[None]:
    """The same text with the same filters gives the same code, which is most of a small render."""
    compiled = jinja2.Environment.compile
    made: dict[tuple[object, ...], CodeType] = {}

    def once(self: jinja2.Environment, source: Any, *named: Any, **how: Any) -> Any:
        key = (source, named, *how.items(), frozenset(self.filters), frozenset(self.globals))
        if key not in made:
            made[key] = compiled(self, source, *named, **how)
        return made[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(jinja2.Environment, "compile", once)
        yield


@pytest.fixture(scope="session", autouse=True)
def photos_are_scaled_once() -> Iterator[None]:
    """The same file gives the same picture, which is half of a render of the demo."""
    with pytest.MonkeyPatch.context() as patch:
        scaled = functools.cache(clean)
        patch.setattr(photos, "clean", scaled)
        patch.setattr(watched, "clean", scaled)
        yield


@pytest.fixture
def private_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder that only this test sees, so that nobody's own cache is read or written."""
    folder = tmp_path / "cache"
    monkeypatch.setenv("XDG_CACHE_HOME", str(folder))
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    return folder


@pytest.fixture
def signals_are_heard() -> Iterator[None]:
    """Processes begun here hear Ctrl-C and a hang-up, also where the run was begun deaf to them.

    A shell begins what it puts into the background so, and who is begun deaf stays deaf.
    """
    deaf = [
        one for one in (signal.SIGINT, signal.SIGHUP) if signal.getsignal(one) == signal.SIG_IGN
    ]
    for one in deaf:
        signal.signal(one, signal.SIG_DFL)
    yield
    for one in deaf:
        signal.signal(one, signal.SIG_IGN)


class Ran(NamedTuple):
    """What a command said."""

    status: int
    out: str
    err: str


@pytest.fixture
def run(
    capsys: pytest.CaptureFixture[str], private_cache: Path, monkeypatch: pytest.MonkeyPatch
) -> Callable[..., Ran]:
    """Run a command as the script does, wrong options included."""
    assert private_cache
    monkeypatch.setenv("COLUMNS", "80")

    def run_command(*words: object) -> Ran:
        capsys.readouterr()
        try:
            status = main([str(word) for word in words])
        except SystemExit as stop:
            status = stop.code if isinstance(stop.code, int) else 1
        printed = capsys.readouterr()
        return Ran(status, printed.out, printed.err)

    return run_command


@pytest.fixture(scope="session")
def demo() -> Path:
    """The demo hangar."""
    return Path(__file__).parents[1] / "content"


# Another test renders elsewhere, in other ways, and compares.
HERE = {"PYTHONHASHSEED": "1", "TZ": "Pacific/Auckland", "LC_ALL": "C.UTF-8"}


def _rendered_once(audience: str, demo: Path, folders: pytest.TempPathFactory) -> Path:
    """The demo hangar rendered from within, by the first process of this run that asks for it."""
    shared = folders.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent
    site = shared / f"demo-{audience}" / "site"
    site.parent.mkdir(exist_ok=True)
    with (site.parent / "lock").open("w") as lock:
        if fcntl is not None:
            fcntl.flock(lock, fcntl.LOCK_EX)
        if not (site / "index.html").is_file():
            words = ["render", ".", "--into", str(site), "--for", audience]
            done = subprocess.run(
                [sys.executable, "-m", "buildbook", *words],
                cwd=demo,
                env={**os.environ, "XDG_CACHE_HOME": str(site.parent / "cache"), **HERE},
                capture_output=True,
                text=True,
                check=False,
            )
            assert done.returncode == 0, done.stdout + done.stderr
    return site


@pytest.fixture(scope="session")
def owner_site(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo hangar rendered for its owner, once; nobody may write into it."""
    return _rendered_once("owner", demo, tmp_path_factory)


@pytest.fixture(scope="session")
def public_site(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo hangar rendered for the public, once; nobody may write into it."""
    return _rendered_once("public", demo, tmp_path_factory)
