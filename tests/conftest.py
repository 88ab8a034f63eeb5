"""What all tests share: a cache folder of their own, and where things are."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from types import CodeType
from typing import Any

import jinja2
import pytest


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
