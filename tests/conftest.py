"""What all tests share: a cache folder of their own, and where things are."""

import subprocess
import sys
from pathlib import Path

import pytest


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
