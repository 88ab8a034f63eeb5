"""What tests of the records share."""

from collections.abc import Mapping
from pathlib import Path

import pytest
from small_hangar import WriteHangar, write_to


@pytest.fixture(autouse=True)
def _own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No test touches the cache of the person who runs it."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture
def write_hangar(tmp_path: Path) -> WriteHangar:
    """Write the small hangar with some files put in the place of its own."""

    def write(files: Mapping[str, str | bytes]) -> Path:
        return write_to(tmp_path / "hangar", files)

    return write
