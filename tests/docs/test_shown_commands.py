"""Every command that the documents show is run, here or where this table says."""

import re
import shlex
from pathlib import Path

import pytest

from buildbook.commands.main import COMMANDS, main

ROOT = Path(__file__).parents[2]
DOCUMENTS = ("README.md", "DEVELOPERS.md")

RUN_ELSEWHERE = {
    "python3 -m venv .venv && .venv/bin/pip install -q -e . && "
    ".venv/bin/buildbook render content --into site": ".ci/run",
    "python3 -m venv .venv && .venv/bin/pip install -q -c constraints.txt "
    "-e '.[test]' && .venv/bin/python -m pytest -n auto --dist worksteal": ".ci/run",
    ".venv/bin/ruff format . && .venv/bin/ruff check .": "tests/house/test_habits.py",
    ".venv/bin/mypy --strict -p buildbook": "tests/house/test_habits.py",
    ".venv/bin/lint-imports": "tests/house/test_habits.py",
    ".venv/bin/python -m pytest tests/upkeep": "the test run itself",
    ".venv/bin/python tests/browser/preview.py site": "tests/browser/test_preview.py",
    '.venv/bin/python -m pytest -m "not browser and not wheel"': "the test run itself",
    ".venv/bin/python -m pytest -m slow": "tests/house/test_held_by.py",
}


def shown() -> list[str]:
    """The indented commands of the documents, in order."""
    lines = [line for name in DOCUMENTS for line in (ROOT / name).read_text("utf-8").splitlines()]
    found = [
        line.strip()
        for line in lines
        if re.match(r"    (?:buildbook|python3|\.venv/|bash)\b", line)
        or line.startswith("    .venv")
    ]
    return list(dict.fromkeys(found))


def test_each_command_is_known() -> None:
    """A command is of this program, or stands in the table above."""
    unknown = [
        line for line in shown() if not line.startswith("buildbook ") and line not in RUN_ELSEWHERE
    ]

    assert unknown == []


def test_the_table_has_no_old_rows() -> None:
    """What is no longer shown is taken out of the table."""
    assert [line for line in RUN_ELSEWHERE if line not in shown()] == []


@pytest.mark.usefixtures("beside_the_demo")
def test_the_commands_of_this_program_run_in_order(capsys: pytest.CaptureFixture[str]) -> None:
    """As somebody would type them, one after the other, beside the demo hangar."""
    statuses = {}
    for line in shown():
        if line.startswith("buildbook "):
            statuses[line] = main(shlex.split(line)[1:])

    assert capsys.readouterr().err == ""
    assert {line for line, status in statuses.items() if status not in (0, 3)} == set()
    assert {line for line, status in statuses.items() if status == 3} == {
        "buildbook due content --within 30d"
    }


def test_each_command_stands_in_the_readme() -> None:
    """A row of the table for every command."""
    readme = (ROOT / "README.md").read_text("utf-8")

    assert [name for name in COMMANDS if f"| `buildbook {name}" not in readme] == []


def test_the_pictures_of_the_readme_are_there() -> None:
    """A picture that is named exists."""
    readme = (ROOT / "README.md").read_text("utf-8")
    named = re.findall(r"!\[[^]]+\]\(([^)]+)\)", readme)

    assert len(named) == 2
    assert [name for name in named if not (ROOT / name).is_file()] == []


def test_the_entry_of_the_readme_reads(tmp_path: Path, private_cache: Path) -> None:
    """The YAML that is shown is sound."""
    assert private_cache
    readme = (ROOT / "README.md").read_text("utf-8")
    (block,) = re.findall(r"```yaml\n(.*?)```", readme, re.S)
    home = tmp_path / "aircraft" / "wren"
    home.mkdir(parents=True)
    (tmp_path / "hangar.yaml").write_text("format: 1\nhangar: Loft\n", "utf-8")
    (home / "aircraft.yaml").write_text(
        "aircraft: Wren\nkind: multirotor\nlayout: quad-x\n"
        "programme: built-in small-multirotor\n"
        "items:\n  - {tag: P-01, spec: p, acquired: 2026-01-01}\n"
        "  - {tag: P-02, spec: p, acquired: 2026-01-01}\n",
        "utf-8",
    )
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts/specs.yaml").write_text(
        "- {spec: p, kind: battery, cells: 3S, capacity: 2200 mAh}\n", "utf-8"
    )
    (home / "logbook.yaml").write_text(block, "utf-8")

    assert main(["check", str(tmp_path), "--as-of", "2026-06-01"]) == 0
