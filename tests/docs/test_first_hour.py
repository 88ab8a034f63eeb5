"""The first hour works as it is written: each block into the file named before it, each command."""

import re
import shlex
from pathlib import Path

import pytest

from buildbook.commands.main import main

TEXT = (Path(__file__).parents[2] / "docs/first-hour.md").read_text("utf-8")
STEPS = re.findall(r"^    (buildbook [^\n]*)$|```yaml\n(.*?)```", TEXT, re.M | re.S)
TOO_EARLY = "--used 1340mAh --on 2026-04-14"
"""What only the flight before the checks has."""


def file_named_before(block: str) -> str:
    """The last file of a hangar that the text names before a block."""
    before = TEXT[: TEXT.index(block)]
    return re.findall(r"`((?:parts|aircraft)/[\w/.-]+\.yaml)`", before)[-1]


def test_the_first_hour(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    private_cache: Path,
) -> None:
    """In order; at the end the records are sound and the site stands."""
    assert private_cache
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1776600000")  # 19 April 2026
    monkeypatch.chdir(tmp_path)
    said: dict[str, str] = {}
    for command, block in STEPS:
        if block:
            path = Path("my-hangar", file_named_before(block))
            path.write_text(path.read_text("utf-8") + block, "utf-8")
            continue
        capsys.readouterr()
        words = shlex.split(command)[1:]
        status = main(words)
        printed = capsys.readouterr()
        said[command] = printed.out
        said[command] += printed.err
        assert status == (TOO_EARLY in command), f"{command}: {said[command]}"

    assert 18 == len(STEPS)
    early = next(text for command, text in said.items() if TOO_EARLY in command)
    assert "doubt: tern flown on 2026-04-14, though building," in early
    assert ["Nothing was written.", "Add --sure if it is right."] == early.splitlines()[-2:]
    assert "Next for Tern: " in said["buildbook check my-hangar"]
    due = said["buildbook due my-hangar --as-of 2026-04-20"].splitlines()
    assert "  Tern  nothing open" in due
    assert "flight: 6:40" not in Path("my-hangar/aircraft/tern/logbook.yaml").read_text("utf-8")
    assert Path("my-site/aircraft/tern/set-up.html").is_file()
    assert 0 == main(["check", "my-hangar"])
