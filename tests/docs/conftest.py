"""Where the commands of a document are typed."""

import shutil
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def beside_the_demo(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, private_cache: Path) -> Path:
    """The folder to stand in: a copy of the demo hangar lies in it as ``content``."""
    assert private_cache
    shutil.copytree(ROOT / "content", tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    return tmp_path
