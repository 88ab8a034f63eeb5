"""The recipes work as they are written, one command after the other, beside the demo hangar."""

import re
import shlex
from pathlib import Path

import pytest

from buildbook.commands.main import main
from buildbook.desk.bringing_in.scheme import read_scheme

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "docs/recipes.md").read_text("utf-8")


def block(language: str) -> str:
    """The one block of that language."""
    (found,) = re.findall(rf"```{language}\n(.*?)```", TEXT, re.S)
    return str(found)


@pytest.mark.usefixtures("beside_the_demo")
def test_the_commands_of_the_recipes_run_in_order(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the table and the list of entries that stand there; the hangar is sound at the end."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1795262400")  # 21 November 2026
    Path("flying-book.csv").write_text(block("csv"), "utf-8")
    Path("field.json").write_text(block("json"), "utf-8")
    commands = re.findall(r"^    (buildbook .*)$", TEXT, re.M)

    assert 12 == len(commands)
    ends = {}
    for number, command in enumerate(commands):
        capsys.readouterr()
        assert 0 == main(shlex.split(command)[1:]), f"{command}: {capsys.readouterr().err}"
        lines = capsys.readouterr().out.splitlines()
        ends[number] = lines[0 if "--undo" in command else -1]

    assert "took back aircraft/burdock/logbook/2026.yaml: 2026-09-05-2" == ends[1]
    assert "Wrote 2 entries." == ends[7]
    assert "Wrote 2 entries." == ends[8]
    assert "To be asked for it instead: buildbook enter next clump my-trefoil" == ends[11]
    assert "- {tag: M-61, spec: motor-2213-840, acquired: 2026-11-18, serial: K7731}" in (
        Path("content/parts/items/motors.yaml").read_text("utf-8").splitlines()
    )
    assert 0 == main(["check", "content"])


def test_the_mapping_of_the_recipes_is_one(tmp_path: Path) -> None:
    """The YAML that is shown is read."""
    (tmp_path / "m.yaml").write_text(block("yaml"), "utf-8")

    assert "charge" == read_scheme(tmp_path / "m.yaml").kind
