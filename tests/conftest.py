"""What all tests share: a cache folder of their own, and where things are."""

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
