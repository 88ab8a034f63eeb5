"""The first hour works as it is written: each block into the file named before it, each command."""

import re
import shlex
from pathlib import Path

import pytest

from buildbook.commands.main import main

TEXT = (Path(__file__).parents[2] / "docs/first-hour.md").read_text("utf-8")
STEPS = re.findall(r"^    (buildbook [^\n]*)$|```yaml\n(.*?)```", TEXT, re.M | re.S)
ENDS = {
    "due": 3,  # most of its checks were never done
}


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
        assert status == ENDS.get(words[0], 0), f"{command}: {printed.out}{printed.err}"

    assert 15 == len(STEPS)
    assert "Next for Tern: " in said["buildbook check my-hangar"]
    assert "Tern" in said["buildbook due my-hangar --as-of 2026-04-20"]
    assert "flight: 6:40" not in Path("my-hangar/aircraft/tern/logbook.yaml").read_text("utf-8")
    assert Path("my-site/aircraft/tern/set-up.html").is_file()
    assert 0 == main(["check", "my-hangar"])
