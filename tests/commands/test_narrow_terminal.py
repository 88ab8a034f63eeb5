"""A terminal of 60 columns: prose is wrapped there; what is copied stays on one line."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from test_any_terminal import WORDS

from buildbook.commands.main import COMMANDS

Prose = Callable[[list[str]], list[str]]
NARROW = 60
# Lines that are typed, read by programs or looked up: entries, commands, places, paths, problems;
# and a library's own word of patience.
WHOLE = re.compile(
    r"- \{|[a-z_]+: |.* @ \S+:\d+|.*\S+\.\w+:\d+$|.*/|.*buildbook |problem: |warning: |Matplotlib "
)
PRINTED = [
    name for name in WORDS if "json" not in name and not name.startswith(("schema", "compl"))
]


@pytest.fixture
def prose(run, monkeypatch: pytest.MonkeyPatch) -> Prose:
    """The lines that a command prints, as far as they are prose."""
    monkeypatch.setenv("COLUMNS", str(NARROW))

    def lines(words: list[str]) -> list[str]:
        ran = run(*words)
        assert ran.out + ran.err
        return [line for line in (ran.out + ran.err).splitlines() if not WHOLE.match(line.strip())]

    return lines


@pytest.mark.parametrize("name", PRINTED)
def test_prose_fits_a_narrow_terminal(
    prose: Prose, loft: Path, demo: Path, tmp_path: Path, name: str
) -> None:
    """On the small hangar and on the demo."""
    for hangar in (loft, demo):
        if hangar == demo and name.startswith("enter") and "dry" not in name:
            continue
        words = [word.format(hangar=hangar, place=tmp_path / hangar.name) for word in WORDS[name]]
        words = [
            "burdock" if word in ("heron", "krähe") and hangar == demo else word for word in words
        ]
        lines = prose(words)

        assert [] == [line for line in lines if len(line) > NARROW]


@pytest.mark.parametrize("name", COMMANDS)
def test_help_fits_a_narrow_terminal(prose: Prose, name: str) -> None:
    """Its examples are lines to type and stay whole."""
    assert [] == [line for line in prose([name, "--help"]) if len(line) > NARROW]
