"""The commands that the page on hosting shows, beside a copy of the demo hangar."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from buildbook.commands.main import main

ROOT = Path(__file__).parents[2]
COMMANDS = re.findall(r"^    (buildbook .*)$", (ROOT / "docs/hosting.md").read_text("utf-8"), re.M)


def test_the_commands_of_hosting_run_in_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, private_cache: Path
) -> None:
    """``due`` ends with 3, as the text says: something is due in the demo."""
    assert private_cache
    shutil.copytree(ROOT / "content", tmp_path / "content")
    monkeypatch.chdir(tmp_path)

    assert [0, 0, 0, 3] == [main(shlex.split(command)[1:]) for command in COMMANDS]
    assert Path("my-site/404.html").is_file()
    assert Path("my-public-site/.buildbook-site").is_file()
