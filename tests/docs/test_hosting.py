"""The commands that the page on hosting shows, beside a copy of the demo hangar."""

import re
import shlex
from pathlib import Path

import pytest

from buildbook.commands.main import main

ROOT = Path(__file__).parents[2]
COMMANDS = re.findall(r"^    (buildbook .*)$", (ROOT / "docs/hosting.md").read_text("utf-8"), re.M)


@pytest.mark.usefixtures("beside_the_demo")
def test_the_commands_of_hosting_run_in_order() -> None:
    """``due`` ends with 3, as the text says: something is due in the demo."""
    assert [0, 0, 0, 3] == [main(shlex.split(command)[1:]) for command in COMMANDS]
    assert Path("my-site/404.html").is_file()
    assert Path("my-public-site/.buildbook-site").is_file()
