"""Where the commands of a document are typed."""

import shutil
from pathlib import Path

import pytest

from tests.publish.small_sites import loft

ROOT = Path(__file__).parents[2]


@pytest.fixture
def beside_the_demo(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, private_cache: Path) -> Path:
    """The folder to stand in: a copy of the demo hangar lies in it as ``content``."""
    assert private_cache
    shutil.copytree(ROOT / "content", tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def beside_a_small_hangar(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, private_cache: Path
) -> Path:
    """The same with a small hangar as ``content``, where it is rendered: of the demo tests do."""
    assert private_cache
    loft(tmp_path / "small" / "content", "Heron")
    monkeypatch.chdir(tmp_path / "small")
    return tmp_path / "small"
