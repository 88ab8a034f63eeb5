"""The commands that the page on hosting shows, beside a copy of the demo hangar."""

import re
import shlex
from pathlib import Path

import pytest

from buildbook.commands.main import main

ROOT = Path(__file__).parents[2]
COMMANDS = re.findall(r"^    (buildbook .*)$", (ROOT / "docs/hosting.md").read_text("utf-8"), re.M)


@pytest.mark.usefixtures("beside_a_small_hangar")
def test_the_commands_of_hosting_run_in_order(monkeypatch: pytest.MonkeyPatch) -> None:
    """``due`` ends with 3, as the text says: something is due in the demo."""
    *renders, due = COMMANDS
    assert [0, 0, 0] == [main(shlex.split(command)[1:]) for command in renders]
    assert Path("my-site/404.html").is_file()
    assert Path("my-public-site/.buildbook-site").is_file()
    monkeypatch.chdir(ROOT)
    assert 3 == main(shlex.split(due)[1:])
