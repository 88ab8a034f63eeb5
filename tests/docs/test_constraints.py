"""The minimum of every dependency, and the versions that the tests ran with, hold together."""

import os
import re
import tomllib
from importlib.metadata import version
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
WANTED = [*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["test"]]
PINNED = {
    name.lower().replace("_", "-"): pin
    for name, _, pin in (
        line.partition("==")
        for line in (ROOT / "constraints.txt").read_text("utf-8").splitlines()
        if line and not line.startswith("#")
    )
}


def numbers(text: str) -> tuple[int, ...]:
    """A version as numbers, for comparing."""
    return tuple(int(part) for part in re.findall(r"\d+", text))


@pytest.mark.parametrize("wanted", WANTED)
def test_each_dependency_is_pinned_at_its_minimum_or_above(wanted: str) -> None:
    """The tests ran with nothing older than what is asked for."""
    name, _, least = wanted.partition(">=")
    assert numbers(least) <= numbers(PINNED[name.lower().replace("_", "-")])


def test_the_readme_installs_what_is_pinned() -> None:
    """The command of the README, which the CI runs word for word."""
    assert "pip install -q -c constraints.txt -e '.[test]'" in (ROOT / "README.md").read_text()


@pytest.mark.skipif(not os.environ.get("CI"), reason="others may try newer versions")
@pytest.mark.parametrize("name", sorted(PINNED))
def test_the_ci_has_what_is_pinned(name: str) -> None:
    """No version slips in beside the file."""
    assert PINNED[name] == version(name)
