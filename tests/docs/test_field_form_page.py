"""The page on the field form works as it is written."""

import re
import shlex
from pathlib import Path

import pytest

from buildbook.commands.main import main

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "docs/field-form.md").read_text("utf-8")


def test_the_form_alone_is_where_the_page_says(beside_a_small_hangar: Path) -> None:
    """The first command writes it."""
    render = re.findall(r"^    (buildbook .*)$", TEXT, re.M)[0]
    assert 0 == main(shlex.split(render)[1:])
    assert (beside_a_small_hangar / "my-site/field-form-alone.html").is_file()


@pytest.mark.usefixtures("beside_the_demo")
def test_the_commands_run_in_order(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the entries that stand there: shown, brought in, and not brought in again."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1795190400")  # 20 November 2026
    (entries,) = re.findall(r"```json\n(.*?)```", TEXT, re.S)
    Path("field-2026-11-20.json").write_text(entries, "utf-8")
    ends = []
    for command in re.findall(r"^    (buildbook .*)$", TEXT, re.M)[1:]:
        assert 0 == main(shlex.split(command)[1:]), f"{command}: {capsys.readouterr().err}"
        ends.append(capsys.readouterr().out.splitlines()[-1])

    assert [
        "Nothing was written: 3 entries.",
        "Wrote 3 entries.",
        "Wrote 0 entries, 3 there already.",
    ] == ends
