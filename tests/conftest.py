"""What all tests share: a cache folder of their own, and where things are."""

import subprocess
import sys
from pathlib import Path

import pytest


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave tests marked ``slow`` out, whatever ``-m`` says, unless it names them."""
    if "slow" in config.getoption("-m"):
        return
    slow = [item for item in items if item.get_closest_marker("slow")]
    if slow:
        config.hook.pytest_deselected(items=slow)
        items[:] = [item for item in items if item not in set(slow)]


@pytest.fixture
def private_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder that only this test sees, so that nobody's own cache is read or written."""
    folder = tmp_path / "cache"
    monkeypatch.setenv("XDG_CACHE_HOME", str(folder))
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    return folder


@pytest.fixture(scope="session")
def demo() -> Path:
    """The demo hangar."""
    return Path(__file__).parents[1] / "content"


def _render(into: Path, hangar: Path, audience: str) -> Path:
    words = ["render", str(hangar), "--into", str(into), "--for", audience]
    done = subprocess.run(
        [sys.executable, "-m", "buildbook", *words], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return into


@pytest.fixture(scope="session")
def owner_site(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo hangar rendered for its owner, once; nobody may write into it."""
    return _render(tmp_path_factory.mktemp("owner") / "site", demo, "owner")


@pytest.fixture(scope="session")
def public_site(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo hangar rendered for the public, once; nobody may write into it."""
    return _render(tmp_path_factory.mktemp("public") / "site", demo, "public")
