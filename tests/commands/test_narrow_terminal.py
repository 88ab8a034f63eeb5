"""A terminal of 60 columns: prose is wrapped there; what is copied stays on one line."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from test_any_terminal import WORDS

from buildbook.commands.main import COMMANDS

NARROW = 60
# Lines that are typed, read by programs or looked up: entries, commands, places, paths, problems;
# and a library's own word of patience.
WHOLE = re.compile(
    r"- \{|[a-z_]+: |.* @ \S+:\d+|.*\S+\.\w+:\d+$|.*/|.*buildbook |problem: |warning: |Matplotlib "
)
PRINTED = [
    name for name in WORDS if "json" not in name and not name.startswith(("schema", "compl"))
]


def ran(words: list[str], folder: Path) -> list[str]:
    """The lines that a command prints, as far as they are prose."""
    done = subprocess.run(
        [sys.executable, "-m", "buildbook", *words],
        capture_output=True,
        text=True,
        check=False,
        env={"COLUMNS": str(NARROW), "XDG_CACHE_HOME": str(folder), "PATH": ""},
    )
    lines = (done.stdout + done.stderr).splitlines()
    return [line for line in lines if not WHOLE.match(line.strip())]


@pytest.mark.parametrize("name", PRINTED)
def test_prose_fits_a_narrow_terminal(loft: Path, demo: Path, tmp_path: Path, name: str) -> None:
    """On the small hangar and on the demo."""
    for hangar in (loft, demo):
        if hangar == demo and name.startswith("enter") and "dry" not in name:
            continue
        words = [word.format(hangar=hangar, place=tmp_path / hangar.name) for word in WORDS[name]]
        words = [
            "burdock" if word in ("heron", "krähe") and hangar == demo else word for word in words
        ]
        lines = ran(words, tmp_path)

        assert [] == [line for line in lines if len(line) > NARROW]


@pytest.mark.parametrize("name", COMMANDS)
def test_help_fits_a_narrow_terminal(tmp_path: Path, name: str) -> None:
    """Its examples are lines to type and stay whole."""
    assert [] == [line for line in ran([name, "--help"], tmp_path) if len(line) > NARROW]
